// Compiling knowledge and one set's particulars into a fault network.
//
// Items: one per part group (or per named part, which then steps out of its group; the group keeps
// count - 1), one per cause that is no capacitor in each block where it can happen. A group of n
// parts stands in the worst state of its members:
//   P(group sound | level) = product of P(part sound | level)
// with the rest divided among the modes in proportion, so that n is 1 for a named part.
// Findings: one per symptom, and one per (check, place).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "diagnosis/network.h"
#include "knowledge/chain.h"
#include "knowledge/knowledge_base.h"
#include "knowledge/signal_places.h"
#include "quantities/index.h"

namespace dryout::diagnosis {

/// A part taken out of its group by name.
struct NamedPart {
  std::string reference;  ///< "C12"
  std::string group;      ///< group id
};

/// What is known of the set beyond its architecture.
struct SetParticulars {
  std::optional<int> year_built;
  int year_now = 0;
  std::vector<NamedPart> parts;
};

struct CompiledItem {
  enum class Kind { group, part, cause };
  Kind kind = Kind::group;
  std::string title;      ///< "Reservoirs", "C12 (reservoirs)", "Cracked joint in the regulator"
  std::size_t block = 0;  ///< index into Equipment::blocks
  std::string group;      ///< group id; "" for a cause
  std::string cause;      ///< cause id; "" for a capacitor
};

struct CompiledFinding {
  std::string symptom;  ///< symptom id, or
  std::string check;    ///< check rule id
  std::string place;    ///< id of the rail, block, group or part; "" = the whole set
  std::string place_title;
};

/// An item in one of its states: what a fault site has become in the network.
struct ItemState {
  std::size_t item = 0;
  std::size_t state = 0;
  friend auto operator<=>(const ItemState&, const ItemState&) = default;
};

/// A finding as compiled from the knowledge: counts in CompiledNetwork::findings and in the
/// findings of its network. A network that findings were added to since counts by a type of its
/// own.
using KnownFinding = quantities::Index<struct FindingsOfTheKnowledge>;

struct CompiledNetwork {
  Network network;
  std::vector<CompiledItem> items;        ///< parallel to network.items
  std::vector<CompiledFinding> findings;  ///< parallel to network.findings
  knowledge::Chained chained;             ///< points into the knowledge base
  /// [finding][cause]: index into chained.consequences of the strongest way there, or
  /// Consequence::none where a check looks at the part itself.
  std::vector<std::vector<std::size_t>> behind;
  std::vector<std::vector<ItemState>> site_items;  ///< [site of the chain] what it stands for
  std::vector<knowledge::Extents> extents;         ///< [consequence] where in the set it shows

  /// What it is, and how it comes about. Out of range is our own mistake.
  [[nodiscard]] const CompiledFinding& named(KnownFinding finding) const;
  [[nodiscard]] const Finding& at(KnownFinding finding) const;
};

/// Item ids: "group:reservoirs", "part:C12", "cause:cracked-joint@regulator". Finding ids:
/// "symptom:hum", "check:ripple@main-rail". The equipment must be one of the knowledge base's.
[[nodiscard]] CompiledNetwork compile_network(const knowledge::KnowledgeBase& knowledge,
                                              const knowledge::Equipment& equipment,
                                              const SetParticulars& set);

/// How this cause brings about that finding, one line a step (knowledge::tell), from the knowledge
/// and equipment it was compiled from.
[[nodiscard]] std::vector<std::string> tell(const knowledge::KnowledgeBase& knowledge,
                                            const knowledge::Equipment& equipment,
                                            const CompiledNetwork& compiled, KnownFinding finding,
                                            std::size_t cause);

}  // namespace dryout::diagnosis
