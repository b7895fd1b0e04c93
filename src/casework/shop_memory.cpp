#include "casework/shop_memory.h"

#include <algorithm>
#include <map>

#include "casework/beta_law.h"
#include "casework/case_summaries.h"
#include "casework/complaint.h"
#include "casework/subject.h"
#include "casework/wording.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

using casestore::CauseCount;
using quantities::Probability;
using quantities::Result;

CauseShareView share_of(const std::string& subject, std::int64_t cases, std::int64_t of,
                        const knowledge::KnowledgeBase& knowledge) {
  constexpr double tail = 0.05;
  const auto yes = static_cast<double>(cases);
  const auto no = static_cast<double>(of - cases);
  CauseShareView view{subject, title_of_subject(knowledge, subject), cases, {}, {}, {}};
  view.of = of;
  view.share = Probability(of == 0 ? 0.0 : yes / static_cast<double>(of));
  view.least = Probability(beta_quantile(tail, yes + 1.0, no + 1.0));
  view.most = Probability(beta_quantile(1.0 - tail, yes + 1.0, no + 1.0));
  return view;
}

/// Counts of one family or equipment, added up over what they do not tell apart.
CausesView causes_of(const std::vector<CauseCount>& counts, const std::string& family,
                     std::string title, const knowledge::KnowledgeBase& knowledge) {
  CausesView view{family, std::move(title), 0, 0, {}};
  std::map<std::string, std::int64_t> by_subject;
  for (const CauseCount& count : counts) {
    if (count.family == family) {
      view.closed += count.cases;
      (count.subject.empty() ? view.without_cause : by_subject[count.subject]) += count.cases;
    }
  }
  for (const auto& [subject, cases] : by_subject) {
    view.causes.push_back(share_of(subject, cases, view.closed - view.without_cause, knowledge));
  }
  std::stable_sort(view.causes.begin(), view.causes.end(),
                   [](const auto& a, const auto& b) { return a.cases > b.cases; });
  return view;
}

/// The value below which a share of the counted readings lies.
double quantile(const std::map<int, std::int64_t>& bins, std::int64_t total, double share) {
  const double wanted = share * static_cast<double>(total);
  double below = 0.0;
  for (const auto& [bin, readings] : bins) {
    below += static_cast<double>(readings);
    if (below >= wanted) {
      return casestore::middle_of_bin(bin);
    }
  }
  return 0.0;
}

/// Readings by (decade or none, standing or all); the key sorts all ages first.
struct Pile {
  std::optional<int> decade;
  bool all_ages = false;
  std::string standing;
  std::map<int, std::int64_t> bins;
  std::int64_t total = 0;
  void add(const casestore::ReadingCount& count) {
    bins[count.bin] += count.readings;
    total += count.readings;
  }
};

std::string age_of(const Pile& pile) {
  if (pile.all_ages) {
    return "all ages";
  }
  if (!pile.decade) {
    return "age unknown";
  }
  const int from = *pile.decade * 10;
  return std::to_string(from) + " to " + std::to_string(from + 9) + " years";
}

AgeReadings told(const Pile& pile, ReadingKind kind) {
  AgeReadings view{age_of(pile), pile.standing, pile.total, 0, 0, 0, 0, 0, ""};
  view.p10 = quantile(pile.bins, pile.total, 0.10);
  view.p25 = quantile(pile.bins, pile.total, 0.25);
  view.p50 = quantile(pile.bins, pile.total, 0.50);
  view.p75 = quantile(pile.bins, pile.total, 0.75);
  view.p90 = quantile(pile.bins, pile.total, 0.90);
  view.shown = "half below " + shown(kind, view.p50) + ", a tenth below " + shown(kind, view.p10) +
               ", a tenth above " + shown(kind, view.p90);
  return view;
}

std::vector<AgeReadings> by_age(const std::vector<casestore::ReadingCount>& counts,
                                ReadingKind kind) {
  std::map<std::pair<int, int>, Pile> piles;  // (decade + 2, standing + 1); 0 = all
  for (const casestore::ReadingCount& count : counts) {
    for (const bool all_ages : {true, false}) {
      for (const bool all : {true, false}) {
        if (!all && count.standing == casestore::Standing::not_known) {
          continue;
        }
        const int age = all_ages ? 0 : count.decade.value_or(-1) + 2;
        Pile& pile = piles[{age, all ? 0 : static_cast<int>(count.standing) + 1}];
        pile.decade = count.decade;
        pile.all_ages = all_ages;
        pile.standing = all                                            ? "all"
                        : count.standing == casestore::Standing::sound ? "sound"
                                                                       : "bad";
        pile.add(count);
      }
    }
  }
  std::vector<AgeReadings> views;
  views.reserve(piles.size());
  for (const auto& [key, pile] : piles) {
    views.push_back(told(pile, kind));
  }
  return views;
}

std::string title_of_type(const knowledge::KnowledgeBase& knowledge, const ReadingsAsked& asked,
                          ReadingKind kind) {
  const auto* technology = knowledge::find(knowledge.technologies, asked.technology);
  std::string title = title_of(kind) + ", " +
                      (technology == nullptr ? asked.technology : mid_sentence(technology->title));
  if (asked.capacitance.si() > 0.0) {
    title += ", " + quantities::format(asked.capacitance);
  }
  if (asked.rated.si() > 0.0) {
    title += ", " + quantities::format(asked.rated);
  }
  return asked.role.empty()
             ? title
             : title + ", " + mid_sentence(title_of_subject(knowledge, "role:" + asked.role));
}

}  // namespace

Result<ShopSearchView> ShopMemory::find(const ShopSearch& search) const {
  if (!search.equipment.empty()) {
    if (const auto known = find_equipment(*knowledge_, search.equipment); !known) {
      return known.problems();
    }
  }
  const auto found = store_->find(search);
  if (!found) {
    return found.problems();
  }
  return ShopSearchView{summaries_of(found->rows, *knowledge_), found->more};
}

Result<std::vector<CausesView>> ShopMemory::causes(const std::string& family,
                                                   const std::string& equipment) const {
  const knowledge::Equipment* one = nullptr;
  if (!equipment.empty()) {
    const auto known = find_equipment(*knowledge_, equipment);
    if (!known) {
      return known.problems();
    }
    one = *known;
  }
  const auto counts = store_->cause_counts(family, equipment);
  if (!counts) {
    return counts.problems();
  }
  std::vector<CausesView> views;
  for (const CauseCount& count : *counts) {
    if (views.empty() || views.back().family != count.family) {
      const std::string title = one == nullptr ? count.family : one->title;
      views.push_back(causes_of(*counts, count.family, title, *knowledge_));
    }
  }
  return views;
}

Result<ReadingsView> ShopMemory::readings(const ReadingsAsked& asked) const {
  if (knowledge::find(knowledge_->technologies, asked.technology) == nullptr) {
    return unknown("technology", asked.technology, ids_of(knowledge_->technologies));
  }
  const auto kind = choice_of<ReadingKind>(asked.kind);
  if (!kind) {
    return quantities::Problem{"unknown kind of reading",
                               {},
                               '"' + quantities::excerpt(asked.kind) + '"',
                               "esr, impedance, capacitance, leakage-current, dc-resistance, "
                               "ripple, dc-volts"};
  }
  const auto counts = store_->reading_counts(asked);
  if (!counts) {
    return counts.problems();
  }
  return ReadingsView{title_of_type(*knowledge_, asked, *kind), asked.kind, by_age(*counts, *kind)};
}

}  // namespace dryout::casework
