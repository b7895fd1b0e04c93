// Where in an equipment a trouble can be heard or seen, worked out from its signal paths: in which
// channels, bands, ways (receive, transmit) and sources, and before or behind its volume control.
//
// An axis is one such question with the places it has in this equipment; an equipment without
// channels has no axis of channels. A place is a bit of a mask.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "knowledge/block_graph.h"
#include "knowledge/fault_site.h"
#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {

enum class Axis { channel, band, path, source, control };
inline constexpr std::array<Axis, 5> all_axes{Axis::channel, Axis::band, Axis::path, Axis::source,
                                              Axis::control};
[[nodiscard]] std::string_view word_of(Axis axis);

/// Places on the axis of the volume control.
inline constexpr std::size_t before_control = 0;
inline constexpr std::size_t behind_control = 1;

/// On one axis, the places in which a trouble shows.
struct Extent {
  std::uint32_t mask = 0;  ///< all of them, or
  bool one_of = false;     ///< ... one of them, nobody knows which: a part of a set of equal ones
  friend bool operator==(const Extent&, const Extent&) = default;
};
using Extents = std::array<Extent, all_axes.size()>;

class SignalPlaces {
 public:
  /// What both are given must outlive this.
  SignalPlaces(const KnowledgeBase& knowledge, const Equipment& equipment);

  /// The places of an axis, none where the equipment does not part them.
  [[nodiscard]] const std::vector<NamedPlace>& on(Axis axis) const {
    return places_[static_cast<std::size_t>(axis)];
  }
  [[nodiscard]] std::optional<std::size_t> find_on(Axis axis, std::string_view id) const;

  /// Where the fault itself is.
  [[nodiscard]] Extents of(const FaultSite& site) const;
  /// Where a trouble that was in `before` shows once it has come to this place: it stays in its
  /// half of a stage that has two, spreads over whatever a rail feeds, and goes on as it is along
  /// the signal path.
  [[nodiscard]] Extents onward(const Extents& before, const Location& place) const;

 private:
  using Indices = std::vector<std::size_t>;
  [[nodiscard]] std::uint32_t all(Axis axis) const;
  [[nodiscard]] Extent channel_extent(const std::string& channel) const;
  [[nodiscard]] Extent band_extent(const std::vector<std::string>& bands) const;
  [[nodiscard]] Extents of_block(std::size_t block) const { return blocks_[block]; }
  /// [block] whether it is reached from `from` along the signal, not through `shut`.
  [[nodiscard]] std::vector<bool> reached_from(const Indices& from, const Indices& shut) const;
  [[nodiscard]] bool sounds(std::size_t block) const;
  void name_places();
  void place_blocks();
  void place_sources();
  void place_control();
  void place_rails();

  const KnowledgeBase* knowledge_;
  const Equipment* equipment_;
  BlockGraph graph_;
  std::array<std::vector<NamedPlace>, all_axes.size()> places_;
  std::vector<Indices> next_;    ///< [block] those its signal goes to
  std::vector<Extents> blocks_;  ///< [block]
  std::vector<Extents> rails_;   ///< [rail] whatever it feeds
};

}  // namespace dryout::knowledge
