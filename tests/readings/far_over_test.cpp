// Far over the limit convicts ever more, of every family, kind and provenance: no reading further
// past its limit leaves the part likelier sound than one nearer to it. By the meaning of a limit;
// an old hand's rule for the shares (common practice, no source).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <map>

#include "shipped_bench.h"

namespace dryout::readings {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

// A reading's own law is smooth, the tables it is integrated on are not: a fiftieth is left.
constexpr double table_step = 2e-3;

/// From just past what is told, upwards (or downwards: `towards` below 1) a thousandfold.
void expect_ever_less_sound(const ReadingInput& input, double limit, double towards,
                            const std::string& name) {
  double least = 1.0;
  double least_at = 0.0;
  for (double times = std::pow(towards, 0.2); times < 500.0 && times > 1e-3; times *= towards) {
    const Assessment a = read_as_shipped(input, times * limit);
    EXPECT_LE(a.after.front(), 1.05 * least + table_step)
        << name << ": " << times << " limits, less at " << least_at << ": " << a.sentence;
    if (a.after.front() < least) {
      least = a.after.front();
      least_at = times;
    }
  }
}

std::vector<ListedPart> every(std::size_t nth, const std::vector<ListedPart>& parts) {
  std::vector<ListedPart> some;
  for (std::size_t i = 0; i < parts.size(); i += nth) {
    some.push_back(parts[i]);
  }
  return some;
}

std::vector<ListedPart> parts_of_all_families() {
  std::vector<ListedPart> parts = every(5, listed_parts());
  const std::vector<ListedPart> solid = every(2, listed_solid_parts());
  parts.insert(parts.end(), solid.begin(), solid.end());
  parts.push_back({1e5, 5.5, "supercap", Body::radial});
  return parts;
}

TEST(FarOver, ResistanceConvictsEverMore) {
  for (const ListedPart& part : parts_of_all_families()) {
    for (const Kind kind : {Kind::esr, Kind::impedance}) {
      for (const double hertz : {120.0, 100e3}) {
        for (const bool in_circuit : {false, true}) {
          ReadingInput input = lifted_and_zeroed(kind, part);
          input.frequency = quantities::hertz(hertz);
          input.in_circuit = in_circuit;
          input.across = Across::nothing;
          const Assessment a = read_as_shipped(input, 1.0);
          if (a.limit) {
            expect_ever_less_sound(input, a.limit->value, 1.5,
                                   name_of_part(part) + std::string(" ") +
                                       std::string(word_of(kind)) + " at " + std::to_string(hertz) +
                                       (in_circuit ? " in circuit" : ""));
          }
        }
      }
    }
  }
}

TEST(FarOver, WhateverTheProvenance) {
  for (const ListedPart& part : every(5, listed_solid_parts())) {
    for (const Rung& rung : ladder()) {
      for (const Across across : {Across::nothing, Across::unknown, Across::ceramic,
                                  Across::electrolytic, Across::winding, Across::low_resistor}) {
        ReadingInput input = lifted_and_zeroed(Kind::esr, part);
        input.in_circuit = true;
        input.across = across;
        input.limit = 1.0;
        input.limit_source = rung.source;
        const double limit = read_as_shipped(input, 1.0).limit->value;
        expect_ever_less_sound(input, limit, 1.7,
                               name_of_part(part) + " " + std::string(rung.word) + " across " +
                                   std::string(word_of(across)));
      }
    }
  }
}

TEST(FarOver, AThirdOfTheTimesOverIsConvictedInEveryFamily) {
  std::map<std::string, std::pair<int, int>> of;  // convicted, asked
  std::vector<ListedPart> parts = listed_parts();
  parts.insert(parts.end(), listed_solid_parts().begin(), listed_solid_parts().end());
  for (const ListedPart& part : parts) {
    const ReadingInput input = lifted_and_zeroed(Kind::esr, part);
    const Assessment a = read_as_shipped(input, 1.0);
    if (!a.limit) {
      continue;
    }
    auto& [convicted, asked] = of[part.technology];
    ++asked;
    const Assessment over = read_as_shipped(input, 3.5 * a.limit->value);
    convicted += over.verdict == Verdict::over_limit ? 1 : 0;
    if (over.verdict != Verdict::over_limit) {
      std::printf("  %s: %.2f sound: %s\n", name_of_part(part).c_str(), over.after.front(),
                  over.sentence.c_str());
    }
    const Assessment far = read_as_shipped(input, 30.0 * a.limit->value);
    EXPECT_EQ(far.verdict, Verdict::over_limit)
        << name_of_part(part) << " at 30 limits: " << far.sentence;
  }
  for (const auto& [technology, counts] : of) {
    std::printf("%s: %d of %d convicted at 3.5 times the limit\n", technology.c_str(), counts.first,
                counts.second);
    EXPECT_GE(5 * counts.first, 4 * counts.second) << technology;
  }
}

TEST(FarOver, LossLeakageAndCapacitanceConvictEverMore) {
  std::vector<ListedPart> parts = parts_of_all_families();
  for (const char* dry :
       {"film", "paper", "mica", "ceramic", "polystyrene", "mains-film", "oil-paper"}) {
    parts.push_back({0.1, 400, dry, Body::unknown});
    parts.push_back({0.001, 400, dry, Body::unknown});
  }
  for (const ListedPart& part : parts) {
    for (const Kind kind : {Kind::dissipation, Kind::leakage_current, Kind::insulation}) {
      ReadingInput input = lifted_and_zeroed(kind, part);
      input.test_volts = input.rated;
      const Assessment a = read_as_shipped(input, kind == Kind::insulation ? 1e9 : 1e-3);
      if (a.limit) {
        expect_ever_less_sound(input, a.limit->value, kind == Kind::insulation ? 1 / 1.5 : 1.5,
                               name_of_part(part) + " " + std::string(word_of(kind)));
      }
    }
    const ReadingInput input = lifted_and_zeroed(Kind::capacitance, part);
    expect_ever_less_sound(input, 0.8 * part.microfarad * 1e-6, 1 / 1.3,
                           name_of_part(part) + " capacitance falling");
    expect_ever_less_sound(input, 1.8 * part.microfarad * 1e-6, 1.3,
                           name_of_part(part) + " capacitance rising");
  }
}

// What is past a limit for sure is never told as near to it.
TEST(FarOver, WhatIsFourTimesPastItsLimitIsNotNearIt) {
  std::vector<ListedPart> parts = parts_of_all_families();
  for (const char* dry : {"film", "paper", "mica", "ceramic", "polystyrene", "mains-film"}) {
    parts.push_back({0.1, 400, dry, Body::unknown});
  }
  for (const ListedPart& part : parts) {
    for (const Kind kind : {Kind::esr, Kind::dissipation, Kind::leakage_current}) {
      ReadingInput input = lifted_and_zeroed(kind, part);
      input.test_volts = input.rated;
      const Assessment a = read_as_shipped(input, 1e-3);
      if (a.limit) {
        const Assessment far = read_as_shipped(input, 4.0 * a.limit->value);
        EXPECT_THAT(far.sentence, Not(HasSubstr("too near"))) << name_of_part(part);
      }
    }
  }
}

}  // namespace
}  // namespace dryout::readings
