// Whole jobs up to the decision, on the shipped knowledge, by the commands of a case. What must
// come out is what an old hand would say (common practice, no source); the sets are invented.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "casework/mending_bench.h"
#include "casework/shipped_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the bench
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

class MendingScenario : public ShippedJob {
 protected:
  void looked_bad(const std::string& check, const std::string& place) {
    tell(AcknowledgeCautions{check, place});
    tell(RecordOutcome{check, place, Seen::yes, ""});
  }
  /// Advice that no face may give where something is convicted.
  static void expect_mends(const MendingView& view) {
    ASSERT_FALSE(view.options.empty());
    EXPECT_NE(view.options.front().scope, "nothing") << view.sentence;
    EXPECT_THAT(view.sentence,
                AllOf(Not(HasSubstr("is to replace nothing")), Not(HasSubstr("is to leave"))));
    EXPECT_FALSE(view.shopping.empty());
  }
  static const ShoppingRow* line_for(const MendingView& view, const std::string& part) {
    for (const ShoppingRow& row : view.shopping) {
      for (const std::string& wanted : row.for_parts) {
        if (wanted.find(part) != std::string::npos) {
          return &row;
        }
      }
    }
    return nullptr;
  }
  static RecordReading over(const std::string& item, double ratio, double limit = 1.0) {
    RecordReading reading = lifted_esr(item, ratio * limit);
    reading.limit = limit;
    reading.in_circuit = true;
    return reading;
  }
};

TEST_F(MendingScenario, AShortedDiodeIsReplacedAndBought) {
  take_in("stereo-receiver", 1978);
  tell(ReportSymptom{"dead-fuse-blown", Seen::yes});
  looked_bad("diodes-cold", "rectifier");
  tell(JudgeSuspect{"cause:shorted-diode@rectifier", JudgeSuspect::Verdict::at_fault});
  const MendingView view = mending();
  expect_mends(view);
  EXPECT_TRUE(view.settled);
  EXPECT_THAT(view.options.front().replaced, Contains(HasSubstr("diode")));
  EXPECT_GT(view.options.front().cost_now, 10.0) << "twelve minutes, the lid, a diode";
  const ShoppingRow* diode = line_for(view, "diode");
  ASSERT_NE(diode, nullptr);
  EXPECT_THAT(diode->part, HasSubstr("diode"));
  EXPECT_LT(view.options.front().complaint_stays.value(), 0.3);
  EXPECT_THAT(view.sentence, HasSubstr("min at the bench"));
  EXPECT_THAT(view.reasons, Contains(AllOf(HasSubstr("diode"), HasSubstr("12 min"))));
}

TEST_F(MendingScenario, AShortedDiodeFoundWithoutAComplaintIsReplacedToo) {
  take_in("stereo-receiver", 1978);
  looked_bad("diodes-cold", "rectifier");
  tell(JudgeSuspect{"cause:shorted-diode@rectifier", JudgeSuspect::Verdict::at_fault});
  const MendingView view = mending();
  expect_mends(view);
  EXPECT_THAT(view.options.front().replaced, Contains(HasSubstr("diode")));
}

TEST_F(MendingScenario, TheLeaderIsMendedWhateverItIs) {
  take_in("stereo-receiver", 1978);
  tell(ReportSymptom{"dead-fuse-blown", Seen::yes});
  looked_bad("diodes-cold", "rectifier");
  expect_mends(mending());
}

TEST_F(MendingScenario, SixCouplingPartsOverTheirLimitAreReplaced) {
  for (const bool complained : {true, false}) {
    take_in("stereo-receiver", 1978);
    if (complained) {
      tell(ReportSymptom{"no-bass", Seen::yes});
    }
    for (int i = 1; i <= 6; ++i) {
      const std::string reference = "C" + std::to_string(400 + i);
      tell(NamePart{reference, "tone-coupling", quantities::microfarads(2.2), quantities::volts(50),
                    "", ""});
      tell(over(reference, 4.0));
    }
    const MendingView view = mending();
    expect_mends(view);
    EXPECT_GE(view.options.front().parts, 6) << complained;
    const ShoppingRow* coupling = line_for(view, "C401");
    ASSERT_NE(coupling, nullptr);
    EXPECT_GE(coupling->needed, 6);
    EXPECT_THAT(coupling->part, HasSubstr("2.2"));
  }
}

