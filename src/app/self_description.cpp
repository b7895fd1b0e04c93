#include "app/self_description.h"

#include <CLI/CLI.hpp>
#include <functional>
#include <vector>

namespace dryout::app {
namespace {

std::vector<const CLI::App*> commands_of(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App* command) { return !command->get_name().empty(); });
}

std::vector<const CLI::Option*> options_of(const CLI::App& app) {
  return app.get_options([](const CLI::Option* option) { return !option->get_name().empty(); });
}

/// Visits `app` and everything below it; `path` is how one types it.
void walk(const CLI::App& app, const std::string& path,
          const std::function<void(const CLI::App&, const std::string&)>& visit) {
  visit(app, path);
  for (const CLI::App* command : commands_of(app)) {
    walk(*command, path + ' ' + command->get_name(), visit);
  }
}

/// Text that roff prints as it stands: its escape and control characters made harmless.
std::string roff(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    const bool begins_line = safe.empty() || safe.back() == '\n';
    if (begins_line && (c == '.' || c == '\'')) {
      safe += "\\&";
    }
    safe += c == '\\' ? "\\e" : c == '-' ? "\\-" : std::string(1, c);
  }
  return safe;
}

/// The parser's "INT:INT in [320 - 8192]" as a person writes it: "320 to 8192".
std::string plain_type(const CLI::Option& option) {
  std::string type = option.get_type_name();
  const std::size_t range = type.find(" in [");
  const std::size_t dash = range == std::string::npos ? range : type.find(" - ", range);
  const std::size_t end = dash == std::string::npos ? dash : type.find(']', dash);
  if (end != std::string::npos) {
    const std::size_t from = range + std::string_view(" in [").size();
    const std::size_t behind = dash + std::string_view(" - ").size();
    return type.substr(from, dash - from) + " to " + type.substr(behind, end - behind);
  }
  const std::size_t words = type.find('{');  // TEXT:{dark,light}
  if (words != std::string::npos) {
    std::string choice;
    for (const char c : type.substr(words + 1, type.find('}', words) - words - 1)) {
      choice += c == ',' ? ", " : std::string(1, c);
    }
    return choice;
  }
  if (type.starts_with("INT") || type.starts_with("FLOAT")) return "NUMBER";
  return type;
}

std::string manual_option(const CLI::Option& option) {
  std::string head = "\\fB" + roff(option.get_name()) + "\\fR";
  if (option.get_items_expected_max() > 0) {
    head += " \\fI" + roff(plain_type(option)) + "\\fR";
  }
  return ".TP\n" + head + '\n' + roff(option.get_description()) + '\n';
}

std::string manual_command(const CLI::App& command, const std::string& path) {
  std::string usage = path;
  std::string options;
  for (const CLI::Option* option : options_of(command)) {
    if (option->get_positional()) {
      const std::string name = option->get_name(true);
      usage += option->get_required() ? ' ' + name : " [" + name + ']';
    }
    options += option->check_lname("help") ? "" : manual_option(*option);
  }
  return ".SS " + roff(usage) + '\n' + roff(command.get_description()) + '\n' + options;
}

constexpr const char* manual_end = R"(.SH ENVIRONMENT
.TP
\fBDRYOUT_KNOWLEDGE\fR
A knowledge tree to use in place of the shipped one.
.TP
\fBXDG_DATA_HOME\fR
Where the shop's own data live; ~/.local/share where it is not set.
.TP
\fBXDG_DOCUMENTS_DIR\fR, \fBXDG_PICTURES_DIR\fR
Where the window writes papers and pictures, in a folder of its own; beside the case store where
they are not set.
.SH FILES
.TP
\fI$XDG_DATA_HOME/dryout/cases.db\fR
The case store.
.TP
\fI$XDG_DATA_HOME/dryout/own/\fR
Your own equipment, symptoms, limits and figures; an entry there takes the place of the shipped one
with the same id.
.SH EXIT STATUS
0 done; 1 the answer is no; 2 wrong usage or unreadable input; 3 internal fault; 4 what was printed
did not reach its place (a full disk; without a word where the reader of a pipe has gone).
.SH SAFETY
Mains, stored charge and high tension can kill. The program shows the usual cautions; local codes
and licensed practice come before anything that it says.
)";

std::string words_of(const CLI::App& app) {
  std::string words;
  for (const CLI::App* command : commands_of(app)) {
    words += command->get_name() + ' ';
  }
  for (const CLI::Option* option : options_of(app)) {
    for (const std::string& name : option->get_lnames()) {
      words += "--" + name + ' ';
    }
  }
  return words;
}

}  // namespace

std::string manual_page(const CLI::App& root, const std::string& version) {
  std::string page = ".TH DRYOUT 1 \"\" \"dryout " + roff(version) + "\" \"User commands\"\n" +
                     ".SH NAME\ndryout \\- bench companion for suspected capacitor faults\n" +
                     ".SH SYNOPSIS\n\\fBdryout\\fR [\\fIoptions\\fR] [\\fIcommand\\fR ...]\n" +
                     ".SH DESCRIPTION\n" + roff(root.get_description()) +
                     "\nAlone, the name opens the bench window.\n.SH OPTIONS\n";
  for (const CLI::Option* option : options_of(root)) {
    page += manual_option(*option);
  }
  page += ".SH COMMANDS\n";
  walk(root, "dryout", [&](const CLI::App& command, const std::string& path) {
    page += &command == &root ? "" : manual_command(command, path);
  });
  return page + manual_end;
}

std::string bash_completion(const CLI::App& root) {
  std::string paths, words;
  walk(root, "dryout", [&](const CLI::App& command, const std::string& path) {
    paths += "      \"" + path + "\") at=\"$at $step\" ;;\n";
    words += "    \"" + path + "\") words=\"" + words_of(command) + "\" ;;\n";
  });
  return "# bash completion for dryout, written by `dryout completion`\n"
         "_dryout() {\n"
         "  local at=dryout step words=\"\"\n"
         "  for step in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
         "    case \"$at $step\" in\n" +
         paths +
         "    esac\n"
         "  done\n"
         "  case \"$at\" in\n" +
         words +
         "  esac\n"
         "  mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"${COMP_WORDS[COMP_CWORD]}\")\n"
         "}\n"
         "complete -o default -F _dryout dryout\n";
}

}  // namespace dryout::app
