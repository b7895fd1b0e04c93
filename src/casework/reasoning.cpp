#include "casework/reasoning.h"

#include <algorithm>
#include <utility>

namespace dryout::casework {
namespace {

using diagnosis::Evidence;
using diagnosis::Network;
using quantities::Result;

/// Labels of the pieces as the diagnosis room writes them, in the order of CaseEvidence::pieces().
std::vector<std::string> labels_of(const Network& network, const Evidence& evidence) {
  std::vector<std::string> labels;
  for (const std::size_t finding : evidence.present) {
    labels.push_back(network.findings[finding].id + " present");
  }
  for (const std::size_t finding : evidence.absent) {
    labels.push_back(network.findings[finding].id + " absent");
  }
  for (const diagnosis::ItemReading& reading : evidence.readings) {
    labels.push_back("reading of " + network.items[reading.item].id);
  }
  return labels;
}

std::vector<std::size_t> indices_of(const std::vector<std::string>& wanted,
                                    const std::vector<std::string>& labels) {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (std::find(wanted.begin(), wanted.end(), labels[i]) != wanted.end()) {
      indices.push_back(i);
    }
  }
  return indices;
}

/// Takes contradictory sets out until the rest can be true; the first set is the one to be told.
void set_contradictions_aside(CaseEvidence& evidence, std::vector<Piece>& told) {
  for (;;) {
    const auto& network = evidence.network.plain();
    const auto labels = labels_of(network, evidence.evidence);
    const auto smallest =
        indices_of(diagnosis::smallest_contradiction(network, evidence.evidence), labels);
    if (smallest.empty()) {
      return;
    }
    if (told.empty()) {
      const std::vector<Piece> pieces = evidence.pieces();
      for (const std::size_t i : smallest) {
        told.push_back(pieces[i]);
      }
    }
    remove_pieces(evidence, smallest);
  }
}

std::vector<std::size_t> findings_of(const planning::Bench& bench) {
  std::vector<std::size_t> findings;
  for (const planning::CandidateCheck& check : bench.checks) {
    findings.push_back(check.finding);
  }
  return findings;
}

/// Reported symptoms; where there are none, the checks that looked bad.
std::vector<CaseFinding> complaint_of(const CaseEvidence& evidence) {
  return evidence.symptoms_present.empty() ? evidence.findings_present()
                                           : evidence.symptoms_present;
}

template <class Belongs>
std::vector<std::size_t> items_where(const Ground& ground, Belongs belongs) {
  std::vector<std::size_t> items;
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    if (belongs(ground.compiled.items[i])) {
      items.push_back(i);
    }
  }
  return items;
}

void blame_everyone(const Ground& ground, Reasoning& reasoning) {
  const auto complaint = complaint_of(reasoning.evidence);
  Blame blame(reasoning.evidence.network.plain(), reasoning.evidence.evidence,
              quantities::values_of(complaint), reasoning.foresight.now.log_evidence);
  const std::vector<double> each = complaint.empty() ? std::vector<double>{} : blame.of_each();
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    reasoning.suspicion.push_back(complaint.empty() ? 1.0 - reasoning.foresight.now.items[i][0]
                                                    : each[i]);
    reasoning.before.push_back(blame.beforehand(i, ground.prior.items[i]));
  }
  const auto& blocks = ground.equipment->blocks;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    reasoning.by_block.push_back(
        blame.of(items_where(ground, [&](const auto& item) { return item.block == b; })));
  }
  for (const knowledge::Board& board : ground.equipment->boards) {
    reasoning.by_board.push_back(blame.of(items_where(
        ground, [&](const auto& item) { return blocks.at(item.block).board == board.id; })));
  }
  if (!complaint.empty()) {
    reasoning.by_capacitors = blame.of(items_where(ground, is_capacitor));
    reasoning.by_anything = blame.of(items_where(ground, [](const auto&) { return true; }));
  }
}

}  // namespace

Result<Reasoning> reason(const Ground& ground, const CaseState& state) {
  Reasoning reasoning;
  reasoning.evidence = evidence_of(ground, state);
  reasoning.bench = bench_of(ground, state, reasoning.evidence);
  const auto& network = reasoning.evidence.network.plain();
  const auto candidates = findings_of(reasoning.bench.bench);
  auto foresight = diagnosis::infer_with_outlook(network, reasoning.evidence.evidence, candidates);
  if (!foresight) {
    set_contradictions_aside(reasoning.evidence, reasoning.contradiction);
    foresight = diagnosis::infer_with_outlook(network, reasoning.evidence.evidence, candidates);
  }
  if (!foresight) {
    return foresight.problems();
  }
  reasoning.foresight = std::move(*foresight);
  auto weights = diagnosis::leave_one_out(network, reasoning.evidence.evidence);
  if (!weights) {
    return weights.problems();
  }
  reasoning.weights = std::move(*weights);
  reasoning.bench.bench.complaint = quantities::values_of(reasoning.evidence.symptoms_left.empty()
                                                              ? complaint_of(reasoning.evidence)
                                                              : reasoning.evidence.symptoms_left);
  reasoning.ranked = planning::rank_checks(network, reasoning.foresight, reasoning.bench.bench);
  reasoning.step =
      planning::next_step(network, reasoning.foresight, reasoning.bench.bench, reasoning.ranked);
  blame_everyone(ground, reasoning);
  return reasoning;
}

double share_of_state(const Reasoning& reasoning, std::size_t item, std::string_view state) {
  const auto& states = reasoning.evidence.network.plain().items[item].states;
  const auto found = std::find(states.begin(), states.end(), state);
  return found == states.end() ? 0.0
                               : reasoning.foresight.now
                                     .items[item][static_cast<std::size_t>(found - states.begin())];
}

}  // namespace dryout::casework
