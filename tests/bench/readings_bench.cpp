// One reading assessed, alone and with brothers; and a reading with a guessed neighbour across it.
#include <benchmark/benchmark.h>

#include "readings/assess_reading.h"

namespace {

using namespace dryout;  // NOLINT: a benchmark

readings::Priors priors() {
  return {{"sound", "tired", "dried", "leaky", "shorted", "open", "seeped"},
          {0.4, 0.38, 0.22},
          {{0.9855, 0.01, 0.001, 0.002, 0.0005, 0.0005, 0.0005},
           {0.8695, 0.1, 0.015, 0.006, 0.001, 0.0015, 0.007},
           {0.5735, 0.26, 0.1, 0.015, 0.0015, 0.01, 0.04}}};
}

readings::ReadingInput input(readings::Across across, std::size_t brothers) {
  readings::ReadingInput one;
  one.value = 2.4;
  one.capacitance = quantities::microfarads(47.0);
  one.limit = 1.1;
  one.across = across;
  one.brothers.assign(brothers, 0.6);
  return one;
}

void assess(benchmark::State& state, readings::Across across) {
  const auto one = input(across, static_cast<std::size_t>(state.range(0)));
  const readings::Priors before = priors();
  const readings::ReadingKnowledge none;
  for (auto _ : state) {
    benchmark::DoNotOptimize(readings::assess_reading(one, before, none));
  }
}
BENCHMARK_CAPTURE(assess, nothing_across, readings::Across::nothing)->Arg(0)->Arg(3)->Arg(30);
BENCHMARK_CAPTURE(assess, nobody_looked, readings::Across::unknown)->Arg(0)->Arg(3)->Arg(30);

void load(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(readings::load_reading_knowledge({DRYOUT_SOURCE_DIR}));
  }
}
BENCHMARK(load);

}  // namespace
