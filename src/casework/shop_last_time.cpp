// What sets like this one had last time: single cases, read back from their journals.
#include <algorithm>
#include <map>
#include <utility>

#include "casework/apply_command.h"
#include "casework/journal.h"
#include "casework/shop_memory.h"
#include "casework/subject.h"
#include "casework/wording.h"

namespace dryout::casework {
namespace {

using quantities::Result;

/// A longer pause between two steps was not spent at the bench (judgement).
constexpr std::int64_t pause_most_s = 1800;

quantities::Second at_bench(const std::vector<casestore::EventRow>& events) {
  std::int64_t seconds = 0;
  for (std::size_t i = 1; i < events.size(); ++i) {
    const std::int64_t pause = events[i].at - events[i - 1].at;
    seconds += pause > 0 && pause <= pause_most_s ? pause : 0;
  }
  return quantities::Second(static_cast<double>(seconds));
}

/// The questions that find cases like this one, each with what an answer counts: the same name
/// more than one symptom in common.
std::vector<std::pair<casestore::CaseQuery, int>> alike_queries(const CaseState& state, int most) {
  constexpr int same_name = 2;
  casestore::CaseQuery query;
  query.closed_only = true;
  query.newest_first = true;
  query.most = most;
  std::vector<std::pair<casestore::CaseQuery, int>> queries;
  query.set_name = state.intake.set_name;
  if (!query.set_name.empty()) {
    queries.emplace_back(query, same_name);
  }
  query.set_name.clear();
  query.equipment = state.intake.equipment;
  for (const auto& report : state.symptoms) {
    if (report.what.seen == Seen::yes && report.repairs == 0) {
      query.symptom = report.what.symptom;
      queries.emplace_back(query, 1);
    }
  }
  return queries;
}

/// Cases found by several questions, each once.
class Alike {
 public:
  explicit Alike(std::int64_t number) : number_(number) {}
  void add(const std::vector<casestore::CaseRow>& rows, int weight) {
    for (const casestore::CaseRow& row : rows) {
      if (row.number != number_) {
        auto& found = rows_[row.number];
        found.first += weight;
        found.second = row;
      }
    }
  }
  [[nodiscard]] std::vector<casestore::CaseRow> ranked() const {
    std::vector<std::pair<int, casestore::CaseRow>> found;
    for (const auto& [number, row] : rows_) {
      found.push_back(row);
    }
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
      return std::pair(a.first, a.second.number) > std::pair(b.first, b.second.number);
    });
    std::vector<casestore::CaseRow> rows;
    rows.reserve(found.size());
    for (auto& [weight, row] : found) {
      rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  std::int64_t number_;
  std::map<std::int64_t, std::pair<int, casestore::CaseRow>> rows_;
};

}  // namespace

Result<LastTimeCase> ShopMemory::last_time_case(const casestore::CaseRow& row) const {
  const auto events = store_->events(row.number);
  if (!events) {
    return events.problems();
  }
  const auto journal = journal_of(*events, "case " + std::to_string(row.number));
  if (!journal) {
    return journal.problems();
  }
  const CaseState state = state_of(*journal);
  const Subjects subjects(*knowledge_, state);
  LastTimeCase told;
  told.number = row.number;
  told.set_name = row.facts.set_name;
  const auto* equipment = knowledge::find(knowledge_->equipment, row.facts.equipment);
  told.equipment_title = equipment == nullptr ? row.facts.equipment : equipment->title;
  told.opened = local_time(row.opened_at);
  told.complaint = row.facts.complaint;
  told.at_bench = at_bench(*events);
  for (const auto& report : state.symptoms) {
    const auto* symptom = knowledge::find(knowledge_->symptoms, report.what.symptom);
    if (report.what.seen == Seen::yes && symptom != nullptr) {
      told.symptoms.push_back(symptom->title);
    }
  }
  for (const auto& repair : state.repairs) {
    const std::string& fitted = repair.what.fitted;
    told.repairs.push_back(subjects.title_of_item(repair.what.item) + ": " + repair.what.action +
                           (fitted.empty() ? "" : ", " + fitted));
  }
  if (state.closed) {
    const std::string& cause = state.closed->what.cause;
    told.cause = cause.empty() ? "" : subjects.title_of_item(cause);
    told.summary = state.closed->what.summary;
  }
  return told;
}

Result<LastTimeView> ShopMemory::last_time(const std::string& equipment_or_name, int most) const {
  LastTimeView view;
  casestore::CaseQuery query;
  query.closed_only = true;
  query.newest_first = true;
  query.most = most;
  const auto* equipment = knowledge::find(knowledge_->equipment, equipment_or_name);
  if (equipment != nullptr) {
    query.equipment = equipment->id;
    view.asked = equipment->title;
    const auto counted = causes("", equipment->id);
    if (!counted) {
      return counted.problems();
    }
    view.causes = counted->empty() ? std::vector<CauseShareView>{} : counted->front().causes;
  } else {
    query.set_name = equipment_or_name;
    view.asked = "sets called \"" + equipment_or_name + '"';
  }
  const auto found = store_->find(query);
  if (!found) {
    return found.problems();
  }
  view.more = found->more;
  for (const casestore::CaseRow& row : found->rows) {
    auto told = last_time_case(row);
    if (!told) {
      return told.problems();
    }
    view.cases.push_back(std::move(*told));
  }
  return view;
}

Result<LastTimeView> ShopMemory::last_time_like(std::int64_t number, int most) const {
  const auto events = store_->events(number);
  if (!events) {
    return events.problems();
  }
  const auto journal = journal_of(*events, "case " + std::to_string(number));
  if (!journal) {
    return journal.problems();
  }
  LastTimeView view;
  Alike alike(number);
  for (const auto& [query, weight] : alike_queries(state_of(*journal), most + 1)) {
    const auto found = store_->find(query);
    if (!found) {
      return found.problems();
    }
    view.more = view.more || found->more;
    alike.add(found->rows, weight);
  }
  const auto ranked = alike.ranked();
  view.more = view.more || ranked.size() > static_cast<std::size_t>(most);
  for (std::size_t i = 0; i < std::min(ranked.size(), static_cast<std::size_t>(most)); ++i) {
    auto told = last_time_case(ranked[i]);
    if (!told) {
      return told.problems();
    }
    view.cases.push_back(std::move(*told));
  }
  view.asked = "sets like this one";
  return view;
}

}  // namespace dryout::casework
