// The case store as it grows: appending one event, listing and searching all cases.
#include <benchmark/benchmark.h>

#include <map>
#include <memory>
#include <string>

#include "casestore/case_store.h"
#include "generated_shop.h"
#include "temporary_folder.h"

namespace {

using namespace dryout::casestore;  // NOLINT: a benchmark of this room alone
namespace quantities = dryout::quantities;

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

// --- A whole shop's memory: generated_shop.h, made once a size.
// -----------------------------------

const std::string& shop_path(std::int64_t cases) {
  static std::map<std::int64_t, std::unique_ptr<dryout::bench::GeneratedShop>> shops;
  auto& shop = shops[cases];
  if (shop == nullptr) {
    shop = std::make_unique<dryout::bench::GeneratedShop>(cases);
  }
  return shop->path();
}

/// Asks one question of the shop; what it finds is counted, so that an empty answer shows.
template <class Ask>
void ask_shop(benchmark::State& state, Ask ask) {
  const auto store = CaseStore::open(shop_path(state.range(0)));
  std::size_t found = 0;
  for (auto _ : state) {
    found = ask(*store);
    benchmark::DoNotOptimize(found);
  }
  state.counters["found"] = static_cast<double>(found);
}

void shop_open(benchmark::State& state) {
  const std::string& path = shop_path(state.range(0));
  for (auto _ : state) {
    const auto store = CaseStore::open(path);
    benchmark::DoNotOptimize(store->list(200)->size());
  }
}
void shop_list_all(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) { return store.list()->size(); });
}
CaseQuery words(const std::string& text) {
  CaseQuery query;
  query.words = text;
  return query;
}
void shop_search_one_case(benchmark::State& state) {
  ask_shop(state,
           [](const CaseStore& store) { return store.find(words("owner 4711"))->rows.size(); });
}
void shop_search_word_of_most_cases(benchmark::State& state) {
  ask_shop(state,
           [](const CaseStore& store) { return store.find(words("morgenstern"))->rows.size(); });
}
void shop_search_short_beginnings(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) { return store.find(words("h w c1"))->rows.size(); });
}
void shop_search_by_fields(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) {
    CaseQuery query;
    query.equipment = "kind-7";
    query.symptom = "hum";
    query.part = "c12";
    query.cause = "dry";
    return store.find(query)->rows.size();
  });
}
void shop_last_time_by_name(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) {
    CaseQuery query;
    query.set_name = "morgenstern 52";
    query.closed_only = true;
    query.newest_first = true;
    query.most = 5;
    return store.find(query)->rows.size();
  });
}
void shop_last_time_by_equipment(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) {
    CaseQuery query;
    query.equipment = "kind-7";
    query.closed_only = true;
    query.most = 5;
    return store.find(query)->rows.size();
  });
}
void shop_causes_of_all(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) { return store.cause_counts("", "")->size(); });
}
void shop_readings_of_a_type(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) {
    return store
        .reading_counts(
            {"wet-aluminium", "esr", "", quantities::microfarads(47), quantities::volts(63)})
        ->size();
  });
}
void shop_readings_of_a_technology(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) {
    return store.reading_counts({"wet-aluminium", "esr", "", {}, {}})->size();
  });
}
void shop_sound_parts(benchmark::State& state) {
  ask_shop(state, [](const CaseStore& store) { return store.sound_counts()->size(); });
}
void shop_append_reading(benchmark::State& state) {
  auto store = CaseStore::open(shop_path(state.range(0)));
  const std::int64_t number = 1;
  int seen = *store->newest_event(number);
  CaseFacts facts = facts_of(0);
  for (auto _ : state) {
    facts.notes = std::to_string(++seen);
    benchmark::DoNotOptimize(
        store->append_event(number, seen - 1, {1, "measure", "{}"}, facts).ok());
  }
}

#define SHOP(question) \
  BENCHMARK(question)->Arg(1'000)->Arg(10'000)->Arg(100'000)->Unit(benchmark::kMillisecond)
SHOP(shop_open);
SHOP(shop_list_all);
SHOP(shop_search_one_case);
SHOP(shop_search_word_of_most_cases);
SHOP(shop_search_short_beginnings);
SHOP(shop_search_by_fields);
SHOP(shop_last_time_by_name);
SHOP(shop_last_time_by_equipment);
SHOP(shop_causes_of_all);
SHOP(shop_readings_of_a_type);
SHOP(shop_readings_of_a_technology);
SHOP(shop_sound_parts);
SHOP(shop_append_reading);

}  // namespace
