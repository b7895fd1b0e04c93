// The program's own help, turned into a manual page and into what a shell needs for completing
// words, so that neither can fall behind the command line.
#pragma once

#include <string>

namespace CLI {
class App;
}

namespace dryout::app {

/// A manual page in the man(7) macros.
[[nodiscard]] std::string manual_page(const CLI::App& root, const std::string& version);

/// A script for bash that completes commands and options.
[[nodiscard]] std::string bash_completion(const CLI::App& root);

}  // namespace dryout::app
