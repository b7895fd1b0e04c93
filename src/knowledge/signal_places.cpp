#include "knowledge/signal_places.h"

#include <algorithm>

#include "quantities/holds.h"

namespace dryout::knowledge {
namespace {

using quantities::holds;
using At = Phenomenon::At;

constexpr std::string_view for_each_one = "each";
constexpr std::size_t masks_most = 32;

std::size_t index(Axis axis) { return static_cast<std::size_t>(axis); }

/// Blocks at whose end somebody listens or looks.
bool is_output(const Block& block) {
  return block.kind == "audio-output" || block.kind == "line-output" ||
         block.kind == "output-terminals" || block.kind == "crt" || block.kind == "signal-leads";
}

}  // namespace

std::string_view word_of(Axis axis) {
  switch (axis) {
    case Axis::channel:
      return "channel";
    case Axis::band:
      return "band";
    case Axis::path:
      return "path";
    case Axis::source:
      return "source";
    case Axis::control:
      break;
  }
  return "control";
}

SignalPlaces::SignalPlaces(const KnowledgeBase& knowledge, const Equipment& equipment)
    : knowledge_(&knowledge), equipment_(&equipment), graph_(equipment) {
  for (std::size_t b = 0; b < equipment.blocks.size(); ++b) {
    next_.emplace_back();
    for (const Location& to : graph_.reached(Reach::next_blocks, {At::block, b})) {
      next_.back().push_back(to.index);
    }
  }
  name_places();
  place_blocks();
  if (!on(Axis::source).empty()) place_sources();
  if (!on(Axis::control).empty()) place_control();
  place_rails();
}

void SignalPlaces::name_places() {
  places_[index(Axis::channel)] = equipment_->channels;
  places_[index(Axis::band)] = equipment_->bands;
  const auto goes = [&](std::string_view way) {
    return std::any_of(equipment_->blocks.begin(), equipment_->blocks.end(),
                       [&](const Block& block) { return block.path == way; });
  };
  if (goes("receive") && goes("transmit")) {
    places_[index(Axis::path)] = {{"receive", "Receive"}, {"transmit", "Transmit"}};
  }
  for (const SignalSource& source : equipment_->sources) {
    places_[index(Axis::source)].push_back({source.id, source.title, source.place});
  }
  if (find(equipment_->controls, "volume") != nullptr) {
    places_[index(Axis::control)] = {{"before", "Before the volume control"},
                                     {"behind", "Behind the volume control"}};
  }
  for (auto& list : places_) {
    if (list.size() > masks_most) list.resize(masks_most);
  }
}

std::uint32_t SignalPlaces::all(Axis axis) const {
  const std::size_t count = on(axis).size();
  return count >= masks_most ? ~0U : (1U << count) - 1U;
}

std::optional<std::size_t> SignalPlaces::find_on(Axis axis, std::string_view id) const {
  const auto& list = on(axis);
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].id == id) {
      return i;
    }
  }
  return std::nullopt;
}

Extent SignalPlaces::channel_extent(const std::string& channel) const {
  if (channel == for_each_one) {
    return {all(Axis::channel), true};
  }
  const auto found = find_on(Axis::channel, channel);
  return {found ? 1U << *found : all(Axis::channel), false};
}

Extent SignalPlaces::band_extent(const std::vector<std::string>& bands) const {
  if (bands == std::vector<std::string>{std::string(for_each_one)}) {
    return {all(Axis::band), true};
  }
  std::uint32_t mask = 0;
  for (const std::string& band : bands) {
    if (const auto found = find_on(Axis::band, band)) mask |= 1U << *found;
  }
  return {mask == 0 ? all(Axis::band) : mask, false};
}

void SignalPlaces::place_blocks() {
  for (const Block& block : equipment_->blocks) {
    Extents extents;
    for (const Axis axis : all_axes) extents[index(axis)].mask = all(axis);
    extents[index(Axis::channel)] = channel_extent(block.channel);
    extents[index(Axis::band)] = band_extent(block.bands);
    if (const auto way = find_on(Axis::path, block.path)) {
      extents[index(Axis::path)].mask = 1U << *way;
    }
    blocks_.push_back(extents);
  }
}

bool SignalPlaces::sounds(std::size_t block) const { return is_output(equipment_->blocks[block]); }

std::vector<bool> SignalPlaces::reached_from(const Indices& from, const Indices& shut) const {
  std::vector<bool> reached(next_.size());
  Indices open;
  for (const std::size_t block : from) {
    if (!holds(shut, block)) open.push_back(block);
  }
  while (!open.empty()) {
    const std::size_t block = open.back();
    open.pop_back();
    if (reached[block]) continue;
    reached[block] = true;
    for (const std::size_t to : next_[block]) {
      if (!holds(shut, to)) open.push_back(to);
    }
  }
  return reached;
}

