#include <algorithm>

#include "knowledge/read_entries.h"
#include "quantities/spelling.h"

namespace dryout::knowledge {

using documents::any_probability;
using documents::Reader;

namespace {

/// Parts are judged by their modes, all other places by what can be seen there.
void require_something_to_find(const Reader& reader, const CheckRule& check) {
  const bool of_group = check.per == CheckRule::Per::group;
  const char* accepted = of_group ? "\"detects\" alone: modes with their sensitivity"
                                  : "\"sees\" alone: phenomena with their sensitivity";
  if (of_group ? !check.sees.empty() : !check.detects.empty()) {
    reader.complain("a check looks for what is not at its place", accepted, check.id);
  } else if (check.sees.empty() && check.detects.empty()) {
    reader.complain("a check that finds nothing", accepted, check.id);
  }
}

void require_places_that_sets_have(const Reader& reader, const Caution& caution) {
  const std::vector<std::string_view> places{
      "mains",        "primary", "high-tension", "kilovolts",        "extra-high-tension",
      "live-chassis", "valves",  "bias",         "protective-earth", "solid-tantalum",
      "test-volts"};
  for (const std::string& word : caution.where) {
    if (std::find(places.begin(), places.end(), word) == places.end()) {
      const auto nearest = quantities::nearest_spelling(word, places);
      reader.complain("unknown word for where a danger is",
                      nearest ? "did you mean \"" + *nearest + "\"?"
                              : "mains, primary, high-tension, kilovolts, extra-high-tension, "
                                "live-chassis, valves, "
                                "bias, protective-earth, solid-tantalum, test-volts",
                      word);
    }
  }
}

}  // namespace

Symptom read_symptom(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "family", "owner_words",
                      "said_as", "quick_test", "discriminates", "shows", "leak", "unlisted", "path",
                      "cautions"});
  Symptom symptom;
  read_head(reader, symptom);
  symptom.family = reader.text("family");
  symptom.owner_words = reader.texts("owner_words");
  symptom.said_as = reader.condition_words("said_as");
  symptom.quick_test = reader.text("quick_test");
  symptom.discriminates = reader.text("discriminates");
  reader.for_each("shows", [&](const Reader& shows) {
    shows.accept_only({"phenomenon", "kinds", "strength"});
    symptom.shows.push_back({shows.id("phenomenon"), shows.optional_texts("kinds"),
                             shows.optional_number("strength", any_probability).value_or(1.0)});
  });
  if (reader.has("shows") && symptom.shows.empty()) {
    reader.complain("a symptom that shows nothing", "at least one phenomenon in \"shows\"",
                    symptom.id);
  }
  // An own file of before may still say how often it is there with nothing wrong. What weighs is
  // the share of the complaints in which nothing listed makes it.
  (void)reader.optional_number("leak", documents::Range{.min = 1e-6, .max = 0.5});
  symptom.unlisted = reader.optional_number("unlisted", documents::Range{.min = 1e-4, .max = 0.5})
                         .value_or(symptom.unlisted);
  if (reader.has("path")) {
    (void)reader.one_of("path", {"receive", "transmit"});
    symptom.path = reader.text("path");
  }
  symptom.cautions = reader.optional_texts("cautions");
  return symptom;
}

Caution read_caution(const Reader& reader) {
  reader.accept_only({"id", "title", "because", "source", "judged", "wording", "danger", "where",
                      "year_from", "year_to", "by_itself"});
  Caution caution;
  read_head(reader, caution);
  caution.wording = reader.text("wording");
  (void)reader.one_of("danger", {"none", "stored-charge", "mains", "high-tension"});
  caution.danger = reader.text("danger");
  caution.where = reader.condition_words("where");
  require_places_that_sets_have(reader, caution);
  caution.year_from = static_cast<int>(reader.optional_number("year_from").value_or(0));
  caution.year_to = static_cast<int>(reader.optional_number("year_to").value_or(9999));
  caution.by_itself = reader.optional_boolean("by_itself", false);
  return caution;
}

CheckRule read_check(const Reader& reader) {
  reader.accept_only({"id",          "title",  "because", "source",       "judged",
                      "state",       "per",    "kinds",   "technologies", "instrument",
                      "minutes",     "access", "probes",  "good",         "bad",
                      "false_alarm", "sees",   "detects", "quantity",     "cautions"});
  CheckRule check;
  read_head(reader, check);
  check.state =
      static_cast<CheckRule::State>(reader.one_of("state", {"unpowered", "powered", "lifted"}));
  check.per = static_cast<CheckRule::Per>(reader.one_of("per", {"set", "rail", "block", "group"}));
  check.kinds = reader.optional_texts("kinds");
  check.technologies = reader.optional_texts("technologies");
  check.instrument = reader.text("instrument");
  check.effort = quantities::minutes(reader.number("minutes", documents::positive));
  if (reader.has("access")) {
    check.access = static_cast<CheckRule::Access>(
        reader.one_of("access", {"board", "solder-side", "outside"}));
  }
  check.probes = reader.text("probes");
  check.good = reader.text("good");
  check.bad = reader.text("bad");
  check.false_alarm = reader.number("false_alarm", {.min = 1e-4, .max = 0.5});
  reader.for_each_optional("sees", [&](const Reader& sees) {
    sees.accept_only({"phenomenon", "sensitivity"});
    check.sees.emplace_back(sees.id("phenomenon"), sees.number("sensitivity", any_probability));
  });
  if (const auto detects = reader.optional_member("detects")) {
    detects->for_each_member([&](const std::string& mode, const Reader& sensitivity) {
      check.detects[mode] = sensitivity.as_number(any_probability);
    });
  }
  check.quantity = reader.optional_text("quantity").value_or("");
  check.cautions = reader.optional_texts("cautions");
  require_something_to_find(reader, check);
  return check;
}

}  // namespace dryout::knowledge
