// A symptom with a place and a condition: "hum, on the left, not on the right, whatever the
// volume". It is the symptom's finding with each cause as strong as it explains what was told.
//
// On one axis (channels, say) let s(v) be how strongly a fault shows in place v. One fault shows in
// all the places that it reaches or in none of them (it is the same ripple), so that the chance of
// "there in all of Y and in none of N" is min over Y of s, less max over N of s. What was not asked
// is taken as not there by `unasked` (who says "on the left" has heard the right), and `slip` of a
// fault's strength is left where what was told speaks against it: people err. A fault that strikes
// one of several equal parts shows in one place, each as likely.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "diagnosis/compile_network.h"
#include "knowledge/signal_places.h"

namespace dryout::diagnosis {

inline constexpr double unasked = 0.65;     ///< judgement
inline constexpr double slip = 0.02;        ///< judgement
inline constexpr double other_rate = 0.05;  ///< strength left at the other hum rate (judgement)

/// One answer: the symptom is there, or is not, in these places.
struct PlacedAnswer {
  bool present = true;
  /// [axis] of channel, band, path and source: the place.
  std::array<std::optional<std::size_t>, 4> at;
  enum class Volume { unsaid, follows, stays };
  Volume volume = Volume::unsaid;
  enum class Rate { unsaid, mains, twice };
  Rate rate = Rate::unsaid;
  std::string condition;  ///< cold, warm, load; "" = unsaid
};

class LocatedSymptom {
 public:
  /// What both are given must outlive this. `answers` are all that was told of the symptom.
  LocatedSymptom(const knowledge::KnowledgeBase& knowledge, const knowledge::Equipment& equipment,
                 const CompiledNetwork& compiled, const knowledge::Symptom& symptom,
                 std::vector<PlacedAnswer> answers);

  /// What all answers together say is there; no cause is left where none could. At least one answer
  /// must be present.
  [[nodiscard]] Finding present() const;
  /// What an answer that is not present says is not there, beyond what present() says already.
  [[nodiscard]] Finding absent(std::size_t answer) const;

 private:
  /// One way in which a state of an item shows.
  struct Way {
    double strength = 0.0;
    knowledge::Extents extents;
    PlacedAnswer::Rate rate = PlacedAnswer::Rate::unsaid;
  };
  using Places = std::vector<std::size_t>;
  void gather(const knowledge::Symptom& symptom);
  /// Its causes in the order of items and states, and what is left for the unlisted.
  [[nodiscard]] Finding with_leak(Finding finding) const;
  [[nodiscard]] PlacedAnswer::Rate rate_of(std::size_t consequence) const;
  [[nodiscard]] Places told_on(knowledge::Axis axis, bool present) const;
  [[nodiscard]] double fit(const std::vector<Way>& ways, knowledge::Axis axis, const Places& there,
                           const Places& not_there, double weight_of_rest) const;
  [[nodiscard]] double strength(std::size_t slot, bool only_where_present) const;
  [[nodiscard]] double in_condition(const ItemState& at, const std::string& condition) const;
  [[nodiscard]] std::string id(const std::string& symptom) const;
  [[nodiscard]] std::string words_of(const PlacedAnswer& answer) const;

  const knowledge::KnowledgeBase* knowledge_;
  const knowledge::Equipment* equipment_;
  const CompiledNetwork* compiled_;
  const knowledge::Symptom* symptom_;
  std::vector<PlacedAnswer> answers_;
  std::vector<ItemState> slots_;        ///< which state of which item ...
  std::vector<std::vector<Way>> ways_;  ///< [slot] ... shows in which ways
};

}  // namespace dryout::diagnosis
