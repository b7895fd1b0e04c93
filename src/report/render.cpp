#include "report/render.h"

#include <cctype>

namespace dryout::report {
namespace {

bool ends_with(std::string_view name, std::string_view ending) {
  if (name.size() <= ending.size()) {
    return false;
  }
  const std::string_view tail = name.substr(name.size() - ending.size());
  for (std::size_t i = 0; i < ending.size(); ++i) {
    if (std::tolower(static_cast<unsigned char>(tail[i])) != ending[i]) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::optional<Format> format_of(std::string_view file_name) {
  if (ends_with(file_name, ".pdf")) {
    return Format::pdf;
  }
  if (ends_with(file_name, ".html") || ends_with(file_name, ".htm")) {
    return Format::html;
  }
  return std::nullopt;
}

std::string_view word_of(Format format) { return format == Format::pdf ? "pdf" : "html"; }

quantities::Result<Rendered> render(const Document& document, Format format, Paper paper) {
  if (format == Format::html) {
    return render_html(document, paper);
  }
  return render_pdf(document, paper);
}

}  // namespace dryout::report
