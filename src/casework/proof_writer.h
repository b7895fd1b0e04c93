// Writes the steps that prove a repair, in the order in which hands get to them. Inside of
// proof_steps.cpp, in three parts: what is looked at before power comes on
// (proof_before_power.cpp), what is measured with it (proof_with_power.cpp), the complaint tried
// again and the closing up (proof_steps.cpp).
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "casework/proof_steps.h"

namespace dryout::casework {

/// Words that the data uses for kinds and technologies.
[[nodiscard]] bool one_of(const std::string& word, std::initializer_list<std::string_view> words);
[[nodiscard]] bool is_direct(const knowledge::Rail& rail);

class ProofWriter {
 public:
  ProofWriter(const CaseInHand& hand, const std::vector<std::size_t>& touched)
      : hand_(hand), equipment_(*hand.ground.equipment), touched_(touched) {}

  std::vector<ProofStep> write() {
    if (!touched_.empty()) {
      before_power();
      with_power();
    }
    retests();
    afterwards();
    return std::move(steps_);
  }

 private:
  void before_power();
  void first_capacitor();
  void look_over(const knowledge::Board& board);
  void with_power();
  void prove_rail(const knowledge::Rail& rail);
  void adjust();
  void retests();
  void afterwards();

  void add(const std::string& kind, const std::string& place, std::string title,
           std::string wording, std::string because, std::string_view caution = {});
  [[nodiscard]] bool has_hazard(std::string_view id) const;
  [[nodiscard]] const knowledge::Block& block_of(std::size_t item) const {
    return equipment_.blocks.at(hand_.ground.compiled.items[item].block);
  }
  [[nodiscard]] bool has_valves() const;
  [[nodiscard]] bool behind_mains() const;
  [[nodiscard]] bool smoothed_by_touched(const knowledge::Rail& rail) const;
  [[nodiscard]] bool near_touched(const knowledge::Rail& rail) const;

  const CaseInHand& hand_;
  const knowledge::Equipment& equipment_;
  const std::vector<std::size_t>& touched_;
  std::vector<ProofStep> steps_;
};

}  // namespace dryout::casework
