// What a technician waits for: the view of a case after one more thing was told, on every equipment
// that ships, and on the largest as evidence grows.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <stdexcept>
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
  const CaseView untold = *workshop->view(number);
  for (const SymptomView& symptom : untold.symptoms) {
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

// --- Where work piles up: sets of thousands of parts, cases of hundreds of parts and readings.

/// The stereo receiver with so many rows in its parts list that no two of them are one group.
knowledge::KnowledgeBase with_large_set(std::size_t rows) {
  knowledge::KnowledgeBase knowledge = shipped();
  knowledge::Equipment large = *knowledge::find(knowledge.equipment, "stereo-receiver");
  const auto groups = large.groups;
  large.id = "large-set";
  large.groups.clear();
  for (std::size_t row = 0; row < rows; ++row) {
    knowledge::PartGroup group = groups[row % groups.size()];
    group.id += '-' + std::to_string(row / groups.size() + 1);
    group.capacitance = quantities::microfarads(1.0 + static_cast<double>(row / groups.size()));
    large.groups.push_back(std::move(group));
  }
  knowledge.equipment.push_back(std::move(large));
  return knowledge;
}

/// As a command meets it: the network compiled, a symptom told, everything shown.
void set_of_rows(benchmark::State& state) {
  const auto rows = static_cast<std::size_t>(state.range(0));
  const auto workshop = *Workshop::open(std::string(in_memory), with_large_set(rows),
                                        [] { return std::int64_t{1'772'614'800}; });
  int year = 1900;
  std::size_t checks = 0;
  for (auto _ : state) {
    year = year == 2020 ? 1900 : year + 1;  // other particulars: nothing kept applies
    const auto number = *workshop->start({"large-set", "", year, "", ""});
    const auto view = workshop->apply(number, ReportSymptom{"no-sound-lamps-lit", Seen::yes});
    checks = view->next.size();
  }
  state.counters["checks"] = static_cast<double>(checks);
}
BENCHMARK(set_of_rows)
    ->Arg(36)
    ->Arg(500)
    ->Arg(1'000)
    ->Arg(2'000)
    ->Arg(5'000)
    ->Unit(benchmark::kMillisecond);

/// A case with so many named parts, four readings of each (ESR and capacitance, in circuit and
/// lifted), of one group of the power amplifier's kind of set.
struct LongCase {
  std::unique_ptr<Workshop> workshop = workshop_in_memory();
  std::int64_t number = *workshop->start({"stereo-receiver", "a set", 1978, "", ""});

  explicit LongCase(std::int64_t parts, int readings_each = 4) {
    std::vector<Command> commands;
    const std::vector<std::string> groups = group_ids();
    for (std::int64_t i = 0; i < parts; ++i) {
      NamePart part;
      part.reference = 'C' + std::to_string(i + 1);
      part.group = groups[static_cast<std::size_t>(i) % groups.size()];
      commands.emplace_back(part);
    }
    commands.emplace_back(ReportSymptom{"no-sound-lamps-lit", Seen::yes});
    for (const auto kind : {ReadingKind::esr, ReadingKind::capacitance}) {
      for (const bool in_circuit : {true, false}) {
        for (std::int64_t i = 0; i < parts && readings_each > 0; ++i) {
          RecordReading reading;
          reading.item = "part:C" + std::to_string(i + 1);
          reading.kind = kind;
          reading.in_circuit = in_circuit;
          reading.value = kind == ReadingKind::esr
                              ? 0.5 + 0.01 * static_cast<double>(i % 50)
                              : 1e-5 * (1.0 + 0.01 * static_cast<double>(i % 30));
          reading.limit = kind == ReadingKind::esr ? 2.0 : 8e-6;
          commands.emplace_back(
              AcknowledgeCautions{reading.item, std::string(readings::word_of(kind))});
          commands.emplace_back(reading);
        }
        --readings_each;
      }
    }
    for (const Command& command : commands) {
      const auto entered = workshop->enter(number, command);
      if (!entered) {
        throw std::runtime_error(quantities::describe(entered.problems()));
      }
    }
  }
  [[nodiscard]] std::vector<std::string> group_ids() const {
    std::vector<std::string> ids;
    const CaseView untold = *workshop->view(number);
    for (const GroupChoice& group : untold.groups) {
      ids.push_back(group.id);
    }
    return ids;
  }
};

void view_of_long_case(benchmark::State& state) {
  LongCase made(state.range(0));
  int n = 0;
  for (auto _ : state) {
    const auto view = made.workshop->apply(made.number, AddNote{std::to_string(++n)});
    benchmark::DoNotOptimize(view.ok());
    state.counters["readings"] = static_cast<double>(view->readings.size());
    state.counters["checks"] = static_cast<double>(view->next.size());
  }
}
BENCHMARK(view_of_long_case)->Arg(50)->Arg(100)->Arg(200)->Arg(500)->Unit(benchmark::kMillisecond);

/// The newest name taken back and given again.
void undo_of_a_name(benchmark::State& state) {
  LongCase made(state.range(0), 0);
  NamePart part;
  part.reference = "C9999";
  part.group = made.group_ids().front();
  for (auto _ : state) {
    state.PauseTiming();
    benchmark::DoNotOptimize(made.workshop->apply(made.number, part).ok());
    state.ResumeTiming();
    benchmark::DoNotOptimize(made.workshop->undo(made.number).ok());
  }
}
BENCHMARK(undo_of_a_name)->Arg(50)->Arg(100)->Arg(200)->Arg(500)->Unit(benchmark::kMillisecond);

void plan_of_long_case(benchmark::State& state) {
  LongCase made(state.range(0));
  (void)made.workshop->view(made.number);
  for (auto _ : state) {
    benchmark::DoNotOptimize(made.workshop->plan_ahead(made.number, 3).ok());
  }
}
BENCHMARK(plan_of_long_case)->Arg(50)->Arg(500)->Unit(benchmark::kMillisecond);

}  // namespace
