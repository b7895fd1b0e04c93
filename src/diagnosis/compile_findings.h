// The second half of compile_network.h: from items and the consequences of their faults to the
// findings, one per symptom and one per (check, place).
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "diagnosis/compile_network.h"
#include "diagnosis/unlisted_share.h"
#include "knowledge/block_graph.h"

namespace dryout::diagnosis {

/// The strongest way from each (item, state) to the finding at work.
class StrongestWays {
 public:
  explicit StrongestWays(const Network& network);
  void offer(const ItemState& from, double strength, std::size_t behind);
  [[nodiscard]] bool empty() const { return touched_.empty(); }
  /// Moves everything into the finding, in the order of the items, and forgets it.
  [[nodiscard]] std::vector<std::size_t> move_into(Finding& finding);

 private:
  struct Way {
    Cause cause;
    std::size_t behind = knowledge::Consequence::none;
  };
  std::vector<std::size_t> first_;  ///< [item] its first slot
  std::vector<Way> ways_;           ///< [slot]
  std::vector<std::size_t> touched_;
};

class FindingCompiler {
 public:
  /// `compiled` has its items, chain, site items and extents. All arguments must outlive the
  /// compiler.
  FindingCompiler(const knowledge::KnowledgeBase& knowledge, const knowledge::Equipment& equipment,
                  CompiledNetwork& compiled);

  void add_symptom(const knowledge::Symptom& symptom);
  void add_check(const knowledge::CheckRule& check);

 private:
  using Places = std::vector<knowledge::Location>;
  [[nodiscard]] Places places_of(const knowledge::CheckRule& check) const;
  void add_check_of_set(const knowledge::CheckRule& check);
  void add_check_at(const knowledge::CheckRule& check, const knowledge::Location& place);
  void add_check_of_item(const knowledge::CheckRule& check, std::size_t item);
  void offer(std::string_view phenomenon, const knowledge::Location& place, double strength);
  void offer(const std::vector<std::size_t>& consequences, double strength);
  /// Only what shows on the way at work, where there is one.
  [[nodiscard]] bool on_the_way(std::size_t consequence) const;
  void offer_anywhere(std::string_view phenomenon, const std::vector<std::string>& kinds,
                      double strength);
  void emit(CompiledFinding described, const std::string& id, double leak);
  void emit_symptom(const knowledge::Symptom& symptom);
  void emit(CompiledFinding described, Finding finding);

  const knowledge::KnowledgeBase& knowledge_;
  const knowledge::Equipment& equipment_;
  CompiledNetwork& compiled_;
  StateChances chances_;
  std::uint32_t way_ = ~0U;  ///< receive and transmit, as a mask of Axis::path
  knowledge::SignalPlaces places_;
  knowledge::BlockGraph graph_;
  std::unordered_map<std::string_view, std::size_t> phenomena_;
  /// [phenomenon][number of the place] = indices into chained.consequences
  std::vector<std::map<std::size_t, std::vector<std::size_t>>> consequences_;
  std::unordered_map<std::string_view, const knowledge::PartGroup*> groups_;
  StrongestWays ways_;
};

}  // namespace dryout::diagnosis
