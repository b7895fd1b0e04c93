// One job of the simulation: a technician with a habit, at the bench, with a hidden set.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "planning/hidden_set.h"
#include "planning/remedy_order.h"
#include "planning/simulation.h"

namespace dryout::planning {

struct JobRecord {
  double minutes = 0.0;
  double at_bench = 0.0;  ///< without what a miss is charged with
  std::size_t checks = 0, dangerous_checks = 0;
  std::size_t replacements = 0, needless = 0;
  std::size_t contradictions = 0;
  bool cured = false;
  struct Verdict {
    double predicted = 0.0;
    bool was_faulty = false;
  };
  std::optional<Verdict> verdict;
};

class Technician {
 public:
  /// Everything must outlive the technician.
  Technician(const diagnosis::Network& model, const Bench& bench, Habit habit,
             const SimulationSettings& settings, HiddenSet& set, Dice& dice);

  [[nodiscard]] JobRecord work();

 private:
  struct Step {
    enum class Kind { check, mend, give_up };
    Kind kind = Kind::give_up;
    std::size_t index = 0;            ///< into the checks or remedies of bench_
    std::optional<double> predicted;  ///< of a mend by belief: P(not sound)
  };

  void look_at_symptoms();
  [[nodiscard]] bool complaint_gone() const;
  [[nodiscard]] std::optional<diagnosis::Foresight> think();
  [[nodiscard]] Step decide();
  [[nodiscard]] Step follow_print() const;
  [[nodiscard]] std::optional<Step> check_first(const diagnosis::Foresight& foresight) const;
  [[nodiscard]] Step by_advice(const diagnosis::Foresight& foresight) const;
  [[nodiscard]] std::optional<Step> most_informative(const diagnosis::Foresight& foresight) const;
  [[nodiscard]] Step by_leading_problem(const diagnosis::Foresight& foresight) const;
  [[nodiscard]] Step mend_next(const diagnosis::Foresight& foresight) const;
  [[nodiscard]] std::optional<std::size_t> persisting(const std::vector<double>& blame) const;
  [[nodiscard]] Step mending(const diagnosis::Foresight& foresight, std::size_t remedy) const;

  void make_check(std::size_t check);
  void mend(const Step& step);
  void replace_all();
  void take_out(std::size_t remedy);  ///< the work on one item, without the proof run
  void open_for(std::span<const std::size_t> access);

  diagnosis::Network model_;  ///< as it is believed now: mended items are sound
  Bench bench_;               ///< with what is left to check and mend
  Habit habit_;
  const SimulationSettings* settings_;
  HiddenSet* set_;
  Dice* dice_;
  diagnosis::Evidence evidence_;
  std::optional<std::size_t> found_bad_;  ///< finding of the last check, if it was bad
  JobRecord record_;
};

}  // namespace dryout::planning
