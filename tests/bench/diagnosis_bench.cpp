// How inference and re-ranking grow with items, positive findings, cohorts and candidates.
//
//   cmake --preset release && cmake --build --preset release --target bench_diagnosis
//   build/release/tests/bench/bench_diagnosis
//
// multiply_adds: products of one forward, one backward sweep and of their meeting, per second of
// the whole inference; hold it against PeakMultiplyAdd. held: bytes that evidence, plan, sweep and
// marginals keep while an answer is read off. draw_growth.py makes the pictures of the growth.
//
// Generated networks: fault prior 10^U(-3,-1.5), times 1, 4, 16 by level (at most 0.9), levels 0.6,
// 0.3, 0.1, leak 10^U(-3,-1.3), links U(0.2, 0.95), or U(0.02, 0.2) where weak. Invented.
#include <benchmark/benchmark.h>
#include <malloc.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "diagnosis/inference.h"

namespace dryout::diagnosis {
namespace {

struct Shape {
  std::size_t items = 40;
  std::size_t cohort_size = 8;
  std::size_t parents = 5;
  std::size_t positives = 8;
  std::size_t negatives = 6;
  std::size_t candidates = 0;
  bool part_checks = false;  ///< each candidate looks at one item, in turn
  bool weak = false;
};

struct Case {
  Network network;
  Evidence evidence;
  std::vector<std::size_t> candidates;
};

class Generator {
 public:
  explicit Generator(const Shape& shape) : shape_(shape), random_(20) {}

  Case run() {
    Case made;
    for (std::size_t i = 0; i < shape_.items; ++i) {
      add_item(made.network, i);
    }
    const std::size_t findings = shape_.positives + shape_.negatives + shape_.candidates;
    for (std::size_t f = 0; f < findings; ++f) {
      add_finding(made.network, f);
      if (f < shape_.positives) {
        made.evidence.present.push_back(f);
      } else if (f < shape_.positives + shape_.negatives) {
        made.evidence.absent.push_back(f);
      } else {
        made.candidates.push_back(f);
      }
    }
    return made;
  }

 private:
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }

  void add_item(Network& network, std::size_t i) {
    const std::size_t cohort = i / shape_.cohort_size;
    if (cohort == network.cohorts.size()) {
      network.cohorts.push_back({"k" + std::to_string(cohort), {0.6, 0.3, 0.1}});
    }
    const double prior = std::pow(10.0, between(-3.0, -1.5));
    Item item{"i" + std::to_string(i), {"sound", "failed"}, cohort, {}};
    for (const double factor : {1.0, 4.0, 16.0}) {
      const double p = std::min(0.9, prior * factor);
      item.given_level.push_back({1.0 - p, p});
    }
    network.items.push_back(std::move(item));
  }

  void add_finding(Network& network, std::size_t f) {
    Finding finding{"f" + std::to_string(f), std::pow(10.0, between(-3.0, -1.3)), {}};
    if (shape_.part_checks && f >= shape_.positives + shape_.negatives) {
      finding.causes.push_back({f % shape_.items, 1, between(0.2, 0.95)});
      network.findings.push_back(std::move(finding));
      return;
    }
    std::vector<std::size_t> parents;
    while (parents.size() < shape_.parents) {
      const auto item = std::uniform_int_distribution<std::size_t>(0, shape_.items - 1)(random_);
      if (std::find(parents.begin(), parents.end(), item) == parents.end()) {
        parents.push_back(item);
        finding.causes.push_back({item, 1, shape_.weak ? between(0.02, 0.2) : between(0.2, 0.95)});
      }
    }
    network.findings.push_back(std::move(finding));
  }

