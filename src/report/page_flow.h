// Sets blocks one below the other on pages: breaks paragraphs between lines, tables between rows
// with their heading row again on top, keeps a heading with what follows it and a picture with its
// caption, and numbers the pages. Internal to the room.
#pragma once

#include "report/page.h"
#include "report/set_text.h"

namespace dryout::report {

class PageFlow {
 public:
  /// Draws on `surface`, a paged one. `pages_total` is what the feet of the pages say; 0 while it
  /// is not known yet.
  PageFlow(cairo_surface_t* surface, const Document& document, Sheet sheet, int pages_total);

  /// Sets the whole document; how many pages it took. Call once.
  int run();

 private:
  static constexpr double margin = 54.0;  ///< 19 mm on every side
  struct Cell {
    SetText text;
    double x = 0.0;
    std::size_t next = 0;  ///< the first line not drawn yet
  };
  struct Grid {
    std::vector<double> widths, lefts;
    Lettering head;
  };

  void set(const Heading& heading);
  void set(const Paragraph& paragraph);
  void set(const Points& points);
  void set(const Facts& facts);
  void set(const Table& table);
  void set(const Warning& warning);
  void set(const Figure& figure);

  /// Height that must be free for the block to begin here: of a heading, as much as keeps it
  /// together with the beginning of what it heads.
  [[nodiscard]] double opening_height(std::size_t index) const;
  [[nodiscard]] double heading_height(const Heading& heading) const;
  [[nodiscard]] double figure_scale(const Picture& picture) const;

  /// Draws lines from `y_` on, over as many pages as they need. Of a text of several lines no line
  /// stands alone at a page's foot or head. `bar` draws a bar at the left of each.
  void flow(const SetText& text, double indent, bool bar);

  [[nodiscard]] Grid grid_of(const Table& table) const;
  [[nodiscard]] std::vector<Cell> cells_of(const std::vector<std::string>& row, const Table& table,
                                           const Grid& grid, bool heading) const;
  [[nodiscard]] double heading_row_height(const Table& table, const Grid& grid) const;
  void set_heading_row(const Table& table, const Grid& grid);
  void set_row(const std::vector<std::string>& row, const Table& table, const Grid& grid);
  void draw_cells(std::vector<Cell>& cells);

  [[nodiscard]] Lettering heading_lettering(const Heading& heading) const;
  [[nodiscard]] Lettering body(Ink ink = Ink::text, bool strong = false) const;
  [[nodiscard]] double text_width() const { return sheet_.width - 2 * margin; }
  [[nodiscard]] double room() const;  ///< left above the foot of this page
  [[nodiscard]] double page_room() const;
  [[nodiscard]] bool at_top() const;
  void space(double height);  ///< unless at the top of a page
  void turn_page();
  void draw_foot();
  void rule(double y, Ink ink, double width);

  Held<cairo_t> pen_;
  cairo_surface_t* surface_;
  const Document& document_;
  Sheet sheet_;
  int pages_total_;
  int page_ = 1;
  double y_;
};

}  // namespace dryout::report
