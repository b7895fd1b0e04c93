// dryout shop find|figures|last-time|causes|readings|learned|history|words: what all cases together
// say.
#include <CLI/CLI.hpp>
#include <deque>
#include <iomanip>
#include <optional>
#include <ostream>
#include <sstream>

#include "app/commands.h"
#include "app/shop_json.h"
#include "app/shop_setting.h"
#include "app/shop_words.h"
#include "casework/shop_memory.h"
#include "quantities/measure.h"

namespace dryout::app {
namespace {

using documents::Value;
using quantities::Result;

/// Opens the shop and hands it to `ask`.
template <class Ask>
Exit with_shop(const Invocation& invocation, Ask ask) {
  const auto workshop = open_workshop(invocation.surroundings);
  return workshop ? ask((*workshop)->shop()) : refuse(invocation.terminal, workshop.problems());
}

/// Prints what was found, as JSON or by `print`.
template <class View, class Print>
Exit show(const Terminal& terminal, const Result<View>& view, Print print) {
  if (!view) {
    return refuse(terminal, view.problems());
  }
  if (terminal.json) {
    return answer(terminal, to_json(*view));
  }
  print(*view);
  return Exit::done;
}

void print_share(std::ostream& out, const casework::CauseShareView& cause) {
  out << std::setw(8) << cause.cases << "  " << std::setw(6) << percent(cause.share.value())
      << "  (" << percent(cause.least.value()) << " to " << percent(cause.most.value()) << ")  "
      << cause.title << '\n';
}

Exit find(const Invocation& invocation, const casework::ShopSearch& search) {
  std::ostream& out = invocation.terminal.out;
  return with_shop(invocation, [&](const casework::ShopMemory& shop) {
    return show(invocation.terminal, shop.find(search), [&](const auto& view) {
      for (const casework::CaseSummary& each : view.cases) {
        out << std::setw(6) << each.number << "  " << each.opened << "  " << each.set_name << ": "
            << each.complaint << (each.cause.empty() ? "" : "  -> " + each.cause) << '\n';
      }
      out << (view.cases.empty() ? "No case answers this.\n" : view.more ? "... and more.\n" : "");
    });
  });
}

Exit causes(const Invocation& invocation, const std::string& family, const std::string& equipment) {
  std::ostream& out = invocation.terminal.out;
  return with_shop(invocation, [&](const casework::ShopMemory& shop) {
    const auto views = shop.causes(family, equipment);
    return show(invocation.terminal, views, [&](const auto& families) {
      for (const casework::CausesView& view : families) {
        out << view.title << ": " << view.closed << " closed, " << view.without_cause
            << " without a cause\n";
        for (const casework::CauseShareView& cause : view.causes) {
          print_share(out, cause);
        }
      }
      out << (families.empty() ? "No closed case yet.\n" : "");
    });
  });
}

void print_last_time(std::ostream& out, const casework::LastTimeCase& each) {
  out << "Case " << each.number << ", " << each.opened << ": " << each.set_name << " ("
      << each.equipment_title << "): " << each.complaint << '\n';
  for (const std::string& symptom : each.symptoms) {
    out << "  showed: " << symptom << '\n';
  }
  out << "  cause: " << (each.cause.empty() ? "none was found" : each.cause) << '\n';
  for (const std::string& repair : each.repairs) {
    out << "  done: " << repair << '\n';
  }
  if (each.at_bench.si() > 0.0) {
    out << "  at the bench: " << quantities::format_duration(each.at_bench) << '\n';
  }
  if (!each.summary.empty()) {
    out << "  " << each.summary << '\n';
  }
}

Exit last_time(const Invocation& invocation, const std::string& name, std::int64_t like) {
  std::ostream& out = invocation.terminal.out;
  if (name.empty() == (like == 0)) {
    return refuse(invocation.terminal, {{"say what for",
                                         {},
                                         "",
                                         "a kind of equipment or words of a set's name; or --case "
                                         "with the number of a case on the bench"}});
  }
  return with_shop(invocation, [&](const casework::ShopMemory& shop) {
    const auto asked = like == 0 ? shop.last_time(name) : shop.last_time_like(like);
    return show(invocation.terminal, asked, [&](const auto& view) {
      out << view.asked << ":\n";
      for (const casework::LastTimeCase& each : view.cases) {
        print_last_time(out, each);
      }
      out << (view.cases.empty() ? "No closed case of this kind yet.\n"
              : view.more        ? "... and older ones.\n"
                                 : "");
      for (const casework::CauseShareView& cause : view.causes) {
        print_share(out, cause);
      }
    });
  });
}

struct PartWords {
  std::string technology = "wet-aluminium", kind = "esr", role, capacitance, volts;
};

Result<casework::ReadingsAsked> asked_of(const PartWords& words) {
  casework::ReadingsAsked asked{words.technology, words.kind, words.role, {}, {}};
  if (!words.capacitance.empty()) {
    const auto value =
        quantities::parse_measure(words.capacitance, quantities::Measure::marked_capacitance);
    if (!value) {
      return value.problems();
    }
    asked.capacitance = quantities::Farad(*value);
  }
  if (!words.volts.empty()) {
    const auto value = quantities::parse_measure(words.volts, quantities::Measure::rated_volts);
    if (!value) {
      return value.problems();
    }
    asked.rated = quantities::Volt(*value);
  }
  return asked;
}

Exit readings(const Invocation& invocation, const PartWords& words) {
  std::ostream& out = invocation.terminal.out;
  const auto asked = asked_of(words);
  if (!asked) {
    return refuse(invocation.terminal, asked.problems());
  }
  return with_shop(invocation, [&](const casework::ShopMemory& shop) {
    return show(invocation.terminal, shop.readings(*asked), [&](const auto& view) {
      out << view.title << '\n';
      for (const casework::AgeReadings& age : view.ages) {
        out << std::setw(18) << age.age << "  " << std::setw(5) << age.standing << std::setw(9)
            << age.readings << "  " << age.shown << '\n';
      }
      out << (view.ages.empty() ? "No reading of this kind yet.\n" : "");
    });
  });
}

void print_learned(std::ostream& out, const casework::LearnedView& view) {
  out << view.equipment_title << " (family " << view.family << "): the shop's history is "
      << (view.on ? "in the figures" : "NOT in the figures (`dryout shop history on`)") << ".\n"
      << "   knowledge    shop  counted   share  odds times\n"
      << std::fixed << std::setprecision(2);
  for (const casework::LearnedCauseView& cause : view.causes) {
    out << std::setw(12) << cause.share.prior_count << std::setw(8) << cause.share.cases
        << std::setw(9) << cause.share.counted << std::setw(8) << percent(cause.share.after)
        << std::setw(12) << cause.share.factor << "  " << cause.title << '\n';
  }
  for (const casework::LearnedTypicalView& type : view.typical) {
    out << "Typical " << type.title << ": " << type.before << " (" << type.spread_before << ") -> "
        << type.after << " (" << type.spread_after << ") after " << type.readings
        << " sound ones, counted as " << type.counted
        << (type.known_to_library ? "" : "; the library knows nothing of it, so it is not used")
        << '\n';
  }
  out << view.bound << '\n';
}

Exit learned(const Invocation& invocation, const std::string& equipment) {
  return with_shop(invocation, [&](const casework::ShopMemory& shop) {
    return show(invocation.terminal, shop.learned(equipment, invocation.surroundings.year_now),
                [&](const auto& view) { print_learned(invocation.terminal.out, view); });
  });
}

Exit history(const Invocation& invocation, const std::string& word) {
  const Terminal& terminal = invocation.terminal;
  if (!word.empty()) {
    const auto kept = want_shop_history(invocation.surroundings, word == "on");
    if (!kept) {
      return refuse(terminal, kept.problems());
    }
  }
  const auto wanted = shop_history_wanted(invocation.surroundings);
  if (!wanted) {
    return refuse(terminal, wanted.problems());
  }
  if (terminal.json) {
    return answer(terminal, Value::object({{"in_the_figures", *wanted}}));
  }
  terminal.out << (*wanted ? "Closed cases enter the figures; `dryout shop learned` shows how.\n"
                           : "Closed cases stay out of the figures.\n");
  return Exit::done;
}

std::string figure_value(double value) {
  std::ostringstream text;
  text << value;
  return text.str();
}

void print_figure(std::ostream& out, const decision::ShopFigure& figure,
                  const decision::ShopFigure& shipped) {
  out << std::left << std::setw(24) << figure.key << std::right << std::setw(9)
      << figure_value(figure.value) << ' ' << std::left << std::setw(6) << figure.unit << "  "
      << figure.title << " (" << figure_value(figure.least) << " to " << figure_value(figure.most)
      << ')';
  if (shipped.value != figure.value) {
    out << "; shipped " << figure_value(shipped.value);
  }
  out << '\n' << std::right;
}

Value figures_json(const casework::Workshop::ShopFigures& figures) {
  Value list = Value::array();
  for (std::size_t i = 0; i < figures.now.size(); ++i) {
    const decision::ShopFigure& figure = figures.now[i];
    list.append(Value::object({{"key", figure.key},
                               {"title", figure.title},
                               {"unit", figure.unit},
                               {"value", figure.value},
                               {"shipped", figures.shipped.at(i).value},
                               {"least", figure.least},
                               {"most", figure.most},
                               {"because", figure.because},
                               {"source", figure.source}}));
  }
  return list;
}

/// All figures, or with a key one of them: set, back to what is shipped, or as it is.
Exit figures(const Invocation& invocation, const std::string& key, const std::string& typed,
             bool back) {
  const Terminal& terminal = invocation.terminal;
  if (key.empty() && (back || !typed.empty())) {
    return refuse(terminal,
                  {{"say which figure", {}, "", "a key that `dryout shop figures` lists"}});
  }
  if (back && !typed.empty()) {
    return refuse(terminal,
                  {{"a figure is set or taken back, not both", {}, typed, "one of them"}});
  }
  const auto opened = open_workshop(invocation.surroundings);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  casework::Workshop& workshop = **opened;
  if (back || !typed.empty()) {
    std::optional<double> value;
    if (!back) {
      const auto read = quantities::parse_engineering(typed);
      if (!read) {
        return refuse(terminal, read.problems());
      }
      value = *read;
    }
    if (const auto kept = workshop.set_shop_figure(key, value); !kept) {
      return refuse(terminal, kept.problems());
    }
  }
  casework::Workshop::ShopFigures all = workshop.shop_figures();
  if (!key.empty()) {
    const auto other = [&](const decision::ShopFigure& figure) { return figure.key != key; };
    std::erase_if(all.now, other);
    std::erase_if(all.shipped, other);
    if (all.now.empty()) {
      return refuse(terminal, {{"the shop has no such figure",
                                {},
                                '"' + quantities::excerpt(key) + '"',
                                "a key that `dryout shop figures` lists"}});
    }
  }
  if (terminal.json) {
    return answer(terminal, figures_json(all));
  }
  for (std::size_t i = 0; i < all.now.size(); ++i) {
    print_figure(terminal.out, all.now[i], all.shipped.at(i));
  }
  return Exit::done;
}

void add_figures(Commands& commands, CLI::App* parent) {
  static std::deque<bool> kept;
  std::string& key = commands.text();
  std::string& value = commands.text();
  bool& back = kept.emplace_back(false);
  CLI::App* command = commands.add(
      "figures", "The figures that mending is reckoned with; sets one of them",
      [&](const Invocation& invocation) { return figures(invocation, key, value, back); }, parent);
  command->add_option("key", key, "One figure alone: labour_per_hour");
  command->add_option("value", value, "Your own figure for it, within its range");
  command->add_flag("--shipped", back, "Back to the figure that is shipped");
}

void add_find(Commands& commands, CLI::App* parent) {
  static std::deque<casework::ShopSearch> kept;  // options outlive this function
  casework::ShopSearch& search = kept.emplace_back();
  search.most = 50;
  CLI::App* command = commands.add(
      "find", "Cases by equipment, set, symptom, part, cause or any words",
      [&search](const Invocation& invocation) { return find(invocation, search); }, parent);
  command->add_option("words", search.words, "Words that begin words anywhere in the case");
  command->add_option("--equipment", search.equipment, "Kind of equipment (see list equipment)");
  command->add_option("--set", search.set_name, "Words of the set's name");
  command->add_option("--symptom", search.symptom, "Words of a symptom that was there");
  command->add_option("--part", search.part, "Words of a part that was read, named or mended");
  command->add_option("--cause", search.cause, "Words of the cause that was found");
  command->add_option("--most", search.most, "How many at most")->check(CLI::Range(1, 10'000));
}

void add_last_time(Commands& commands, CLI::App* parent) {
  static std::deque<std::int64_t> kept;
  std::string& name = commands.text();
  std::int64_t& like = kept.emplace_back(0);
  CLI::App* command = commands.add(
      "last-time", "What sets like this one had last time",
      [&](const Invocation& invocation) { return last_time(invocation, name, like); }, parent);
  command->add_option("set", name, "Kind of equipment, or words of the set's name");
  command->add_option("--case", like, "A case on the bench: its set, or its symptoms in its kind")
      ->check(CLI::PositiveNumber);
}

void add_readings(Commands& commands, CLI::App* parent) {
  static std::deque<PartWords> kept;
  PartWords& words = kept.emplace_back();
  CLI::App* command = commands.add(
      "readings", "What parts of a kind read, by age of the set",
      [&words](const Invocation& invocation) { return readings(invocation, words); }, parent);
  command->add_option("--technology", words.technology, "wet-aluminium, solid-tantalum, ...")
      ->capture_default_str();
  command->add_option("--kind", words.kind, "esr, impedance, capacitance, ...")
      ->capture_default_str();
  command->add_option("--role", words.role, "Task of the part (see list roles)");
  command->add_option("--capacitance", words.capacitance, "Marked value: 47u");
  command->add_option("--volts", words.volts, "Marked volts: 63");
}

}  // namespace

void add_shop(Commands& commands) {
  CLI::App* parent = commands.root->add_subcommand("shop", "What all cases together say");
  parent->fallthrough();
  parent->require_subcommand(1);
  add_find(commands, parent);
  add_figures(commands, parent);
  add_readings(commands, parent);
  add_last_time(commands, parent);
  add_bundle(commands, parent);
  add_shop_words(commands, parent);
  std::string& family = commands.text();
  std::string& equipment = commands.text();
  CLI::App* counted = commands.add(
      "causes", "What sets end up with, by family of equipment",
      [&](const Invocation& invocation) { return causes(invocation, family, equipment); }, parent);
  counted->add_option("--family", family, "One family alone");
  counted->add_option("--equipment", equipment, "One kind of equipment alone");
  std::string& learner = commands.text();
  commands
      .add(
          "learned", "What closed cases do, or would do, to the figures of a kind of equipment",
          [&learner](const Invocation& invocation) { return learned(invocation, learner); }, parent)
      ->add_option("equipment", learner, "Kind of equipment (see list equipment)")
      ->required();
  std::string& word = commands.text();
  commands
      .add(
          "history", "Lets closed cases into the figures, or keeps them out (the default)",
          [&word](const Invocation& invocation) { return history(invocation, word); }, parent)
      ->add_option("wanted", word, "on, off; without it, what holds now")
      ->check(CLI::IsMember({"on", "off"}));
}

}  // namespace dryout::app
