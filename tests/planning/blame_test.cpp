#include "planning/blame.h"

#include <gtest/gtest.h>

namespace dryout::planning {
namespace {

using diagnosis::Network;

/// Two capacitors and a joint may make it hum; a fourth item is merely old.
Network humming() {
  Network network;
  network.items = {{"C1", {"sound", "tired", "dried"}, {}, {{0.6, 0.3, 0.1}}},
                   {"C2", {"sound", "dried"}, {}, {{0.8, 0.2}}},
                   {"joint", {"sound", "cracked"}, {}, {{0.95, 0.05}}},
                   {"old", {"sound", "leaky"}, {}, {{0.1, 0.9}}}};
  network.findings = {{"hum", 0.02, {{0, 2, 0.9}, {1, 1, 0.4}, {2, 1, 1.0}}}};
  return network;
}

/// P(the item's own link made the finding | finding present), by enumerating all states and links.
double by_enumeration(const Network& network, std::size_t item) {
  double made = 0.0;
  double all = 0.0;
  for (std::size_t a = 0; a < 3; ++a) {
    for (std::size_t b = 0; b < 2; ++b) {
      for (std::size_t c = 0; c < 2; ++c) {
        const std::size_t states[] = {a, b, c};
        double p = 1.0;
        double silent = 1.0 - network.findings[0].leak;
        double own_silent = 1.0;
        for (std::size_t i = 0; i < 3; ++i) {
          p *= network.items[i].given_level[0][states[i]];
          for (const auto& cause : network.findings[0].causes) {
            if (cause.item == i && cause.state == states[i]) {
              silent *= 1.0 - cause.strength;
              own_silent *= i == item ? 1.0 - cause.strength : 1.0;
            }
          }
        }
        all += p * (1.0 - silent);
        made += p * (1.0 - own_silent);
      }
    }
  }
  return made / all;
}

TEST(LinearBlame, EqualsEnumerationWhereTheComplaintIsAllThatIsKnown) {
  const Network network = humming();
  const auto now =
      diagnosis::infer(network, {.present = {0}, .absent = {}, .soft = {}, .readings = {}});
  ASSERT_TRUE(now.ok());
  const auto blame = LinearBlame(network, *now, {0}).of_all(now->items);
  for (std::size_t item = 0; item < 3; ++item) {
    EXPECT_NEAR(blame[item], by_enumeration(network, item), 1e-12) << network.items[item].id;
  }
}

TEST(LinearBlame, AcquitsWhatIsMerelyOld) {
  const Network network = humming();
  const auto now =
      diagnosis::infer(network, {.present = {0}, .absent = {}, .soft = {}, .readings = {}});
  const auto blame = LinearBlame(network, *now, {}).of_all(now->items);
  EXPECT_EQ(blame[3], 0.0);
  EXPECT_GT(now->items[3][1], 0.89);
}

TEST(LinearBlame, IsBeingNotSoundWhereNothingIsComplainedOf) {
  const Network network = humming();
  const auto now = diagnosis::infer(network, {});
  const auto blame = LinearBlame(network, *now, {}).of_all(now->items);
  EXPECT_NEAR(blame[0], 0.4, 1e-12);
  EXPECT_NEAR(blame[3], 0.9, 1e-12);
}

}  // namespace
}  // namespace dryout::planning