  Shape shape_;
  std::mt19937 random_;
};

double multiply_adds(const Case& made) {
  const FoldedEvidence folded = fold_evidence(made.network, made.evidence);
  const auto plan = plan_sweep(folded);
  double products = 0.0;
  for (const Step& step : plan->steps) {
    const double vector = step.wide
                              ? std::exp2(step.log2_in)
                              : static_cast<double>(step.base_in.size()) * std::exp2(step.log2_run);
    products += 3.0 * step.lanes() * step.entries() * vector;
  }
  return products;
}

double bytes_in_use() {
  const struct mallinfo2 heap = mallinfo2();
  return static_cast<double>(heap.uordblks + heap.hblkhd);
}

double bytes_held(const Case& made) {
  const double before = bytes_in_use();
  const FoldedEvidence folded = fold_evidence(made.network, made.evidence);
  const auto plan = plan_sweep(folded);
  const ExplainedSetSweep<double> sweep(folded, *plan);
  const Marginals<double> marginals = find_marginals(sweep);
  return bytes_in_use() - before;
}

void count(benchmark::State& state, const Case& made) {
  state.counters["multiply_adds"] =
      benchmark::Counter(multiply_adds(made), benchmark::Counter::kIsIterationInvariantRate);
  state.counters["held"] = bytes_held(made);
}

void run_infer(benchmark::State& state, const Shape& shape) {
  const Case made = Generator(shape).run();
  count(state, made);
  for (auto _ : state) {
    auto posterior = infer(made.network, made.evidence);
    benchmark::DoNotOptimize(posterior.ok());
  }
}

void run_outlook(benchmark::State& state, const Shape& shape) {
  const Case made = Generator(shape).run();
  for (auto _ : state) {
    auto foresight = infer_with_outlook(made.network, made.evidence, made.candidates);
    benchmark::DoNotOptimize(foresight.ok());
  }
}

std::size_t argument(const benchmark::State& state, std::size_t index = 0) {
  return static_cast<std::size_t>(state.range(index));
}

/// As many multiply-adds a second as this build can do at all: 16 sums that do not wait on each
/// other, their factors in the first-level cache, in the vector registers of every such processor.
void PeakMultiplyAdd(benchmark::State& state) {
  constexpr std::size_t columns = 8;
  constexpr std::size_t rows = 128;
  std::array<double, columns> a{};
  std::array<double, columns> b{};
  std::vector<double> values(2 * rows * columns, 1.0e-3);
  double factor = 0.5;
  for (auto _ : state) {
    benchmark::DoNotOptimize(factor);
    for (std::size_t row = 0; row < rows; ++row) {
      const double* const left = &values[2 * row * columns];
      const double* const right = left + columns;
      for (std::size_t i = 0; i < columns; ++i) {
        a[i] += factor * left[i];
      }
      for (std::size_t i = 0; i < columns; ++i) {
        b[i] += factor * right[i];
      }
    }
    benchmark::DoNotOptimize(a);
    benchmark::DoNotOptimize(b);
  }
  state.counters["multiply_adds"] =
      benchmark::Counter(2.0 * rows * columns, benchmark::Counter::kIsIterationInvariantRate);
}
BENCHMARK(PeakMultiplyAdd);

void InferByItems(benchmark::State& state) {
  run_infer(state, {.items = argument(state), .cohort_size = 10, .positives = 8});
  state.SetComplexityN(state.range(0));
}
BENCHMARK(InferByItems)
    ->RangeMultiplier(10)
    ->Range(50, 5000)
    ->Arg(1500)
    ->Unit(benchmark::kMicrosecond)
    ->Complexity();

void InferByPositives(benchmark::State& state) {
  run_infer(state, {.items = 500, .cohort_size = 10, .positives = argument(state)});
}
BENCHMARK(InferByPositives)->DenseRange(1, 12)->Arg(16)->Arg(20)->Unit(benchmark::kMicrosecond);

void InferByPositivesAllTiedTogether(benchmark::State& state) {
  run_infer(state, {.items = 40, .cohort_size = 8, .positives = argument(state), .weak = true});
}
BENCHMARK(InferByPositivesAllTiedTogether)
    ->Arg(4)
    ->Arg(8)
    ->Arg(12)
    ->Arg(14)
    ->Arg(16)
    ->Arg(18)
    ->Unit(benchmark::kMicrosecond);

void InferByCohortSize(benchmark::State& state) {
  run_infer(state, {.items = 500, .cohort_size = argument(state), .positives = 10});
}
BENCHMARK(InferByCohortSize)
    ->Arg(1)
    ->Arg(5)
    ->Arg(20)
    ->Arg(100)
    ->Arg(500)
    ->Unit(benchmark::kMicrosecond);

/// The cases that general-purpose exact engines were timed on.
void InferPeerCase(benchmark::State& state) {
  run_infer(state, {.items = argument(state, 0),
                    .cohort_size = argument(state, 1),
                    .parents = argument(state, 2),
                    .positives = argument(state, 3),
                    .negatives = argument(state, 0) == 40 ? 6U : 10U});
}
BENCHMARK(InferPeerCase)
    ->ArgNames({"items", "cohort", "parents", "positives"})
    ->Args({40, 8, 5, 8})
    ->Args({40, 8, 5, 12})
    ->Args({40, 8, 5, 16})
    ->Args({120, 15, 5, 14})
    ->Args({120, 15, 5, 18})
    ->Args({200, 10, 8, 16})
    ->Unit(benchmark::kMicrosecond);

/// Every item can show every finding: nothing to exploit but the sweep itself.
void InferAllLinkedToAll(benchmark::State& state) {
  run_infer(state, {.items = 40, .parents = 40, .positives = argument(state)});
}
BENCHMARK(InferAllLinkedToAll)->Arg(8)->Arg(12)->Arg(16)->Unit(benchmark::kMicrosecond);

void OutlookOfAllCandidates(benchmark::State& state) {
  run_outlook(state, {.items = argument(state, 0),
                      .cohort_size = 10,
                      .positives = argument(state, 1),
                      .candidates = argument(state, 2)});
}
BENCHMARK(OutlookOfAllCandidates)
    ->ArgNames({"items", "positives", "candidates"})
    ->Args({50, 8, 300})
    ->Args({500, 8, 300})
    ->Args({500, 12, 500})
    ->Args({5000, 10, 1000})
    ->Args({500, 8, 150})
    ->Args({500, 8, 600})
    ->Unit(benchmark::kMillisecond);

void OutlookWithFewItemsAndManyTies(benchmark::State& state) {
  run_outlook(state,
              {.items = 100, .cohort_size = 10, .positives = argument(state), .candidates = 300});
}
BENCHMARK(OutlookWithFewItemsAndManyTies)
    ->Arg(4)
    ->Arg(8)
    ->Arg(10)
    ->Arg(12)
    ->Unit(benchmark::kMillisecond);

/// The same where each candidate looks at one part: three checks a part share a sweep.
void OutlookOfPartChecks(benchmark::State& state) {
  run_outlook(state, {.items = 100,
                      .cohort_size = 10,
                      .positives = argument(state),
                      .candidates = 300,
                      .part_checks = true});
}
BENCHMARK(OutlookOfPartChecks)->Arg(4)->Arg(8)->Arg(10)->Arg(12)->Unit(benchmark::kMillisecond);

/// One reading more on a set of 500 items: everything inferred anew.
void OneReadingMore(benchmark::State& state) {
  Case made = Generator({.items = argument(state), .cohort_size = 10, .positives = 8}).run();
  std::size_t item = 0;
  for (auto _ : state) {
    made.evidence.readings.assign(1, {item, {{0.2, 0.7}}});
    item = (item + 1) % made.network.items.size();
    auto posterior = infer(made.network, made.evidence);
    benchmark::DoNotOptimize(posterior.ok());
  }
}
BENCHMARK(OneReadingMore)->Arg(500)->Arg(5000)->Unit(benchmark::kMicrosecond);

void LeaveOneOut(benchmark::State& state) {
  const Case made = Generator({.items = 500, .cohort_size = 10, .positives = 8}).run();
  for (auto _ : state) {
    auto weights = leave_one_out(made.network, made.evidence);
    benchmark::DoNotOptimize(weights.ok());
  }
}
BENCHMARK(LeaveOneOut)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dryout::diagnosis
