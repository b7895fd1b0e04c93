#include "knowledge/read_entries.h"

#include <algorithm>

namespace dryout::knowledge {
namespace {

using documents::Reader;

constexpr documents::Range odds_factor{.max = 1000.0, .above = 0.0};

std::map<std::string, double> read_factors(const Reader& reader, std::string_view key) {
  std::map<std::string, double> factors;
  if (const auto member = reader.optional_member(key)) {
    member->for_each_member([&](const std::string& name, const Reader& factor) {
      factors[name] = factor.as_number(odds_factor);
    });
  }
  return factors;
}

/// Under which conditions a fault shows: cold, warm, load.
std::map<std::string, double> read_conditions(const Reader& reader) {
  std::map<std::string, double> conditions;
  if (const auto member = reader.optional_member("shows_when")) {
    member->accept_only({"cold", "warm", "load"});
    member->for_each_member([&](const std::string& name, const Reader& share) {
      conditions[name] = share.as_number(documents::any_probability);
    });
  }
  return conditions;
}

/// Ids of entries are stricter than what may be referred to: others will build on them.
std::string read_id(const Reader& reader) {
  std::string id = reader.id("id");
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  if (!id.empty() && (id.front() == '-' || !std::all_of(id.begin(), id.end(), plain))) {
    reader.optional_member("id")->complain("an id not of the agreed form",
                                           "lower case, words joined by '-'");
  }
  return id;
}

std::string read_because(const Reader& reader) {
  constexpr std::size_t length_min = 20;
  std::string because = reader.text("because");
  if (!because.empty() && because.size() < length_min) {
    reader.optional_member("because")->complain("a reason too short to teach anyone",
                                                "a sentence that a novice understands");
  }
  return because;
}

}  // namespace

Source read_source(const Reader& reader) {
  const documents::Value* value = reader.value().find("source");
  if (value == nullptr) {
    reader.complain("\"source\" is missing",
                    "a published source with its place, \"common practice\" or \"judgement\"", "");
    return {};
  }
  if (value->text() != nullptr) {
    const std::size_t word = reader.one_of("source", {"common practice", "judgement"});
    return {word == 0 ? Source::Kind::common_practice : Source::Kind::judgement, ""};
  }
  const Reader source = reader.object("source");
  source.accept_only({"kind", "document", "place"});
  const bool published = source.one_of("kind", {"published", "memory"}) == 0;
  std::string text = source.text("document");
  if (const auto place = source.optional_text("place")) {
    text += ", " + *place;
  } else if (published) {
    source.complain("a published source without its place", "\"place\": page, table or section",
                    "");
  }
  return {published ? Source::Kind::published : Source::Kind::memory, std::move(text)};
}

void read_head(const Reader& reader, Entry& entry, bool with_title) {
  entry.place = reader.place();
  entry.id = read_id(reader);
  entry.title = with_title ? reader.text("title") : "";
  entry.because = read_because(reader);
  entry.source = read_source(reader);
  (void)reader.optional_text("judged");
}

FaultMode read_mode(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "looks_like", "shows_when"});
  FaultMode mode;
  read_head(reader, mode);
  mode.looks_like = reader.text("looks_like");
  mode.shows_when = read_conditions(reader);
  return mode;
}

Technology read_technology(const Reader& reader) {
  reader.accept_only(
      {"id", "title", "because", "source", "judged", "wears_out", "called", "modes"});
  Technology technology;
  read_head(reader, technology);
  technology.wears_out = reader.boolean("wears_out");
  technology.called = reader.optional_texts("called");
  reader.object("modes").for_each_member([&](const std::string& mode, const Reader& levels) {
    std::vector<double>& given = technology.modes[mode];
    levels.for_each_element(
        [&](const Reader& p) { given.push_back(p.as_number(documents::any_probability)); });
  });
  return technology;
}

Ageing read_ageing(const Reader& reader) {
  reader.accept_only({"levels", "steps", "warmth_factor", "because", "judged", "source"});
  Ageing ageing;
  ageing.place = reader.place();
  ageing.levels = reader.texts("levels");
  reader.for_each("steps", [&](const Reader& step) {
    step.accept_only({"age_years_max", "weights"});
    ageing.steps.push_back({step.number("age_years_max", documents::positive),
                            step.numbers("weights", documents::any_probability)});
  });
  ageing.warmth_factor = read_factors(reader, "warmth_factor");
  ageing.source = read_source(reader);
  return ageing;
}

EraVariant read_era(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "year_from", "year_to",
                      "technologies", "odds"});
  EraVariant era;
  era.place = reader.place();
  era.id = read_id(reader);
  era.title = reader.text("title");
  era.because = read_because(reader);
  era.source = read_source(reader);
  era.year_from = reader.whole_number("year_from", any_year);
  era.year_to = reader.whole_number("year_to", any_year);
  era.technologies = reader.texts("technologies");
  era.odds = read_factors(reader, "odds");
  return era;
}

Role read_role(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "technology", "stress",
                      "measure", "across_rail"});
  Role role;
  read_head(reader, role);
  role.technology = reader.id("technology");
  role.stress = read_factors(reader, "stress");
  role.measure = reader.text("measure");
  role.across_rail = reader.optional_boolean("across_rail", false);
  return role;
}

OtherCause read_cause(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "block_kinds", "not_served_by",
                      "fed_by", "year_from", "year_to", "prior", "remedy_minutes", "how_to_tell",
                      "one_band", "from_outside", "section_kinds", "shows_when"});
  OtherCause cause;
  read_head(reader, cause);
  cause.block_kinds = reader.texts("block_kinds");
  cause.not_served_by = reader.optional_texts("not_served_by");
  cause.fed_by = reader.optional_texts("fed_by");
  if (reader.has("year_from")) cause.year_from = reader.whole_number("year_from", any_year);
  if (reader.has("year_to")) cause.year_to = reader.whole_number("year_to", any_year);
  cause.prior = reader.number("prior", documents::any_probability);
  cause.remedy = quantities::minutes(reader.number("remedy_minutes", documents::positive));
  cause.how_to_tell = reader.text("how_to_tell");
  cause.section_kinds = reader.optional_texts("section_kinds");
  cause.from_outside = reader.optional_boolean("from_outside", false);
  cause.one_band = reader.optional_boolean("one_band", false);
  cause.shows_when = read_conditions(reader);
  return cause;
}

Phenomenon read_phenomenon(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "at", "phrase"});
  Phenomenon phenomenon;
  read_head(reader, phenomenon);
  phenomenon.at = static_cast<Phenomenon::At>(reader.one_of("at", {"rail", "block", "group"}));
  phenomenon.phrase = reader.text("phrase");
  if (phenomenon.phrase.find("{place}") == std::string::npos) {
    reader.complain("the phrase names no place", "a phrase with {place} in it", phenomenon.phrase);
  }
  return phenomenon;
}

}  // namespace dryout::knowledge
