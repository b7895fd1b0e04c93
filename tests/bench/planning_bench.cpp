// How planning grows: ranking all checks of a set, the contingency tree, the exact optimum and our
// planner on bare problems.
#include <benchmark/benchmark.h>

#include <vector>

#include "planning/invented_sets.h"
#include "planning/plan.h"
#include "planning/random_problems.h"

namespace dryout::planning {
namespace {

diagnosis::Evidence complaint_of(const InventedSet& set, std::size_t symptoms) {
  diagnosis::Evidence evidence;
  for (std::size_t f = 0; f < set.network.findings.size(); ++f) {
    if (set.network.findings[f].id.ends_with("-symptom") && evidence.present.size() < symptoms) {
      evidence.present.push_back(f);
    }
  }
  return evidence;
}

/// About `items` items in blocks of ten; at most `checks` of their checks are kept.
InventedSet set_of(std::size_t items, std::size_t checks) {
  InventedSet set = SetInventor(1).invent(items / 10, 9);
  if (set.bench.checks.size() > checks) {
    set.bench.checks.resize(checks);
  }
  return set;
}

std::vector<std::size_t> findings_of(const Bench& bench) {
  std::vector<std::size_t> findings;
  for (const CandidateCheck& check : bench.checks) {
    findings.push_back(check.finding);
  }
  return findings;
}

void rank_alone(benchmark::State& state) {
  const InventedSet set =
      set_of(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)));
  const auto foresight =
      diagnosis::infer_with_outlook(set.network, complaint_of(set, 8), findings_of(set.bench));
  for (auto _ : state) {
    benchmark::DoNotOptimize(rank_checks(set.network, *foresight, set.bench));
  }
}
BENCHMARK(rank_alone)
    ->ArgNames({"items", "checks"})
    ->Args({100, 100})
    ->Args({500, 100})
    ->Args({500, 300})
    ->Args({2000, 300})
    ->Args({5000, 1000})
    ->Unit(benchmark::kMillisecond);

void infer_and_rank(benchmark::State& state) {
  const InventedSet set =
      set_of(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(1)));
  const diagnosis::Evidence evidence = complaint_of(set, 8);
  const auto findings = findings_of(set.bench);
  for (auto _ : state) {
    const auto foresight = diagnosis::infer_with_outlook(set.network, evidence, findings);
    benchmark::DoNotOptimize(rank_checks(set.network, *foresight, set.bench));
  }
}
BENCHMARK(infer_and_rank)
    ->ArgNames({"items", "checks"})
    ->Args({100, 100})
    ->Args({500, 300})
    ->Args({2000, 300})
    ->Unit(benchmark::kMillisecond);

void tree(benchmark::State& state) {
  const InventedSet set = set_of(500, 300);
  const diagnosis::Evidence evidence = complaint_of(set, 4);
  const int depth = static_cast<int>(state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(contingency_tree(set.network, evidence, set.bench, depth));
  }
}
BENCHMARK(tree)->ArgName("depth")->DenseRange(1, 6)->Unit(benchmark::kMillisecond);

/// Twenty problems of a size; giving up never tempts.
void plan_problems(benchmark::State& state, Policy policy) {
  const auto faults = static_cast<int>(state.range(0));
  std::vector<TroubleshootingProblem> problems;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    problems.push_back(RandomProblem(seed).make({.faults_max = faults,
                                                 .extra_repairs_max = 3,
                                                 .checks_max = faults,
                                                 .access_max = 5,
                                                 .give_up_min = 1000.0,
                                                 .give_up_max = 1001.0}));
  }
  for (auto _ : state) {
    for (const TroubleshootingProblem& problem : problems) {
      benchmark::DoNotOptimize(plan(problem, policy));
    }
  }
}
BENCHMARK_CAPTURE(plan_problems, optimal, Policy::optimal)
    ->ArgName("faults")
    ->Arg(4)
    ->Arg(8)
    ->Arg(12)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(plan_problems, ours, Policy::ours)
    ->ArgName("faults")
    ->Arg(4)
    ->Arg(8)
    ->Arg(12)
    ->Arg(24)
    ->Arg(48)
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dryout::planning
