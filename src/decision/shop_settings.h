// The shop's own figures for labour, parts and risk: one settings file, rules/decision/shop.json,
// over which a shop lays its own, figure by figure. Money is in the shop's currency; no figure here
// is a fact of nature, and each carries its source.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "decision/sampling.h"
#include "documents/parse.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::decision {

struct Figure {
  double value = 0.0;
  std::string because;
  std::string source;
};

struct ShopSettings {
  std::string name;  ///< the workshop's, to stand on what it hands out; "" = none was given
  std::string currency;
  Figure labour_per_hour;
  Figure minutes_per_part;      ///< out and in again, cleaned, polarity checked
  Figure part_price;            ///< a small electrolytic, bought in tens
  Figure pad_damage_per_part;   ///< chance of lifting a pad or barrel, board of middling age
  Figure pad_damage_cost;       ///< mending a lifted track
  Figure own_error_per_part;    ///< chance of a mistake of ours with one part
  Figure come_back_cost;        ///< triage, bench, goodwill, carriage
  Figure seep_damage_cost;      ///< tracks and neighbours eaten by a part left seeping
  Figure set_value;             ///< what a working set is worth to its owner
  Figure latent_shows;          ///< chance a year that a fault missed on the bench is noticed
  Figure wear_shape;            ///< Weibull shape of drying out
  Figure wear_scale_years;      ///< its scale for a worn part kept warm
  Figure sampling_sound_share;  ///< share out of limit in a batch that may stay
  Figure sampling_gone_share;   ///< share out of limit in a batch to be replaced
  Figure sampling_false_recap;  ///< accepted chance of recapping a sound batch
  Figure sampling_false_clear;  ///< accepted chance of clearing a batch that has gone
  std::map<std::string, double> warmth_life;  ///< cool, warm, hot: factor on that scale
  std::map<std::string, double> level_life;   ///< by ageing level: factor on that scale

  [[nodiscard]] SamplingPlan sampling() const {
    return {sampling_sound_share.value, sampling_gone_share.value, sampling_false_recap.value,
            sampling_false_clear.value};
  }
};

/// One figure as a shop sees and sets it. A name "warmth_life.hot" is a member of a map.
struct ShopFigure {
  std::string key;    ///< as it stands in the file: "labour_per_hour"
  std::string title;  ///< "An hour at the bench"
  std::string unit;   ///< "EUR", "min", "%" is none: chances go from 0 to 1
  double least = 0.0, most = 0.0;
  double value = 0.0;
  std::string because, source;
};

/// Every figure, in the order of the file, with the range that is accepted.
[[nodiscard]] std::vector<ShopFigure> figures_of(const ShopSettings& shop);

/// The text of a shop's own file with one figure set, or (nothing) back to what is shipped; the
/// other members stay as they are. `own` is the file as it is now, "" where there is none; `file`
/// is how complaints name it. A file without a figure left says only its schema. Refused: a figure
/// that there is not, a value out of its range, a file that is broken, shares that cross.
[[nodiscard]] quantities::Result<std::string> own_figures_with(const std::string& own,
                                                               const std::string& file,
                                                               const ShopSettings& shipped,
                                                               const std::string& key,
                                                               std::optional<double> value);

/// A file that says everything.
[[nodiscard]] quantities::Result<ShopSettings> read_shop_settings(
    const documents::Document& document);
/// A file that says only what is different from `below`.
[[nodiscard]] quantities::Result<ShopSettings> read_shop_settings(
    const documents::Document& document, const ShopSettings& below);
/// The files of knowledge trees, later ones laid over earlier ones. The first tree must have one.
[[nodiscard]] quantities::Result<ShopSettings> load_shop_settings(
    const std::vector<std::string>& directories);

}  // namespace dryout::decision
