// Which links of the tree carry the ranking of the vignettes, and which never matter? Each link
// that lies on the way to something seen in a vignette is cut in turn, and the vignette ranked
// again.
//
//   vignette_sensitivity [EQUIPMENT]   all vignettes, or those of one equipment
//
// Prints the links by what their loss costs: vignettes in which no expected suspect is among the
// first three any more, vignettes that lose their leader, and the largest move of the expected
// suspect in decibans; then how many links no vignette leans on.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iostream>
#include <set>
#include <string_view>
#include <tuple>
#include <utility>

#include "knowledge/load.h"
#include "quantities/probability.h"
#include "vignettes/vignettes.h"

namespace {

using namespace dryout;             // NOLINT: one small program
using namespace dryout::vignettes;  // NOLINT

struct Worth {
  std::size_t leaned_on = 0;  ///< vignettes with this link on a way to what was seen
  std::size_t lost_top3 = 0;
  std::size_t lost_top1 = 0;
  double largest_move = 0.0;  ///< dB, of the expected suspect's blame
};

/// Blame below this is as good as none: a suspect that vanishes moves by 40 dB, not infinitely.
constexpr double least_blame = 1e-4;

double expected_blame(const Vignette& vignette, const diagnosis::Network& network,
                      const std::vector<Suspect>& suspects) {
  for (const Suspect& suspect : suspects) {
    if (matches(network.items[suspect.item].id, vignette.expect_top3)) {
      return std::clamp(suspect.blame, least_blame, 1.0 - least_blame);
    }
  }
  return least_blame;
}

double decibans(double p) { return quantities::weight_of(p / (1.0 - p)).value; }

/// Positions in the knowledge of the links on the ways to what was seen.
std::set<std::size_t> links_behind(const knowledge::KnowledgeBase& knowledge,
                                   const diagnosis::CompiledNetwork& compiled,
                                   const diagnosis::Evidence& evidence) {
  std::set<std::size_t> links;
  const auto add = [&](std::size_t finding) {
    for (const std::size_t behind : compiled.behind[finding]) {
      for (const auto* step : knowledge::path(compiled.chained, behind)) {
        links.insert(static_cast<std::size_t>(step->link - knowledge.links.data()));
      }
    }
  };
  std::for_each(evidence.present.begin(), evidence.present.end(), add);
  std::for_each(evidence.absent.begin(), evidence.absent.end(), add);
  return links;
}

void weigh_links(knowledge::KnowledgeBase& knowledge, const Vignette& vignette,
                 std::vector<Worth>& worth) {
  auto compiled = compile(knowledge, vignette);
  const Seen seen = seen_in(knowledge, vignette, compiled);
  const auto suspects = leading_suspects(compiled.network, seen);
  const Score before = score(vignette, compiled.network, suspects);
  const double blame = expected_blame(vignette, compiled.network, suspects);
  for (const std::size_t link : links_behind(knowledge, compiled, seen.evidence)) {
    const double strength = std::exchange(knowledge.links[link].strength, 0.0);
    auto without = compile(knowledge, vignette);
    const Seen seen_without = seen_in(knowledge, vignette, without);
    const auto ranked = leading_suspects(without.network, seen_without);
    const Score after = score(vignette, without.network, ranked);
    knowledge.links[link].strength = strength;
    Worth& tally = worth[link];
    ++tally.leaned_on;
    tally.lost_top3 += before.top3 && !after.top3 ? 1U : 0U;
    tally.lost_top1 += before.top1 && !after.top1 ? 1U : 0U;
    const double move =
        decibans(expected_blame(vignette, without.network, ranked)) - decibans(blame);
    if (std::abs(move) > std::abs(tally.largest_move)) tally.largest_move = move;
  }
}

void print(const knowledge::KnowledgeBase& knowledge, const std::vector<Worth>& worth) {
  constexpr double unfelt = 0.5;  // dB
  std::vector<std::size_t> order;
  std::size_t unasked = 0;
  std::size_t unfelt_links = 0;
  for (std::size_t i = 0; i < worth.size(); ++i) {
    unasked += worth[i].leaned_on == 0 ? 1U : 0U;
    unfelt_links += worth[i].leaned_on > 0 && std::abs(worth[i].largest_move) < unfelt ? 1U : 0U;
    if (std::abs(worth[i].largest_move) >= unfelt) order.push_back(i);
  }
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const auto key = [&](std::size_t i) {
      return std::make_tuple(worth[i].lost_top3, worth[i].lost_top1,
                             std::abs(worth[i].largest_move));
    };
    return key(a) > key(b);
  });
  std::printf("%-44s %9s %9s %9s %9s\n", "link", "leaned on", "lost top3", "lost top1", "dB");
  for (const std::size_t i : order) {
    std::printf("%-44s %9zu %9zu %9zu %9.1f\n", knowledge.links[i].id.c_str(), worth[i].leaned_on,
                worth[i].lost_top3, worth[i].lost_top1, worth[i].largest_move);
  }
  for (std::size_t i = 0; i < worth.size(); ++i) {
    if (std::abs(worth[i].largest_move) < unfelt) {
      std::printf("%-44s %s\n", knowledge.links[i].id.c_str(),
                  worth[i].leaned_on == 0 ? "on no way" : "on a way, moves nothing");
    }
  }
  std::printf("%zu links: %zu felt, %zu on a way but moving less than %.1f dB, %zu on no way\n",
              worth.size(), order.size(), unfelt_links, unfelt, unasked);
}

}  // namespace

int main(int count, char** arguments) {
  const std::string_view equipment = count > 1 ? arguments[1] : "";
  auto knowledge = knowledge::load({DRYOUT_SOURCE_DIR});
  const auto vignettes = read_folder(DRYOUT_SOURCE_DIR "/tests/vignettes");
  if (!knowledge || !vignettes) {
    std::cerr << quantities::describe(knowledge ? vignettes.problems() : knowledge.problems());
    return 1;
  }
  std::vector<Worth> worth(knowledge->links.size());
  for (const Vignette& vignette : *vignettes) {
    if (equipment.empty() || vignette.equipment == equipment) {
      weigh_links(*knowledge, vignette, worth);
    }
  }
  print(*knowledge, worth);
  return 0;
}
