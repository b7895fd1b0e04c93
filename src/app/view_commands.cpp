// dryout suspects|next|explain: what is believed, what to do, and why.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "app/plan_chart.h"
#include "app/print_view.h"
#include "app/view_json.h"
#include "documents/write_whole.h"
#include "quantities/spelling.h"

namespace dryout::app {
namespace {

using casework::CaseView;

/// Opens the case and hands its view to `show`.
Exit with_view(const Invocation& invocation, const std::string& name,
               const std::function<Exit(const CaseView&)>& show) {
  const auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(invocation.terminal, opened.problems());
  }
  const auto view = opened->workshop->view(opened->number);
  if (!view) {
    return refuse(invocation.terminal, view.problems());
  }
  if (!invocation.terminal.json) {
    print_damage(invocation.terminal.out, opened->damage());
  }
  return show(*view);
}

Exit suspects(const Terminal& terminal, const CaseView& view, int count) {
  if (terminal.json) {
    return answer(terminal, suspects_json(view));
  }
  print_head(terminal.out, view);
  print_figures(terminal.out, view);
  terminal.out << "Boards:\n";
  print_boards(terminal.out, view);
  terminal.out << "Suspects:\n";
  print_suspects(terminal.out, view, static_cast<std::size_t>(std::max(1, count)));
  return Exit::done;
}

Exit next(const Terminal& terminal, const CaseView& view, int count) {
  if (terminal.json) {
    return answer(terminal, next_json(view));
  }
  print_head(terminal.out, view);
  print_figures(terminal.out, view);
  if (!view.next.empty()) {
    terminal.out << "\nDo this next. ";
    print_check(terminal.out, view.next.front());
    terminal.out << "\nAll candidates, best first:\n";
  }
  print_next(terminal.out, view, static_cast<std::size_t>(std::max(1, count)));
  return Exit::done;
}

/// Writes the plan as a chart.
Exit chart(const Terminal& terminal, const casework::PlanStep& plan, const std::string& heading,
           const std::string& path) {
  if (const auto written = documents::write_whole(path, plan_chart(plan, heading)); !written) {
    return refuse(terminal, written.problems());
  }
  if (!terminal.json) {
    terminal.out << "wrote " << path << '\n';
  }
  return terminal.json ? answer(terminal, documents::Value::object({{"chart", path}})) : Exit::done;
}

documents::Value tree_json(const casework::PlanStep& plan, const std::string& damage) {
  documents::Value notices = documents::Value::array();
  if (!damage.empty()) {
    notices.append(damage);
  }
  return documents::Value::object({{"tree", to_json(plan)}, {"notices", std::move(notices)}});
}

Exit tree(const Invocation& invocation, const std::string& name, int depth,
          const std::string& chart_path) {
  const auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(invocation.terminal, opened.problems());
  }
  const auto plan = opened->workshop->plan_ahead(opened->number, depth);
  if (!plan) {
    return refuse(invocation.terminal, plan.problems());
  }
  if (!chart_path.empty()) {
    const auto view = opened->workshop->view(opened->number);
    return view ? chart(invocation.terminal, *plan,
                        "Plan ahead: " + view->set_name + ", " + view->equipment_title, chart_path)
                : refuse(invocation.terminal, view.problems());
  }
  if (invocation.terminal.json) {
    return answer(invocation.terminal, tree_json(*plan, opened->damage()));
  }
  print_damage(invocation.terminal.out, opened->damage());
  print_plan(invocation.terminal.out, *plan, 0);
  return Exit::done;
}

/// By its whole id, or by what stands behind the kind in it where only one suspect has that:
/// "reservoirs" for "group:reservoirs", as measure and heed take it.
std::vector<casework::SuspectView>::const_iterator suspect_named(const CaseView& view,
                                                                 const std::string& typed) {
  const auto end = view.suspects.end();
  const auto whole = std::find_if(view.suspects.begin(), end,
                                  [&](const auto& each) { return each.item == typed; });
  if (whole != end) {
    return whole;
  }
  const auto is_short = [&](const auto& each) {
    const std::size_t colon = each.item.find(':');
    return colon != std::string::npos &&
           each.item.compare(colon + 1, std::string::npos, typed) == 0;
  };
  const auto first = std::find_if(view.suspects.begin(), end, is_short);
  const bool several = first != end && std::find_if(first + 1, end, is_short) != end;
  return several ? end : first;
}

Exit explain(const Terminal& terminal, const CaseView& view, const std::string& typed) {
  const auto suspect = suspect_named(view, typed);
  if (suspect == view.suspects.end()) {
    std::vector<std::string_view> ids;
    for (const auto& each : view.suspects) {
      const std::string_view id = each.item;
      ids.push_back(id);
      ids.push_back(id.substr(id.find(':') + 1));
    }
    const auto nearest = quantities::nearest_spelling(typed, ids);
    return refuse(terminal, {{"no such suspect in this case",
                              {},
                              '"' + quantities::excerpt(typed) + '"',
                              nearest ? "did you mean \"" + *nearest + "\"?"
                                      : "an id printed by `dryout suspects`"}});
  }
  const std::string& item = suspect->item;
  documents::Value document = to_json(*suspect);
  documents::Value measuring = documents::Value::array();
  for (const casework::MeasuringView& place : view.measuring) {
    if (place.item == item) {
      measuring.append(to_json(place));
    }
  }
  document.set("measuring", std::move(measuring));
  document.set("notices", texts_json(view.notices));
  if (terminal.json) {
    return answer(terminal, document);
  }
  print_explanation(terminal.out, *suspect);
  for (const casework::MeasuringView& place : view.measuring) {
    if (place.item == item) {
      print_measuring(terminal.out, place);
    }
  }
  return Exit::done;
}

}  // namespace

void add_suspects(Commands& commands) {
  std::string& name = commands.text();
  int& count = commands.number(12);
  CLI::App* command = commands.add("suspects", "Ranked boards, part groups, parts and other causes",
                                   [&](const Invocation& invocation) {
                                     return with_view(invocation, name, [&](const CaseView& view) {
                                       return suspects(invocation.terminal, view, count);
                                     });
                                   });
  command->add_option("case", name, "Case number or case file")->required();
  command->add_option("--most", count, "How many to print")->capture_default_str();
}

void add_next(Commands& commands) {
  std::string& name = commands.text();
  int& count = commands.number(8);
  int& depth = commands.number(0);
  std::string& chart_path = commands.text();
  CLI::App* command =
      commands.add("next", "What to check next, and why", [&](const Invocation& invocation) {
        if (depth > 0) {
          return tree(invocation, name, depth, chart_path);
        }
        return with_view(invocation, name, [&](const CaseView& view) {
          return next(invocation.terminal, view, count);
        });
      });
  command->add_option("case", name, "Case number or case file")->required();
  command->add_option("--most", count, "How many to print")->capture_default_str();
  CLI::Option* const tree_depth =
      command->add_option("--tree", depth, "The whole plan, so many checks deep (1 to 6)");
  command->add_option("-o,--output", chart_path, "Draws that plan as a chart to print: FILE.svg")
      ->needs(tree_depth);
}

void add_explain(Commands& commands) {
  std::string& name = commands.text();
  std::string& item = commands.text();
  CLI::App* command = commands.add("explain", "The evidence for and against one suspect",
                                   [&](const Invocation& invocation) {
                                     return with_view(invocation, name, [&](const CaseView& view) {
                                       return explain(invocation.terminal, view, item);
                                     });
                                   });
  command->add_option("case", name, "Case number or case file")->required();
  command->add_option("suspect", item, "Id as printed by suspects")->required();
}

}  // namespace dryout::app
