// Where each figure of the shop stands in the file and in ShopSettings, what it is called, and the
// range that is accepted. For this room alone.
#pragma once

#include <array>
#include <string_view>

#include "decision/shop_settings.h"
#include "documents/reader.h"

namespace dryout::decision {

struct ShopPlace {
  std::string_view key;
  Figure ShopSettings::*figure;
  documents::Range range;
  std::string_view title;
  std::string_view unit;  ///< "money": the shop's currency
};

struct FactorPlace {
  std::string_view key;
  std::map<std::string, double> ShopSettings::*factors;
  std::string_view title;  ///< the name of the factor follows
};

inline constexpr documents::Range money_range{.min = 0.0, .max = 100'000.0};
inline constexpr documents::Range factor_range{.min = 0.01, .max = 100.0};
inline constexpr documents::Range open_share_range{.min = 0.001, .max = 0.999};
inline constexpr documents::Range open_chance_range{.min = 0.001, .max = 0.5};

inline constexpr std::array<ShopPlace, 16> shop_places{{
    {"labour_per_hour", &ShopSettings::labour_per_hour, money_range, "An hour at the bench",
     "money"},
    {"minutes_per_part",
     &ShopSettings::minutes_per_part,
     {.min = 0.0, .max = 240.0},
     "Minutes to replace one part",
     "min"},
    {"part_price", &ShopSettings::part_price, money_range, "Price of one part", "money"},
    {"pad_damage_per_part", &ShopSettings::pad_damage_per_part, documents::any_probability,
     "Chance of a lifted pad, a part", ""},
    {"pad_damage_cost", &ShopSettings::pad_damage_cost, money_range, "Mending a lifted pad",
     "money"},
    {"own_error_per_part", &ShopSettings::own_error_per_part, documents::any_probability,
     "Chance of an error of ours, a part", ""},
    {"come_back_cost", &ShopSettings::come_back_cost, money_range, "A set that comes back",
     "money"},
    {"seep_damage_cost", &ShopSettings::seep_damage_cost, money_range,
     "What a seeping part left in eats", "money"},
    {"set_value", &ShopSettings::set_value, money_range, "A working set to its owner", "money"},
    {"latent_shows", &ShopSettings::latent_shows, documents::any_probability,
     "Chance a year that an unnoticed fault shows", ""},
    {"wear_shape", &ShopSettings::wear_shape, {.min = 0.1, .max = 20.0}, "Shape of wear", ""},
    {"wear_scale_years",
     &ShopSettings::wear_scale_years,
     {.min = 1.0, .max = 10'000.0},
     "Scale of wear",
     "years"},
    {"sampling_sound_share", &ShopSettings::sampling_sound_share, open_share_range,
     "Share out of limit in a batch that may stay", ""},
    {"sampling_gone_share", &ShopSettings::sampling_gone_share, open_share_range,
     "Share out of limit in a batch that has gone", ""},
    {"sampling_false_recap", &ShopSettings::sampling_false_recap, open_chance_range,
     "Chance to condemn a sound batch", ""},
    {"sampling_false_clear", &ShopSettings::sampling_false_clear, open_chance_range,
     "Chance to clear a batch that has gone", ""},
}};

inline constexpr std::array<FactorPlace, 2> factor_places{{
    {"warmth_life", &ShopSettings::warmth_life, "Life of a part kept "},
    {"level_life", &ShopSettings::level_life, "Life of a part that is "},
}};

}  // namespace dryout::decision
