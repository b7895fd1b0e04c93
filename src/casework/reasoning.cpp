#include "casework/reasoning.h"

#include <algorithm>
#include <exception>
#include <iterator>
#include <utility>

#include "diagnosis/drawn_answers.h"
#include "quantities/check.h"
#include "quantities/holds.h"
#include "quantities/patience.h"
#include "quantities/printed_number.h"

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

/// The symptoms that are left, or all that were reported where none is; where nothing was reported,
/// the checks that looked bad since the newest repair: what looked bad before is of the old parts.
std::vector<CaseFinding> complaint_of(const CaseEvidence& evidence) {
  if (!evidence.symptoms_present.empty()) {
    return evidence.symptoms_left.empty() ? evidence.symptoms_present : evidence.symptoms_left;
  }
  const std::vector<CaseFinding> all = evidence.findings_present();
  std::vector<CaseFinding> since;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (evidence.present.at(i).event > evidence.last_repair) {
      since.push_back(all[i]);
    }
  }
  return since;
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

/// The sets of items whose blame is shown: each item alone, the blocks, the boards, all capacitors,
/// all items.
std::vector<std::vector<std::size_t>> sets_shown(const Ground& ground) {
  std::vector<std::vector<std::size_t>> sets;
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    sets.push_back({i});
  }
  const auto& blocks = ground.equipment->blocks;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    sets.push_back(items_where(ground, [&](const auto& item) { return item.block == b; }));
  }
  for (const knowledge::Board& board : ground.equipment->boards) {
    sets.push_back(items_where(
        ground, [&](const auto& item) { return blocks.at(item.block).board == board.id; }));
  }
  sets.push_back(items_where(ground, is_capacitor));
  sets.push_back(items_where(ground, [](const auto&) { return true; }));
  return sets;
}

/// Takes apart what was put together by sets_shown().
void share_out(const Ground& ground, const std::vector<double>& blame, bool reported,
               Reasoning& reasoning) {
  auto part = [&, next = blame.begin()](std::size_t count) mutable {
    const auto first = next;
    next += static_cast<std::ptrdiff_t>(count);
    return std::vector<double>(first, next);
  };
  reasoning.blame = part(ground.compiled.items.size());
  reasoning.by_block = part(ground.equipment->blocks.size());
  reasoning.by_board = part(ground.equipment->boards.size());
  const std::vector<double> all = part(2);
  if (reported) {
    reasoning.by_capacitors = all[0];
    reasoning.by_anything = all[1];
  }
}

/// Suspicion from blame and conviction; boards and blocks are as bad as what stands on them.
void convict(const Ground& ground, const CaseState& state, Reasoning& reasoning) {
  const bool complained = !complaint_of(reasoning.evidence).empty();
  const diagnosis::Posterior& now = reasoning.foresight.now;
  reasoning.on_unproven =
      weight_of_unproven_readings(state, reasoning.evidence, reasoning.weights, now.items.size());
  std::vector<double> proven;
  if (complained) {
    std::transform(reasoning.blame.begin(), reasoning.blame.end(), reasoning.on_unproven.begin(),
                   std::back_inserter(proven), without_unproven);
  }
  reasoning.convicted = convictions(ground, state, reasoning.evidence, now, proven);
  reasoning.suspicion = reasoning.blame;
  reasoning.unsound.clear();
  for (std::size_t i = 0; i < reasoning.blame.size(); ++i) {
    double unsound = 1.0 - now.items[i][0];
    if (reasoning.convicted[i] == Conviction::by_reading) {
      unsound = std::max(unsound, convicted_alone(ground, state, reasoning.evidence, i));
    }
    // What was mended is sound, as far as anyone knows; what was read before is of the old part.
    if (quantities::holds(reasoning.evidence.mended, i)) {
      unsound = 0.0;
      reasoning.suspicion[i] = complained ? reasoning.blame[i] : 0.0;
    }
    reasoning.unsound.push_back(unsound);
    if (!stands_by_itself(reasoning.convicted[i])) {
      continue;
    }
    reasoning.suspicion[i] = std::max(reasoning.blame[i], unsound);
    const std::size_t block = ground.compiled.items[i].block;
    reasoning.by_block[block] = std::max(reasoning.by_block[block], reasoning.suspicion[i]);
    const auto& boards = ground.equipment->boards;
    for (std::size_t b = 0; b < boards.size(); ++b) {
      if (boards[b].id == ground.equipment->blocks.at(block).board) {
        reasoning.by_board[b] = std::max(reasoning.by_board[b], reasoning.suspicion[i]);
      }
    }
  }
}

