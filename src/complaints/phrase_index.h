// Phrases reduced to signs, each phrase belonging to an entry; how well a complaint fits each
// entry.
#pragma once

#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "complaints/understanding.h"

namespace dryout::complaints {

class PhraseIndex {
 public:
  /// Entries are numbered in the order in which they are added. Call weigh() when all are in.
  void begin_entry();
  void add_phrase(const Understood& phrase, double worth = 1.0);
  void weigh();

  /// For each entry how well the complaint fits it, 0 to 1.
  [[nodiscard]] std::vector<double> fits(const Understood& complaint) const;

 private:
  struct Phrase {
    std::size_t entry;
    std::vector<int> signs;  ///< sorted
    double worth;            ///< factor on the fit
    double weight = 0.0;     ///< of its signs together
  };
  [[nodiscard]] int number_of(const std::string& sign);

  std::set<std::string> sets_;  ///< signs that name the set itself
  std::size_t entries_ = 0;
  std::vector<Phrase> phrases_;
  std::unordered_map<std::string, int> numbers_;    ///< sign -> number
  std::vector<double> weights_;                     ///< by number
  std::vector<std::vector<std::size_t>> postings_;  ///< by number: phrases that bear it
  std::vector<std::vector<std::size_t>> bearers_;   ///< by number: entries that bear it
};

}  // namespace dryout::complaints
