// A set of one kind of equipment with faults that the model drew and nobody at the bench knows: it
// shows symptoms, answers checks and can be mended. For practice.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "casework/case_bench.h"
#include "casework/case_evidence.h"
#include "planning/hidden_set.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::casework {

class DrawnSet {
 public:
  /// The same seed draws the same set. It shows at least one symptom, and none once all is mended;
  /// an equipment that has no such set is a problem.
  [[nodiscard]] static quantities::Result<DrawnSet> draw(const Ground& ground,
                                                         diagnosis::Network network,
                                                         planning::Bench bench, std::uint64_t seed);

  [[nodiscard]] std::vector<std::string> symptoms() const;  ///< ids of those that it shows now
  [[nodiscard]] bool looks_bad(const std::string& check, const std::string& place) const;
  void open(const std::vector<std::string>& accesses);

  struct Mended {
    quantities::Second effort;        ///< with what had to be opened for it
    std::vector<std::string> opened;  ///< ids, in order
    bool was_faulty = false;
  };
  [[nodiscard]] Mended mend(const std::string& item);
  [[nodiscard]] std::vector<std::string> faults() const;  ///< titles of what is not sound now

 private:
  struct Named {
    std::string id, title;
  };
  struct Shown {
    std::string symptom, check, place;
  };
  DrawnSet(const Ground& ground, std::unique_ptr<diagnosis::Network> network, planning::Bench bench,
           planning::HiddenSet hidden);

  std::unique_ptr<diagnosis::Network> network_;  ///< stays where it is: hidden_ points to it
  planning::Bench bench_;
  planning::HiddenSet hidden_;
  std::vector<Named> items_;
  std::vector<Shown> findings_;
};

}  // namespace dryout::casework
