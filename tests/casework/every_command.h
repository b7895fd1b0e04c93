// One example of every alternative of Command, for tests that walk them all.
#pragma once

#include <vector>

#include "casework/command.h"

namespace dryout::casework::tests {

/// Applied in this order to a lantern they are all accepted; one per alternative, in the order of
/// the variant save that what must come later does.
inline std::vector<Command> every_command() {
  RecordReading reading;
  reading.item = "C12";
  reading.value = 2.4;
  reading.frequency = quantities::hertz(1e5);
  reading.temperature = quantities::Celsius(21.5);
  reading.across = Across::ceramic;
  reading.limit = 0.35;
  reading.limit_source = "datasheet";
  reading.lead_zero = 0.05;
  reading.meter = "bench";
  reading.remark = "twice";
  return {TakeIn{"", "Lantern 40 S", 1980, "", "it hums, louder when warm"},
          ReportSymptom{"hums", Seen::yes},
          AcknowledgeCautions{"ripple-on-rail", "raw"},
          RecordOutcome{"ripple-on-rail", "raw", Seen::yes, "1.9 V"},
          OpenAccess{"lid"},
          NamePart{"C12", "reservoirs", quantities::microfarads(4700), quantities::volts(50),
                   "wet-aluminium", "Invented, series X", "10x16 pitch 5 radial 105C"},
          reading,
          DeclineCheck{"sign-of-life", "power", "owner waits"},
          ReconsiderCheck{"sign-of-life", "power"},
          CloseAccess{"lid"},
          JudgeSuspect{"part:C12", JudgeSuspect::Verdict::at_fault},
          RecordRepair{"part:C12", "replaced", "4700 µF 63 V"},
          RetestSymptom{"hums", false},
          RecordProof{"rail-volts@raw", Proved::passed, "37.6 V, steady"},
          AddNote{"Feet are missing.\nOwner knows."},
          CloseCase{"part:C12", "Dried reservoir"},
          ReopenCase{"hums again"}};
}

}  // namespace dryout::casework::tests
