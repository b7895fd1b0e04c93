// A document set as a file's bytes: PDF through cairo and pango, or one HTML page that needs
// nothing else (no script, no outside file, pictures inside as SVG, well-formed as XML too).
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantities/result.h"
#include "report/page.h"

namespace dryout::report {

enum class Format { pdf, html };

/// By the ending of the file's name, in whatever case: ".pdf", ".html", ".htm". Nothing else.
[[nodiscard]] std::optional<Format> format_of(std::string_view file_name);
[[nodiscard]] std::string_view word_of(Format format);  ///< "pdf", "html"

struct Rendered {
  std::string bytes;
  int pages = 0;  ///< 0 where there are no pages
};

/// A problem only where cairo gives up (no memory). The same document gives the same bytes on one
/// machine; other fonts or another cairo give other bytes.
[[nodiscard]] quantities::Result<Rendered> render_pdf(const Document& document, Paper paper);

[[nodiscard]] Rendered render_html(const Document& document, Paper paper);

[[nodiscard]] quantities::Result<Rendered> render(const Document& document, Format format,
                                                  Paper paper);

}  // namespace dryout::report
