#include "knowledge/place_parts.h"

#include <algorithm>
#include <cmath>

#include "knowledge/spoken_name.h"

namespace dryout::knowledge {
namespace {

// Judged: a part looks like a group within a factor of two and a half in value and volts together;
// one whose rival is less than a factor of one and a half further off is not decided.
const double alike = std::log(2.5);
const double rivalry = std::log(1.5);
// With nothing said but value and volts, only a close look-alike counts.
const double alike_unsaid = std::log(1.6);

struct Ranked {
  const PartGroup* group;
  double misfit;
};

class Placer {
 public:
  Placer(const KnowledgeBase& knowledge, const Equipment& architecture)
      : knowledge_(knowledge),
        architecture_(architecture),
        roles_(names_of(knowledge.roles)),
        blocks_(names_of(architecture.blocks)),
        boards_(names_of(architecture.boards)) {}

  void place(const PartsRow& row, Placing& placing) const {
    std::string missing;
    const auto placed = place_one(row, missing);
    if (!placed) {
      placing.unplaced.push_back(
          {row.references.empty() ? "" : row.name(), row.value_text, missing, {}});
      return;
    }
    placing.placed.push_back(*placed);
    placing.parts_placed += row.count;
    placing.fit += row.count * (placed->pattern == nullptr ? 0.5 : 1.0);
  }

 private:
  /// ln of how far value and volts are off, and a fine for another technology.
  [[nodiscard]] double misfit(const PartsRow& row, const PartGroup& group) const {
    constexpr double unsaid = 0.35;  // about a factor of 1.4
    const auto off = [&](auto told, auto of_group) {
      return told && of_group.si() > 0.0 ? std::abs(std::log(told->si() / of_group.si())) : unsaid;
    };
    const bool other =
        !row.technology.empty() && row.technology != technology_of(knowledge_, group);
    return off(row.capacitance, group.capacitance) + off(row.rated, group.rated) / 2.0 +
           (other ? 1.0 : 0.0);
  }

  /// The names meant, or nothing with the reason.
  [[nodiscard]] std::vector<std::string> meant(const std::string& said, const char* what,
                                               const std::vector<Named>& names,
                                               std::string& missing) const {
    std::vector<std::string> ids;
    for (const std::size_t i : meant_by(said, names)) ids.emplace_back(names[i].id);
    if (ids.empty() && !said.empty()) {
      missing = std::string("unknown ") + what + " \"" + quantities::excerpt(said) + '"';
    }
    return ids;
  }

  [[nodiscard]] const std::string& board_of(const std::string& block) const {
    static const std::string nowhere;
    const Block* found = find(architecture_.blocks, block);
    return found == nullptr ? nowhere : found->board;
  }

  [[nodiscard]] std::optional<PlacedPart> place_one(const PartsRow& row,
                                                    std::string& missing) const {
    const auto boards = meant(row.board, "board", boards_, missing);
    std::vector<std::string> blocks = meant(row.block, "block", blocks_, missing);
    if (blocks.empty() && !row.block.empty()) return {};
    if (blocks.size() > 1 && !boards.empty()) {
      std::erase_if(blocks,
                    [&](const std::string& block) { return !has(boards, board_of(block)); });
    }
    const auto roles = meant(row.role, "role", roles_, missing);
    if (roles.empty() && !row.role.empty()) return {};
    if (boards.empty() && !row.board.empty() && blocks.empty()) return {};
    const std::vector<Ranked> patterns = patterns_for(row, roles, blocks, boards);
    if (roles.size() == 1 && blocks.size() == 1) {
      const bool fits = !patterns.empty() && patterns.front().misfit <= 2.0 * alike;
      return PlacedPart{&row, roles.front(), blocks.front(),
                        fits ? patterns.front().group : nullptr, false};
    }
    return lend(row, roles, blocks, patterns, missing);
  }

  static bool has(const std::vector<std::string>& list, const std::string& id) {
    return std::find(list.begin(), list.end(), id) != list.end();
  }

  /// Groups that could be meant, best fit first.
  [[nodiscard]] std::vector<Ranked> patterns_for(const PartsRow& row,
                                                 const std::vector<std::string>& roles,
                                                 const std::vector<std::string>& blocks,
                                                 const std::vector<std::string>& boards) const {
    std::vector<Ranked> patterns;
    for (const PartGroup& group : architecture_.groups) {
      const bool possible = (roles.empty() || has(roles, group.role)) &&
                            (blocks.empty() || has(blocks, group.block)) &&
                            (boards.empty() || has(boards, board_of(group.block)));
      if (possible) patterns.push_back({&group, misfit(row, group)});
    }
    std::stable_sort(patterns.begin(), patterns.end(),
                     [](const Ranked& a, const Ranked& b) { return a.misfit < b.misfit; });
    return patterns;
  }

  /// Takes from a look-alike what the list does not say.
  [[nodiscard]] std::optional<PlacedPart> lend(const PartsRow& row,
                                               const std::vector<std::string>& roles,
                                               const std::vector<std::string>& blocks,
                                               const std::vector<Ranked>& patterns,
                                               std::string& missing) const {
    const bool unsaid = roles.empty() && blocks.empty() && row.board.empty();
    missing = roles.size() == 1    ? "which block it sits in"
              : blocks.size() == 1 ? "what it does (its role)"
                                   : "what it does (its role) and which block it sits in";
    if (patterns.empty()) return {};
    const Ranked& best = patterns.front();
    const bool one_place = std::all_of(patterns.begin(), patterns.end(), [&](const Ranked& other) {
      return other.group->role == best.group->role && other.group->block == best.group->block;
    });
    const bool said_enough = one_place && roles.size() == 1;
    if (!said_enough && best.misfit > (unsaid ? alike_unsaid : alike)) return {};
    for (const Ranked& other : patterns) {
      const bool elsewhere =
          other.group->role != best.group->role || other.group->block != best.group->block;
      if (elsewhere && other.misfit < best.misfit + rivalry) {
        missing += "; it may be \"" + best.group->title + "\" or \"" + other.group->title + '"';
        return {};
      }
    }
    return PlacedPart{&row, best.group->role, best.group->block, best.group, true};
  }

  const KnowledgeBase& knowledge_;
  const Equipment& architecture_;
  std::vector<Named> roles_, blocks_, boards_;
};

}  // namespace

Placing place_parts(const KnowledgeBase& knowledge, const PartsList& list,
                    const Equipment& architecture) {
  Placing placing;
  const Placer placer(knowledge, architecture);
  for (const PartsRow& row : list.capacitors) placer.place(row, placing);
  return placing;
}

}  // namespace dryout::knowledge
