// Writing a document of the report room into a file, in the format that the file's ending says.
#pragma once

#include <string>

#include "app/commands.h"
#include "casework/mending_view.h"
#include "report/owner_report.h"
#include "report/page.h"
#include "report/render.h"

namespace dryout::app {

/// Adds `-o FILE` (required) and `--paper` to a command; the values are kept in `commands`.
struct PageOptions {
  std::string& file;
  std::string& paper;
};
[[nodiscard]] PageOptions add_page_options(Commands& commands, CLI::App* command);

/// The format, or what endings there are.
[[nodiscard]] quantities::Result<report::Format> format_for(const std::string& file);

/// What stands on it beside the case: the shop as typed, or else as its settings say; now.
[[nodiscard]] report::Imprint imprint_of(const std::string& shop_typed,
                                         const casework::MendingView& mending);

/// Renders and writes, whole or not at all and private to the user; then says what was written
/// (`what`: "owner", "bench", ...), with --json as {"written", "what", "format", "pages", "bytes"}.
[[nodiscard]] Exit write_document(const Terminal& terminal, const report::Document& document,
                                  const PageOptions& options, const std::string& what);

}  // namespace dryout::app
