#include "knowledge/equipment_json.h"

#include <cmath>

namespace dryout::knowledge {
namespace {

using documents::Value;

Value texts(const std::vector<std::string>& list) {
  Value array = Value::array();
  for (const std::string& text : list) array.append(text);
  return array;
}

void set_unless_empty(Value& object, const char* key, const std::string& text) {
  if (!text.empty()) object.set(key, text);
}

Value source_json(const Source& source) {
  switch (source.kind) {
    case Source::Kind::common_practice:
      return "common practice";
    case Source::Kind::judgement:
      return "judgement";
    case Source::Kind::memory:
      return Value::object({{"kind", "memory"}, {"document", source.text}});
    case Source::Kind::published:
      break;
  }
  // Document and place were joined by a comma when they were read; the last one parts them again.
  const std::size_t comma = source.text.rfind(", ");
  const bool parted = comma != std::string::npos && comma > 0 && comma + 2 < source.text.size();
  return Value::object({{"kind", "published"},
                        {"document", parted ? source.text.substr(0, comma) : source.text},
                        {"place", parted ? source.text.substr(comma + 2) : source.text}});
}

Value access_json(const AccessRule& access) {
  return Value::object({{"id", access.id},
                        {"title", access.title},
                        {"minutes", quantities::in_minutes(access.effort)},
                        {"needs", texts(access.needs)}});
}

Value board_json(const Board& board) {
  Value value = Value::object({{"id", board.id}, {"title", board.title}});
  set_unless_empty(value, "access", board.access);
  set_unless_empty(value, "solder_access", board.solder_access);
  return value;
}

Value rail_json(const Rail& rail) {
  Value value = Value::object(
      {{"id", rail.id}, {"title", rail.title}, {"kind", rail.kind}, {"volts", rail.volts}});
  set_unless_empty(value, "from", rail.from);
  set_unless_empty(value, "through", rail.through);
  if (rail.half_wave) value.set("half_wave", true);
  return value;
}

Value named_place_json(const NamedPlace& named) {
  return Value::object({{"id", named.id}, {"title", named.title}});
}

Value signal_source_json(const SignalSource& source) {
  Value value = Value::object({{"id", source.id}, {"title", source.title}});
  set_unless_empty(value, "through", source.through);
  return value;
}

Value control_json(const SignalControl& control) {
  Value value = Value::object({{"id", control.id}, {"title", control.title}});
  set_unless_empty(value, "from", control.from);
  set_unless_empty(value, "to", control.to);
  return value;
}

void set_where(Value& object, const std::string& channel, const std::vector<std::string>& bands) {
  set_unless_empty(object, "channel", channel);
  if (!bands.empty()) object.set("bands", texts(bands));
}

Value block_json(const Block& block) {
  Value value = Value::object({{"id", block.id}, {"title", block.title}, {"kind", block.kind}});
  set_unless_empty(value, "board", block.board);
  value.set("fed_by", texts(block.fed_by));
  value.set("makes", texts(block.makes));
  value.set("signal_to", texts(block.signal_to));
  set_where(value, block.channel, block.bands);
  set_unless_empty(value, "path", block.path);
  return value;
}

/// Microfarads without the last digits that the way through farads has spoilt.
double microfarads_of(quantities::Farad capacitance) {
  const double value = quantities::in_microfarads(capacitance);
  if (value <= 0.0) return 0.0;
  const double step = std::pow(10.0, std::floor(std::log10(value)) - 11.0);
  return step < 1.0 ? std::round(value / step) / std::round(1.0 / step)
                    : std::round(value / step) * step;
}

Value group_json(const PartGroup& group) {
  Value value = Value::object({{"id", group.id}, {"title", group.title}, {"role", group.role}});
  value.set("block", group.block);
  set_unless_empty(value, "rail", group.rail);
  set_unless_empty(value, "technology", group.technology);
  value.set("count", group.count);
  if (group.capacitance.si() > 0.0) value.set("capacitance_uF", microfarads_of(group.capacitance));
  if (group.rated.si() > 0.0) value.set("rated_V", group.rated.si());
  set_unless_empty(value, "cohort", group.cohort);
  value.set("warmth", group.warmth);
  set_unless_empty(value, "across", group.across);
  if (!group.references.empty()) value.set("references", texts(group.references));
  set_where(value, group.channel, group.bands);
  return value;
}

Value era_json(const EraVariant& era) {
  Value odds = Value::object();
  for (const auto& [mode, factor] : era.odds) odds.set(mode, factor);
  return Value::object({{"id", era.id},
                        {"title", era.title},
                        {"because", era.because},
                        {"source", source_json(era.source)},
                        {"year_from", era.year_from},
                        {"year_to", era.year_to},
                        {"technologies", texts(era.technologies)},
                        {"odds", std::move(odds)}});
}

Value unplaced_json(const UnplacedPart& part) {
  Value value = Value::object();
  set_unless_empty(value, "reference", part.reference);
  set_unless_empty(value, "value", part.value);
  value.set("missing", part.missing);
  return value;
}

template <class Part>
Value list_json(const std::vector<Part>& parts, Value (*one)(const Part&)) {
  Value list = Value::array();
  for (const Part& part : parts) list.append(one(part));
  return list;
}

}  // namespace

Value to_json(const Equipment& equipment) {
  Value value = Value::object({{"id", equipment.id},
                               {"title", equipment.title},
                               {"because", equipment.because},
                               {"source", source_json(equipment.source)},
                               {"family", equipment.family},
                               {"year_from", equipment.year_from},
                               {"year_to", equipment.year_to},
                               {"hazards", texts(equipment.hazards)}});
  value.set("access", list_json(equipment.access, access_json));
  value.set("boards", list_json(equipment.boards, board_json));
  value.set("rails", list_json(equipment.rails, rail_json));
  value.set("blocks", list_json(equipment.blocks, block_json));
  value.set("groups", list_json(equipment.groups, group_json));
  if (!equipment.channels.empty()) {
    value.set("channels", list_json(equipment.channels, named_place_json));
  }
  if (!equipment.bands.empty()) value.set("bands", list_json(equipment.bands, named_place_json));
  if (!equipment.sources.empty()) {
    value.set("sources", list_json(equipment.sources, signal_source_json));
  }
  if (!equipment.controls.empty()) {
    value.set("controls", list_json(equipment.controls, control_json));
  }
  value.set("eras", list_json(equipment.eras, era_json));
  value.set("symptoms", texts(equipment.symptoms));
  if (!equipment.unplaced.empty()) {
    value.set("unplaced", list_json(equipment.unplaced, unplaced_json));
  }
  return Value::object({{"schema", 1}, {"equipment", Value::array({std::move(value)})}});
}

}  // namespace dryout::knowledge
