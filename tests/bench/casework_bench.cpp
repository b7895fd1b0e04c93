// What a technician waits for: the view of a case after one more thing was told, on every equipment
// that ships, and on the largest as evidence grows.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <string>
#include <vector>

#include "casework/workshop.h"
#include "knowledge/load.h"

namespace {

using namespace dryout;            // NOLINT: a benchmark of one room
using namespace dryout::casework;  // NOLINT

const knowledge::KnowledgeBase& shipped() {
  static const auto knowledge = knowledge::load({DRYOUT_SOURCE_DIR});
  return *knowledge;
}

std::unique_ptr<Workshop> workshop_in_memory() {
  return std::move(*Workshop::open(std::string(in_memory), shipped(),
                                   [] { return std::int64_t{1'772'614'800}; }));
}

std::string largest_equipment() {
  const auto& all = shipped().equipment;
  return std::max_element(all.begin(), all.end(),
                          [](const auto& a, const auto& b) {
                            return a.groups.size() + a.blocks.size() <
                                   b.groups.size() + b.blocks.size();
                          })
      ->id;
}

/// A case with that many symptoms reported and, heeded first, that many checks that looked bad.
std::int64_t case_with(Workshop& workshop, const std::string& equipment, std::int64_t told) {
  const auto number = *workshop.start({equipment, "a set", 1978, "", ""});
  const CaseView view = *workshop.view(number);
  for (std::int64_t i = 0; i < told; ++i) {
    const auto n = static_cast<std::size_t>(i);
    if (i % 2 == 0 && n < view.symptoms.size()) {
      (void)workshop.apply(number, ReportSymptom{view.symptoms[n].id, Seen::yes});
    } else if (n < view.next.size()) {
      const CheckView& check = view.next[n];
      (void)workshop.apply(number, AcknowledgeCautions{check.check, check.place});
      (void)workshop.apply(number, RecordOutcome{check.check, check.place, Seen::yes, ""});
    }
  }
  return number;
}

void view_as_evidence_grows(benchmark::State& state) {
  const auto workshop = workshop_in_memory();
  const auto number = case_with(*workshop, largest_equipment(), state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(workshop->view(number)->suspects.size());
  }
  const auto view = workshop->view(number);
  state.counters["suspects"] = static_cast<double>(view->suspects.size());
  state.counters["checks"] = static_cast<double>(view->next.size());
  state.SetLabel(largest_equipment());
}
BENCHMARK(view_as_evidence_grows)
    ->Arg(0)
    ->Arg(1)
    ->Arg(2)
    ->Arg(4)
    ->Arg(8)
    ->Unit(benchmark::kMillisecond);

/// Everything on yes: what a sitting down with a very long list of complaints costs, on the kind of
/// equipment with the most items.
void view_as_symptoms_are_reported(benchmark::State& state) {
  const auto workshop = workshop_in_memory();
  const auto number = *workshop->start({"stereo-receiver", "a set", 1975, "", ""});
  std::vector<Command> commands;
  for (const SymptomView& symptom : workshop->view(number)->symptoms) {
    if (static_cast<std::int64_t>(commands.size()) < state.range(0)) {
      commands.emplace_back(ReportSymptom{symptom.id, Seen::yes});
    }
  }
  auto view = workshop->apply_all(number, commands);
  for (auto _ : state) {
    view = workshop->view(number);
  }
  state.counters["draws"] = static_cast<double>(view->figures.draws);
  state.counters["within"] = view->figures.within;
}
BENCHMARK(view_as_symptoms_are_reported)
    ->Arg(8)
    ->Arg(12)
    ->Arg(16)
    ->Arg(20)
    ->Arg(30)
    ->Unit(benchmark::kMillisecond);

/// One more word from the technician, from the door to the view: checking, storing, reasoning.
void one_reading(benchmark::State& state) {
  const auto workshop = workshop_in_memory();
  const auto number = case_with(*workshop, largest_equipment(), 3);
  RecordReading reading;
  const CaseView view = *workshop->view(number);
  for (const SuspectView& suspect : view.suspects) {
    if (suspect.capacitor) {
      reading.item = suspect.item;
      break;
    }
  }
  reading.value = 1.0;
  reading.limit = 0.5;
  (void)workshop->apply(number, AcknowledgeCautions{reading.item, ""});
  for (auto _ : state) {
    reading.value += 1e-6;
    benchmark::DoNotOptimize(workshop->apply(number, reading).ok());
  }
}
BENCHMARK(one_reading)->Iterations(50)->Unit(benchmark::kMillisecond);

/// The first view of a case compiles its network.
void first_view(benchmark::State& state) {
  const auto workshop = workshop_in_memory();
  int year = 1900;
  for (auto _ : state) {
    state.PauseTiming();
    year = year == 2020 ? 1900 : year + 1;  // other particulars: nothing kept applies
    const auto number = *workshop->start({largest_equipment(), "", year, "", ""});
    state.ResumeTiming();
    benchmark::DoNotOptimize(workshop->view(number).ok());
  }
}
BENCHMARK(first_view)->Unit(benchmark::kMillisecond);

}  // namespace
