// What holds for every sequence of commands: a journal can be taken back to nothing, read again to
// the same case, and carried to another bench.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "casework/invented_bench.h"

namespace dryout::casework {
namespace {

using namespace tests;  // NOLINT: the invented bench

/// Sensible commands for the lantern; which of them are accepted depends on what came before.
Command any_command() {
  const auto suspects = rc::gen::element<std::string>("group:reservoirs", "group:coupling");
  switch (*rc::gen::inRange(0, 7)) {
    case 0:
      return ReportSymptom{"hums", *rc::gen::element(Seen::yes, Seen::no, Seen::unclear)};
    case 1:
      return AddNote{*rc::gen::arbitrary<std::string>()};
    case 2:
      return OpenAccess{"lid"};
    case 3: {
      RecordReading reading;
      reading.item = *suspects;
      reading.kind = ReadingKind::esr;
      reading.value = *rc::gen::inRange(1, 1000) / 100.0;
      reading.limit = 1.0;
      reading.limit_source = "datasheet";
      return reading;
    }
    case 4:
      return RecordRepair{*suspects, "replaced", ""};
    case 5:
      return JudgeSuspect{*suspects, JudgeSuspect::Verdict::cleared};
    default:
      return CloseCase{"", ""};
  }
}

/// Plays some commands, and takes some back on the way.
void play(Workshop& workshop, std::int64_t number) {
  const int steps = *rc::gen::inRange(0, 12);
  for (int i = 0; i < steps; ++i) {
    const int act = *rc::gen::inRange(0, 6);
    if (act == 0) {
      (void)workshop.undo(number);
    } else if (act == 1) {
      (void)workshop.redo(number);
    } else {
      (void)workshop.apply(number, any_command());
    }
  }
}

/// What a view says of the set and its faults, without the log.
std::string figures(const CaseView& view) {
  std::string text = view.leading.sentence + (view.closed ? "|closed" : "|open");
  for (const SuspectView& each : view.suspects) {
    text += '|' + each.item + std::to_string(each.suspicion.value());
  }
  for (const CheckView& each : view.next) {
    text += '|' + each.check + each.place;
  }
  for (const SymptomView& each : view.symptoms) {
    text += '|' + each.id + each.seen;
  }
  return text + '|' + std::to_string(view.readings.size()) + '|' + view.set_name;
}

RC_GTEST_PROP(JournalProperties, TakenBackToTheFirstStepTheCaseIsAsItCameIn, ()) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  const std::string fresh = figures(*workshop->view(number));
  play(*workshop, number);
  for (int i = 0; workshop->view(number)->can_undo; ++i) {
    RC_ASSERT(i < 20);
    RC_ASSERT(workshop->undo(number).ok());
  }
  RC_ASSERT(figures(*workshop->view(number)) == fresh);
}

RC_GTEST_PROP(JournalProperties, EveryUndoneStepComesBackAsItWas, ()) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  play(*workshop, number);
  (void)workshop->apply(number, AddNote{"last"});
  const CaseView before = *workshop->view(number);
  RC_ASSERT(before.can_undo);
  RC_ASSERT(workshop->undo(number).ok());
  const auto after = workshop->redo(number);
  RC_ASSERT(after.ok());
  RC_ASSERT(figures(*after) == figures(before));
}

RC_GTEST_PROP(JournalProperties, ReadAgainAndCarriedElsewhereItIsTheSameCase, ()) {
  const auto workshop = open_workshop();
  const auto number = start_lantern(*workshop);
  play(*workshop, number);
  const CaseView here = *workshop->view(number);
  const std::string text = *workshop->export_case(number);
  const auto elsewhere = open_workshop();
  const auto copy = elsewhere->import_case(text, "copy.json");
  RC_ASSERT(copy.ok());
  const CaseView there = *elsewhere->view(*copy);
  RC_ASSERT(figures(there) == figures(here));
  RC_ASSERT(there.log.size() == here.log.size());
  RC_ASSERT(*elsewhere->export_case(*copy) == text);
  const auto twice = elsewhere->import_cases(text, "copy.json");
  RC_ASSERT(twice.ok());
  RC_ASSERT(twice->cases.front().arrival == Arrival::known);
}

}  // namespace
}  // namespace dryout::casework
