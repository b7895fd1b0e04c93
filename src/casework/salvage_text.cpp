// What can still be read of the text of a case file: entries by their braces. An entry that cannot
// be read keeps its number, for undo and redo name steps by number.
#include <algorithm>
#include <optional>
#include <utility>

#include "casework/rescue.h"
#include "documents/parse.h"

namespace dryout::casework {
namespace {

using casestore::EventRow;
using casestore::Salvage;
using casestore::SalvagedCase;
using documents::Value;

constexpr std::size_t nowhere = std::string::npos;
constexpr std::string_view blank = " \t\r\n";

/// Where the object that begins at `from` ends, behind its brace; nowhere where it does not.
std::size_t end_of_object(const std::string& text, std::size_t from) {
  int depth = 0;
  bool in_text = false;
  for (std::size_t at = from; at < text.size(); ++at) {
    const char c = text[at];
    if (in_text) {
      if (c == '\\') {
        ++at;
      } else if (c == '"' || c == '\n') {  // no text of ours goes over a line
        in_text = false;
      }
    } else if (c == '"') {
      in_text = true;
    } else if (c == '{') {
      ++depth;
    } else if (c == '}' && --depth == 0) {
      return at + 1;
    }
  }
  return nowhere;
}

/// Whether an object that begins here is an entry of a journal: its first member is "at".
bool begins_entry(const std::string& text, std::size_t brace) {
  const std::size_t next = text.find_first_not_of(blank, brace + 1);
  return next != nowhere && text.compare(next, 4, "\"at\"") == 0;
}

std::optional<EventRow> entry_of(const std::string& object) {
  constexpr double at_max = 253'402'300'799.0;  // to the year 9999
  const auto document = documents::parse(object, "entry");
  const Value* at = document ? document->root.find("at") : nullptr;
  if (at == nullptr || at->number() == nullptr || *at->number() < 0 || *at->number() > at_max) {
    return {};
  }
  EventRow row{0, static_cast<std::int64_t>(*at->number()), "", ""};
  for (const char* act : {"undo", "redo"}) {
    const Value* of = document->root.find(act);
    if (of != nullptr && of->number() != nullptr) {
      row.kind = act;
      row.body = documents::to_line(Value::object({{"of", *of->number()}}));
      return row;
    }
  }
  const Value* command = document->root.find("command");
  const Value* word = command == nullptr ? nullptr : command->find("do");
  if (word == nullptr || word->text() == nullptr) {
    return {};
  }
  row.kind = *word->text();
  row.body = documents::to_line(*command);
  return row;
}

/// How often a member of that name stands in a text.
int members(std::string_view text, std::string_view name) {
  const std::string key = '"' + std::string(name) + '"';
  int count = 0;
  for (std::size_t at = text.find(key); at != nowhere; at = text.find(key, at + 1)) {
    const std::size_t next = text.find_first_not_of(blank, at + key.size());
    count += next != nowhere && text[next] == ':' ? 1 : 0;
  }
  return count;
}

/// How far a brace stands in from the beginning of its line; nowhere where it does not begin it.
std::size_t indent_of(std::string_view text, std::size_t brace) {
  const std::size_t line = text.find_last_of('\n', brace) + 1;  // of nowhere: 0
  return text.find_first_not_of(" \t", line) == brace ? brace - line : nowhere;
}

/// How many entries cannot be read between two that can, and whether that is sure.
struct Gap {
  int entries = 0;
  bool sure = true;
};

Gap gap_in(std::string_view text, std::size_t indent) {
  constexpr std::size_t shortest_entry = 12;  // {"at":0,"undo":2} with a piece gone
  const std::size_t first = text.find_first_not_of(" \t\r\n,]}");
  const std::size_t last = text.find_last_not_of(" \t\r\n,[]{}");
  if (first == nowhere || last == nowhere || last < first || last - first < shortest_entry) {
    return {};
  }
  int braces = 0;
  for (std::size_t at = text.find('{'); at != nowhere && indent != nowhere;
       at = text.find('{', at + 1)) {
    braces += indent_of(text, at) == indent ? 1 : 0;
  }
  const int moments = members(text, "at");
  const int acts = members(text, "command") + members(text, "undo") + members(text, "redo");
  const int most = std::max({1, braces, moments, acts});
  const auto says = [&](int count) { return count == most ? 1 : 0; };
  constexpr std::ptrdiff_t turned_most = 8;  // more bytes that are no text: a block is gone
  const auto no_text = std::count_if(text.begin(), text.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 && blank.find(c) == nowhere;
  });
  return {most, says(braces) + says(moments) + says(acts) >= 2 && no_text <= turned_most};
}

class TextGatherer {
 public:
  explicit TextGatherer(const std::string& text) : text_(text) {}

