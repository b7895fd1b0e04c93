#include <algorithm>
#include <cmath>

#include "casework/build_view.h"
#include "casework/wording.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

using diagnosis::CompiledItem;
using quantities::Decibans;
using quantities::Probability;

/// Evidence below this is not worth a line.
constexpr double told_from_decibans = 0.1;

double odds(double p) { return p / (1.0 - p); }

std::string_view kind_of(const CompiledItem& item) {
  switch (item.kind) {
    case CompiledItem::Kind::group:
      return "group";
    case CompiledItem::Kind::part:
      return "part";
    case CompiledItem::Kind::cause:
      break;
  }
  return "cause";
}

std::vector<StateShare> states_of(const CaseInHand& hand, std::size_t item) {
  const auto& states = hand.reasoning.evidence.network.plain().items[item].states;
  const auto& posterior = hand.reasoning.foresight.now.items[item];
  std::vector<StateShare> shares;
  for (std::size_t i = 0; i < states.size(); ++i) {
    const auto* mode = knowledge::find(hand.ground.knowledge->modes, states[i]);
    shares.push_back(
        {states[i], mode == nullptr ? states[i] : mode->title, Probability(posterior[i])});
  }
  return shares;
}

std::vector<EvidenceLine> evidence_of_item(const CaseInHand& hand, const std::vector<Piece>& pieces,
                                           std::size_t item) {
  const auto& weight = hand.reasoning.weights.weight;
  std::vector<EvidenceLine> lines;
  for (std::size_t i = 0; i < pieces.size() && i < weight.size(); ++i) {
    const Decibans decibans = weight[i][item];
    if (std::abs(decibans.value) >= told_from_decibans) {
      lines.push_back({pieces[i].text, decibans, pieces[i].event});
    }
  }
  std::sort(lines.begin(), lines.end(), [](const EvidenceLine& a, const EvidenceLine& b) {
    return std::abs(a.weight.value) > std::abs(b.weight.value);
  });
  return lines;
}

/// How the item brings about what was seen, strongest link first, one line per finding.
std::vector<std::string> paths_of(const CaseInHand& hand, std::size_t item) {
  const CaseEvidence& evidence = hand.reasoning.evidence;
  std::vector<std::pair<double, std::string>> told;
  for (const CaseFinding seen : evidence.findings_present()) {
    const auto& seen_causes = evidence.network.at(seen).causes;
    if (std::none_of(seen_causes.begin(), seen_causes.end(),
                     [item](const diagnosis::Cause& cause) { return cause.item == item; })) {
      continue;
    }
    const KnownFinding finding = evidence.network.known(seen);
    const auto& causes = hand.ground.compiled.at(finding).causes;
    std::size_t best = causes.size();
    for (std::size_t c = 0; c < causes.size(); ++c) {
      const bool stronger = best == causes.size() || causes[c].strength > causes[best].strength;
      best = causes[c].item == item && stronger ? c : best;
    }
    if (best == causes.size()) {
      continue;
    }
    std::string line;
    for (const std::string& step : diagnosis::tell(*hand.ground.knowledge, *hand.ground.equipment,
                                                   hand.ground.compiled, finding, best)) {
      line += (line.empty() ? "" : "; ") + step;
    }
    told.emplace_back(causes[best].strength, line);
  }
  std::sort(told.begin(), told.end(), std::greater<>());
  std::vector<std::string> lines;
  lines.reserve(told.size());
  for (auto& [strength, line] : told) {
    lines.push_back(std::move(line));
  }
  return lines;
}

std::string judgement_of(const CaseInHand& hand, std::size_t item) {
  for (const auto& [id, told] : hand.state.judged) {
    if (hand.ground.item(id) == item) {
      return std::string(word_of(told.what.verdict));
    }
  }
  return "";
}

std::string mending_of(const CaseInHand& hand, std::size_t item) {
  std::string action;
  for (const auto& repair : hand.state.repairs) {
    if (hand.ground.item(repair.what.item) == item) {
      action = repair.what.action;
    }
  }
  return action;
}

SuspectView suspect_of(const CaseInHand& hand, const std::vector<Piece>& pieces, std::size_t item) {
  const CompiledItem& compiled = hand.ground.compiled.items[item];
  const knowledge::Block& block = hand.ground.equipment->blocks.at(compiled.block);
  const auto* board = knowledge::find(hand.ground.equipment->boards, block.board);
  const double suspicion = hand.reasoning.suspicion[item];
  const double before = hand.reasoning.before[item];
  SuspectView view;
  view.item = hand.ground.compiled.network.items[item].id;
  view.title = compiled.title;
  view.kind = kind_of(compiled);
  view.block = block.id;
  view.block_title = block.title;
  view.board = block.board;
  view.board_title = board == nullptr ? "" : board->title;
  view.capacitor = is_capacitor(compiled);
  view.suspicion = Probability(suspicion);
  view.before = Probability(before);
  view.unsound = Probability(hand.reasoning.unsound[item]);
  view.blame = Probability(hand.reasoning.blame[item]);
  view.convicted = word_of(hand.reasoning.convicted[item]);
  // Where it cannot have a part in the complaint, nothing has moved.
  const bool out_of_it = suspicion == before;
  view.weight = out_of_it ? Decibans{} : quantities::weight_of(odds(suspicion) / odds(before));
  view.states = states_of(hand, item);
  view.evidence = evidence_of_item(hand, pieces, item);
  view.paths = paths_of(hand, item);
  view.judged = judgement_of(hand, item);
  view.mended = mending_of(hand, item);
  return view;
}

}  // namespace

std::vector<SuspectView> suspects_of(const CaseInHand& hand) {
  const std::vector<Piece> pieces = hand.reasoning.evidence.pieces();
  std::vector<SuspectView> suspects;
  for (std::size_t i = 0; i < hand.ground.compiled.items.size(); ++i) {
    suspects.push_back(suspect_of(hand, pieces, i));
  }
  std::stable_sort(
      suspects.begin(), suspects.end(), [](const SuspectView& a, const SuspectView& b) {
        return a.suspicion != b.suspicion ? a.suspicion > b.suspicion : a.unsound > b.unsound;
      });
  return suspects;
}

}  // namespace dryout::casework
