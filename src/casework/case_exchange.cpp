#include "casework/case_exchange.h"

#include <algorithm>

#include "casework/apply_command.h"
#include "casework/case_facts.h"

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

}  // namespace

struct CaseExchange::Newcomer {
  std::string identity;
  Events events;
  casestore::CaseFacts facts;
};

std::string_view word_of(Arrival arrival) {
  switch (arrival) {
    case Arrival::added:
      return "added";
    case Arrival::known:
      return "known";
    case Arrival::extended:
      return "extended";
    case Arrival::kept_both:
      break;
  }
  return "kept-both";
}

std::string told(const ImportReport& report) {
  if (report.cases.size() == 1) {
    return report.cases.front().sentence + '.';
  }
  std::string words;
  for (const auto& kind :
       {std::pair{Arrival::added, " new"}, std::pair{Arrival::extended, " gone on elsewhere"},
        std::pair{Arrival::known, " here already"},
        std::pair{Arrival::kept_both, " in conflict and both kept"}}) {
    const auto count =
        std::count_if(report.cases.begin(), report.cases.end(),
                      [&kind](const ArrivedCase& each) { return each.arrival == kind.first; });
    if (count > 0) {
      words += (words.empty() ? "" : ", ") + std::to_string(count) + kind.second;
    }
  }
  return words.empty() ? "No case." : words + '.';
}

Result<CaseFile> CaseExchange::file_of(std::int64_t number) const {
  const auto rows = store_->events(number);
  if (!rows) {
    return rows.problems();
  }
  auto journal = journal_of(*rows, store_path_);
  if (!journal) {
    return journal.problems();
  }
  auto identity = store_->identity(number);
  if (!identity) {
    return identity.problems();
  }
  return CaseFile{std::move(*identity), std::move(*journal)};
}

Result<std::string> CaseExchange::all_text() const {
  auto rows = store_->list();
  if (!rows) {
    return rows.problems();
  }
  std::sort(rows->begin(), rows->end(),
            [](const auto& a, const auto& b) { return a.number < b.number; });
  std::vector<CaseFile> files;
  for (const casestore::CaseRow& row : *rows) {
    auto file = file_of(row.number);
    if (!file) {
      return file.problems();
    }
    files.push_back(std::move(*file));
  }
  return cases_text(files);
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

Result<std::vector<CaseExchange::Newcomer>> CaseExchange::admitted(std::vector<CaseFile> files,
                                                                   const std::string& file) const {
  std::vector<Newcomer> newcomers;
  Problems problems;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto journal = admit(files[i].journal, *knowledge_, *grounds_);
    if (!journal) {
      for (Problem problem : journal.problems()) {
        problem.place.file = file;
        if (files.size() > 1) {
          problem.place.pointer = "/cases/" + std::to_string(i) + problem.place.pointer;
        }
        problems.push_back(std::move(problem));
      }
      continue;
    }
    Newcomer& newcomer = newcomers.emplace_back();
    for (const Entry& entry : *journal) {
      newcomer.events.push_back(to_event(entry));
    }
    newcomer.facts = facts_of(state_of(*journal), *knowledge_);
    newcomer.identity = files[i].identity.empty()
                            ? casestore::derived_identity(newcomer.events.front())
                            : files[i].identity;
  }
  return problems.empty() ? Result<std::vector<Newcomer>>(std::move(newcomers))
                          : Result<std::vector<Newcomer>>(std::move(problems));
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
  const auto written = store_->together([&]() -> Result<Done> {
    for (const Newcomer& newcomer : *newcomers) {
      auto arrived = receive(newcomer);
      if (!arrived) {
        return arrived.problems();
      }
      arrived->set_name = newcomer.facts.set_name;
      report.cases.push_back(std::move(*arrived));
    }
    return Done{};
  });
  return written ? Result<ImportReport>(std::move(report)) : written.problems();
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
  if (*appended == casestore::Appended::overtaken) {
    return Problem{"the case was changed by another program in the meantime",
                   {store_path_, 0, {}},
                   case_number(number),
                   "take the file in once more"};
  }
  return ArrivedCase{
      number, "", Arrival::extended,
      case_number(number) + " went on elsewhere: " + steps(further.size()) + " added at its end"};
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
