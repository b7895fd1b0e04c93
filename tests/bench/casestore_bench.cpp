// The case store as it grows: appending one event, listing and searching all cases.
#include <benchmark/benchmark.h>

#include <string>

#include "casestore/case_store.h"
#include "temporary_folder.h"

namespace {

using namespace dryout::casestore;  // NOLINT: a benchmark of this room alone

CaseFacts facts_of(std::int64_t i) {
  CaseFacts facts;
  facts.equipment = "valve-receiver";
  facts.set_name = "Morgenstern " + std::to_string(i % 97);
  facts.owner = "owner " + std::to_string(i);
  facts.complaint = i % 5 == 0 ? "loud hum after warming up" : "no sound at all";
  facts.notes = 'C' + std::to_string(i % 60) + " measured 2.4 Ω, replaced";
  return facts;
}

CaseStore filled(const std::string& path, std::int64_t cases) {
  auto store = CaseStore::open(path);
  for (std::int64_t i = 0; i < cases; ++i) {
    (void)store->create_case(facts_of(i), {{i, "take-in", "{}"}, {i, "report-symptom", "{}"}});
  }
  return std::move(*store);
}

void append_event(benchmark::State& state) {
  const dryout::tests::TemporaryFolder folder;
  CaseStore store = filled(folder.file("cases.db"), state.range(0));
  int seen = 2;
  for (auto _ : state) {
    CaseFacts facts = facts_of(0);
    facts.notes = std::to_string(seen);
    benchmark::DoNotOptimize(store.append_event(1, seen, {1, "record-reading", "{}"}, facts).ok());
    ++seen;
  }
}
BENCHMARK(append_event)->Arg(1)->Arg(1'000)->Unit(benchmark::kMicrosecond);

void list_cases(benchmark::State& state) {
  const dryout::tests::TemporaryFolder folder;
  const CaseStore store = filled(folder.file("cases.db"), state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(store.list()->size());
  }
  state.SetComplexityN(state.range(0));
}
BENCHMARK(list_cases)
    ->Arg(100)
    ->Arg(1'000)
    ->Arg(10'000)
    ->Unit(benchmark::kMillisecond)
    ->Complexity();

void search_cases(benchmark::State& state) {
  const dryout::tests::TemporaryFolder folder;
  const CaseStore store = filled(folder.file("cases.db"), state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(store.search("hum c12")->size());
  }
}
BENCHMARK(search_cases)->Arg(100)->Arg(1'000)->Arg(10'000)->Unit(benchmark::kMillisecond);

void open_store(benchmark::State& state) {
  const dryout::tests::TemporaryFolder folder;
  const std::string path = folder.file("cases.db");
  filled(path, state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(CaseStore::open(path).ok());
  }
}
BENCHMARK(open_store)->Arg(100)->Arg(10'000)->Unit(benchmark::kMillisecond);

}  // namespace