/// Whether what is convicted explains the complaint.
void find_by_convicted(Reasoning& reasoning) {
  std::vector<std::size_t> items;
  for (std::size_t i = 0; i < reasoning.convicted.size(); ++i) {
    if (stands_by_itself(reasoning.convicted[i])) {
      items.push_back(i);
    }
  }
  const auto complaint = quantities::values_of(complaint_of(reasoning.evidence));
  if (items.size() == 1) {
    reasoning.by_convicted = complaint.empty() ? 0.0 : reasoning.blame[items.front()];
  } else if (!items.empty() && !complaint.empty()) {
    reasoning.by_convicted = blame_of(reasoning, complaint, {items}).front();
  }
}

void find_before(const Ground& ground, Reasoning& reasoning) {
  const CaseEvidence& evidence = reasoning.evidence;
  const Blame blame(evidence.network.plain(), evidence.evidence,
                    quantities::values_of(complaint_of(evidence)), 0.0);
  reasoning.before.clear();
  for (std::size_t i = 0; i < ground.compiled.items.size(); ++i) {
    reasoning.before.push_back(stands_by_itself(reasoning.convicted[i])
                                   ? 1.0 - ground.prior.items[i][0]
                                   : blame.beforehand(i, ground.prior.items[i]));
  }
}

std::vector<double> exact_blame(const CaseEvidence& evidence, const diagnosis::Posterior& now,
                                const std::vector<std::size_t>& complaint,
                                const std::vector<std::vector<std::size_t>>& sets) {
  Blame blame(evidence.network.plain(), evidence.evidence, complaint, now.log_evidence);
  const bool many = sets.size() >= evidence.network.plain().items.size() && !complaint.empty();
  const std::vector<double> each = many ? blame.of_each() : std::vector<double>{};
  std::vector<double> found;
  for (const std::vector<std::size_t>& set : sets) {
    if (set.size() == 1 && complaint.empty()) {
      found.push_back(1.0 - now.items[set.front()][0]);
    } else {
      found.push_back(many && set.size() == 1 ? each[set.front()] : blame.of(set));
    }
  }
  return found;
}

Result<quantities::Done> think_exactly(const Ground& ground, Reasoning& reasoning,
                                       const std::vector<std::size_t>& candidates) {
  const CaseEvidence& evidence = reasoning.evidence;
  auto foresight =
      diagnosis::infer_with_outlook(evidence.network.plain(), evidence.evidence, candidates);
  if (!foresight) {
    return foresight.problems();
  }
  auto weights = diagnosis::leave_one_out(evidence.network.plain(), evidence.evidence);
  if (!weights) {
    return weights.problems();
  }
  reasoning.foresight = std::move(*foresight);
  reasoning.weights = std::move(*weights);
  const auto complaint = quantities::values_of(complaint_of(evidence));
  share_out(ground, exact_blame(evidence, reasoning.foresight.now, complaint, sets_shown(ground)),
            !complaint.empty(), reasoning);
  return quantities::Done{};
}

Result<quantities::Done> think_by_draws(const Ground& ground, Reasoning& reasoning,
                                        const std::vector<std::size_t>& candidates) {
  const CaseEvidence& evidence = reasoning.evidence;
  const auto draws =
      diagnosis::PosteriorDraws::draw(evidence.network.plain(), evidence.evidence, {});
  if (!draws) {
    return draws.problems();
  }
  reasoning.foresight = diagnosis::foresee(*draws, candidates);
  reasoning.weights = diagnosis::leave_one_out(*draws);
  reasoning.precision = reasoning.foresight.precision;
  const auto complaint = quantities::values_of(complaint_of(evidence));
  std::vector<double> blame;
  for (const diagnosis::Estimate& each : diagnosis::blame(*draws, sets_shown(ground), complaint)) {
    blame.push_back(std::clamp(each.value, 0.0, 1.0));
    reasoning.precision.within = std::max(reasoning.precision.within, each.within);
  }
  share_out(ground, blame, !complaint.empty(), reasoning);
  return quantities::Done{};
}

Result<quantities::Done> think(const Ground& ground, Reasoning& reasoning) {
  const CaseEvidence& evidence = reasoning.evidence;
  const auto candidates = findings_of(reasoning.bench.bench);
  const std::size_t questions = candidates.size() + evidence.present.size() +
                                evidence.absent.size() + ground.equipment->blocks.size();
  return diagnosis::too_wide(evidence.network.plain(), evidence.evidence, questions)
             ? think_by_draws(ground, reasoning, candidates)
             : think_exactly(ground, reasoning, candidates);
}

