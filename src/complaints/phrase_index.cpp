#include "complaints/phrase_index.h"

#include <algorithm>
#include <cmath>

namespace dryout::complaints {
namespace {

constexpr double complaint_only = 0.2;  ///< Tversky's share of what only the complaint says
constexpr double phrase_only = 0.7;     ///< and of what only the phrase says
constexpr double of_best = 0.8;         ///< the best phrase against all phrases of the entry
constexpr double unheard_weight = 0.5;  ///< of a word that no entry bears: it says little
/// "picture fine" narrows; it is no complaint by itself.
constexpr double fine_share = 0.4;
constexpr double set_share = 0.15;  ///< "radio" tells what it is, not what ails it
/// Several phrases that fit alike are surer than one.
constexpr double of_support = 0.08;
constexpr double support_half = 3.0;
constexpr double alike = 0.95;

}  // namespace

int PhraseIndex::number_of(const std::string& sign) {
  const auto [at, added] = numbers_.emplace(sign, static_cast<int>(numbers_.size()));
  if (added) {
    postings_.emplace_back();
    bearers_.emplace_back();
  }
  return at->second;
}

void PhraseIndex::begin_entry() { ++entries_; }

void PhraseIndex::add_phrase(const Understood& phrase, double worth) {
  std::vector<int> signs;
  for (const SaidThing& thing : phrase.things) {
    signs.push_back(number_of(thing.sign));
    if (thing.names_set) {
      sets_.insert(thing.sign);
    }
  }
  if (signs.empty()) {
    return;
  }
  std::sort(signs.begin(), signs.end());
  for (const int sign : signs) {
    postings_[static_cast<std::size_t>(sign)].push_back(phrases_.size());
    auto& bearers = bearers_[static_cast<std::size_t>(sign)];
    if (bearers.empty() || bearers.back() != entries_ - 1) {
      bearers.push_back(entries_ - 1);
    }
  }
  phrases_.push_back({entries_ - 1, std::move(signs), worth});
}

void PhraseIndex::weigh() {
  weights_.assign(numbers_.size(), 0.0);
  const auto all = static_cast<double>(entries_);
  for (const auto& [sign, number] : numbers_) {
    const auto with = static_cast<double>(bearers_[static_cast<std::size_t>(number)].size());
    const double rarity = std::log(1.0 + (all - with + 0.5) / (with + 0.5));
    weights_[static_cast<std::size_t>(number)] = rarity * (sets_.contains(sign)        ? set_share
                                                           : sign.starts_with("fine ") ? fine_share
                                                                                       : 1.0);
  }
  for (Phrase& phrase : phrases_) {
    for (const int sign : phrase.signs) {
      phrase.weight += weights_[static_cast<std::size_t>(sign)];
    }
  }
}

std::vector<double> PhraseIndex::fits(const Understood& complaint) const {
  std::vector<double> shared(phrases_.size(), 0.0);
  std::vector<double> anywhere(entries_, 0.0);
  double whole = 0.0;
  for (const SaidThing& thing : complaint.things) {
    const auto number = numbers_.find(thing.sign);
    if (number == numbers_.end()) {
      whole += thing.names_set || thing.sign.starts_with("fine ") ? 0.0 : unheard_weight;
      continue;
    }
    const auto sign = static_cast<std::size_t>(number->second);
    whole += weights_[sign];
    for (const std::size_t phrase : postings_[sign]) {
      shared[phrase] += weights_[sign];
    }
    for (const std::size_t entry : bearers_[sign]) {
      anywhere[entry] += weights_[sign];
    }
  }
  // What was denied speaks against every phrase that says it.
  for (const std::string& sign : complaint.excluded) {
    if (const auto number = numbers_.find(sign); number != numbers_.end()) {
      for (const std::size_t phrase : postings_[static_cast<std::size_t>(number->second)]) {
        shared[phrase] = 0.0;
      }
    }
  }
  std::vector<double> best(entries_, 0.0);
  for (std::size_t i = 0; i < phrases_.size(); ++i) {
    const Phrase& phrase = phrases_[i];
    double& fit = shared[i];
    if (fit > 0.0) {
      fit = phrase.worth * fit /
            (fit + complaint_only * (whole - fit) + phrase_only * (phrase.weight - fit));
      best[phrase.entry] = std::max(best[phrase.entry], fit);
    }
  }
  std::vector<double> support(entries_, 0.0);
  for (std::size_t i = 0; i < phrases_.size(); ++i) {
    const std::size_t entry = phrases_[i].entry;
    if (shared[i] > 0.0 && shared[i] >= alike * best[entry]) {
      support[entry] += 1.0;
    }
  }
  for (std::size_t entry = 0; entry < entries_; ++entry) {
    if (best[entry] > 0.0) {
      const double alone = of_best * best[entry] + (1.0 - of_best) * anywhere[entry] / whole;
      const double supported = support[entry] / (support[entry] + support_half);
      best[entry] = alone * (1.0 - of_support + of_support * supported);
    }
  }
  return best;
}

}  // namespace dryout::complaints
