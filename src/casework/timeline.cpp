#include "casework/timeline.h"

namespace dryout::casework {
namespace {

struct LaneOf {
  std::string_view operator()(const RecordOutcome& /*c*/) const { return "probed"; }
  std::string_view operator()(const DeclineCheck& /*c*/) const { return "probed"; }
  std::string_view operator()(const ReconsiderCheck& /*c*/) const { return "probed"; }
  std::string_view operator()(const RecordReading& /*c*/) const { return "read"; }
  std::string_view operator()(const AcknowledgeCautions& /*c*/) const { return "opened"; }
  std::string_view operator()(const OpenAccess& /*c*/) const { return "opened"; }
  std::string_view operator()(const CloseAccess& /*c*/) const { return "opened"; }
  std::string_view operator()(const JudgeSuspect& /*c*/) const { return "judged"; }
  std::string_view operator()(const RecordRepair& /*c*/) const { return "mended"; }
  std::string_view operator()(const RetestSymptom& /*c*/) const { return "proved"; }
  std::string_view operator()(const RecordProof& /*c*/) const { return "proved"; }
  std::string_view operator()(const CloseCase& /*c*/) const { return "proved"; }
  template <class Other>
  std::string_view operator()(const Other& /*c*/) const {
    return "told";
  }
};

std::string_view seen_as(Seen bad) {
  return bad == Seen::yes ? "bad" : bad == Seen::no ? "good" : "";
}

struct BearingOf {
  std::string_view operator()(const ReportSymptom& c) const { return seen_as(c.seen); }
  std::string_view operator()(const RecordOutcome& c) const { return seen_as(c.bad); }
  std::string_view operator()(const RetestSymptom& c) const {
    return c.still_there ? "bad" : "good";
  }
  std::string_view operator()(const RecordProof& c) const {
    return c.outcome == Proved::failed ? "bad" : c.outcome == Proved::passed ? "good" : "";
  }
  template <class Other>
  std::string_view operator()(const Other& /*c*/) const {
    return "";
  }
};

}  // namespace

const std::vector<Lane>& lanes() {
  static const std::vector<Lane> all{
      {"told", "Told"},     {"opened", "Opened"}, {"probed", "Probed"}, {"read", "Read"},
      {"judged", "Judged"}, {"mended", "Mended"}, {"proved", "Proved"}};
  return all;
}

std::string_view lane_of(const Command& command) { return std::visit(LaneOf{}, command); }

std::string_view bearing_of(const Command& command) { return std::visit(BearingOf{}, command); }

}  // namespace dryout::casework
