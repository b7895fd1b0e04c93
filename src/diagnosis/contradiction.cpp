// A smallest set of pieces of evidence that cannot all be true.
//
// Every contradictory set has a member outside each possible set, so it hits the complement of
// every largest possible set that was found; and a smallest set that hits them all is either
// contradictory, and then a smallest contradiction, or possible, and then growing it to a largest
// possible set gives the next complement to hit (implicit hitting sets: Ignatiev, Previti, Liffiton
// and Marques-Silva, Smallest MUS extraction with minimal hitting set dualization, 2015).
#include <algorithm>
#include <optional>

#include "diagnosis/inference.h"

namespace dryout::diagnosis {
namespace {

using Pieces = std::vector<std::size_t>;

/// The same network where every number that is neither 0 nor 1 is replaced by a plain one: it can
/// explain what the original can, and nothing in it is small.
Network plain(const Network& network) {
  constexpr double chance = 1.0 / 1024.0;
  const auto plain_chance = [](double p) { return p > 0.0 && p < 1.0 ? chance : p; };
  const auto plain_weight = [](double w) { return w > 0.0 ? 1.0 : 0.0; };
  Network copy = network;
  for (Cohort& cohort : copy.cohorts) {
    std::transform(cohort.levels.begin(), cohort.levels.end(), cohort.levels.begin(), plain_weight);
  }
  for (Item& item : copy.items) {
    for (std::vector<double>& row : item.given_level) {
      std::transform(row.begin(), row.end(), row.begin(), plain_weight);
    }
  }
  for (Finding& finding : copy.findings) {
    finding.leak = plain_chance(finding.leak);
    for (Cause& cause : finding.causes) {
      cause.strength = plain_chance(cause.strength);
    }
  }
  return copy;
}

Evidence plain(const Evidence& evidence) {
  Evidence copy = evidence;
  for (SoftFinding& soft : copy.soft) {
    soft.if_present = soft.if_present > 0.0 ? 1.0 : 0.0;
    soft.if_absent = soft.if_absent > 0.0 ? 1.0 : 0.0;
  }
  for (ItemReading& reading : copy.readings) {
    for (std::vector<double>& row : reading.likelihood) {
      std::transform(row.begin(), row.end(), row.begin(),
                     [](double w) { return w > 0.0 ? 1.0 : 0.0; });
    }
  }
  return copy;
}

/// The search for a truly smallest set ends here; what it returns then is contradictory and no
/// piece of it can be spared, but a smaller set may exist elsewhere.
constexpr std::size_t checks_max = 4000;      // sweeps
constexpr std::size_t tries_max = 2'000'000;  // partial hitting sets

class ContradictionSearch {
 public:
  ContradictionSearch(const Network& network, const Evidence& evidence)
      : network_(plain(network)),
        evidence_(plain(evidence)),
        count_(evidence.present.size() + evidence.absent.size() + evidence.soft.size() +
               evidence.readings.size()) {}

  Pieces run() {
    Pieces all(count_);
    for (std::size_t piece = 0; piece < count_; ++piece) {
      all[piece] = piece;
    }
    if (is_possible(all)) {
      return {};
    }
    Pieces known = shrink(std::move(all));
    while (checks_left_ > 0 && known.size() > 1) {
      const std::optional<Pieces> hitting = smallest_hitting_set(known.size() - 1);
      if (!hitting) {
        break;  // nothing smaller than what is known, or too long a search
      }
      if (!is_possible(*hitting)) {
        return *hitting;
      }
      to_hit_.push_back(complement(grow(*hitting)));
    }
    return known;
  }

 private:
  bool is_possible(const Pieces& pieces) {
    checks_left_ -= checks_left_ > 0 ? 1 : 0;
    std::vector<bool> keep(count_, false);
    for (const std::size_t piece : pieces) {
      keep[piece] = true;
    }
    const FoldedEvidence folded = fold_evidence(network_, selection(evidence_, keep));
    if (!folded.possible) {
      return false;
    }
    const auto plan = plan_sweep(folded);
    return !plan || !ExplainedSetSweep<long double>(folded, *plan).impossible();
  }

  /// Leaves out every piece that can be spared: no smaller set inside is contradictory.
  Pieces shrink(Pieces pieces) {
    for (std::size_t k = pieces.size(); k-- > 0;) {
      Pieces fewer = pieces;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(k));
      if (!is_possible(fewer)) {
        pieces = std::move(fewer);
      }
    }
    return pieces;
  }

  /// Adds every piece that still fits.
  Pieces grow(Pieces pieces) {
    for (std::size_t piece = 0; piece < count_; ++piece) {
      if (std::find(pieces.begin(), pieces.end(), piece) != pieces.end()) {
        continue;
      }
      pieces.push_back(piece);
      if (!is_possible(pieces)) {
        pieces.pop_back();
      }
    }
    return pieces;
  }

  [[nodiscard]] Pieces complement(const Pieces& pieces) const {
    Pieces rest;
    for (std::size_t piece = 0; piece < count_; ++piece) {
      if (std::find(pieces.begin(), pieces.end(), piece) == pieces.end()) {
        rest.push_back(piece);
      }
    }
    return rest;
  }

  /// By iterative deepening; nothing where more than size_max pieces are needed.
  std::optional<Pieces> smallest_hitting_set(std::size_t size_max) {
    for (std::size_t size = 0; size <= size_max; ++size) {
      Pieces chosen;
      if (hit_rest(size, chosen)) {
        return chosen;
      }
    }
    return std::nullopt;
  }

  bool hit_rest(std::size_t left, Pieces& chosen) {
    const auto missed = std::find_if(to_hit_.begin(), to_hit_.end(), [&](const Pieces& set) {
      return std::none_of(set.begin(), set.end(), [&](std::size_t piece) {
        return std::find(chosen.begin(), chosen.end(), piece) != chosen.end();
      });
    });
    if (missed == to_hit_.end()) {
      return true;
    }
    if (left == 0 || tries_left_ == 0) {
      return false;
    }
    --tries_left_;
    const Pieces set = *missed;
    for (const std::size_t piece : set) {
      chosen.push_back(piece);
      if (hit_rest(left - 1, chosen)) {
        return true;
      }
      chosen.pop_back();
    }
    return false;
  }

  Network network_;
  Evidence evidence_;
  std::size_t count_;
  std::size_t checks_left_ = checks_max;
  std::size_t tries_left_ = tries_max;
  std::vector<Pieces> to_hit_;  ///< every contradiction has a piece in each of these
};

}  // namespace

std::vector<std::string> smallest_contradiction(const Network& network, const Evidence& evidence) {
  Pieces pieces = ContradictionSearch(network, evidence).run();
  std::sort(pieces.begin(), pieces.end());
  const std::vector<std::string> labels = piece_labels(network, evidence);
  std::vector<std::string> names;
  for (const std::size_t piece : pieces) {
    names.push_back(labels[piece]);
  }
  return names;
}

quantities::Problem contradiction(const Network& network, const Evidence& evidence) {
  std::string names;
  for (const std::string& name : smallest_contradiction(network, evidence)) {
    names += (names.empty() ? "" : ", ") + name;
  }
  if (names.empty()) {
    return out_of_range();
  }
  return {"the evidence contradicts itself: these cannot all be true: " + names,
          {},
          names,
          "take back or correct at least one of them"};
}

}  // namespace dryout::diagnosis
