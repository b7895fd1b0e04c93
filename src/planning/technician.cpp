#include "planning/technician.h"

#include <algorithm>

#include "planning/blame.h"
#include "planning/leading_problem.h"
#include "planning/next_step.h"
#include "planning/plan.h"

namespace dryout::planning {
namespace {

using diagnosis::Foresight;

/// Whose choice needs to know what every check would say.
bool looks_ahead(Habit habit) {
  return habit == Habit::ours || habit == Habit::optimal || habit == Habit::look_ahead ||
         habit == Habit::information_gain;
}

bool makes_checks(Habit habit) { return looks_ahead(habit) || habit == Habit::believing_order; }

bool contains(const std::vector<std::size_t>& list, std::size_t value) {
  return std::find(list.begin(), list.end(), value) != list.end();
}

}  // namespace

Technician::Technician(const diagnosis::Network& model, const Bench& bench, Habit habit,
                       const SimulationSettings& settings, HiddenSet& set, Dice& dice)
    : model_(model), bench_(bench), habit_(habit), settings_(&settings), set_(&set), dice_(&dice) {
  bench_.open.resize(bench_.access.size(), false);
  bench_.give_up = settings.give_up.value_or(bench_.give_up);
  bench_.proof = settings.proof;
  bench_.convinced = settings.convinced;
}

JobRecord Technician::work() {
  look_at_symptoms();
  if (habit_ == Habit::replace_all) {
    replace_all();
  }
  while (!complaint_gone()) {
    const Step step = decide();
    if (step.kind == Step::Kind::give_up) {
      record_.at_bench = record_.minutes;
      record_.minutes += quantities::in_minutes(bench_.give_up);
      return record_;
    }
    if (step.kind == Step::Kind::check) {
      make_check(step.index);
    } else {
      mend(step);
    }
  }
  record_.at_bench = record_.minutes;
  record_.cured = true;
  return record_;
}

void Technician::look_at_symptoms() {
  bench_.complaint.clear();
  const auto is_symptom = [&](std::size_t finding) {
    return contains(settings_->symptoms, finding);
  };
  std::erase_if(evidence_.present, is_symptom);
  std::erase_if(evidence_.absent, is_symptom);
  for (const std::size_t symptom : settings_->symptoms) {
    if (set_->shows(symptom)) {
      evidence_.present.push_back(symptom);
      bench_.complaint.push_back(symptom);
    } else {
      evidence_.absent.push_back(symptom);
    }
  }
}

bool Technician::complaint_gone() const { return bench_.complaint.empty(); }

/// What is believed. Evidence that the model holds for impossible (a misread check, or a world
/// unlike the model) makes the technician forget the checks; symptoms that are impossible by
/// themselves leave nothing to think about.
std::optional<Foresight> Technician::think() {
  std::vector<std::size_t> findings;
  if (looks_ahead(habit_)) {
    for (const CandidateCheck& check : bench_.checks) {
      findings.push_back(check.finding);
    }
  }
  for (int attempt = 0; attempt < 2; ++attempt) {
    auto foresight = diagnosis::infer_with_outlook(model_, evidence_, findings);
    if (foresight) {
      return std::move(*foresight);
    }
    ++record_.contradictions;
    evidence_ = {};
    look_at_symptoms();
  }
  return std::nullopt;
}

/// Without a thought: what the last check points at, else the next check, else the next remedy.
Technician::Step Technician::follow_print() const {
  if (found_bad_) {
    double strongest = 0.0;
    std::optional<std::size_t> remedy;
    for (const diagnosis::Cause& cause : model_.findings[*found_bad_].causes) {
      for (std::size_t r = 0; r < bench_.remedies.size(); ++r) {
        if (bench_.remedies[r].item == cause.item && cause.strength > strongest) {
          strongest = cause.strength;
          remedy = r;
        }
      }
    }
    if (remedy) {
      return {Step::Kind::mend, *remedy, {}};
    }
  }
  if (!bench_.checks.empty()) {
    return {Step::Kind::check, 0, {}};
  }
  return bench_.remedies.empty() ? Step{} : Step{Step::Kind::mend, 0, {}};
}

Technician::Step Technician::decide() {
  if (habit_ == Habit::fixed_order) {
    return follow_print();
  }
  const auto foresight = think();
  if (!foresight) {
    return {};
  }
  if (habit_ == Habit::optimal || habit_ == Habit::look_ahead) {
    return by_leading_problem(*foresight);
  }
  if (habit_ == Habit::ours) {
    return by_advice(*foresight);
  }
  const auto check = check_first(*foresight);
  return check ? *check : mend_next(*foresight);
}

std::optional<Technician::Step> Technician::check_first(const Foresight& foresight) const {
  if (!makes_checks(habit_) || bench_.checks.empty() ||
      is_convinced(model_, foresight.now, bench_)) {
    return std::nullopt;
  }
  return habit_ == Habit::believing_order ? Step{Step::Kind::check, 0, {}}
                                          : most_informative(foresight);
}

Technician::Step Technician::by_advice(const Foresight& foresight) const {
  const NextStep next =
      next_step(model_, foresight, bench_, rank_checks(model_, foresight, bench_));
  switch (next.kind) {
    case NextStep::Kind::check:
      return {Step::Kind::check, next.index, {}};
    case NextStep::Kind::mend:
      return mending(foresight, next.index);
    case NextStep::Kind::stop:
      break;
  }
  return settings_->persist ? mend_next(foresight) : Step{};
}

std::optional<Technician::Step> Technician::most_informative(const Foresight& foresight) const {
  constexpr double bits_least = 1e-3;
  constexpr double minutes_least = 1e-9;
  std::optional<Step> best;
  double most = 0.0;
  for (const RankedCheck& ranked : rank_checks(model_, foresight, bench_)) {
    const double minutes = quantities::in_minutes(ranked.effort + ranked.access_effort);
    const double rate = ranked.gain_bits / std::max(minutes, minutes_least);
    if (ranked.gain_bits > bits_least && rate > most) {
      best = Step{Step::Kind::check, ranked.check, {}};
      most = rate;
    }
  }
  return best;
}

/// The first step of a plan for the bare problem; where there is none, what is most to blame.
Technician::Step Technician::by_leading_problem(const Foresight& foresight) const {
  const LeadingProblem leading =
      leading_problem(model_, foresight, bench_, quantities::in_minutes(settings_->proof));
  const auto planned =
      plan(leading.problem, habit_ == Habit::optimal ? Policy::optimal : Policy::look_ahead);
  if (!planned || planned->first->kind == planning::Step::Kind::give_up) {
    return mend_next(foresight);
  }
  const std::size_t index = planned->first->index;
  return planned->first->kind == planning::Step::Kind::check
             ? Step{Step::Kind::check, leading.checks[index], {}}
             : mending(foresight, leading.remedies[index]);
}

Technician::Step Technician::mend_next(const Foresight& foresight) const {
  const LinearBlame blame(model_, foresight.now, bench_.complaint);
  const std::vector<double> all = blame.of_all(foresight.now.items);
  std::optional<std::size_t> remedy;
  if (habit_ != Habit::probability_first && habit_ != Habit::replace_all) {
    remedy = RemedyOrder(bench_).course(all, bench_.open).first;
    if (!remedy && settings_->persist) {
      remedy = persisting(all);
    }
  } else {
    double most = 0.0;
    for (std::size_t r = 0; r < bench_.remedies.size(); ++r) {
      if (all[bench_.remedies[r].item] > most) {
        most = all[bench_.remedies[r].item];
        remedy = r;
      }
    }
  }
  return remedy ? mending(foresight, *remedy) : Step{};
}

/// Where giving up would cost less: the next remedy all the same, while there is one.
std::optional<std::size_t> Technician::persisting(const std::vector<double>& blame) const {
  Bench stubborn = bench_;
  stubborn.give_up = quantities::hours(1e6);
  const auto first = RemedyOrder(stubborn).course(blame, stubborn.open).first;
  return first || bench_.remedies.empty() ? first : std::optional<std::size_t>(0);
}

Technician::Step Technician::mending(const Foresight& foresight, std::size_t remedy) const {
  const double sound = foresight.now.items[bench_.remedies[remedy].item].front();
  return {Step::Kind::mend, remedy, 1.0 - sound};
}

void Technician::open_for(std::span<const std::size_t> access) {
  const RemedyOrder order(bench_);
  const auto steps = order.opens(access, bench_.open);
  record_.minutes += order.minutes_of(steps);
  for (const std::size_t step : steps) {
    bench_.open[step] = true;
  }
}

void Technician::make_check(std::size_t check) {
  const CandidateCheck made = bench_.checks[check];
  open_for(made.access);
  record_.minutes += quantities::in_minutes(made.effort);
  ++record_.checks;
  record_.dangerous_checks += made.danger == Danger::none ? 0 : 1;
  const bool noted = set_->shows(made.finding) != dice_->happens(settings_->misread);
  found_bad_ = noted ? std::optional(made.finding) : std::nullopt;
  (noted ? evidence_.present : evidence_.absent).push_back(made.finding);
  std::erase_if(bench_.checks,
                [&](const CandidateCheck& other) { return other.finding == made.finding; });
}

void Technician::take_out(std::size_t remedy) {
  const Remedy done = bench_.remedies[remedy];
  open_for(done.access);
  record_.minutes += quantities::in_minutes(done.effort);
  ++record_.replacements;
  record_.needless += set_->sound(done.item) ? 1 : 0;
  set_->mend(done.item);
  for (std::vector<double>& row : model_.items[done.item].given_level) {
    std::fill(row.begin(), row.end(), 0.0);
    row.front() = 1.0;
  }
  std::erase_if(evidence_.present, [&](std::size_t finding) {
    const auto& causes = model_.findings[finding].causes;
    return std::any_of(causes.begin(), causes.end(),
                       [&](const diagnosis::Cause& cause) { return cause.item == done.item; });
  });
}

void Technician::mend(const Step& step) {
  found_bad_.reset();
  if (!record_.verdict && step.predicted) {
    record_.verdict = {*step.predicted, !set_->sound(bench_.remedies[step.index].item)};
  }
  take_out(step.index);
  bench_.remedies.erase(bench_.remedies.begin() + static_cast<std::ptrdiff_t>(step.index));
  record_.minutes += quantities::in_minutes(settings_->proof);
  look_at_symptoms();
}

void Technician::replace_all() {
  std::vector<Remedy> left;
  for (std::size_t r = 0; r < bench_.remedies.size(); ++r) {
    if (settings_->replaced.empty() || contains(settings_->replaced, r)) {
      take_out(r);
    } else {
      left.push_back(bench_.remedies[r]);
    }
  }
  bench_.remedies = std::move(left);
  record_.minutes += quantities::in_minutes(settings_->proof);
  look_at_symptoms();
}

}  // namespace dryout::planning
