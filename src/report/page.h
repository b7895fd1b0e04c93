// A document as plain data: headings, paragraphs, lists, tables, pictures, in reading order. The
// contents (owner_report, bench_record, parts_sheet) make one; render_pdf and render_html set it.
// Texts may hold whatever was typed: the renderers make them safe.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "report/picture.h"

namespace dryout::report {

struct Heading {
  std::string text;
  int level = 2;  ///< 2 a section, 3 a part of one; the title of the document is the only 1
};

struct Paragraph {
  enum class Tone { plain, lead, quiet };
  std::string text;
  Tone tone = Tone::plain;
};

/// Sentences under a dot each.
struct Points {
  std::vector<std::string> sentences;
};

/// Short facts with their names, as at the head of a letter.
struct Facts {
  std::vector<std::pair<std::string, std::string>> facts;
};

struct Column {
  std::string title;
  bool figures = false;  ///< set in the face for numbers, flush right
};

/// Every row has as many cells as there are columns.
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
};

/// What can hurt: set apart, so that it is read.
struct Warning {
  std::string title, text;
};

struct Figure {
  Picture picture;
  std::string caption;
};

using Block = std::variant<Heading, Paragraph, Points, Facts, Table, Warning, Figure>;

struct Document {
  std::string title;
  std::string subtitle;
  std::string running;  ///< at the foot of every page, beside the page's number
  std::string author;   ///< the shop, if known
  std::string subject;
  std::int64_t made_at = 0;  ///< seconds since the epoch; goes into the file's own record
  bool dense = false;        ///< smaller type, for tables of many columns
  int pages_wanted = 0;      ///< where it would take more, it is set dense; 0 = as many as it takes
  std::vector<Block> blocks;
};

/// Paper, in points of 1/72 inch. A4 is 210 mm x 297 mm (ISO 216), letter 8.5 in x 11 in
/// (ANSI/ASME Y14.1, size A).
enum class Paper { a4, letter };

struct Sheet {
  double width = 0.0, height = 0.0;
};
[[nodiscard]] constexpr Sheet sheet_of(Paper paper) {
  constexpr double points_per_mm = 72.0 / 25.4;
  return paper == Paper::letter ? Sheet{612.0, 792.0}
                                : Sheet{210.0 * points_per_mm, 297.0 * points_per_mm};
}

}  // namespace dryout::report
