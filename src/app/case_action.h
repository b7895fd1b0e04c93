// One action on a case as a command of the command line: "dryout case NAME CASE ...".
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "app/commands.h"
#include "casework/command.h"
#include "quantities/result.h"

namespace dryout::app {

/// The command as it was typed, or what is wrong with the words.
using MakeCommand = std::function<quantities::Result<casework::Command>()>;

/// Declares "dryout case NAME CASE ..." and lets the caller add its words. A command that has a
/// plainer and an older word answers to both (casework/words.h).
class Action {
 public:
  Action(Commands& commands, CLI::App* parent, const char* name, const char* help);

  std::string& word(const char* name, const char* help);
  std::string& option(const char* name, const char* help, std::string fallback = {});
  std::vector<std::string>& options(const char* name, const char* help);
  bool& flag(const char* name, const char* help);
  void makes(MakeCommand make) { make_ = std::move(make); }

 private:
  Commands& commands_;
  std::string& case_;
  MakeCommand& make_;
  CLI::App* command_ = nullptr;
};

}  // namespace dryout::app
