#include "knowledge/read_entries.h"
#include "quantities/measure.h"

namespace dryout::knowledge {
namespace {

using documents::Reader;
using quantities::Measure;

/// What capacitor and rail can be (quantities/measure.h); 0 stands for "not known".
documents::Range range_in(Measure measure, double unit) {
  const quantities::PhysicalRange& range = quantities::range_of(measure);
  return {.min = range.least / unit, .max = range.most / unit};
}
const documents::Range any_microfarads = range_in(Measure::marked_capacitance, 1e-6);
const documents::Range any_rating = range_in(Measure::rated_volts, 1.0);
const documents::Range any_rail = range_in(Measure::dc_volts, 1.0);

/// An optional id-like text where "" and absent mean none.
std::string name(const Reader& reader, std::string_view key) {
  return reader.optional_text(key).value_or("");
}

AccessRule read_access(const Reader& reader) {
  reader.accept_only({"id", "title", "minutes", "needs"});
  return {reader.id("id"), reader.text("title"),
          quantities::minutes(reader.number("minutes", documents::non_negative)),
          reader.optional_texts("needs"), reader.place()};
}

Board read_board(const Reader& reader) {
  reader.accept_only({"id", "title", "access", "solder_access"});
  return {reader.id("id"), reader.text("title"), name(reader, "access"),
          name(reader, "solder_access"), reader.place()};
}

Rail read_rail(const Reader& reader) {
  reader.accept_only({"id", "title", "kind", "volts", "from", "through", "half_wave"});
  Rail rail;
  rail.id = reader.id("id");
  rail.title = reader.text("title");
  rail.kind = reader.id("kind");
  rail.volts = reader.number("volts", any_rail);
  rail.from = name(reader, "from");
  if (reader.has("through")) {
    (void)reader.one_of(
        "through", {"direct", "resistor", "choke", "diode", "regulator", "winding", "converter"});
    rail.through = reader.text("through");
  }
  rail.half_wave = reader.optional_boolean("half_wave", false);
  rail.place = reader.place();
  return rail;
}

NamedPlace read_named_place(const Reader& reader) {
  reader.accept_only({"id", "title"});
  return {reader.id("id"), reader.text("title"), reader.place()};
}

SignalSource read_signal_source(const Reader& reader) {
  reader.accept_only({"id", "title", "through"});
  return {reader.id("id"), reader.text("title"), name(reader, "through"), reader.place()};
}

SignalControl read_control(const Reader& reader) {
  reader.accept_only({"id", "title", "from", "to"});
  return {reader.id("id"), reader.text("title"), name(reader, "from"), name(reader, "to"),
          reader.place()};
}

Block read_block(const Reader& reader) {
  reader.accept_only(
      {"id", "title", "kind", "board", "fed_by", "makes", "signal_to", "channel", "bands", "path"});
  Block block;
  block.id = reader.id("id");
  block.title = reader.text("title");
  block.kind = reader.id("kind");
  block.board = name(reader, "board");
  block.fed_by = reader.optional_texts("fed_by");
  block.makes = reader.optional_texts("makes");
  block.signal_to = reader.optional_texts("signal_to");
  block.channel = name(reader, "channel");
  block.bands = reader.optional_texts("bands");
  if (reader.has("path")) {
    (void)reader.one_of("path", {"receive", "transmit"});
    block.path = reader.text("path");
  }
  block.place = reader.place();
  return block;
}

PartGroup read_group(const Reader& reader) {
  reader.accept_only({"id", "title", "role", "block", "rail", "technology", "count",
                      "capacitance_uF", "rated_V", "cohort", "warmth", "across", "references",
                      "channel", "bands"});
  PartGroup group;
  group.place = reader.place();
  group.id = reader.id("id");
  group.title = reader.text("title");
  group.role = reader.id("role");
  group.block = reader.id("block");
  group.rail = name(reader, "rail");
  group.technology = name(reader, "technology");
  group.count = reader.whole_number("count", {.min = 1, .max = 500});
  group.capacitance = quantities::microfarads(
      reader.optional_number("capacitance_uF", any_microfarads).value_or(0.0));
  group.rated = quantities::volts(reader.optional_number("rated_V", any_rating).value_or(0.0));
  group.cohort = name(reader, "cohort");
  if (const auto warmth = reader.optional_text("warmth")) {
    group.warmth = *warmth;
  }
  group.references = reader.optional_texts("references");
  group.channel = name(reader, "channel");
  group.bands = reader.optional_texts("bands");
  if (reader.has("across")) {
    const std::initializer_list<std::string_view> words = {
        "unknown", "nothing", "ceramic", "electrolytic", "winding", "regulator", "low-resistor"};
    group.across = words.begin()[reader.one_of("across", words)];
  }
  return group;
}

UnplacedPart read_unplaced(const Reader& reader) {
  reader.accept_only({"reference", "value", "missing"});
  return {name(reader, "reference"), name(reader, "value"), reader.text("missing"), reader.place()};
}

template <class Part>
void read_parts(const Reader& reader, std::string_view key, std::vector<Part>& parts,
                Part (*read)(const Reader&)) {
  reader.for_each_optional(key, [&](const Reader& part) { parts.push_back(read(part)); });
}

}  // namespace

Equipment read_equipment(const Reader& reader) {
  reader.accept_only({"id",       "title",     "because", "source",  "judged",   "family",
                      "said_as",  "year_from", "year_to", "access",  "boards",   "rails",
                      "blocks",   "groups",    "hazards", "eras",    "symptoms", "unplaced",
                      "channels", "bands",     "sources", "controls"});
  Equipment equipment;
  read_head(reader, equipment);
  equipment.said_as = reader.condition_words("said_as");
  equipment.family = reader.text("family");
  equipment.year_from = reader.whole_number("year_from", any_year);
  equipment.year_to = reader.whole_number("year_to", any_year);
  read_parts(reader, "access", equipment.access, read_access);
  read_parts(reader, "boards", equipment.boards, read_board);
  read_parts(reader, "rails", equipment.rails, read_rail);
  read_parts(reader, "blocks", equipment.blocks, read_block);
  read_parts(reader, "groups", equipment.groups, read_group);
  read_parts(reader, "channels", equipment.channels, read_named_place);
  read_parts(reader, "bands", equipment.bands, read_named_place);
  read_parts(reader, "sources", equipment.sources, read_signal_source);
  read_parts(reader, "controls", equipment.controls, read_control);
  read_parts(reader, "eras", equipment.eras, read_era);
  read_parts(reader, "unplaced", equipment.unplaced, read_unplaced);
  equipment.hazards = reader.optional_texts("hazards");
  equipment.symptoms = reader.optional_texts("symptoms");
  return equipment;
}

}  // namespace dryout::knowledge
