#include "decision/shop_settings.h"

#include <filesystem>
#include <utility>

#include "decision/shop_places.h"

namespace dryout::decision {
namespace {

using documents::Reader;
using quantities::Problems;
using quantities::Result;

Figure read_figure(const Reader& root, std::string_view key, const documents::Range& range) {
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
      known[name] = factor.as_number(factor_range);
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
  for (const ShopPlace& place : shop_places) {
    if (complete || root.has(place.key)) {
      shop.*place.figure = read_figure(root, place.key, place.range);
    }
  }
  for (const FactorPlace& place : factor_places) {
    if (complete || root.has(place.key)) {
      read_factors(root, place.key, shop.*place.factors);
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
