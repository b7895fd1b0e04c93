#include "decision/shop_settings.h"

#include "documents/reader.h"

namespace dryout::decision {
namespace {

using documents::Reader;

Figure read_figure(const Reader& root, std::string_view key, const documents::Range& range) {
  const Reader figure = root.object(key);
  figure.accept_only({"value", "because", "source"});
  return {figure.number("value", range), figure.text("because"), figure.text("source")};
}

std::map<std::string, double> read_factors(const Reader& root, std::string_view key) {
  std::map<std::string, double> factors;
  root.object(key).for_each_member([&](const std::string& name, const Reader& factor) {
    factors[name] = factor.as_number(documents::positive);
  });
  return factors;
}

}  // namespace

quantities::Result<ShopSettings> read_shop_settings(const documents::Document& document) {
  quantities::Problems problems;
  const Reader root(document, problems);
  root.accept_only({"schema", "currency", "labour_per_hour", "minutes_per_part", "part_price",
                    "pad_damage_per_part", "pad_damage_cost", "own_error_per_part",
                    "come_back_cost", "seep_damage_cost", "set_value", "wear_shape",
                    "wear_scale_years", "warmth_life", "level_life"});
  (void)root.whole_number("schema", {.min = 1, .max = 1});
  const auto& chance = documents::any_probability;
  const auto& amount = documents::non_negative;
  ShopSettings shop;
  shop.currency = root.text("currency");
  shop.labour_per_hour = read_figure(root, "labour_per_hour", amount);
  shop.minutes_per_part = read_figure(root, "minutes_per_part", amount);
  shop.part_price = read_figure(root, "part_price", amount);
  shop.pad_damage_per_part = read_figure(root, "pad_damage_per_part", chance);
  shop.pad_damage_cost = read_figure(root, "pad_damage_cost", amount);
  shop.own_error_per_part = read_figure(root, "own_error_per_part", chance);
  shop.come_back_cost = read_figure(root, "come_back_cost", amount);
  shop.seep_damage_cost = read_figure(root, "seep_damage_cost", amount);
  shop.set_value = read_figure(root, "set_value", amount);
  shop.wear_shape = read_figure(root, "wear_shape", documents::positive);
  shop.wear_scale_years = read_figure(root, "wear_scale_years", documents::positive);
  shop.warmth_life = read_factors(root, "warmth_life");
  shop.level_life = read_factors(root, "level_life");
  if (!problems.empty()) {
    return problems;
  }
  return shop;
}

quantities::Result<ShopSettings> load_shop_settings(const std::string& directory) {
  const auto document = documents::read_file(directory + "/rules/decision/shop.json");
  if (!document) {
    return document.problems();
  }
  return read_shop_settings(*document);
}

}  // namespace dryout::decision
