// What a complaint costs to understand, and the index to make, as the number of symptoms grows: the
// shipped ones, then copies of them under other ids.
#include <benchmark/benchmark.h>

#include "complaints/halves.h"

namespace dryout::complaints {
namespace {

knowledge::KnowledgeBase base_times(std::int64_t times) {
  knowledge::KnowledgeBase base = shipped_base();
  const std::vector<knowledge::Symptom> once = base.symptoms;
  for (std::int64_t i = 1; i < times; ++i) {
    for (knowledge::Symptom symptom : once) {
      symptom.id += "-" + std::to_string(i);
      base.symptoms.push_back(std::move(symptom));
    }
  }
  return base;
}

std::vector<std::string> all_said() {
  std::vector<std::string> said;
  for (const char* half : {"tuning", "kept_apart", "later"}) {
    for (const KnownComplaint& complaint : known_complaints(half)) {
      said.push_back(complaint.said);
    }
  }
  return said;
}

void understand(benchmark::State& state) {
  const knowledge::KnowledgeBase base = base_times(state.range(0));
  const ComplaintReader reader(base, shipped_vocabulary());
  const std::vector<std::string> said = all_said();
  std::size_t next = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(reader.read(said[next]));
    next = (next + 1) % said.size();
  }
  state.counters["symptoms"] = static_cast<double>(base.symptoms.size());
}
BENCHMARK(understand)->RangeMultiplier(2)->Range(1, 16)->Unit(benchmark::kMicrosecond);

/// The longest that is read: 200 words, all of them misspelt.
void understand_the_longest(benchmark::State& state) {
  std::string said;
  for (int i = 0; i < 200; ++i) {
    said += "distroted" + std::string(1, static_cast<char>('a' + i % 26)) + ' ';
  }
  for (auto _ : state) {
    benchmark::DoNotOptimize(shipped_reader().read(said));
  }
}
BENCHMARK(understand_the_longest)->Unit(benchmark::kMicrosecond);

void make_the_index(benchmark::State& state) {
  const knowledge::KnowledgeBase base = base_times(state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(ComplaintReader(base, shipped_vocabulary()));
  }
}
BENCHMARK(make_the_index)->RangeMultiplier(4)->Range(1, 16)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dryout::complaints