TEST_F(MendingScenario, ASetOf1938BeginsWithGridCouplingAndLineParts) {
  for (const char* symptom : {"", "hum-steady", "distorted-when-warm"}) {
    take_in("valve-am-receiver", 1938);
    if (*symptom != '\0') {
      tell(ReportSymptom{symptom, Seen::yes});
    }
    const MendingView view = mending();
    expect_mends(view);
    EXPECT_THAT(view.options.front().replaced, Contains("Coupling to the output valve")) << symptom;
    EXPECT_THAT(view.options.front().replaced, Contains("Mains bypass to chassis")) << symptom;
    const ShoppingRow* bypass = line_for(view, "Mains bypass");
    ASSERT_NE(bypass, nullptr);
    EXPECT_THAT(bypass->part, HasSubstr("Y"));
    EXPECT_THAT(bypass->part, Not(HasSubstr("600 V"))) << "a d.c. mark is no a.c. rating";
    const ShoppingRow* coupling = line_for(view, "Coupling to the output valve");
    ASSERT_NE(coupling, nullptr);
    EXPECT_THAT(coupling->part, AllOf(HasSubstr("22 nF"), HasSubstr("630 V")));
    EXPECT_THAT(view.reasons, Contains(HasSubstr("grid")));
  }
}

TEST_F(MendingScenario, TheRestOfTheListStandsAfterTheFirstOfTwoRepairs) {
  take_in("stereo-receiver", 1978);
  tell(ReportSymptom{"hum-steady", Seen::yes});
  tell(JudgeSuspect{"reservoirs", JudgeSuspect::Verdict::at_fault});
  tell(JudgeSuspect{"reg-out-24", JudgeSuspect::Verdict::at_fault});
  const MendingView before = mending();
  ASSERT_NE(line_for(before, "24 V"), nullptr);
  tell(RecordRepair{"reservoirs", "replaced", "10000 µF 63 V"});
  const MendingView after = mending();
  expect_mends(after);
  const ShoppingRow* rest = line_for(after, "24 V");
  ASSERT_NE(rest, nullptr);
  EXPECT_EQ(line_for(after, "Main reservoirs"), nullptr);
  EXPECT_EQ(rest->part, line_for(before, "24 V")->part);
  // And what was to be bought beside what was convicted: the brothers.
  for (const ShoppingRow& row : before.shopping) {
    for (const std::string& part : row.for_parts) {
      if (part.find("Main reservoirs") == std::string::npos) {
        EXPECT_NE(line_for(after, part), nullptr) << part;
      }
    }
  }
}

TEST_F(MendingScenario, AComplaintThatStayedCallsForMoreMending) {
  take_in("stereo-receiver", 1978);
  tell(ReportSymptom{"hum-steady", Seen::yes});
  tell(JudgeSuspect{"reservoirs", JudgeSuspect::Verdict::at_fault});
  tell(RecordRepair{"reservoirs", "replaced", ""});
  tell(RetestSymptom{"hum-steady", true});
  expect_mends(mending());
}

TEST(Remedies, EveryCauseHasOneAndEachIsOfACause) {
  const auto rules = decision::load_mending_rules({DRYOUT_SOURCE_DIR});
  ASSERT_TRUE(rules.ok());
  for (const auto& cause : shipped_knowledge().causes) {
    EXPECT_NE(rules->remedy_for(cause.id), nullptr) << cause.id;
  }
  for (const auto& remedy : rules->remedies) {
    EXPECT_NE(knowledge::find(shipped_knowledge().causes, remedy.cause), nullptr) << remedy.cause;
  }
  for (const auto& rule : rules->on_sight) {
    for (const auto& role : rule.roles) {
      EXPECT_NE(knowledge::find(shipped_knowledge().roles, role), nullptr) << role;
    }
    for (const auto& technology : rule.technologies) {
      EXPECT_NE(knowledge::find(shipped_knowledge().technologies, technology), nullptr);
    }
  }
}

/// On every kind of equipment: whatever is convicted is mended, whatever sits on the mains is
/// bought by its class, and every line names something to buy.
class EveryKind : public MendingScenario, public ::testing::WithParamInterface<std::string> {};

