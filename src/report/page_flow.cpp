#include "report/page_flow.h"

#include <cairo/cairo-pdf.h>

#include <algorithm>

#include "quantities/shown_text.h"

namespace dryout::report {
namespace {

constexpr double foot_height = 30.0;
constexpr double dot_indent = 13.0;
constexpr double rule_width = 3.0;
constexpr double rule_indent = 12.0;

}  // namespace

PageFlow::PageFlow(cairo_surface_t* surface, const Document& document, Sheet sheet, int pages_total)
    : pen_(cairo_create(surface)),
      surface_(surface),
      document_(document),
      sheet_(sheet),
      pages_total_(pages_total),
      y_(margin) {}

int PageFlow::run() {
  flow(SetText(pen_.get(), quantities::shown_line(document_.title), {20.0, true}, text_width()),
       0.0, false);
  flow(SetText(pen_.get(), quantities::shown_line(document_.subtitle), body(Ink::quiet),
               text_width()),
       0.0, false);
  space(6.0);
  rule(y_, Ink::text, 1.0);
  space(8.0);
  for (std::size_t i = 0; i < document_.blocks.size(); ++i) {
    if (std::holds_alternative<Heading>(document_.blocks[i]) && opening_height(i) > room() &&
        !at_top()) {
      turn_page();
    }
    std::visit([this](const auto& block) { set(block); }, document_.blocks[i]);
  }
  draw_foot();
  cairo_show_page(pen_.get());
  return page_;
}

void PageFlow::set(const Heading& heading) {
  const bool section = heading.level <= 2;
  space(section ? (document_.dense ? 9.0 : 12.0) : 7.0);
  const SetText text(pen_.get(), heading.text, heading_lettering(heading), text_width());
  if (section) {
    const std::string link = "page=" + std::to_string(page_) + " pos=[" +
                             std::to_string(static_cast<int>(margin)) + ' ' +
                             std::to_string(static_cast<int>(y_)) + ']';
    cairo_pdf_surface_add_outline(surface_, CAIRO_PDF_OUTLINE_ROOT,
                                  quantities::shown_line(heading.text).c_str(), link.c_str(),
                                  CAIRO_PDF_OUTLINE_FLAG_OPEN);
  }
  flow(text, 0.0, false);
  y_ += 2.0;
}

void PageFlow::set(const Paragraph& paragraph) {
  Lettering lettering =
      body(paragraph.tone == Paragraph::Tone::quiet ? Ink::quiet : Ink::text, false);
  lettering.size += paragraph.tone == Paragraph::Tone::lead    ? 1.5
                    : paragraph.tone == Paragraph::Tone::quiet ? -1.0
                                                               : 0.0;
  space(paragraph.tone == Paragraph::Tone::lead ? 6.0 : 0.0);
  flow(SetText(pen_.get(), paragraph.text, lettering, text_width()), 0.0, false);
  y_ += 5.0;
}

void PageFlow::set(const Points& points) {
  for (const std::string& sentence : points.sentences) {
    const SetText dot(pen_.get(), "\u2022", body(), 0.0);
    const SetText text(pen_.get(), sentence, body(), text_width() - dot_indent);
    const std::size_t together = std::min<std::size_t>(2, text.lines().size());
    if (text.lines()[together - 1].bottom > room() && !at_top()) {
      turn_page();
    }
    dot.draw_all(pen_.get(), margin + 2.0, y_);
    flow(text, dot_indent, false);
    y_ += 2.0;
  }
  y_ += 4.0;
}

void PageFlow::set(const Warning& warning) {
  const double width = text_width() - rule_indent;
  const SetText title(pen_.get(), warning.title, body(Ink::text, true), width);
  const SetText text(pen_.get(), warning.text, body(), width);
  if (title.height() + text.height() > room() && !at_top() &&
      title.height() + text.height() <= page_room()) {
    turn_page();
  }
  space(6.0);
  flow(title, rule_indent, true);
  flow(text, rule_indent, true);
  y_ += 8.0;
}

void PageFlow::set(const Figure& figure) {
  const double scale = figure_scale(figure.picture);
  Lettering lettering = body(Ink::quiet);
  lettering.size -= 1.0;
  const SetText caption(pen_.get(), figure.caption, lettering, text_width());
  const double height = figure.picture.height * scale;
  if (height + caption.height() > room() && !at_top()) {
    turn_page();
  }
  space(2.0);
  draw_picture(pen_.get(), figure.picture, margin, y_, scale);
  y_ += height + 2.0;
  if (!figure.caption.empty()) {
    flow(caption, 0.0, false);
  }
  y_ += 6.0;
}

double PageFlow::figure_scale(const Picture& picture) const {
  const double wide = (text_width()) / std::max(picture.width, 1.0);
  const double high = (page_room() - 60.0) / std::max(picture.height, 1.0);
  return std::min({wide, high, 1.0});
}

double PageFlow::heading_height(const Heading& heading) const {
  return 16.0 +
         SetText(pen_.get(), heading.text, heading_lettering(heading), text_width()).height();
}

double PageFlow::opening_height(std::size_t index) const {
  if (index == document_.blocks.size()) {
    return 0.0;
  }
  const Block& block = document_.blocks[index];
  if (const auto* heading = std::get_if<Heading>(&block)) {
    return heading_height(*heading) + opening_height(index + 1);
  }
  const double width = text_width();
  const double two_lines = 2.6 * body().size * 1.4;
  if (const auto* figure = std::get_if<Figure>(&block)) {
    return figure->picture.height * figure_scale(figure->picture) + two_lines;
  }
  if (const auto* table = std::get_if<Table>(&block)) {
    const Grid grid = grid_of(*table);
    double height = heading_row_height(*table, grid);
    if (!table->rows.empty()) {
      double row = 0.0;
      for (const Cell& cell : cells_of(table->rows.front(), *table, grid, false)) {
        row = std::max(row, cell.text.height());
      }
      height += row + 8.0;
    }
    return std::min(height, page_room() / 2.0);
  }
  if (const auto* warning = std::get_if<Warning>(&block)) {
    return std::min(
        SetText(pen_.get(), warning->title + '\n' + warning->text, body(), width).height(),
        page_room() / 2.0);
  }
  return two_lines;
}

void PageFlow::flow(const SetText& text, double indent, bool bar) {
  const std::vector<SetLine>& lines = text.lines();
  std::size_t next = 0;
  while (next < lines.size()) {
    const double start = lines[next].top;
    std::size_t end = next;
    while (end < lines.size() && lines[end].bottom - start <= room()) {
      ++end;
    }
    const std::size_t left = lines.size() - end;
    if (left == 1 && end > next + 2) {
      --end;  // no line alone at the next page's head
    }
    const bool alone = left > 0 && end - next == 1 && next == 0;
    if ((end == next || alone) && !at_top()) {
      turn_page();
      continue;
    }
    end = std::max(end, next + 1);
    for (std::size_t i = next; i < end; ++i) {
      if (bar) {
        use_ink(pen_.get(), Ink::before);
        const double below = i + 1 < end ? lines[i + 1].top : lines[i].bottom;
        cairo_rectangle(pen_.get(), margin, y_ + lines[i].top - start, rule_width,
                        below - lines[i].top);
        cairo_fill(pen_.get());
      }
      text.draw(pen_.get(), lines[i], margin + indent, y_ - start);
    }
    y_ += lines[end - 1].bottom - start;
    next = end;
  }
}

Lettering PageFlow::heading_lettering(const Heading& heading) const {
  return {heading.level > 2 ? body().size : (document_.dense ? 12.0 : 13.0), true};
}

Lettering PageFlow::body(Ink ink, bool strong) const {
  return {document_.dense ? 9.0 : 10.0, strong, false, ink, false};
}

double PageFlow::room() const { return sheet_.height - margin - foot_height + 12.0 - y_; }

double PageFlow::page_room() const { return sheet_.height - 2 * margin - foot_height + 12.0; }

bool PageFlow::at_top() const { return y_ <= margin + 0.01; }

void PageFlow::space(double height) {
  if (!at_top()) {
    y_ += height;
  }
}

void PageFlow::turn_page() {
  draw_foot();
  cairo_show_page(pen_.get());
  ++page_;
  y_ = margin;
}

void PageFlow::draw_foot() {
  const double top = sheet_.height - margin - 8.0;
  rule(top, Ink::hairline, 0.5);
  const Lettering lettering{8.0, false, false, Ink::quiet};
  std::string number = "Page " + std::to_string(page_);
  number += pages_total_ > 0 ? " of " + std::to_string(pages_total_) : "";
  const SetText page(pen_.get(), number, lettering, 0.0);
  const double right = sheet_.width - margin;
  page.draw_all(pen_.get(), right - page.width(), top + 5.0);
  const double left_width = right - margin - page.width() - 12.0;
  const SetText running(pen_.get(),
                        fitted(quantities::shown_line(document_.running), 8.0, left_width),
                        lettering, 0.0);
  running.draw_all(pen_.get(), margin, top + 5.0);
}

void PageFlow::rule(double y, Ink ink, double width) {
  use_ink(pen_.get(), ink);
  cairo_set_line_width(pen_.get(), width);
  cairo_move_to(pen_.get(), margin, y);
  cairo_line_to(pen_.get(), sheet_.width - margin, y);
  cairo_stroke(pen_.get());
}

}  // namespace dryout::report
