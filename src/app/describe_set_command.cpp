// dryout describe-set PARTS.csv: a technician's own equipment out of a parts list.
#include <CLI/CLI.hpp>
#include <deque>
#include <ostream>

#include "app/commands.h"
#include "app/json_list.h"
#include "app/own_files.h"
#include "app/usable_knowledge.h"
#include "casework/own_set.h"
#include "quantities/engineering_notation.h"

namespace dryout::app {
namespace {

using casework::OwnSet;
using documents::Value;

struct SetWords {
  casework::OwnSetWish wish;
  bool dry_run = false;
};

Value group_json(const knowledge::PartGroup& group) {
  Value value = Value::object({{"id", group.id},
                               {"title", group.title},
                               {"role", group.role},
                               {"block", group.block},
                               {"count", group.count}});
  value.set("capacitance_F",
            group.capacitance.si() > 0.0 ? Value(group.capacitance.si()) : Value());
  value.set("rated_V", group.rated.si() > 0.0 ? Value(group.rated.si()) : Value());
  return value.set("references", texts_json(group.references)), value;
}

Value own_set_json(const OwnSet& set, const std::string& written) {
  Value value = Value::object({{"id", set.id}, {"title", set.title}, {"like", set.like.id}});
  value.set("written", written.empty() ? Value() : Value(written));
  value.set("capacitors", set.capacitors).set("placed", set.placed);
  value.set("not_fitted", set.not_fitted);
  Value nearest = Value::array();
  for (const knowledge::Nearness& near : set.nearest) {
    nearest.append(Value::object(
        {{"id", near.id}, {"title", near.title}, {"placed", near.placed}, {"fit", near.fit}}));
  }
  value.set("nearest", std::move(nearest));
  value.set("missing", texts_json(set.missing));
  value.set("lent", texts_json(set.lent));
  value.set("kept", texts_json(set.kept));
  Value others = Value::object();
  for (const auto& [letters, count] : set.others) others.set(letters, count);
  value.set("other_parts", std::move(others));
  value.set("unread_columns", texts_json(set.unread));
  return value.set("groups", list_json(set.groups, group_json)), value;
}

void print_under(std::ostream& out, const char* heading, const std::vector<std::string>& list) {
  if (list.empty()) return;
  out << heading << '\n';
  for (const std::string& line : list) out << "  " << line << '\n';
}

void print(std::ostream& out, const OwnSet& set, const std::string& written, bool like_told) {
  out << set.sentence << '\n';
  if (!like_told) {
    out << "The architecture that fits best was taken; --like takes another:\n";
    for (const knowledge::Nearness& near : set.nearest) {
      out << "  " << near.id << "  (" << near.placed << " placed)\n";
    }
  }
  out << "Groups:\n";
  for (const knowledge::PartGroup& group : set.groups) {
    out << "  " << group.count << " x " << group.title << " (" << group.block << ')';
    for (std::size_t i = 0; i < group.references.size(); ++i) {
      out << (i == 0 ? ": " : ", ") << group.references[i];
    }
    out << '\n';
  }
  print_under(out, "Role or block taken from a look-alike of the architecture:", set.lent);
  print_under(out, "Stayed the architecture's, as the list has nothing in their blocks:", set.kept);
  print_under(out, "Missing:", set.missing);
  if (!set.others.empty()) {
    out << "Other parts:";
    for (const auto& [letters, count] : set.others) out << ' ' << count << ' ' << letters;
    out << '\n';
  }
  print_under(out, "Columns that were not read:", set.unread);
  out << (written.empty() ? "Nothing was written." : "Kept as " + written) << '\n';
}

Exit describe(const Invocation& invocation, const SetWords& words) {
  const Terminal& terminal = invocation.terminal;
  const casework::OwnFiles files = own_files(invocation.surroundings);
  const auto usable = load_usable_knowledge(invocation.surroundings);
  if (!usable) {
    return refuse(terminal, usable.problems());
  }
  tell_left_out(terminal.err, usable->left_out);
  const auto text = files.read(words.wish.file);
  if (!text) {
    return refuse(terminal, text.problems());
  }
  const auto set = casework::describe_own_set(usable->loaded.base, *text, words.wish);
  if (!set) {
    return refuse(terminal, set.problems());
  }
  std::string written;
  if (!words.dry_run) {
    const auto kept = files.keep(set->file_name, set->file_text, words.wish.replace);
    if (!kept) {
      return refuse(terminal, kept.problems());
    }
    written = *kept;
  }
  if (terminal.json) {
    return answer(terminal, own_set_json(*set, written));
  }
  print(terminal.out, *set, written, !words.wish.like.empty());
  return Exit::done;
}

}  // namespace

void add_describe_set(Commands& commands) {
  static std::deque<SetWords> kept;  // options outlive this function
  SetWords& words = kept.emplace_back();
  CLI::App* command =
      commands.add("describe-set", "Makes an equipment of your own out of a parts list (CSV)",
                   [&words](const Invocation& invocation) { return describe(invocation, words); });
  command
      ->add_option("parts", words.wish.file,
                   "The list: reference, value, volts, technology, board, block, role")
      ->required();
  command->add_option("--like", words.wish.like,
                      "The nearest architecture (dryout list equipment); else the best fit");
  command->add_option("--id", words.wish.id, "Of the new equipment; else of its title");
  command->add_option("--title", words.wish.title, "Its name; else that of the file");
  command->add_flag("--only-listed", words.wish.only_listed,
                    "Blocks without a listed capacitor have none");
  command->add_flag("--replace", words.wish.replace, "Overwrite your own equipment of that id");
  command->add_flag("--dry-run", words.dry_run, "Show what would come of it, write nothing");
}

}  // namespace dryout::app