  Salvage gather() {
    while (at_ < text_.size()) {
      if (stands("\"identity\"")) {
        identity_ = text_behind();
      } else if (stands("\"chain\"")) {
        chain_ = text_behind();
      } else if (stands("\"own\"")) {
        take_own();
      } else if (stands("\"journal\"")) {
        const std::size_t colon = text_.find_first_not_of(blank, at_ + 9);
        const std::size_t list =
            colon == nowhere ? nowhere : text_.find_first_not_of(blank, colon + 1);
        const bool begins = list != nowhere && text_[colon] == ':' && text_[list] == '[';
        at_ = begins ? list + 1 : at_ + 1;
        if (begins) {
          read_journal();
        }
      } else if (text_[at_] == '{' && (begins_entry(text_, at_) || sound_entry())) {
        read_journal();  // what says that a journal begins is gone
      } else {
        ++at_;
      }
    }
    return std::move(all_);
  }

 private:
  [[nodiscard]] bool stands(std::string_view word) const {
    return text_.compare(at_, word.size(), word) == 0;
  }

  /// The text of the member whose name stands here; goes behind the name.
  std::string text_behind() {
    const std::size_t colon = text_.find(':', at_++);
    const std::size_t begin = colon == nowhere ? colon : text_.find('"', colon);
    const std::size_t end = begin == nowhere ? begin : text_.find('"', begin + 1);
    return end == nowhere ? "" : text_.substr(begin + 1, end - begin - 1);
  }

  /// A bundle's own files are in no case.
  void take_own() {
    const std::size_t cases = text_.find("\"cases\"", at_);
    const std::string_view own(text_.data() + at_, std::min(cases, text_.size()) - at_);
    const int files = members(own, "file");
    at_ += own.size();
    if (files > 0) {
      all_.lost.push_back(std::to_string(files) + (files == 1 ? " own file" : " own files") +
                          " of the bundle (equipment, limits, meters): here only cases are saved; "
                          "`dryout shop import` takes them in, and they stay in the bundle");
    }
  }

  std::optional<std::pair<EventRow, std::size_t>> sound_entry() const {
    const std::size_t end = end_of_object(text_, at_);
    auto entry = end == nowhere ? std::nullopt : entry_of(text_.substr(at_, end - at_));
    return entry ? std::optional(std::pair(std::move(*entry), end)) : std::nullopt;
  }

  SalvagedCase& next_case() {
    SalvagedCase& fresh = all_.cases.emplace_back();
    fresh.number = static_cast<std::int64_t>(all_.cases.size());
    fresh.identity = std::exchange(identity_, {});
    fresh.chain = std::exchange(chain_, {});
    fresh.bears_chain = !fresh.chain.empty();
    return fresh;
  }

  void pass_over(SalvagedCase& into, std::size_t from) {
    const Gap gap = gap_in(std::string_view(text_).substr(from, at_ - from), indent_);
    for (int i = 0; i < gap.entries; ++i) {
      into.missing.push_back(++sequence_);
    }
    if (!gap.sure && sure_) {
      sure_ = false;
      into.unvouched.push_back("behind step " + std::to_string(sequence_) +
                               ": how many steps are damaged there cannot be told; what takes back "
                               "or brings back a step by its number is not saved from there on");
    }
  }

  void keep(SalvagedCase& into, EventRow entry) {
    entry.sequence = ++sequence_;
    if (!sure_ && (entry.kind == "undo" || entry.kind == "redo")) {
      into.missing.push_back(entry.sequence);
      into.doubtful.push_back("step " + std::to_string(entry.sequence) + ": " + entry.kind + ' ' +
                              entry.body);
    } else {
      into.events.push_back(std::move(entry));
    }
  }

  [[nodiscard]] bool next_begins() const {
    return stands("\"identity\"") || stands("\"journal\"") || stands("\"chain\"");
  }

  /// From its first entry to its end, or to what begins another.
  void read_journal() {
    SalvagedCase& into = next_case();
    sequence_ = 0;
    sure_ = true;
    indent_ = nowhere;
    std::size_t gap = at_;
    for (; at_ < text_.size() && !next_begins(); ++at_) {
      const bool nothing_between = text_.find_first_not_of(" \t\r\n,", gap) == at_;
      if (text_[at_] == ']' && nothing_between) {
        ++at_;
        return;
      }
      auto found = text_[at_] == '{' ? sound_entry() : std::nullopt;
      if (!found) {
        continue;
      }
      indent_ = indent_ == nowhere ? indent_of(text_, at_) : indent_;
      pass_over(into, gap);
      keep(into, std::move(found->first));
      gap = found->second;
      at_ = gap - 1;
    }
    const bool breaks_off = at_ >= text_.size() && text_.find(']', gap) == nowhere;
    pass_over(into, gap);
    if (breaks_off) {
      into.unvouched.push_back("behind step " + std::to_string(sequence_) +
                               ": the file breaks off; how many steps followed, nobody knows");
    }
  }

  const std::string& text_;
  std::size_t at_ = 0;
  std::string identity_, chain_;
  int sequence_ = 0;
  bool sure_ = true;              ///< the number of every step so far
  std::size_t indent_ = nowhere;  ///< of the entries of this journal
  Salvage all_;
};

}  // namespace

Salvage salvage_text(const std::string& text) { return TextGatherer(text).gather(); }

}  // namespace dryout::casework