/// A block serves the sources whose way leads through it, and those that come in behind all others
/// where the signal gets out past their entries.
void SignalPlaces::place_sources() {
  const auto& sources = equipment_->sources;
  Indices entries;
  std::vector<std::optional<std::size_t>> entry_of;
  for (const SignalSource& source : sources) {
    const Block* entry = find(equipment_->blocks, source.through);
    entry_of.emplace_back();
    if (entry == nullptr) continue;
    entry_of.back() = static_cast<std::size_t>(entry - equipment_->blocks.data());
    entries.push_back(*entry_of.back());
  }
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    const std::vector<bool> onward = reached_from({b}, {});
    const std::vector<bool> past = reached_from({b}, entries);
    bool gets_out = false;
    for (std::size_t to = 0; to < past.size(); ++to)
      gets_out = gets_out || (past[to] && sounds(to));
    std::uint32_t mask = 0;
    for (std::size_t s = 0; s < sources.size() && s < masks_most; ++s) {
      const bool serves =
          entry_of[s] ? onward[*entry_of[s]] || (gets_out && reached_from({*entry_of[s]}, {})[b])
                      : gets_out;
      if (serves) mask |= 1U << s;
    }
    if (mask != 0) blocks_[b][index(Axis::source)].mask = mask;
  }
}

/// Before the control lies what no longer sounds once the control is cut out of the path.
void SignalPlaces::place_control() {
  const SignalControl* volume = find(equipment_->controls, "volume");
  const Block* from = find(equipment_->blocks, volume->from);
  if (from == nullptr) {
    return;
  }
  const auto cut = static_cast<std::size_t>(from - equipment_->blocks.data());
  const auto sounding = [&](std::size_t block) {
    const std::vector<bool> reached = reached_from({block}, {});
    for (std::size_t to = 0; to < reached.size(); ++to) {
      if (reached[to] && sounds(to)) return true;
    }
    return false;
  };
  std::vector<bool> before;
  for (std::size_t b = 0; b < blocks_.size(); ++b) before.push_back(sounding(b));
  std::erase_if(next_[cut], [&](std::size_t to) {
    return volume->to.empty() || equipment_->blocks[to].id == volume->to;
  });
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    const bool behind = sounding(b);
    // A valve stands beside the path: what it does comes in at the stage that it serves.
    if (before[b] && equipment_->blocks[b].kind != "valve") {
      blocks_[b][index(Axis::control)].mask = 1U << (behind ? behind_control : before_control);
    }
  }
}

/// A rail is heard wherever what hangs on it is heard. Branches stand behind what they hang on.
void SignalPlaces::place_rails() {
  const auto& rails = equipment_->rails;
  for (std::size_t r = 0; r < rails.size(); ++r) {
    Extents extents;
    for (const Location& fed : graph_.reached(Reach::fed_blocks, {At::rail, r})) {
      for (const Axis axis : all_axes) {
        extents[index(axis)].mask |= blocks_[fed.index][index(axis)].mask;
      }
    }
    const bool source = graph_.reached(Reach::branch_rails, {At::rail, r}).empty() &&
                        !graph_.reached(Reach::fed_blocks, {At::rail, r}).empty();
    for (const Axis axis : all_axes) {
      if (!source || axis == Axis::control || extents[index(axis)].mask == 0) {
        extents[index(axis)].mask = all(axis);
      }
    }
    rails_.push_back(extents);
  }
}

Extents SignalPlaces::of(const FaultSite& site) const {
  if (site.kind == FaultSite::Kind::cause) {
    Extents extents = of_block(site.block);
    const OtherCause& cause = knowledge_->causes[site.cause];
    if (!cause.one_band) extents[index(Axis::band)].one_of = false;
    const SignalControl* volume = find(equipment_->controls, "volume");
    if (cause.from_outside && volume != nullptr &&
        volume->to == equipment_->blocks[site.block].id) {
      extents[index(Axis::control)].mask = 1U << before_control;
    }
    return extents;
  }
  const PartGroup& group = equipment_->groups[site.group];
  const auto block = graph_.block_of({At::group, site.group});
  Extents extents = block ? of_block(*block) : Extents{};
  Extent& channel = extents[index(Axis::channel)];
  if (!group.channel.empty()) {
    channel = channel_extent(group.channel);
  } else if (!group.rail.empty()) {
    channel.one_of = false;  // what stands across a rail serves both halves
  }
  if (!group.bands.empty()) {
    extents[index(Axis::band)] = band_extent(group.bands);
  } else if (!group.rail.empty()) {
    extents[index(Axis::band)].one_of = false;
  }
  return extents;
}

Extents SignalPlaces::onward(const Extents& before, const Location& place) const {
  if (place.at == At::rail) {
    return rails_[place.index];
  }
  if (place.at == At::group) {
    return before;
  }
  Extents extents = before;
  const Extents here = of_block(place.index);
  for (const Axis axis : all_axes) {
    Extent& extent = extents[index(axis)];
    const Extent& own = here[index(axis)];
    if (axis == Axis::control) {
      // A trouble comes in where it first stands in the path; what it does further on follows.
      if (extent.mask == all(axis)) extent = own;
      continue;
    }
    if (axis == Axis::channel && own.mask == all(axis) && !own.one_of) {
      extent = own;  // one path for all: what is wrong in it is heard everywhere
      continue;
    }
    const std::uint32_t both = extent.mask & own.mask;
    extent.mask = both == 0 ? own.mask : both;
  }
  return extents;
}

}  // namespace dryout::knowledge
