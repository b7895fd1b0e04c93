// Which kinds of equipment a complaint names, or lets one think of.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "complaints/understanding.h"
#include "knowledge/knowledge_base.h"

namespace dryout::complaints {

class EquipmentNames {
 public:
  EquipmentNames(const knowledge::KnowledgeBase& knowledge, const Understanding& understanding);

  /// 0 to 1 for each equipment of the knowledge, in its order: how well one of its names fits,
  /// times how well its years do.
  [[nodiscard]] std::vector<double> fits(const std::vector<std::string>& stems,
                                         std::optional<int> year) const;

  /// How well the years alone fit; 1 where none is known.
  [[nodiscard]] std::vector<double> years_fit(std::optional<int> year) const;

 private:
  struct Name {
    std::size_t equipment;
    std::vector<std::string> stems;
  };
  struct Years {
    int from, to;
  };
  std::vector<Name> names_;
  std::vector<Years> years_;
};

}  // namespace dryout::complaints
