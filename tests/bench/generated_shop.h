// A shop of any size, written through the case store in bulk: invented sets, causes and readings,
// twenty readings a case, nine cases in ten closed. The same seed gives the same shop.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "casestore/case_store.h"
#include "temporary_folder.h"

namespace dryout::bench {

inline constexpr int readings_per_case = 20;

class GeneratedShop {
 public:
  explicit GeneratedShop(std::int64_t cases) : path_(folder_.file("cases.db")) {
    auto store = casestore::CaseStore::open(path_);
    constexpr std::int64_t at_once = 1000;
    for (std::int64_t done = 0; done < cases; done += at_once) {
      std::vector<casestore::NewCase> batch;
      for (std::int64_t i = done; i < std::min(cases, done + at_once); ++i) {
        batch.push_back(make_case(i));
      }
      if (!store->create_cases(batch)) {
        std::abort();
      }
    }
  }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  static constexpr std::array<const char*, 6> families = {"radio", "audio",    "bench",
                                                          "video", "computer", "transmitting"};
  static constexpr std::array<const char*, 5> complaints = {
      "loud hum after warming up", "no sound at all", "dead", "distorted when warm",
      "goes off after an hour"};
  static constexpr std::array<const char*, 12> subjects = {
      "role:reservoir",   "role:decoupling",  "role:audio-coupling", "role:bias-filter",
      "role:snubber",     "cause:dry-joint",  "cause:dirty-contact", "cause:open-diode",
      "cause:weak-valve", "cause:dead-relay", "cause:open-resistor", ""};
  static constexpr std::array<double, 16> microfarads = {
      1, 2.2, 4.7, 10, 22, 33, 47, 100, 220, 330, 470, 1000, 2200, 3300, 4700, 10000};
  static constexpr std::array<double, 7> volts = {6.3, 10, 16, 25, 35, 63, 450};

  std::size_t upto(std::size_t n) { return static_cast<std::size_t>(random_() % n); }

  casestore::ReadingFact make_reading(int event, int age) {
    const std::size_t type = upto(microfarads.size());
    const double typical = 0.05 + 2.0 / microfarads[type];
    const double spread = std::normal_distribution<double>(0.01 * age, 0.4)(random_);
    return {.event = event,
            .technology = upto(5) == 0 ? "solid-tantalum" : "wet-aluminium",
            .kind = upto(8) == 0 ? "capacitance" : "esr",
            .role = subjects[upto(5)] + 5,
            .capacitance = quantities::Farad(microfarads[type] * 1e-6),
            .rated = quantities::volts(volts[upto(volts.size())]),
            .value = typical * std::exp(spread),
            .limit = std::nullopt,
            .age = age,
            .standing = static_cast<casestore::Standing>(upto(8) == 0 ? 2 : upto(2)),
            .alone = upto(3) == 0};
  }

  casestore::NewCase make_case(std::int64_t i) {
    casestore::NewCase made;
    const std::size_t kind = upto(28);
    const int age = 15 + static_cast<int>(upto(45));
    auto& facts = made.facts;
    facts.equipment = "kind-" + std::to_string(kind);
    facts.set_name = "Morgenstern " + std::to_string(upto(970));
    facts.year_built = 2026 - age;
    facts.owner = "owner " + std::to_string(i);
    facts.complaint = complaints[upto(complaints.size())];
    facts.symptoms = upto(4) == 0 ? "Steady hum hum-steady" : "No sound at all silent";
    facts.closed = upto(10) != 0;
    if (facts.closed) {
      const std::string subject = subjects[upto(subjects.size())];
      facts.cause = subject;
      facts.causes = subject;
      facts.statistics.closed = {families[kind % families.size()], subject, 2026, age};
    }
    made.events.push_back(
        {i, "take-in", R"({"do":"take-in","equipment":"kind","set":"Morgenstern"})"});
    for (int r = 0; r < readings_per_case; ++r) {
      const std::string part = 'C' + std::to_string(upto(90));
      facts.parts += part + " Reservoirs\n";
      facts.statistics.readings.push_back(make_reading(r + 2, age));
      made.events.push_back({i, "measure",
                             R"({"do":"measure","item":")" + part +
                                 R"(","kind":"esr","value":2.4,"frequency_Hz":100000,)"
                                 R"("temperature_C":23,"in_circuit":true,"across":"nothing"})"});
    }
    facts.notes = "the back was off before; owner will call on day " + std::to_string(upto(365));
    return made;
  }

  std::mt19937 random_{20260304};  // NOLINT: the same shop every time
  dryout::tests::TemporaryFolder folder_;
  std::string path_;
};

}  // namespace dryout::bench
