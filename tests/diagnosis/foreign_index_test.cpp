// Evidence of one network brought to another stops us: it is never read past the end.
#include <gtest/gtest.h>

#include <array>

#include "diagnosis/innocence.h"
#include "diagnosis/posterior.h"
#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

using quantities::InternalFault;

/// One item, one finding.
Network small_network() {
  Network network;
  network.items = {{"C1", {"sound", "dried"}, {}, {{0.9, 0.1}}}};
  network.findings = {{"hum", 0.01, {{0, 1, 0.9}}}};
  return network;
}

TEST(ForeignIndex, StopsInference) {
  const Network network = small_network();
  Evidence present, absent, soft, reading;
  present.present = {1};
  absent.absent = {1};
  soft.soft = {{1, 0.5, 0.5}};
  reading.readings = {{1, {{1.0, 0.5}}}};
  for (const Evidence& evidence : {present, absent, soft, reading}) {
    EXPECT_THROW((void)infer(network, evidence), InternalFault);
    EXPECT_THROW((void)leave_one_out(network, evidence), InternalFault);
  }
  const std::array<std::size_t, 1> beyond{1};
  EXPECT_THROW((void)infer_with_outlook(network, {}, beyond), InternalFault);
  EXPECT_THROW((void)innocence_of_each(network, {}, beyond), InternalFault);
}

}  // namespace
}  // namespace dryout::diagnosis
