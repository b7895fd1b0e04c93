// dryout shop export|import: everything of a bench in one file: its cases, its own equipment,
// limits, meters and figures, and whether closed cases enter the figures.
//
//   {"format": "dryout-shop", "schema": 1, "settings": {"in_the_figures": false},
//    "own": [{"file": "rules/limits/bench.json", "text": "..."}, ...],
//    "cases": [{"identity": ..., "chain": ..., "journal": [...]}, ...]}
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "app/own_files.h"
#include "app/shop_setting.h"
#include "app/tell_arrivals.h"
#include "app/write_pieces.h"
#include "casework/case_exchange.h"
#include "documents/element_stream.h"
#include "documents/read_text.h"
#include "documents/reader.h"
#include "documents/table.h"
#include "quantities/shown_text.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using casework::LeftOut;
using documents::Value;
using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

struct OwnText {
  std::string name;  ///< below the own folder
  std::string text;
};

/// What is knowledge below the own folder, by name. What cannot be read as text is left out.
std::vector<OwnText> own_texts(const Surroundings& surroundings, LeftOut& left_out) {
  std::vector<OwnText> texts;
  const fs::path own = surroundings.own_knowledge;
  for (const char* part : {"rules", "symptoms"}) {
    std::error_code error;
    for (fs::recursive_directory_iterator at(own / part, error), end; !error && at != end;
         at.increment(error)) {
      if (!at->is_regular_file(error) || at->path().extension() != ".json") {
        continue;
      }
      const std::string path = at->path().string();
      auto text = documents::read_text(path, "a readable file", documents::table_bytes_max);
      if (text && quantities::text_of(quantities::characters_of(*text)) == *text) {
        texts.push_back({fs::relative(at->path(), own, error).generic_string(), std::move(*text)});
      } else {
        left_out.push_back(
            path + ": " +
            (text ? "not UTF-8 text" : quantities::describe(text.problems().front())));
      }
    }
  }
  std::sort(texts.begin(), texts.end(),
            [](const OwnText& a, const OwnText& b) { return a.name < b.name; });
  return texts;
}

Value own_json(const OwnText& own) {
  return Value::object({{"file", own.name}, {"text", own.text}});
}

/// A file of knowledge below the own folder and nowhere else.
bool is_own_name(const std::string& name) {
  constexpr std::string_view letters =
      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./";
  const bool place = name.starts_with("rules/") || name.starts_with("symptoms/");
  return place && name.ends_with(".json") && name.size() <= 200 &&
         name.find_first_not_of(letters) == std::string::npos &&
         name.find("..") == std::string::npos && name.find("//") == std::string::npos &&
         name.find("/.") == std::string::npos;
}

Result<OwnText> read_own(const documents::StreamedElement& each, const std::string& path) {
  const auto document = documents::parse(each.text, path);
  if (!document) {
    return document.problems();
  }
  Problems problems;
  const documents::Reader root(*document, problems);
  root.accept_only({"file", "text"});
  OwnText own{root.text("file"), root.text("text")};
  if (problems.empty() && !is_own_name(own.name)) {
    root.complain("no name of a file of one's own", "rules/... or symptoms/..., ending in .json",
                  '"' + quantities::excerpt(own.name) + '"');
  }
  for (Problem& problem : problems) {
    problem.place.line += problem.place.line > 0 ? each.line - 1 : 0;
    problem.place.pointer = "/own/" + std::to_string(each.index) + problem.place.pointer;
  }
  return problems.empty() ? Result<OwnText>(std::move(own)) : problems;
}

struct Bundle {
  std::size_t own = 0;
  std::optional<bool> in_the_figures;
};

