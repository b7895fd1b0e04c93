// What must hold for every network and every evidence, on random small ones.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/posterior.h"
#include "enumeration.h"
#include "random_network.h"

namespace dryout::diagnosis {
namespace {

bool close(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max({1e-3, a, b}); }

struct Case {
  Network network;
  Evidence evidence;
};

Case any_case() {
  RandomNetwork random(*rc::gen::arbitrary<unsigned>());
  Case made{random.network(), {}};
  made.evidence = random.evidence(made.network);
  return made;
}

void expect_same_items(const Posterior& one, const Posterior& other, std::size_t items) {
  for (std::size_t i = 0; i < items; ++i) {
    for (std::size_t s = 0; s < one.items[i].size(); ++s) {
      RC_ASSERT(close(one.items[i][s], other.items[i][s]));
    }
  }
}

RC_GTEST_PROP(InferProperties, EqualsEveryJointStateAddedUp, ()) {
  const Case some = any_case();
  const auto posterior = infer(some.network, some.evidence);
  const Enumerated expected = enumerate(some.network, some.evidence);
  RC_ASSERT(posterior.ok() == (expected.evidence > 0.0L));
  RC_PRE(posterior.ok());
  for (std::size_t i = 0; i < some.network.items.size(); ++i) {
    double sum = 0.0;
    for (std::size_t s = 0; s < posterior->items[i].size(); ++s) {
      RC_ASSERT(close(posterior->items[i][s],
                      static_cast<double>(expected.items[i][s] / expected.evidence)));
      sum += posterior->items[i][s];
    }
    RC_ASSERT(close(sum, 1.0));
  }
}

RC_GTEST_PROP(InferProperties, TheOrderOfFindingsDoesNotMatter, ()) {
  const Case some = any_case();
  const auto before = infer(some.network, some.evidence);
  RC_PRE(before.ok());
  // The findings themselves change places, and what was seen of them goes with them.
  const std::size_t count = some.network.findings.size();
  Case turned = some;
  std::reverse(turned.network.findings.begin(), turned.network.findings.end());
  for (std::vector<std::size_t>* seen : {&turned.evidence.present, &turned.evidence.absent}) {
    for (std::size_t& finding : *seen) {
      finding = count - 1 - finding;
    }
  }
  for (SoftFinding& soft : turned.evidence.soft) {
    soft.finding = count - 1 - soft.finding;
  }
  const auto after = infer(turned.network, turned.evidence);
  RC_ASSERT(after.ok());
  RC_ASSERT(close(before->log_evidence, after->log_evidence) ||
            std::abs(before->log_evidence - after->log_evidence) < 1e-9);
  expect_same_items(*before, *after, some.network.items.size());
}

RC_GTEST_PROP(InferProperties, APartThatShowsNothingChangesNothing, ()) {
  const Case some = any_case();
  const auto before = infer(some.network, some.evidence);
  RC_PRE(before.ok());
  Case larger = some;
  larger.network.items.push_back({"bystander", {"sound", "open"}, {}, {{0.9, 0.1}}});
  larger.network.findings.push_back({"its own", 0.01, {{some.network.items.size(), 1, 0.8}}});
  const auto after = infer(larger.network, larger.evidence);
  RC_ASSERT(after.ok());
  expect_same_items(*before, *after, some.network.items.size());
  RC_ASSERT(close(after->items.back()[1], 0.1));
}

}  // namespace
}  // namespace dryout::diagnosis
