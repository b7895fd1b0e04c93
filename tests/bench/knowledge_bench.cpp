// The shipped knowledge: reading and checking the tree, following every fault through the blocks of
// an equipment, and compiling its fault network. The largest equipment sets the time that opening a
// case takes; the sweep over equipment shows how that time grows with groups and blocks.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <string>
#include <vector>

#include "diagnosis/compile_network.h"
#include "knowledge/chain.h"
#include "knowledge/load.h"

namespace {

using namespace dryout::knowledge;  // NOLINT: a benchmark of this room alone

const std::vector<std::string> shipped_tree{DRYOUT_SOURCE_DIR};

const KnowledgeBase& shipped() {
  static const KnowledgeBase knowledge = *load(shipped_tree);
  return knowledge;
}

std::size_t size_of(const Equipment& equipment) {
  return equipment.blocks.size() + equipment.groups.size();
}

/// The shipped equipment from the smallest (0) to the largest (100).
const Equipment& equipment_at(std::int64_t percentile) {
  static const std::vector<const Equipment*> ordered = [] {
    std::vector<const Equipment*> list;
    for (const Equipment& equipment : shipped().equipment) list.push_back(&equipment);
    std::sort(list.begin(), list.end(),
              [](const auto* a, const auto* b) { return size_of(*a) < size_of(*b); });
    return list;
  }();
  return *ordered[(ordered.size() - 1) * static_cast<std::size_t>(percentile) / 100];
}

void load_shipped_tree(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(load(shipped_tree).ok());
  }
}
BENCHMARK(load_shipped_tree)->Unit(benchmark::kMillisecond);

void lint_shipped_tree(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(lint(shipped_tree).warnings.size());
  }
}
BENCHMARK(lint_shipped_tree)->Unit(benchmark::kMillisecond);

void chain_equipment(benchmark::State& state) {
  const Equipment& equipment = equipment_at(state.range(0));
  Chained chained;
  for (auto _ : state) {
    chained = chain(shipped(), equipment);
    benchmark::DoNotOptimize(chained);
  }
  state.SetLabel(equipment.id);
  state.counters["sites"] = static_cast<double>(chained.sites.size());
  state.counters["consequences"] = static_cast<double>(chained.consequences.size());
}
BENCHMARK(chain_equipment)->Arg(0)->Arg(50)->Arg(100)->Unit(benchmark::kMillisecond);

void compile_equipment(benchmark::State& state) {
  const Equipment& equipment = equipment_at(state.range(0));
  const dryout::diagnosis::SetParticulars set{1985, 2026, {}};
  dryout::diagnosis::CompiledNetwork compiled;
  for (auto _ : state) {
    compiled = dryout::diagnosis::compile_network(shipped(), equipment, set);
    benchmark::DoNotOptimize(compiled);
  }
  state.SetLabel(equipment.id);
  state.counters["items"] = static_cast<double>(compiled.network.items.size());
  state.counters["findings"] = static_cast<double>(compiled.network.findings.size());
}
BENCHMARK(compile_equipment)->Arg(0)->Arg(50)->Arg(100)->Unit(benchmark::kMillisecond);

}  // namespace
