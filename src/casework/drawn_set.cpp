#include "casework/drawn_set.h"

#include <algorithm>
#include <utility>

namespace dryout::casework {
namespace {

/// Sets drawn in vain before the equipment is held to be one that never complains.
constexpr int draws_max = 100'000;

bool shows_a_symptom(const Ground& ground, const planning::HiddenSet& set) {
  const auto& findings = ground.compiled.findings;
  for (std::size_t f = 0; f < findings.size(); ++f) {
    if (!findings[f].symptom.empty() && set.shows(f)) {
      return true;
    }
  }
  return false;
}

/// It complains, and would not if all were mended: a complaint with no fault behind it (a leak of
/// the model) teaches nothing.
bool worth_practising(const Ground& ground, const planning::HiddenSet& set) {
  if (!shows_a_symptom(ground, set)) {
    return false;
  }
  planning::HiddenSet mended = set;
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    mended.mend(i);
  }
  return !shows_a_symptom(ground, mended);
}

}  // namespace

DrawnSet::DrawnSet(const Ground& ground, std::unique_ptr<diagnosis::Network> network,
                   planning::Bench bench, planning::HiddenSet hidden)
    : network_(std::move(network)), bench_(std::move(bench)), hidden_(std::move(hidden)) {
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    items_.push_back({ground.compiled.network.items[i].id, ground.compiled.items[i].title});
  }
  for (const diagnosis::CompiledFinding& finding : ground.compiled.findings) {
    findings_.push_back({finding.symptom, finding.check, finding.place});
  }
}

quantities::Result<DrawnSet> DrawnSet::draw(const Ground& ground, diagnosis::Network network,
                                            planning::Bench bench, std::uint64_t seed) {
  auto kept = std::make_unique<diagnosis::Network>(std::move(network));
  planning::Dice dice(seed);
  for (int drawn = 0; drawn < draws_max; ++drawn) {
    planning::HiddenSet hidden(*kept, dice);
    if (worth_practising(ground, hidden)) {
      return DrawnSet(ground, std::move(kept), std::move(bench), std::move(hidden));
    }
  }
  return quantities::Problem{"no set of this kind ever shows a symptom",
                             {},
                             ground.equipment->id,
                             "an equipment whose faults can be noticed"};
}

std::vector<std::string> DrawnSet::symptoms() const {
  std::vector<std::string> shown;
  for (std::size_t f = 0; f < findings_.size(); ++f) {
    if (!findings_[f].symptom.empty() && hidden_.shows(f)) {
      shown.push_back(findings_[f].symptom);
    }
  }
  return shown;
}

bool DrawnSet::looks_bad(const std::string& check, const std::string& place) const {
  for (std::size_t f = 0; f < findings_.size(); ++f) {
    if (findings_[f].check == check && findings_[f].place == place) {
      return hidden_.shows(f);
    }
  }
  return false;  // what no fault can disturb looks good
}

void DrawnSet::open(const std::vector<std::string>& accesses) {
  for (std::size_t a = 0; a < bench_.access.size(); ++a) {
    if (std::find(accesses.begin(), accesses.end(), bench_.access[a].id) != accesses.end()) {
      bench_.open[a] = true;
    }
  }
}

DrawnSet::Mended DrawnSet::mend(const std::string& item) {
  Mended done;
  for (const planning::Remedy& remedy : bench_.remedies) {
    if (items_[remedy.item].id != item) {
      continue;
    }
    const std::vector<std::size_t> steps = steps_to(bench_, remedy.access);
    done.effort = remedy.effort + effort_of(bench_, steps);
    for (const std::size_t step : steps) {
      done.opened.push_back(bench_.access[step].id);
    }
    open(done.opened);
    done.was_faulty = !hidden_.sound(remedy.item);
    hidden_.mend(remedy.item);
  }
  return done;
}

std::vector<std::string> DrawnSet::faults() const {
  std::vector<std::string> titles;
  for (std::size_t i = 0; i < items_.size(); ++i) {
    if (!hidden_.sound(i)) {
      titles.push_back(items_[i].title);
    }
  }
  return titles;
}

}  // namespace dryout::casework
