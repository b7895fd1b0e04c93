// From technology, role, era and age to P(mode | ageing level) of one part, and to the weights of
// the levels its cohort may have.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "knowledge/knowledge_base.h"

namespace dryout::diagnosis {

/// P(level) of a cohort, which has at least one group. Effective age = years since it was built
/// (the middle of the equipment's years where that is not known) times the warmth factor, averaged
/// over the cohort's parts: they share one level, though some sit warmer than others.
[[nodiscard]] std::vector<double> level_weights(
    const knowledge::KnowledgeBase& knowledge, const knowledge::Equipment& equipment,
    const std::vector<const knowledge::PartGroup*>& cohort, std::optional<int> year_built,
    int year_now);

struct PartModes {
  std::vector<std::string> modes;                ///< without "sound"
  std::vector<std::vector<double>> given_level;  ///< [level][0 = sound, then modes]
};

/// One part's modes: the technology's, with the role's stress and the eras' factors on the odds.
[[nodiscard]] PartModes part_modes(const knowledge::KnowledgeBase& knowledge,
                                   const knowledge::Equipment& equipment,
                                   const knowledge::PartGroup& group,
                                   std::optional<int> year_built);

/// The row of a group of `count` such parts, independent given the level: sound only if all are;
/// what is left is shared among the modes in proportion.
[[nodiscard]] std::vector<double> worst_of(const std::vector<double>& part_row, int count);

}  // namespace dryout::diagnosis