/// Goes through what a bundle holds beside its cases.
Result<Bundle> look_through(const std::string& path,
                            const std::function<Result<Done>(const OwnText&)>& visit) {
  Bundle bundle;
  const auto heading =
      documents::stream_elements(path, {"own", "cases"}, casework::case_bytes_max,
                                 [&](const documents::StreamedElement& each) -> Result<Done> {
                                   if (each.key != "own") {
                                     return Done{};
                                   }
                                   ++bundle.own;
                                   const auto own = read_own(each, path);
                                   return own ? visit(*own) : own.problems();
                                 });
  if (!heading) {
    return heading.problems();
  }
  Problems problems;
  const documents::Reader root(*heading, problems);
  if (root.text("format") != casework::format_of_shop && problems.empty()) {
    root.complain("this is no bundle of a shop",
                  "a file of `dryout shop export`; one of cases alone: `dryout case import`");
  }
  if (const auto settings = root.optional_member("settings")) {
    settings->accept_only({"in_the_figures"});
    bundle.in_the_figures = settings->boolean("in_the_figures");
  }
  return problems.empty() ? Result<Bundle>(bundle) : problems;
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
  LeftOut left_out;
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

/// Lays the own files of a bundle beside those that are here; what became of each that is not here
/// already as it is.
Result<std::vector<std::string>> take_own(const Surroundings& surroundings, const std::string& path,
                                          bool replace, bool& all) {
  if (surroundings.own_knowledge.empty()) {
    return no_data_folder();
  }
  // Once through for faults, before anything is written.
  const auto looked = look_through(path, [](const OwnText&) -> Result<Done> { return Done{}; });
  if (!looked) {
    return looked.problems();
  }
  const casework::OwnFiles files = own_files(surroundings);
  std::vector<std::string> told;
  const auto taken = look_through(path, [&](const OwnText& each) -> Result<Done> {
    const auto here = files.own_text(each.name);
    if (!here) {
      return here.problems();
    }
    if (*here == each.text) {
      return Done{};
    }
    if (!here->empty() && !replace) {
      told.push_back(each.name +
                     " is here and is another: yours stays (--replace takes the "
                     "bundle's)");
      all = false;
      return Done{};
    }
    const auto kept = files.keep(each.name, each.text, replace);
    if (!kept) {
      return kept.problems();
    }
    told.push_back(each.name + (here->empty() ? " is new here" : " was replaced"));
    return Done{};
  });
  if (!taken) {
    return taken.problems();
  }
  const auto wanted = shop_history_wanted(surroundings);
  if (taken->in_the_figures.value_or(false) && wanted && !*wanted) {
    if (const auto set = want_shop_history(surroundings, true); !set) {
      return set.problems();
    }
    told.emplace_back("closed cases now enter the figures, as they do in the bundle");
  }
  return told;
}

Exit import_shop(const Invocation& invocation, const std::string& path, bool replace) {
  const Terminal& terminal = invocation.terminal;
  bool all = true;
  const auto own = take_own(invocation.surroundings, path, replace, all);
  if (!own) {
    return refuse(terminal, own.problems());
  }
  Surroundings now = invocation.surroundings;  // the own folder may be new
  std::error_code error;
  if (fs::is_directory(now.own_knowledge, error) &&
      std::find(now.knowledge.begin(), now.knowledge.end(), now.own_knowledge) ==
          now.knowledge.end()) {
    now.knowledge.push_back(now.own_knowledge);
  }
  const auto workshop = open_workshop(now);
  if (!workshop) {
    return refuse(terminal, workshop.problems());
  }
  const auto report = (*workshop)->import_many(path);
  if (!report) {
    return refuse(terminal, report.problems());
  }
  if (!terminal.json) {
    for (const std::string& line : *own) {
      terminal.out << quantities::shown_line(line) << ".\n";
    }
  }
  (void)tell_arrivals(terminal, *report, *own);
  return all ? Exit::done : Exit::answer_is_no;
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
  CLI::App* in = commands.add(
      "import", "Takes in what another bench exported; what is here stays",
      [&](const Invocation& invocation) { return import_shop(invocation, source, replace); },
      parent);
  in->add_option("file", source, "File of `dryout shop export`")->required();
  in->add_flag("--replace", replace,
               "Own files of the bundle take the place of others of their name");
}

}  // namespace dryout::app
