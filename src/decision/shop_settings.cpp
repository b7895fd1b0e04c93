#include "decision/shop_settings.h"

#include <array>
#include <filesystem>
#include <utility>

#include "documents/reader.h"

namespace dryout::decision {
namespace {

using documents::Range;
using documents::Reader;
using quantities::Problems;
using quantities::Result;

struct Place {
  std::string_view key;
  Figure ShopSettings::*figure;
  Range range;
};

constexpr Range amount = documents::non_negative;
constexpr Range chance = documents::any_probability;
constexpr Range open_share{.min = 0.001, .max = 0.999};
constexpr Range open_chance{.min = 0.001, .max = 0.5};
constexpr std::array<Place, 16> places{{
    {"labour_per_hour", &ShopSettings::labour_per_hour, amount},
    {"minutes_per_part", &ShopSettings::minutes_per_part, amount},
    {"part_price", &ShopSettings::part_price, amount},
    {"pad_damage_per_part", &ShopSettings::pad_damage_per_part, chance},
    {"pad_damage_cost", &ShopSettings::pad_damage_cost, amount},
    {"own_error_per_part", &ShopSettings::own_error_per_part, chance},
    {"come_back_cost", &ShopSettings::come_back_cost, amount},
    {"seep_damage_cost", &ShopSettings::seep_damage_cost, amount},
    {"set_value", &ShopSettings::set_value, amount},
    {"latent_shows", &ShopSettings::latent_shows, chance},
    {"wear_shape", &ShopSettings::wear_shape, documents::positive},
    {"wear_scale_years", &ShopSettings::wear_scale_years, documents::positive},
    {"sampling_sound_share", &ShopSettings::sampling_sound_share, open_share},
    {"sampling_gone_share", &ShopSettings::sampling_gone_share, open_share},
    {"sampling_false_recap", &ShopSettings::sampling_false_recap, open_chance},
    {"sampling_false_clear", &ShopSettings::sampling_false_clear, open_chance},
}};

Figure read_figure(const Reader& root, std::string_view key, const Range& range) {
  const Reader figure = root.object(key);
  figure.accept_only({"value", "because", "source"});
  return {figure.number("value", range), figure.text("because"), figure.text("source")};
}

void read_factors(const Reader& root, std::string_view key, std::map<std::string, double>& known) {
  const Reader factors = root.object(key);
  (void)factors.text("because");
  (void)factors.text("source");
  factors.for_each_member([&](const std::string& name, const Reader& factor) {
    if (name != "because" && name != "source") {
      known[name] = factor.as_number(documents::positive);
    }
  });
}

/// Reads what is there; with `complete`, everything must be.
Result<ShopSettings> read(const documents::Document& document, ShopSettings shop, bool complete) {
  Problems problems;
  const Reader root(document, problems);
  root.accept_only({"schema",
                    "name",
                    "currency",
                    "labour_per_hour",
                    "minutes_per_part",
                    "part_price",
                    "pad_damage_per_part",
                    "pad_damage_cost",
                    "own_error_per_part",
                    "come_back_cost",
                    "seep_damage_cost",
                    "set_value",
                    "latent_shows",
                    "wear_shape",
                    "wear_scale_years",
                    "sampling_sound_share",
                    "sampling_gone_share",
                    "sampling_false_recap",
                    "sampling_false_clear",
                    "warmth_life",
                    "level_life"});
  (void)root.whole_number("schema", {.min = 1, .max = 1});
  if (complete || root.has("currency")) {
    shop.currency = root.text("currency");
  }
  if (auto name = root.optional_text("name")) {
    shop.name = std::move(*name);
  }
  for (const Place& place : places) {
    if (complete || root.has(place.key)) {
      shop.*place.figure = read_figure(root, place.key, place.range);
    }
  }
  for (auto [key, factors] : {std::pair("warmth_life", &ShopSettings::warmth_life),
                              std::pair("level_life", &ShopSettings::level_life)}) {
    if (complete || root.has(key)) {
      read_factors(root, key, shop.*factors);
    }
  }
  if (problems.empty() && shop.sampling_gone_share.value <= shop.sampling_sound_share.value) {
    root.complain("the share of a batch that has gone must be above that of a sound one",
                  "sampling_gone_share above sampling_sound_share");
  }
  if (!problems.empty()) {
    return problems;
  }
  return shop;
}

}  // namespace

Result<ShopSettings> read_shop_settings(const documents::Document& document) {
  return read(document, {}, true);
}

Result<ShopSettings> read_shop_settings(const documents::Document& document,
                                        const ShopSettings& below) {
  return read(document, below, false);
}

Result<ShopSettings> load_shop_settings(const std::vector<std::string>& directories) {
  ShopSettings shop;
  bool first = true;
  for (const std::string& directory : directories) {
    const std::string file = directory + "/rules/decision/shop.json";
    if (!first && !std::filesystem::exists(file)) {
      continue;
    }
    const auto document = documents::read_file(file);
    if (!document) {
      return document.problems();
    }
    const auto read_here = read(*document, std::move(shop), first);
    if (!read_here) {
      return read_here.problems();
    }
    shop = *read_here;
    first = false;
  }
  return shop;
}

}  // namespace dryout::decision