Reasoning gathered(const Ground& ground, const CaseState& state) {
  Reasoning reasoning;
  reasoning.evidence = evidence_of(ground, state);
  reasoning.bench = bench_of(ground, state, reasoning.evidence);
  return reasoning;
}

/// Nothing where the evidence can be weighed, else why not.
std::string try_to_think(const Ground& ground, Reasoning& reasoning) {
  auto thought = think(ground, reasoning);
  if (!thought) {
    set_contradictions_aside(reasoning.evidence, reasoning.contradiction);
    thought = think(ground, reasoning);
  }
  return thought ? "" : thought.problems().front().message;
}

}  // namespace

Reasoning reason(const Ground& ground, const CaseState& state) {
  Reasoning reasoning = gathered(ground, state);
  std::string refused;
  try {
    refused = try_to_think(ground, reasoning);
  } catch (const quantities::GivenUp&) {
    throw;
  } catch (const std::exception& fault) {  // memory, or a fault of ours: the case stays open
    refused = fault.what();
  }
  if (!refused.empty()) {
    return without_figures(ground, state, refused);
  }
  convict(ground, state, reasoning);
  find_by_convicted(reasoning);
  reasoning.bench.bench.complaint = quantities::values_of(complaint_of(reasoning.evidence));
  const auto& network = reasoning.evidence.network.plain();
  reasoning.ranked = planning::rank_checks(network, reasoning.foresight, reasoning.bench.bench);
  reasoning.step =
      planning::next_step(network, reasoning.foresight, reasoning.bench.bench, reasoning.ranked);
  find_before(ground, reasoning);
  return reasoning;
}

Reasoning without_figures(const Ground& ground, const CaseState& state, std::string refused) {
  Reasoning reasoning = gathered(ground, state);
  reasoning.refused = std::move(refused);
  reasoning.foresight.now = ground.prior;
  reasoning.bench.bench.checks.clear();
  reasoning.bench.findings.clear();
  reasoning.convicted.assign(ground.compiled.items.size(), Conviction::none);
  reasoning.on_unproven.assign(ground.compiled.items.size(), 0.0);
  find_before(ground, reasoning);
  reasoning.blame = reasoning.suspicion = reasoning.before;
  reasoning.unsound = reasoning.before;
  for (std::size_t i = 0; i < reasoning.unsound.size(); ++i) {
    reasoning.unsound[i] = 1.0 - ground.prior.items[i][0];
  }
  reasoning.by_block.assign(ground.equipment->blocks.size(), 0.0);
  reasoning.by_board.assign(ground.equipment->boards.size(), 0.0);
  return reasoning;
}

std::string told(const Reasoning& reasoning) {
  if (!reasoning.refused.empty()) {
    return "There are no figures: " + reasoning.refused +
           ". What is shown is what was likely before anything was told.";
  }
  const diagnosis::Precision& precision = reasoning.precision;
  if (precision.exact()) {
    return "";
  }
  return "So much hangs together here that the figures are read off " +
         std::to_string(precision.draws) + " drawn sets of faults: each is right within " +
         quantities::fixed_point(100.0 * precision.within, 1) + " points, 99 times in a hundred.";
}

std::vector<double> blame_of(const Reasoning& reasoning, const std::vector<std::size_t>& complaint,
                             const std::vector<std::vector<std::size_t>>& sets) {
  const CaseEvidence& evidence = reasoning.evidence;
  if (sets.empty()) {
    return {};
  }
  if (reasoning.precision.exact()) {
    return exact_blame(evidence, reasoning.foresight.now, complaint, sets);
  }
  const auto draws =
      diagnosis::PosteriorDraws::draw(evidence.network.plain(), evidence.evidence, {});
  CHECK(draws.ok());  // the same that the figures were read off
  std::vector<double> found;
  for (const diagnosis::Estimate& each : diagnosis::blame(*draws, sets, complaint)) {
    found.push_back(std::clamp(each.value, 0.0, 1.0));
  }
  return found;
}

double share_of_state(const Reasoning& reasoning, std::size_t item, std::string_view state) {
  const auto& states = reasoning.evidence.network.plain().items[item].states;
  const auto found = std::find(states.begin(), states.end(), state);
  return found == states.end() ? 0.0
                               : reasoning.foresight.now
                                     .items[item][static_cast<std::size_t>(found - states.begin())];
}

}  // namespace dryout::casework
