#include "quantities/shown_text.h"
#include "report/escape.h"
#include "report/render.h"
#include "report/svg.h"

namespace dryout::report {
namespace {

/// Everything the page needs: no other file is fetched, and the policy below would refuse it.
constexpr const char* style = R"css(
:root { color: #1d1b18; background: #ffffff; }
body { font: 16px/1.5 Inter, "DejaVu Sans", sans-serif; max-width: 44rem; margin: 2rem auto;
  padding: 0 1.25rem; overflow-wrap: anywhere; font-variant-ligatures: none;
  font-feature-settings: "tnum" 1, "calt" 0; }
body.dense { font-size: 14px; max-width: 64rem; }
h1 { font-size: 1.75em; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2em; line-height: 1.3; margin: 2rem 0 .5rem; break-after: avoid; }
h3 { font-size: 1em; margin: 1.25rem 0 .25rem; break-after: avoid; }
p, ul, dl, table, figure, aside { margin: 0 0 .75rem; }
p { white-space: pre-line; orphans: 2; widows: 2; }
.subtitle, .quiet, figcaption, footer, th { color: #5a564e; }
.lead { font-size: 1.1em; }
.quiet, figcaption, footer { font-size: .875em; }
dl { display: grid; grid-template-columns: minmax(6rem, max-content) 1fr; gap: .1rem 1rem; }
dt { color: #5a564e; }
dd { margin: 0; }
ul { padding-left: 1.1rem; }
table { border-collapse: collapse; width: 100%; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { text-align: left; vertical-align: top; padding: .3rem .75rem .3rem 0;
  border-bottom: 1px solid #bdb4a1; white-space: pre-line; }
th { font-weight: 600; font-size: .875em; white-space: nowrap; }
td { min-width: 6.5em; }
.figures { font-family: "JetBrains Mono", "DejaVu Sans Mono", monospace; }
td.figures, th.figures { text-align: right; }
td.figures { font-size: .9em; min-width: 0; white-space: nowrap; }
figure { break-inside: avoid; }
svg { width: 100%; height: auto; font-family: Inter, "DejaVu Sans", sans-serif; }
aside { border-left: 4px solid #7f2a00; background: #f3eee3; padding: .6rem .9rem;
  break-inside: avoid; }
aside p { margin: 0; }
footer { margin-top: 2.5rem; border-top: 1px solid #bdb4a1; padding-top: .5rem; }
@media print { body, body.dense { max-width: none; margin: 0; padding: 0; font-size: 10pt; } }
)css";

std::string element(const std::string& tag, const std::string& text, const char* css = "") {
  const std::string opening = *css == '\0' ? tag : tag + " class=\"" + css + '"';
  return '<' + opening + '>' + escape_html(text) + "</" + tag + ">\n";
}

const char* css_of(const Column& column) { return column.figures ? "figures" : ""; }

struct HtmlWriter {
  std::string operator()(const Heading& heading) const {
    return element(heading.level <= 2 ? "h2" : "h3", quantities::shown_line(heading.text));
  }
  std::string operator()(const Paragraph& paragraph) const {
    const bool lead = paragraph.tone == Paragraph::Tone::lead;
    const bool quiet = paragraph.tone == Paragraph::Tone::quiet;
    return element("p", paragraph.text, lead ? "lead" : (quiet ? "quiet" : ""));
  }
  std::string operator()(const Points& points) const {
    std::string html = "<ul>\n";
    for (const std::string& sentence : points.sentences) {
      html += element("li", sentence);
    }
    return html + "</ul>\n";
  }
  std::string operator()(const Facts& facts) const {
    std::string html = "<dl>\n";
    for (const auto& [name, value] : facts.facts) {
      html += element("dt", name) + element("dd", quantities::shown_line(value));
    }
    return html + "</dl>\n";
  }
  std::string operator()(const Table& table) const {
    std::string html = "<table>\n<thead><tr>\n";
    for (const Column& column : table.columns) {
      html += element("th", column.title, css_of(column));
    }
    html += "</tr></thead>\n<tbody>\n";
    for (const auto& row : table.rows) {
      html += "<tr>\n";
      for (std::size_t i = 0; i < row.size(); ++i) {
        html += element("td", row[i], css_of(table.columns.at(i)));
      }
      html += "</tr>\n";
    }
    return html + "</tbody>\n</table>\n";
  }
  std::string operator()(const Warning& warning) const {
    return "<aside>\n<p><strong>" + escape_html(warning.title) + "</strong></p>\n" +
           element("p", warning.text) + "</aside>\n";
  }
  std::string operator()(const Figure& figure) const {
    return "<figure>\n" + svg_of(figure.picture) + '\n' +
           (figure.caption.empty() ? "" : element("figcaption", figure.caption)) + "</figure>\n";
  }
};

std::string head_of(const Document& document, Paper paper) {
  const char* size = paper == Paper::letter ? "letter" : "A4";
  std::string head =
      "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n"
      "<meta charset=\"utf-8\"/>\n"
      "<meta http-equiv=\"Content-Security-Policy\" "
      "content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
      "<meta name=\"generator\" content=\"Dryout\"/>\n";
  head += element("title", quantities::shown_line(document.title + ": " + document.subtitle));
  return head + "<style>" + style + "@page { size: " + size +
         "; margin: 19mm; }\n</style>\n</head>\n";
}

}  // namespace

Rendered render_html(const Document& document, Paper paper) {
  std::string html = head_of(document, paper);
  html += document.dense ? "<body class=\"dense\">\n" : "<body>\n";
  html += "<header>\n" + element("h1", quantities::shown_line(document.title)) +
          element("p", quantities::shown_line(document.subtitle), "subtitle") +
          "</header>\n<main>\n";
  for (const Block& block : document.blocks) {
    html += std::visit(HtmlWriter{}, block);
  }
  html += "</main>\n" + element("footer", document.running) + "</body>\n</html>\n";
  return {html, 0};
}

}  // namespace dryout::report
