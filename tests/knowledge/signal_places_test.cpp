// Where the parts of the shipped kinds sit, worked out from their signal paths. What is expected is
// how such sets are built (common practice, no source): a phono stage lies ahead of the selector,
// a preamplifier ahead of the volume control, an output stage behind it.
#include "knowledge/signal_places.h"

#include <gtest/gtest.h>

#include "knowledge/fixture.h"

namespace dryout::knowledge {
namespace {

using tests::shipped_knowledge;

class Places {
 public:
  explicit Places(const std::string& equipment)
      : equipment_(*find(shipped_knowledge().equipment, equipment)),
        places_(shipped_knowledge(), equipment_) {}

  [[nodiscard]] const SignalPlaces& places() const { return places_; }
  /// "left", "left right" (all of these), "one of left right".
  [[nodiscard]] std::string told(Axis axis, const Extent& extent) const {
    std::string words = extent.one_of ? "one of" : "";
    for (std::size_t i = 0; i < places_.on(axis).size(); ++i) {
      if ((extent.mask & (1U << i)) != 0) {
        words += (words.empty() ? "" : " ") + places_.on(axis)[i].id;
      }
    }
    return words;
  }
  [[nodiscard]] std::string of_group(Axis axis, const std::string& id) const {
    FaultSite site;
    site.group = index(equipment_.groups, id);
    return told(axis, places_.of(site)[static_cast<std::size_t>(axis)]);
  }
  [[nodiscard]] std::string of_cause(Axis axis, const std::string& cause,
                                     const std::string& block) const {
    FaultSite site;
    site.kind = FaultSite::Kind::cause;
    site.cause = index(shipped_knowledge().causes, cause);
    site.block = index(equipment_.blocks, block);
    return told(axis, places_.of(site)[static_cast<std::size_t>(axis)]);
  }
  /// Of a group's trouble once it has come to its rail.
  [[nodiscard]] std::string on_rail(Axis axis, const std::string& id) const {
    FaultSite site;
    site.group = index(equipment_.groups, id);
    const std::string& rail = equipment_.groups[site.group].rail;
    const Extents extents =
        places_.onward(places_.of(site), {Phenomenon::At::rail, index(equipment_.rails, rail)});
    return told(axis, extents[static_cast<std::size_t>(axis)]);
  }

 private:
  template <class Entries>
  static std::size_t index(const Entries& entries, const std::string& id) {
    for (std::size_t i = 0; i < entries.size(); ++i) {
      if (entries[i].id == id) return i;
    }
    ADD_FAILURE() << "nothing is called " << id;
    return 0;
  }

  const Equipment& equipment_;
  SignalPlaces places_;
};

TEST(SignalPlaces, AReceiverHasTwoChannelsThreeSourcesAndAVolumeControl) {
  const Places set("stereo-receiver");
  EXPECT_EQ(set.of_group(Axis::channel, "left-feedback"), "left");
  EXPECT_EQ(set.of_group(Axis::channel, "right-bootstrap"), "right");
  EXPECT_EQ(set.of_group(Axis::channel, "phono-coupling"), "one of left right");
  EXPECT_EQ(set.of_group(Axis::channel, "phono-decoupling"), "left right");
  EXPECT_EQ(set.of_group(Axis::channel, "protect-timing"), "left right");
  EXPECT_EQ(set.of_group(Axis::source, "phono-coupling"), "phono");
  EXPECT_EQ(set.of_group(Axis::source, "if-decoupling"), "tuner");
  EXPECT_EQ(set.of_group(Axis::source, "tone-coupling"), "phono tuner tape");
  EXPECT_EQ(set.of_group(Axis::control, "selector-coupling"), "before");
  EXPECT_EQ(set.of_group(Axis::control, "left-input"), "behind");
  EXPECT_EQ(set.of_group(Axis::band, "detector-store"), "fm");
}

TEST(SignalPlaces, ARailIsHeardWhereverWhatItFeedsIsHeard) {
  const Places set("stereo-receiver");
  EXPECT_EQ(set.on_rail(Axis::channel, "reservoirs"), "left right");
  EXPECT_EQ(set.on_rail(Axis::channel, "main-decoupling"), "left");
  EXPECT_EQ(set.on_rail(Axis::source, "phono-decoupling"), "phono");
  EXPECT_EQ(set.on_rail(Axis::source, "reg-out-24"), "phono tuner tape");
}

TEST(SignalPlaces, AWaveSwitchContactServesOneBandAndAValveServesAll) {
  const Places set("valve-am-receiver");
  EXPECT_EQ(set.of_cause(Axis::band, "dirty-switch", "mixer"), "one of long-wave medium-wave");
  EXPECT_EQ(set.of_cause(Axis::band, "cracked-joint", "if"), "long-wave medium-wave");
  EXPECT_EQ(set.of_group(Axis::band, "padder"), "one of long-wave medium-wave");
  EXPECT_EQ(set.of_group(Axis::band, "mixer-screen"), "long-wave medium-wave");
  EXPECT_EQ(set.of_group(Axis::control, "grid-coupling"), "behind");
  EXPECT_EQ(set.of_group(Axis::control, "if-micas"), "before");
  EXPECT_EQ(set.of_cause(Axis::control, "external-lead", "audio"), "before");
}

TEST(SignalPlaces, AMicrophoneTransmitsAndALoudspeakerReceives) {
  const Places set("hf-transceiver");
  EXPECT_EQ(set.of_group(Axis::path, "mic-coupling"), "transmit");
  EXPECT_EQ(set.of_group(Axis::path, "audio-out-cap"), "receive");
  EXPECT_EQ(set.of_group(Axis::path, "loop-cans"), "receive transmit");
  EXPECT_EQ(set.on_rail(Axis::path, "mic-decoupling"), "transmit");
}

TEST(SignalPlaces, AnEchoHasAWayOfItsOwnPastTheDirectSound) {
  const Places set("tape-echo");
  EXPECT_EQ(set.of_group(Axis::source, "playback-coupling"), "echo");
  EXPECT_EQ(set.of_group(Axis::source, "input-coupling"), "echo direct");
  EXPECT_EQ(set.of_group(Axis::source, "mixer-coupling"), "echo direct");
}

TEST(SignalPlaces, AnEquipmentWithoutPlacesHasNone) {
  const KnowledgeBase& knowledge = tests::fixture_knowledge();
  const SignalPlaces places(knowledge, knowledge.equipment[0]);
  for (const Axis axis : all_axes) EXPECT_TRUE(places.on(axis).empty()) << word_of(axis);
}

}  // namespace
}  // namespace dryout::knowledge
