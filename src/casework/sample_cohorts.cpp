#include "casework/sample_cohorts.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "casework/wording.h"
#include "decision/sampling.h"

namespace dryout::casework {
namespace {

using quantities::Probability;

enum class Found { nothing, within, over };

bool was_read(const CaseInHand& hand, std::size_t item) {
  return std::any_of(hand.state.readings.begin(), hand.state.readings.end(),
                     [&](const auto& told) { return hand.ground.item(told.what.item) == item; });
}

/// The newest reading of an item that proves something.
Found found_at(const CaseInHand& hand, std::size_t item) {
  Found found = Found::nothing;
  for (std::size_t i = 0; i < hand.state.readings.size(); ++i) {
    const WeighedReading& weighed = hand.reasoning.evidence.weighed.at(i);
    if (hand.ground.item(hand.state.readings[i].what.item) != item) {
      continue;
    }
    if (weighed.is_bad()) {
      return Found::over;
    }
    found = weighed.is_good() ? Found::within : found;
  }
  return found;
}

/// Parts of the stock by batch, in the order they stand in the set.
std::vector<std::vector<std::size_t>> batches_of(const decision::SetStock& stock) {
  std::vector<std::vector<std::size_t>> batches;
  std::map<std::string, std::size_t> known;
  for (std::size_t i = 0; i < stock.parts.size(); ++i) {
    const decision::PartStock& part = stock.parts[i];
    if (!part.electrolytic || part.renewed) {
      continue;
    }
    const std::string& name = part.cohort.empty() ? part.item : part.cohort;
    const auto [found, fresh] = known.emplace(name, batches.size());
    if (fresh) {
      batches.emplace_back();
    }
    batches[found->second].push_back(i);
  }
  return batches;
}

std::string_view word_of_advice(decision::Advice advice) {
  return advice == decision::Advice::clear   ? "clear"
         : advice == decision::Advice::recap ? "recap"
                                             : "measure-another";
}

std::string counted(int n, const char* thing) {
  return std::to_string(n) + ' ' + thing + (n == 1 ? "" : "s");
}

/// "5 of 5 measured are out of limit, and 1 more was read that nothing decides."
std::string found_in(const CohortSample& sample) {
  std::string text = std::to_string(sample.out_of_limit) + " of " +
                     std::to_string(sample.measured) + " measured are out of limit";
  if (sample.undecided > 0) {
    text += ", and " + std::to_string(sample.undecided) + " more " +
            (sample.undecided == 1 ? "was" : "were") +
            " read that what there is to hold against does not decide";
  }
  return text + '.';
}

std::string sentence_of(const CohortSample& sample) {
  if (sample.advice == "clear") {
    return "Leave it: " + found_in(sample);
  }
  if (sample.advice == "recap") {
    return (sample.parts == 1 ? std::string("Replace it: ")
                              : "Replace all " + std::to_string(sample.parts) + ": ") +
           found_in(sample);
  }
  if (sample.measured == 0 && sample.undecided >= sample.parts) {
    return "Read, and what there is to hold against decides nothing: find its own sheet, or "
           "measure a fresh part.";
  }
  if (sample.measured > 0) {
    return "Measure another: " + std::to_string(sample.out_of_limit) + " of " +
           std::to_string(sample.measured) + " out of limit does not settle it yet.";
  }
  const int first = std::min(sample.parts, sample.good_to_clear);
  return "Measure up to " + counted(first, "part") + ": so many good ones in a row clear it, " +
         std::to_string(std::min(sample.parts, sample.bad_to_recap)) + " bad in a row condemn it.";
}

CohortSample sample_of(const CaseInHand& hand, const WeighedSet& set,
                       const decision::ShopSettings& shop, double horizon_years,
                       const std::vector<std::size_t>& batch) {
  const decision::SamplingPlan plan = shop.sampling();
  CohortSample sample;
  for (const std::size_t i : batch) {
    const decision::PartStock& part = set.stock.parts[i];
    const Found found = found_at(hand, set.items[i]);
    sample.title += (sample.title.empty() ? "" : ", ") +
                    (sample.title.empty() ? part.title : mid_sentence(part.title));
    sample.items.push_back(part.item);
    sample.parts += part.count;
    sample.measured += found == Found::nothing ? 0 : 1;
    sample.out_of_limit += found == Found::over ? 1 : 0;
    sample.undecided += found == Found::nothing && was_read(hand, set.items[i]) ? 1 : 0;
  }
  const decision::PartStock& first = set.stock.parts[batch.front()];
  sample.cohort = first.cohort;
  sample.spent = Probability(first.level.empty() ? 0.0 : first.level.back());
  sample.gives_up = decision::gives_up(set.stock, shop, batch, horizon_years);
  sample.advice = word_of_advice(decision::advise(plan, static_cast<std::size_t>(sample.measured),
                                                  static_cast<std::size_t>(sample.out_of_limit),
                                                  static_cast<std::size_t>(sample.parts)));
  sample.good_to_clear = static_cast<int>(decision::good_to_clear(plan));
  sample.bad_to_recap = static_cast<int>(decision::bad_to_recap(plan));
  const auto all = static_cast<std::size_t>(sample.parts);
  sample.mean_if_sound = decision::expected_measured(plan, plan.bad_share_sound, all);
  sample.mean_if_gone = decision::expected_measured(plan, plan.bad_share_gone, all);
  sample.sentence = sentence_of(sample);
  return sample;
}

}  // namespace

namespace {

bool examined(const WeighedSet& set, std::size_t part) { return !set.stock.parts[part].unexamined; }

/// A sample speaks for the groups that it was taken from. Once it is decided, the groups of the
/// batch of which nobody measured a part stand by themselves, named as unmeasured.
void add_samples_of(const CaseInHand& hand, const WeighedSet& set,
                    const decision::ShopSettings& shop, double horizon_years,
                    const std::vector<std::size_t>& batch, std::vector<CohortSample>& samples) {
  std::vector<std::size_t> covered;
  std::vector<std::size_t> rest;
  for (const std::size_t part : batch) {
    (examined(set, part) ? covered : rest).push_back(part);
  }
  CohortSample whole = sample_of(hand, set, shop, horizon_years, batch);
  if (covered.empty() || rest.empty()) {
    samples.push_back(std::move(whole));
    return;
  }
  const CohortSample unmeasured = sample_of(hand, set, shop, horizon_years, rest);
  if (whole.advice == word_of_advice(decision::Advice::measure_another)) {
    whole.sentence += " Nobody measured any of these yet: " + mid_sentence(unmeasured.title) + '.';
    samples.push_back(std::move(whole));
    return;
  }
  CohortSample measured = sample_of(hand, set, shop, horizon_years, covered);
  measured.advice = whole.advice;
  measured.sentence = sentence_of(measured);
  samples.push_back(measured);
  samples.push_back(unmeasured);
  samples.back().sentence =
      "Nobody measured any of these. Of others of their batch " +
      std::to_string(measured.out_of_limit) + " of " + std::to_string(measured.measured) +
      " measured are out of limit, which does not decide these. " + unmeasured.sentence;
}

}  // namespace

std::vector<CohortSample> sample_cohorts(const CaseInHand& hand, const WeighedSet& set,
                                         const decision::ShopSettings& shop, double horizon_years) {
  std::vector<CohortSample> samples;
  for (const auto& batch : batches_of(set.stock)) {
    add_samples_of(hand, set, shop, horizon_years, batch, samples);
  }
  std::stable_sort(samples.begin(), samples.end(), [](const auto& a, const auto& b) {
    return a.gives_up.value() > b.gives_up.value();
  });
  return samples;
}

std::string sampling_rule_of(const decision::ShopSettings& shop) {
  const decision::SamplingPlan plan = shop.sampling();
  return "A batch with " + percent(plan.bad_share_sound) +
         " of its parts out of limit may stay, one with " + percent(plan.bad_share_gone) +
         " has gone; a sound one is condemned at most " + percent(plan.false_recap) +
         " of the time, a gone one cleared at most " + percent(plan.false_clear) + '.';
}

}  // namespace dryout::casework
