#include "casework/case_exchange.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "casework/apply_command.h"
#include "casework/case_facts.h"
#include "casework/merge_journals.h"
#include "documents/element_stream.h"
#include "documents/reader.h"
#include "quantities/check.h"

namespace dryout::casework {

using casestore::NewEvent;
using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

namespace {

/// Between the identity of a case and the name of one of its branches.
constexpr char branch_sign = '.';

std::string base_of(const std::string& identity) {
  return identity.substr(0, identity.find(branch_sign));
}

bool same(const NewEvent& a, const NewEvent& b) {
  return a.at == b.at && a.kind == b.kind && a.body == b.body;
}

/// How many events two journals have in common before they part.
std::size_t shared_by(const std::vector<NewEvent>& a, const std::vector<NewEvent>& b) {
  const std::size_t most = std::min(a.size(), b.size());
  std::size_t shared = 0;
  while (shared < most && same(a[shared], b[shared])) {
    ++shared;
  }
  return shared;
}

/// Short enough to stand behind an identity; from the step in which the branch parts.
std::string branch_of(const std::string& base, const NewEvent& first_own) {
  constexpr std::size_t digits = 16;
  return base + branch_sign + casestore::derived_identity(first_own).substr(0, digits);
}

std::string case_number(std::int64_t number) { return "case " + std::to_string(number); }

std::string steps(std::size_t count) {
  return std::to_string(count) + (count == 1 ? " step" : " steps");
}

/// The cases of a file of many, or of a shop's bundle, whose heading is one of ours.
Result<Done> each_case_in(const std::string& path, const documents::VisitElement& visit) {
  const auto heading =
      documents::stream_elements(path, {"cases", "own"}, case_bytes_max,
                                 [&](const documents::StreamedElement& each) -> Result<Done> {
                                   return each.key == "cases" ? visit(each) : Result<Done>(Done{});
                                 });
  if (!heading) {
    return heading.problems();
  }
  Problems problems;
  check_heading_of_many(documents::Reader(*heading, problems));
  return problems.empty() ? Result<Done>(Done{}) : problems;
}

}  // namespace

Problem not_as_written(const std::string& named) {
  return {"what lies on the disk is not what was written",
          {named, 0, {}},
          "",
          "another disk; the file was not kept"};
}

Result<Done> read_back(const std::string& path, const std::string& named, std::size_t count) {
  std::size_t sound = 0;
  const auto read = each_case_in(path, [&](const documents::StreamedElement& each) -> Result<Done> {
    const auto file = read_case_among_many(std::string(each.text), named, each.line, each.index);
    sound += file && file->chained ? 1 : 0;
    return file ? Result<Done>(Done{}) : file.problems();
  });
  if (!read) {
    return read;
  }
  return sound == count ? Result<Done>(Done{}) : not_as_written(named);
}

struct CaseExchange::Newcomer {
  std::string identity;
  Journal journal;
  Events events;
  casestore::CaseFacts facts;
  bool chained = false;
};

bool is_earlier_state(const std::string& earlier, const std::string& later) {
  const auto before = read_cases_text(earlier, "earlier");
  const auto after = read_cases_text(later, "later");
  if (!before || !after || before->size() != 1 || after->size() != 1) {
    return false;
  }
  const CaseFile& a = before->front();
  const CaseFile& b = after->front();
  if (a.identity != b.identity || a.journal.size() > b.journal.size()) {
    return false;
  }
  return std::equal(a.journal.begin(), a.journal.end(), b.journal.begin(),
                    [](const Entry& x, const Entry& y) { return same(to_event(x), to_event(y)); });
}

Result<CaseFile> CaseExchange::file_of(std::int64_t number, LeftOut* left_out) const {
  if (left_out == nullptr) {
    if (const auto strict = store_->events(number); !strict) {
      return strict.problems();
    }
  }
  const auto read = store_->journal(number);
  if (!read) {
    return read.problems();
  }
  auto journal = journal_of(read->events, store_path_);
  if (!journal) {
    return journal.problems();
  }
  auto identity = store_->identity(number);
  if (!identity) {
    return identity.problems();
  }
  LeftOut lost;
  for (const int step : read->damaged) {
    lost.push_back(case_number(number) + ", step " + std::to_string(step) +
                   ": damaged in the case store, or missing");
  }
  CaseFile file{std::move(*identity), without_gaps(*journal, case_number(number), lost)};
  if (left_out != nullptr) {
    left_out->insert(left_out->end(), lost.begin(), lost.end());
  }
  return file;
}

Result<std::string> CaseExchange::all_text(LeftOut* left_out) const {
  std::string text(many_begin());
  bool first = true;
  const auto done = each_text(
      [&](const std::string& one) -> Result<Done> {
        text += (std::exchange(first, false) ? "" : std::string(many_between)) + one;
        return Done{};
      },
      left_out);
  return done ? Result<std::string>(text + std::string(many_end)) : done.problems();
}

Result<Done> CaseExchange::each_text(const VisitText& visit, LeftOut* left_out) const {
  constexpr int at_once = 1'000;
  std::int64_t after = 0;
  for (bool more = true; more;) {
    const auto numbers = store_->numbers_after(after, at_once);
    if (!numbers) {
      return numbers.problems();
    }
    more = numbers->size() == static_cast<std::size_t>(at_once);
    for (const std::int64_t number : *numbers) {
      after = number;
      const auto file = file_of(number, left_out);
      if (!file && left_out == nullptr) {
        return file.problems();
      }
      if (!file) {
        left_out->push_back(case_number(number) + ": " +
                            quantities::describe(file.problems().front()));
        continue;
      }
      if (auto visited = visit(case_among_many(*file)); !visited) {
        return visited;
      }
    }
  }
  return Done{};
}

Result<CaseExchange::Events> CaseExchange::events_of(std::int64_t number) const {
  const auto rows = store_->events(number);
  if (!rows) {
    return rows.problems();
  }
  Events events;
  for (const casestore::EventRow& row : *rows) {
    events.push_back({row.at, row.kind, row.body});
  }
  return events;
}

Result<CaseExchange::Newcomer> CaseExchange::admitted_one(CaseFile file) const {
  auto journal = admit(file.journal, *knowledge_, *grounds_);
  if (!journal) {
    return journal.problems();
  }
  Newcomer newcomer;
  for (const Entry& entry : *journal) {
    newcomer.events.push_back(to_event(entry));
  }
  newcomer.facts = facts_of(state_of(*journal), *knowledge_);
  newcomer.identity =
      file.identity.empty() ? casestore::derived_identity(newcomer.events.front()) : file.identity;
  newcomer.journal = std::move(*journal);
  newcomer.chained = file.chained;
  return newcomer;
}

Result<std::vector<CaseExchange::Newcomer>> CaseExchange::admitted(std::vector<CaseFile> files,
                                                                   const std::string& file) const {
  std::vector<Newcomer> newcomers;
  Problems problems;
  for (std::size_t i = 0; i < files.size(); ++i) {
    auto newcomer = admitted_one(std::move(files[i]));
    if (newcomer) {
      newcomers.push_back(std::move(*newcomer));
      continue;
    }
    for (Problem problem : newcomer.problems()) {
      problem.place.file = file;
      if (files.size() > 1) {
        problem.place.pointer = "/cases/" + std::to_string(i) + problem.place.pointer;
      }
      problems.push_back(std::move(problem));
    }
  }
  return problems.empty() ? Result<std::vector<Newcomer>>(std::move(newcomers))
                          : Result<std::vector<Newcomer>>(std::move(problems));
}

Result<Done> CaseExchange::receive_all(const std::vector<Newcomer>& newcomers,
                                       ImportReport& report) {
  std::vector<ArrivedCase> arrived;
  const auto written = store_->together([&]() -> Result<Done> {
    for (const Newcomer& newcomer : newcomers) {
      auto one = receive(newcomer);
      if (!one) {
        return one.problems();
      }
      one->set_name = newcomer.facts.set_name;
      one->chained = newcomer.chained;
      arrived.push_back(std::move(*one));
    }
    return Done{};
  });
  if (!written) {
    return written.problems();
  }
  for (ArrivedCase& one : arrived) {
    report.add(std::move(one));
  }
  return Done{};
}

Result<ImportReport> CaseExchange::take_in(const std::string& text, const std::string& file) {
  auto files = read_cases_text(text, file);
  if (!files) {
    return files.problems();
  }
  const auto newcomers = admitted(std::move(*files), file);
  if (!newcomers) {
    return newcomers.problems();
  }
  ImportReport report;
  const auto written = receive_all(*newcomers, report);
  return written ? Result<ImportReport>(std::move(report)) : written.problems();
}

Result<ImportReport> CaseExchange::take_in_file(const std::string& path) {
  constexpr std::size_t told_most = 100;
  constexpr std::size_t at_once = 200;
  Problems problems;
  const auto read = [&](const documents::StreamedElement& each) -> Result<Newcomer> {
    auto file = read_case_among_many(std::string(each.text), path, each.line, each.index);
    if (!file) {
      return file.problems();
    }
    auto newcomer = admitted_one(std::move(*file));
    if (newcomer) {
      return newcomer;
    }
    Problems named = newcomer.problems();
    for (Problem& problem : named) {
      problem.place.file = path;
      problem.place.pointer = "/cases/" + std::to_string(each.index) + problem.place.pointer;
    }
    return named;
  };
  const auto looked = each_case_in(path, [&](const auto& each) -> Result<Done> {
    const auto newcomer = read(each);
    if (!newcomer) {
      problems.insert(problems.end(), newcomer.problems().begin(), newcomer.problems().end());
    }
    return problems.size() < told_most ? Result<Done>(Done{}) : Result<Done>(problems);
  });
  if (!looked || !problems.empty()) {
    return problems.empty() ? looked.problems() : problems;
  }
  ImportReport report;
  std::vector<Newcomer> waiting;
  const auto write = [&]() -> Result<Done> {
    auto written = receive_all(waiting, report);
    waiting.clear();
    return written;
  };
  auto written = each_case_in(path, [&](const auto& each) -> Result<Done> {
    auto newcomer = read(each);
    if (!newcomer) {
      return newcomer.problems();
    }
    waiting.push_back(std::move(*newcomer));
    return waiting.size() < at_once ? Result<Done>(Done{}) : write();
  });
  written = written ? write() : written;
  if (written) {
    return report;
  }
  problems = written.problems();
  const std::size_t in =
      std::accumulate(report.counts.begin(), report.counts.end(), std::size_t{0});
  problems.front().accepted +=
      "; " + std::to_string(in) + " cases of the file are in: take it in again for the others";
  return problems;
}

Result<ArrivedCase> CaseExchange::receive(const Newcomer& newcomer) {
  const std::string base = base_of(newcomer.identity);
  for (const std::string& identity : {newcomer.identity, base}) {
    const auto number = store_->find_identity(identity);
    if (!number) {
      return number.problems();
    }
    if (!*number) {
      continue;
    }
    const auto ours = events_of(**number);
    if (!ours) {
      return ours.problems();
    }
    const std::size_t shared = shared_by(newcomer.events, *ours);
    if (shared == std::min(newcomer.events.size(), ours->size())) {
      return meet(newcomer, **number, *ours);
    }
    auto merged = merge(newcomer, **number, *ours);
    if (!merged) {
      return merged.problems();
    }
    if (*merged) {
      return std::move(**merged);
    }
    if (identity == base) {
      return keep_both(newcomer, base, **number, *ours);
    }
  }
  return add(newcomer, newcomer.identity);
}

Result<ArrivedCase> CaseExchange::meet(const Newcomer& newcomer, std::int64_t number,
                                       const Events& ours) {
  if (newcomer.events.size() > ours.size()) {
    return extend(newcomer, number, ours.size());
  }
  const std::size_t ahead = ours.size() - newcomer.events.size();
  const std::string how =
      ahead == 0 ? " is already here, step by step"
                 : " is already here and " + steps(ahead) + " longer: it stays as it is";
  return ArrivedCase{number, "", Arrival::known, case_number(number) + how};
}

Result<ArrivedCase> CaseExchange::add(const Newcomer& newcomer, const std::string& identity) {
  const auto numbers = store_->create_cases({{identity, newcomer.facts, newcomer.events}});
  if (!numbers) {
    return numbers.problems();
  }
  return ArrivedCase{numbers->front(), "", Arrival::added,
                     case_number(numbers->front()) + " is new here"};
}

Result<ArrivedCase> CaseExchange::extend(const Newcomer& newcomer, std::int64_t number,
                                         std::size_t ours) {
  const Events further(newcomer.events.begin() + static_cast<std::ptrdiff_t>(ours),
                       newcomer.events.end());
  const auto appended =
      store_->append_events(number, static_cast<int>(ours), further, newcomer.facts);
  if (!appended) {
    return appended.problems();
  }
  if (*appended != casestore::Appended::written) {
    return Problem{"the case was changed by another program in the meantime",
                   {store_path_, 0, {}},
                   case_number(number),
                   "take the file in once more"};
  }
  return ArrivedCase{
      number, "", Arrival::extended,
      case_number(number) + " went on elsewhere: " + steps(further.size()) + " added at its end"};
}

Result<std::optional<ArrivedCase>> CaseExchange::merge(const Newcomer& newcomer,
                                                       std::int64_t number, const Events& ours) {
  std::vector<casestore::EventRow> rows;
  for (const NewEvent& event : ours) {
    rows.push_back({static_cast<int>(rows.size()) + 1, event.at, event.kind, event.body});
  }
  const auto journal = journal_of(rows, store_path_);
  if (!journal) {
    return journal.problems();
  }
  const std::size_t shared = shared_by(newcomer.events, ours);
  const auto lacking = lacking_here(*journal, newcomer.journal, shared);
  if (!lacking) {
    return std::optional<ArrivedCase>();
  }
  if (lacking->empty()) {
    return std::optional(ArrivedCase{number, "", Arrival::known,
                                     case_number(number) + " has all steps of this one already"});
  }
  Journal longer = *journal;
  Events further;
  for (Entry entry : *lacking) {
    entry.sequence = longer.back().sequence + 1;
    further.push_back(to_event(entry));
    longer.push_back(std::move(entry));
  }
  if (!admit(longer, *knowledge_, *grounds_)) {
    return std::optional<ArrivedCase>();
  }
  const auto appended = store_->append_events(number, static_cast<int>(ours.size()), further,
                                              facts_of(state_of(longer), *knowledge_));
  if (!appended) {
    return appended.problems();
  }
  CHECK(*appended == casestore::Appended::written);  // nobody else writes in our transaction
  return std::optional(ArrivedCase{
      number, "", Arrival::merged,
      case_number(number) + " and this one both went on after " + steps(shared) +
          " and only added to it: " + steps(further.size()) + " of the other bench added"});
}

Result<ArrivedCase> CaseExchange::keep_both(const Newcomer& newcomer, const std::string& base,
                                            std::int64_t number, const Events& ours) {
  const std::size_t parted = shared_by(newcomer.events, ours);
  // Each branch shares its first own step with us, so that `shared` grows from branch to branch.
  for (std::size_t shared = parted;;) {
    const std::string branch = branch_of(base, newcomer.events[shared]);
    const auto known = store_->find_identity(branch);
    if (!known) {
      return known.problems();
    }
    if (!*known) {
      auto added = add(newcomer, branch);
      if (added) {
        added->arrival = Arrival::kept_both;
        added->sentence = case_number(number) + " and this one part after " + steps(parted) +
                          ": both are kept, this one as " + case_number(added->number);
      }
      return added;
    }
    const auto theirs = events_of(**known);
    if (!theirs) {
      return theirs.problems();
    }
    const std::size_t further = shared_by(newcomer.events, *theirs);
    if (further == std::min(newcomer.events.size(), theirs->size())) {
      return meet(newcomer, **known, *theirs);
    }
    if (further <= shared) {
      return Problem{"a case of that identity is here, and is another one",
                     {store_path_, 0, {}},
                     branch,
                     "the case as the other bench has it"};
    }
    shared = further;
  }
}

}  // namespace dryout::casework
