#include "decision/shopping_list.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace dryout::decision {
namespace {

using quantities::microfarads;
using quantities::volts;

SubstitutionRules shipped() {
  auto rules = load_substitution_rules({DRYOUT_SOURCE_DIR});
  EXPECT_TRUE(rules.ok()) << quantities::describe(rules.problems());
  return *rules;
}

PartNeed need(const char* role, const char* technology, double uf, double v, int count = 1) {
  return {"C1", "supply board", role, technology, microfarads(uf), volts(v), count};
}

TEST(Substitution, KeepsAPreferredValueAndTakesTheNextRating) {
  const Substitute fit = substitute_for(need("reservoir", "wet-aluminium", 50, 15), shipped());
  EXPECT_NEAR(quantities::in_microfarads(fit.capacitance), 47.0, 1e-9);  // sold for the old 50
  EXPECT_DOUBLE_EQ(fit.rated.si(), 16.0);
  EXPECT_EQ(fit.temperature_min->degrees(), 105.0);
}

TEST(Substitution, TimingPartsKeepTheirValue) {
  const Substitute fit = substitute_for(need("reset-timing", "wet-aluminium", 10, 16), shipped());
  EXPECT_NEAR(quantities::in_microfarads(fit.capacitance), 10.0, 1e-9);
}

TEST(Substitution, PaperBecomesFilm) {
  EXPECT_EQ(substitute_for(need("grid-coupling", "paper", 0.022, 400), shipped()).technology,
            "film");
}

TEST(Substitution, ARegulatorThatNeedsEsrKeepsIt) {
  EXPECT_EQ(substitute_for(need("regulator-output", "wet-aluminium", 10, 25), shipped()).esr,
            "as-original");
  EXPECT_EQ(substitute_for(need("smps-output", "wet-aluminium", 1000, 16), shipped()).esr, "low");
}

TEST(Substitution, AnUnknownValueIsNotInvented) {
  const Substitute fit = substitute_for(need("reservoir", "wet-aluminium", 0, 0), shipped());
  EXPECT_EQ(fit.capacitance, quantities::Farad(0));
  EXPECT_EQ(fit.rated, quantities::Volt(0));
}

TEST(ShoppingList, MergesByValueAndSaysWhichPartWantsWhat) {
  PartNeed timing = need("agc-timing", "wet-aluminium", 4.7, 25);
  timing.reference = "C7";
  const auto lines =
      shopping_list({need("coupling", "wet-aluminium", 4.7, 25, 2), timing}, shipped());
  ASSERT_EQ(lines.size(), 1U) << "one value, one line";
  EXPECT_EQ(lines[0].needed, 3);
  EXPECT_NE(std::find(lines[0].look_at.begin(), lines[0].look_at.end(),
                      "C7: Low leakage matters more than ESR"),
            lines[0].look_at.end())
      << "the other parts of the line need not care";
}

TEST(ShoppingList, AValueThatNobodyKnowsIsTheSameAsNoOther) {
  const auto lines = shopping_list(
      {need("reservoir", "wet-aluminium", 0, 0), need("reservoir", "wet-aluminium", 0, 0)},
      shipped());
  EXPECT_EQ(lines.size(), 2U);
}

TEST(ShoppingList, MergesWhatIsTheSamePart) {
  const auto lines = shopping_list({need("reservoir", "wet-aluminium", 4700, 50, 2),
                                    need("smoothing", "wet-aluminium", 4700, 50, 4),
                                    need("smoothing", "wet-aluminium", 100, 25, 1)},
                                   shipped());
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[1].needed, 6);
  EXPECT_EQ(lines[1].spares, 2);
  EXPECT_EQ(lines[1].for_parts.size(), 2U);
}

TEST(ShoppingList, SpeaksOfMicrofaradsWhereMillifaradsWouldBeMisread) {
  EXPECT_EQ(buyers_value(quantities::microfarads(10'000)), "10,000 µF");
  EXPECT_EQ(buyers_value(quantities::microfarads(47)), "47 µF");
  EXPECT_EQ(buyers_value(quantities::Farad(0.1)), "0.1 F");
}

TEST(ShoppingList, WhatIsNoCapacitorIsBoughtInWords) {
  PartNeed diode;
  diode.reference = "Rectifier diode shorted";
  diode.other = "Rectifier diodes, 3 A, 600 V";
  const auto lines = shopping_list({diode, need("reservoir", "wet-aluminium", 100, 25)}, shipped());
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0].part.other, "Rectifier diodes, 3 A, 600 V");
  EXPECT_EQ(lines[0].spares, 0);
  EXPECT_NE(to_csv(lines).find("\"Rectifier diodes, 3 A, 600 V\",,"), std::string::npos);
}

TEST(ShoppingList, CsvCannotSmuggleAFormula) {
  // RFC 4180 for quoting; a leading = + - @ is what spreadsheets take for a formula.
  EXPECT_EQ(csv_field("=1+1"), "'=1+1");
  EXPECT_EQ(csv_field("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(csv_field("-3"), "'-3");
  EXPECT_EQ(csv_field("a,\"b\""), "\"a,\"\"b\"\"\"");
  EXPECT_EQ(csv_field("+cmd|' /C calc'!A0"), "'+cmd|' /C calc'!A0");
  PartNeed hostile = need("reservoir", "wet-aluminium", 100, 25);
  hostile.reference = "=HYPERLINK(\"x\")";
  const std::string csv = to_csv(shopping_list({hostile}, shipped()));
  EXPECT_EQ(csv.find(",=HYPERLINK"), std::string::npos);
  EXPECT_EQ(csv.find("\n="), std::string::npos);
}

}  // namespace
}  // namespace dryout::decision
