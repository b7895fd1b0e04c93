#include "planning/simulation.h"

#include <algorithm>
#include <optional>
#include <string>

#include "planning/technician.h"

namespace dryout::planning {
namespace {

using documents::Value;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

/// Sets drawn in vain before a job is held for impossible.
constexpr int draws_max = 100'000;

/// Spreads neighbouring seeds over all 64 bits (the finaliser of a multiplicative hash).
std::uint64_t job_seed(std::uint64_t seed, std::uint64_t job) {
  std::uint64_t mixed = seed * 0x9e3779b97f4a7c15U + job;
  mixed = (mixed ^ (mixed >> 31U)) * 0xbf58476d1ce4e5b9U;
  return mixed ^ (mixed >> 29U);
}

void hold(Problems& problems, bool good, const char* name, double found, const char* accepted) {
  if (!good) {
    problems.push_back(
        {std::string(name) + " is out of range", {"", 0, ""}, std::to_string(found), accepted});
  }
}

Problems check(const diagnosis::Network& network, const Bench& bench,
               const SimulationSettings& settings) {
  Problems problems;
  hold(problems, settings.jobs > 0, "the number of jobs", 0.0, "1 or more");
  hold(problems, settings.odds_factor >= 1.0 && settings.odds_factor <= 1e6, "the odds factor",
       settings.odds_factor, "1 to 1000000");
  hold(problems, settings.misread >= 0.0 && settings.misread < 1.0, "the share of misread checks",
       settings.misread, "0 to below 1");
  hold(problems, settings.convinced > 0.0 && settings.convinced <= 1.0, "the blame that convinces",
       settings.convinced, "above 0 up to 1");
  hold(problems, !settings.symptoms.empty(), "the number of symptoms", 0.0, "1 or more");
  for (const std::size_t symptom : settings.symptoms) {
    hold(problems, symptom < network.findings.size(), "a symptom", static_cast<double>(symptom),
         "an index of a finding");
  }
  for (const std::size_t remedy : settings.replaced) {
    hold(problems, remedy < bench.remedies.size(), "a remedy", static_cast<double>(remedy),
         "an index of a remedy");
  }
  return problems;
}

bool ails(const HiddenSet& set, const std::vector<std::size_t>& symptoms) {
  return std::any_of(symptoms.begin(), symptoms.end(),
                     [&](std::size_t symptom) { return set.shows(symptom); });
}

std::optional<JobRecord> play(const diagnosis::Network& model, const Bench& bench, Habit habit,
                              const SimulationSettings& settings, std::uint64_t seed) {
  Dice dice(seed);
  diagnosis::Network other;
  if (settings.odds_factor > 1.0) {
    other = perturb(model, settings.odds_factor, dice);
  }
  const diagnosis::Network& world = settings.odds_factor > 1.0 ? other : model;
  for (int draw = 0; draw < draws_max; ++draw) {
    HiddenSet set(world, dice);
    if (ails(set, settings.symptoms)) {
      return Technician(model, bench, habit, settings, set, dice).work();
    }
  }
  return std::nullopt;
}

void add(SimulationReport& report, const JobRecord& job) {
  const double share = 1.0 / static_cast<double>(report.jobs);
  report.mean_time += share * quantities::minutes(job.minutes);
  report.at_bench += share * quantities::minutes(job.at_bench);
  report.checks += share * static_cast<double>(job.checks);
  report.dangerous_checks += share * static_cast<double>(job.dangerous_checks);
  report.replacements += share * static_cast<double>(job.replacements);
  report.needless_replacements += share * static_cast<double>(job.needless);
  report.misses += job.cured ? 0.0 : share;
  report.contradictions += share * static_cast<double>(job.contradictions);
  if (job.verdict) {
    report.verdicts.add(job.verdict->predicted, job.verdict->was_faulty);
  }
}

}  // namespace

std::string_view name_of(Habit habit) {
  switch (habit) {
    case Habit::ours:
      return "ours";
    case Habit::optimal:
      return "optimal";
    case Habit::look_ahead:
      return "look-ahead";
    case Habit::information_gain:
      return "information-gain";
    case Habit::probability_over_cost:
      return "probability-over-cost";
    case Habit::fixed_order:
      return "fixed-order";
    case Habit::believing_order:
      return "believing-order";
    case Habit::probability_first:
      return "probability-first";
    case Habit::replace_all:
      break;
  }
  return "replace-all";
}

Result<SimulationReport> simulate(const diagnosis::Network& network, const Bench& bench,
                                  Habit habit, const SimulationSettings& settings) {
  if (Problems problems = check(network, bench, settings); !problems.empty()) {
    return problems;
  }
  SimulationReport report;
  report.habit = habit;
  report.jobs = settings.jobs;
  for (std::size_t job = 0; job < settings.jobs; ++job) {
    const auto record = play(network, bench, habit, settings, job_seed(settings.seed, job));
    if (!record) {
      return Problem{"no set drawn from this network shows a symptom",
                     {},
                     std::to_string(draws_max) + " sets without one",
                     "symptoms that can occur"};
    }
    add(report, *record);
  }
  return report;
}

Value to_json(const SimulationReport& report) {
  Value bins = Value::array();
  for (std::size_t b = 0; b < report.verdicts.bins().size(); ++b) {
    const auto& bin = report.verdicts.bins()[b];
    const auto count = static_cast<double>(bin.count);
    if (bin.count > 0) {
      bins.append(Value::object({{"from", static_cast<double>(b) / Calibration::bins_count},
                                 {"count", bin.count},
                                 {"predicted", bin.predicted_sum / count},
                                 {"came_true", static_cast<double>(bin.came_true) / count}}));
    }
  }
  return Value::object({{"policy", name_of(report.habit)},
                        {"jobs", report.jobs},
                        {"minutes", quantities::in_minutes(report.mean_time)},
                        {"minutes_at_bench", quantities::in_minutes(report.at_bench)},
                        {"checks", report.checks},
                        {"dangerous_checks", report.dangerous_checks},
                        {"replacements", report.replacements},
                        {"needless_replacements", report.needless_replacements},
                        {"misses", report.misses},
                        {"contradictions", report.contradictions},
                        {"verdicts", Value::object({{"count", report.verdicts.count()},
                                                    {"brier", report.verdicts.brier()},
                                                    {"log_score", report.verdicts.log_score()},
                                                    {"reliability", std::move(bins)}})}});
}

}  // namespace dryout::planning
