#include "app/write_document.h"

#include <CLI/CLI.hpp>
#include <ostream>

#include "documents/write_whole.h"

namespace dryout::app {

PageOptions add_page_options(Commands& commands, CLI::App* command) {
  const PageOptions options{commands.text(), commands.text("a4")};
  command
      ->add_option("-o,--output", options.file,
                   "File to write: its ending, .pdf or .html, says how")
      ->required();
  command->add_option("--paper", options.paper, "Size of the paper")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->capture_default_str();
  return options;
}

quantities::Result<report::Format> format_for(const std::string& file) {
  if (const auto format = report::format_of(file)) {
    return *format;
  }
  return quantities::Problem{"no format is known for this ending",
                             {"--output", 0, {}},
                             '"' + quantities::excerpt(file) + '"',
                             "a file name that ends in .pdf or .html"};
}

report::Imprint imprint_of(const std::string& shop_typed, const casework::MendingView& mending) {
  return report::imprint_now(shop_typed.empty() ? mending.shop : shop_typed);
}

Exit write_document(const Terminal& terminal, const report::Document& document,
                    const PageOptions& options, const std::string& what) {
  const auto format = format_for(options.file);
  if (!format) {
    return refuse(terminal, format.problems());
  }
  const auto paper = options.paper == "letter" ? report::Paper::letter : report::Paper::a4;
  const auto rendered = report::render(document, *format, paper);
  if (!rendered) {
    return refuse(terminal, rendered.problems(), Exit::internal_fault);
  }
  const auto written = documents::write_whole(options.file, rendered->bytes);
  if (!written) {
    return refuse(terminal, written.problems());
  }
  if (terminal.json) {
    documents::Value answered =
        documents::Value::object({{"written", options.file},
                                  {"what", what},
                                  {"format", std::string(report::word_of(*format))},
                                  {"bytes", static_cast<double>(rendered->bytes.size())}});
    if (rendered->pages > 0) {
      answered.set("pages", rendered->pages);
    }
    return answer(terminal, answered);
  }
  terminal.out << "Written: " << options.file;
  if (rendered->pages > 0) {
    terminal.out << ", " << rendered->pages << (rendered->pages == 1 ? " page" : " pages");
  }
  terminal.out << '\n';
  return Exit::done;
}

}  // namespace dryout::app
