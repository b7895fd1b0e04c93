#include <cairo/cairo-pdf.h>

#include <array>
#include <ctime>

#include "quantities/shown_text.h"
#include "report/page_flow.h"
#include "report/render.h"

namespace dryout::report {
namespace {

cairo_status_t keep_bytes(void* target, const unsigned char* bytes, unsigned length) {
  auto& text = *static_cast<std::string*>(target);
  text.append(bytes, bytes + length);
  return CAIRO_STATUS_SUCCESS;
}

/// ISO 8601 in UTC, as cairo wants it; "" for a moment no calendar has.
std::string moment(std::int64_t at) {
  const auto seconds = static_cast<std::time_t>(at);
  std::tm parts{};
  std::array<char, 48> text{};
  if (gmtime_r(&seconds, &parts) == nullptr) {
    return "";
  }
  return {text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts)};
}

void write_record(cairo_surface_t* surface, const Document& document) {
  const auto record = [surface](cairo_pdf_metadata_t what, const std::string& text) {
    cairo_pdf_surface_set_metadata(surface, what, quantities::shown_line(text).c_str());
  };
  record(CAIRO_PDF_METADATA_TITLE, document.title + ": " + document.subtitle);
  record(CAIRO_PDF_METADATA_AUTHOR, document.author);
  record(CAIRO_PDF_METADATA_SUBJECT, document.subject);
  record(CAIRO_PDF_METADATA_CREATOR, "Dryout");
  record(CAIRO_PDF_METADATA_CREATE_DATE, moment(document.made_at));
}

/// Sets the document into `bytes`; how many pages it took.
quantities::Result<int> set_into(std::string& bytes, const Document& document, Sheet sheet,
                                 int pages_total) {
  const Held<cairo_surface_t> surface(
      cairo_pdf_surface_create_for_stream(keep_bytes, &bytes, sheet.width, sheet.height));
  write_record(surface.get(), document);
  const int pages = PageFlow(surface.get(), document, sheet, pages_total).run();
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) {
    return quantities::Problem{"the pages cannot be drawn", {}, cairo_status_to_string(status), ""};
  }
  return pages;
}

}  // namespace

quantities::Result<Rendered> render_pdf(const Document& document, Paper paper) {
  std::string draft;  // set once to count the pages, once more to say so at the foot of each
  const auto total = set_into(draft, document, sheet_of(paper), 0);
  if (!total) {
    return total.problems();
  }
  if (document.pages_wanted > 0 && *total > document.pages_wanted && !document.dense) {
    Document denser = document;
    denser.dense = true;
    return render_pdf(denser, paper);
  }
  Rendered rendered;
  const auto pages = set_into(rendered.bytes, document, sheet_of(paper), *total);
  if (!pages) {
    return pages.problems();
  }
  rendered.pages = *pages;
  return rendered;
}

}  // namespace dryout::report