TEST_P(EveryKind, MendsWhatIsConvictedAndBuysMainsPartsByTheirClass) {
  const auto& equipment = *knowledge::find(shipped_knowledge().equipment, GetParam());
  take_in(equipment.id, equipment.year_from + 5);
  tell(ReportSymptom{equipment.symptoms.front(), Seen::yes});
  for (const auto& group : equipment.groups) {
    if (group.role == "mains-x" || group.role == "mains-y") {
      tell(JudgeSuspect{group.id, JudgeSuspect::Verdict::at_fault});
    }
  }
  const CaseView view = tell(AddNote{"convicted by hand"});
  const auto cause = std::find_if(view.suspects.begin(), view.suspects.end(),
                                  [](const SuspectView& each) { return each.kind == "cause"; });
  if (cause != view.suspects.end()) {
    tell(JudgeSuspect{cause->item, JudgeSuspect::Verdict::at_fault});
  }
  const MendingView mended = mending();
  EXPECT_NE(mended.options.front().scope, "nothing");
  for (const auto& group : equipment.groups) {
    if (group.role == "mains-x" || group.role == "mains-y") {
      const ShoppingRow* row = line_for(mended, group.title);
      ASSERT_NE(row, nullptr) << group.id;
      EXPECT_THAT(row->part, HasSubstr(group.role == "mains-x" ? "class X2" : "class Y"));
      EXPECT_THAT(row->part, HasSubstr("a.c."));
      EXPECT_THAT(row->look_at, Contains(HasSubstr("licensed practice")));
    }
  }
  for (const ShoppingRow& row : mended.shopping) {
    EXPECT_FALSE(row.part.empty());
    EXPECT_GE(row.needed, 1);
    EXPECT_FALSE(row.for_parts.empty());
  }
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryKind, ::testing::ValuesIn([] {
                           std::vector<std::string> ids;
                           for (const auto& each : shipped_knowledge().equipment) {
                             ids.push_back(each.id);
                           }
                           return ids;
                         }()),
                         [](const auto& info) {
                           std::string name = info.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

/// The preventive job: a set that works, six parts of one make 1.3 to 1.8 times over the maker's
/// limit, one of another make at half of it; surface-mount cans of an early generation.
class PreventiveBatch : public MendingScenario {
 protected:
  void measure() {
    take_in(equipment_, 1990);
    constexpr double ratios[] = {1.3, 1.4, 1.5, 1.6, 1.7, 1.8};
    for (int i = 0; i < 6; ++i) {
      name("C" + std::to_string(301 + i), "Orbrin RS");
      tell(over("C" + std::to_string(301 + i), ratios[i]));
    }
    name("C307", "Wexholm T");
    tell(over("C307", 0.5));
  }
  void name(const std::string& reference, const std::string& make) {
    tell(NamePart{reference, group_, quantities::microfarads(47), quantities::volts(16),
                  "surface-mount-aluminium", make});
  }

  std::string equipment_ = "stereo-receiver";
  std::string group_ = "tuner-decoupling";
};

TEST_F(PreventiveBatch, TheBatchIsReplacedAndTheOddOneOnlyByChoice) {
  measure();
  for (const double years : {1.0, 5.0, 10.0}) {
    const MendingView view = mending(years);
    EXPECT_TRUE(view.preventive);
    expect_mends(view);
    const OptionView& advised = view.options.front();
    EXPECT_EQ(advised.parts, 6) << years << ": " << view.sentence;
    for (int i = 1; i <= 6; ++i) {
      EXPECT_THAT(advised.replaced, Contains(HasSubstr("C30" + std::to_string(i))));
    }
    EXPECT_THAT(advised.replaced, Not(Contains(HasSubstr("C307")))) << years;
    EXPECT_NE(advised.scope, "all-electrolytics");
  }
}

// Two general tables allow two and a half times and six times what the maker does: nothing is
// proven, and a table clears nobody.
TEST_F(PreventiveBatch, AgainstAGeneralTableNothingIsProvenAndNothingDecided) {
  for (const double generous : {2.5, 6.0}) {
    take_in(equipment_, 1990);
    constexpr double ratios[] = {1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 0.5};
    for (int i = 0; i < 7; ++i) {
      const std::string part = "C" + std::to_string(301 + i);
      name(part, i < 6 ? "Orbrin RS" : "Wexholm T");
      RecordReading reading = over(part, ratios[i]);
      reading.limit = *reading.limit * generous;
      reading.limit_source = "general-table";
      tell(reading);
    }
    const auto case_view = workshop_->view(number_);
    ASSERT_TRUE(case_view.ok());
    for (const ReadingView& reading : case_view->readings) {
      EXPECT_NE(reading.verdict, "over-limit") << reading.sentence;
      EXPECT_NE(reading.verdict, "within-limit") << reading.sentence;
      EXPECT_THAT(reading.sentence, HasSubstr("too generous to clear anything"));
    }
    const MendingView view = mending(10.0);
    EXPECT_THAT(view.sentence, HasSubstr("Not decided yet"));
    EXPECT_THAT(view.sentence, HasSubstr("fresh part"));
    EXPECT_THAT(view.sentence, Not(HasSubstr("replace nothing")));
  }
}

// What a reader of the tables would have done wrong is told, where the tables were written down.
TEST_F(PreventiveBatch, TellsWhatAReaderOfTheTablesWouldHavePassed) {
  take_in(equipment_, 1990);
  constexpr double ratios[] = {1.3, 1.4, 1.5, 1.6, 1.7, 1.8};
  for (int i = 0; i < 6; ++i) {
    const std::string part = "C" + std::to_string(301 + i);
    name(part, "Orbrin RS");
    RecordReading reading = over(part, ratios[i]);
    reading.beside = "general-table 2.5; general-table 6; fresh-part 0.333";
    const CaseView view = tell(reading);
    ASSERT_EQ(view.readings.back().beside.size(), 3U);
    EXPECT_EQ(view.readings.back().beside[1].value, 6.0);
  }
  const MendingView view = mending(10.0);
  EXPECT_THAT(view.reasons, Contains(AllOf(HasSubstr("general table"), HasSubstr("passed 6"))));
}

// Without any sheet a fresh part, which reads a third of the maker's limit, is enough.
TEST_F(PreventiveBatch, AFreshPartIsEnoughToAccuseTheSix) {
  take_in(equipment_, 1990);
  constexpr double ratios[] = {1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 0.5};
  for (int i = 0; i < 7; ++i) {
    const std::string part = "C" + std::to_string(301 + i);
    name(part, i < 6 ? "Orbrin RS" : "Wexholm T");
    RecordReading reading = over(part, ratios[i]);
    reading.limit = *reading.limit / 3.0;
    reading.limit_source = "fresh-part";
    tell(reading);
  }
  const MendingView view = mending(10.0);
  expect_mends(view);
  EXPECT_EQ(view.options.front().parts, 6) << view.sentence;
  EXPECT_THAT(view.options.front().replaced, Not(Contains(HasSubstr("C307"))));
}

TEST_F(PreventiveBatch, WhereItsBrothersAreOfTheSameKindTheyMayGoToo) {
  equipment_ = "vhf-mobile";
  group_ = "vco-filter";
  measure();
  for (const double years : {1.0, 10.0}) {
    const MendingView view = mending(years);
    expect_mends(view);
    for (int i = 1; i <= 6; ++i) {
      EXPECT_THAT(view.options.front().replaced, Contains(HasSubstr("C30" + std::to_string(i))));
    }
    EXPECT_NE(view.options.front().scope, "all-electrolytics") << years;
  }
}

TEST_F(PreventiveBatch, SaysWhyInOneSentenceEach) {
  measure();
  const MendingView view = mending(10.0);
  EXPECT_THAT(view.reasons, Contains(AllOf(HasSubstr("6 of 6"), HasSubstr("limit"))));
  EXPECT_THAT(view.reasons, Contains(HasSubstr("seep")));
  EXPECT_THAT(view.reasons, Contains(AllOf(HasSubstr("residue"), HasSubstr("under"))));
  EXPECT_THAT(view.reasons, Contains(AllOf(HasSubstr("C307"), HasSubstr("choice"))));
  for (const std::string& reason : view.reasons) {
    EXPECT_THAT(reason, Not(HasSubstr("trouble")));
    EXPECT_EQ(std::count(reason.begin(), reason.end(), '\n'), 0);
  }
}

TEST_F(PreventiveBatch, AnotherMakeNeitherClearsNorIsDraggedDown) {
  measure();
  const MendingView view = mending(10.0);
  const auto batch = [&](const char* part) {
    return std::find_if(view.sampling.begin(), view.sampling.end(), [&](const CohortSample& each) {
      return std::find(each.items.begin(), each.items.end(), part) != each.items.end();
    });
  };
  ASSERT_NE(batch("part:C301"), view.sampling.end());
  ASSERT_NE(batch("part:C307"), view.sampling.end());
  EXPECT_NE(batch("part:C301"), batch("part:C307"));
  EXPECT_EQ(batch("part:C301")->advice, "recap");
  EXPECT_EQ(batch("part:C301")->measured, 6);
  EXPECT_EQ(batch("part:C301")->out_of_limit, 6);
  EXPECT_NE(batch("part:C307")->advice, "recap");
}

TEST_F(PreventiveBatch, WithoutAComplaintNothingMakesAnyTrouble) {
  measure();
  const MendingView view = mending(10.0);
  EXPECT_THAT(view.sentence, Not(HasSubstr("trouble")));
  EXPECT_THAT(view.sentence, Not(HasSubstr("convicted")));
  EXPECT_EQ(view.options.front().complaint_stays.value(), 0.0);
}

}  // namespace
}  // namespace dryout::casework
