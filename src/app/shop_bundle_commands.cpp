// dryout shop export|import: everything of a bench in one file: its cases, its own equipment,
// limits, meters and figures, and whether closed cases enter the figures.
//
//   {"format": "dryout-shop", "schema": 1, "settings": {"in_the_figures": false},
//    "own": [{"file": "rules/limits/bench.json", "text": "..."}, ...],
//    "cases": [{"identity": ..., "chain": ..., "journal": [...]}, ...]}
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>

#include "app/bundle_file.h"
#include "app/commands.h"
#include "app/shop_setting.h"
#include "app/take_bundle.h"
#include "app/tell_arrivals.h"
#include "app/write_pieces.h"
#include "casework/case_exchange.h"
#include "casework/missing_cases.h"
#include "documents/read_text.h"
#include "documents/table.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::LeftOut;
using documents::Value;
using quantities::Done;
using quantities::Result;

/// The text of one own file; what cannot go along is put on the list.
void take_text(const fs::path& path, const std::string& name, std::vector<OwnText>& texts,
               LeftOut& left_out) {
  auto text = documents::read_text(path.string(), "a readable file", documents::table_bytes_max);
  if (!text) {
    left_out.push_back(quantities::describe(text.problems().front()));
  } else if (quantities::text_of(quantities::characters_of(*text)) != *text) {
    left_out.push_back(path.string() + ": not UTF-8 text");
  } else if (!is_own_name(name)) {
    left_out.push_back(path.string() + ": a name that no bench would take: " + own_name_accepted);
  } else {
    texts.push_back({name, std::move(*text)});
  }
}

/// What is in a folder below the own one, whatever the kind of its entries. Only a folder that is
/// not there is nothing.
void take_folder(const fs::path& folder, const std::string& name, std::vector<OwnText>& texts,
                 LeftOut& left_out) {
  std::error_code error;
  fs::directory_iterator at(folder, error);
  for (; !error && at != fs::directory_iterator(); at.increment(error)) {
    const fs::path& path = at->path();
    const std::string below = name + '/' + path.filename().string();
    std::error_code unknown;
    if (at->is_directory(unknown) && !at->is_symlink(unknown)) {
      take_folder(path, below, texts, left_out);
    } else if (path.extension() == ".json") {
      take_text(path, below, texts, left_out);
    }
  }
  if (error && error != std::errc::no_such_file_or_directory) {
    left_out.push_back(folder.string() + ": this folder cannot be listed: " + error.message());
  }
}

/// What is knowledge below the own folder, by name.
std::vector<OwnText> own_texts(const Surroundings& surroundings, LeftOut& left_out) {
  std::vector<OwnText> texts;
  for (const char* part : {"rules", "symptoms"}) {
    take_folder(fs::path(surroundings.own_knowledge) / part, part, texts, left_out);
  }
  std::sort(texts.begin(), texts.end(),
            [](const OwnText& a, const OwnText& b) { return a.name < b.name; });
  return texts;
}

Value own_json(const OwnText& own) {
  return Value::object({{"file", own.name}, {"text", own.text}});
}

Result<Done> write_bundle(const Surroundings& surroundings, const casework::Workshop& workshop,
                          const std::vector<OwnText>& own, Pieces& pieces, LeftOut& left_out,
                          std::size_t& count) {
  const auto wanted = shop_history_wanted(surroundings);
  std::string head = "{\n  \"format\": \"" + std::string(casework::format_of_shop) +
                     "\",\n  \"schema\": 1,\n  \"settings\": {\"in_the_figures\": " +
                     (wanted && *wanted ? "true" : "false") + "},\n  \"own\": [";
  for (const OwnText& each : own) {
    head += (&each == &own.front() ? "\n    " : ",\n    ") + documents::to_line(own_json(each));
  }
  head += "\n  ],\n  \"cases\": [\n";
  if (auto written = pieces.write(head); !written) {
    return written;
  }
  auto written = workshop.export_each(
      [&](const std::string& text) -> Result<Done> {
        return pieces.write((count++ == 0 ? "" : std::string(casework::many_between)) + text);
      },
      &left_out);
  return written ? pieces.write(casework::many_end) : written;
}

Exit export_shop(const Invocation& invocation, const std::string& path) {
  const Terminal& terminal = invocation.terminal;
  const auto workshop = open_workshop(invocation.surroundings);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  auto pieces = Pieces::to(path, terminal.data);
  if (!pieces) {
    return refuse(terminal, pieces.problems());
  }
  LeftOut left_out = casework::missing_cases(invocation.surroundings.store);
  const std::vector<OwnText> own = own_texts(invocation.surroundings, left_out);
  std::size_t count = 0;
  auto written = write_bundle(invocation.surroundings, **workshop, own, *pieces, left_out, count);
  const auto read_back = [&](const std::string& made) -> Result<Done> {
    std::size_t at = 0;
    const auto bundle = look_through(made, [&](const OwnText& each) -> Result<Done> {
      const bool same = at < own.size() && own[at].name == each.name && own[at].text == each.text;
      ++at;
      return same ? Result<Done>(Done{}) : casework::not_as_written(path);
    });
    if (!bundle || at != own.size()) {
      return bundle ? Result<Done>(casework::not_as_written(path)) : bundle.problems();
    }
    return casework::read_back(made, path, count);
  };
  written = written ? pieces->finish(read_back) : written;
  return written ? conclude_export(terminal, left_out) : refuse(terminal, written.problems());
}

}  // namespace

void add_bundle(Commands& commands, CLI::App* parent) {
  std::string& target = commands.text();
  commands
      .add(
          "export",
          "Writes everything of this bench to one file: cases, own equipment, limits, meters, "
          "settings",
          [&target](const Invocation& invocation) { return export_shop(invocation, target); },
          parent)
      ->add_option("-o,--output", target, "File to write (standard output by default)");
  std::string& source = commands.text();
  bool& replace = commands.flag();
  bool& cautions = commands.flag();
  CLI::App* in = commands.add(
      "import", "Takes in what another bench exported; what is here stays",
      [&](const Invocation& invocation) {
        return take_bundle(invocation, source, {replace, cautions});
      },
      parent);
  in->add_option("file", source, "File of `dryout shop export`")->required();
  in->add_flag("--replace", replace,
               "Own files of the bundle take the place of others of their name");
  in->add_flag("--take-cautions", cautions,
               "Also files in which cautions or hazards are other than the shipped ones; read them "
               "first");
}

}  // namespace dryout::app
