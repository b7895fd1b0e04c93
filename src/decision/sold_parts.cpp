#include "decision/sold_parts.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <map>
#include <vector>

namespace dryout::decision {
namespace {

using quantities::Farad;
using quantities::Series;
using quantities::Volt;

using Ratings = std::vector<double>;

const Ratings& ratings_of(const std::string& technology) {
  static const Ratings wet{6.3, 10,  16,  25,  35,  50,  63,  80,  100,
                           160, 200, 250, 350, 400, 450, 500, 550, 600};
  static const std::map<std::string, Ratings> others{
      {"surface-mount-aluminium",
       {4, 6.3, 10, 16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 400, 450}},
      {"bipolar-aluminium", {6.3, 10, 16, 25, 35, 50, 63, 100}},
      {"solid-tantalum", {2.5, 4, 6.3, 10, 16, 20, 25, 35, 50}},
      {"polymer", {2.5, 4, 6.3, 10, 16, 20, 25, 35, 50, 63, 80, 100}},
      {"film", {50, 63, 100, 160, 250, 400, 630, 1000, 1250, 1600, 2000}},
      {"ceramic", {16, 25, 50, 63, 100, 200, 250, 500, 630, 1000, 2000, 3000, 6000, 15000}},
      {"mica", {50, 100, 300, 500, 1000, 2500}},
      {"polystyrene", {25, 63, 100, 160, 250, 630}},
      {"supercap", {2.5, 2.7, 5.5}}};
  const auto found = others.find(technology);
  return found == others.end() ? wet : found->second;
}

std::optional<Volt> first_not_below(const Ratings& ratings, Volt needed) {
  for (const double rating : ratings) {
    if (Volt(rating) >= needed * (1.0 - 1e-9)) {
      return Volt(rating);
    }
  }
  return {};
}

double away(Farad value, Farad old) {
  const double log_ratio = std::log(value / old);
  constexpr double less_counts = 2.0;
  return log_ratio < 0.0 ? -less_counts * log_ratio : log_ratio;
}

/// The neighbours of a value in a series, from half of it to twice.
std::vector<Farad> around(Farad old, Series series) {
  std::vector<Farad> values;
  Farad value = quantities::preferred_not_below(old * 0.45, series);
  while (value <= old * 2.3) {
    values.push_back(value);
    value = quantities::preferred_not_below(value * 1.01, series);
  }
  return values;
}

std::optional<Farad> nearest_within(Farad old, Series series, double least, double most) {
  constexpr double rounding = 1.0 + 1e-6;
  std::optional<Farad> best;
  double nearest = std::numeric_limits<double>::infinity();
  for (const Farad value : around(old, series)) {
    if (value * rounding >= old * least && value <= old * (most * rounding) &&
        away(value, old) < nearest) {
      nearest = away(value, old);
      best = value;
    }
  }
  return best;
}

}  // namespace

Series sold_series(const std::string& technology) {
  if (technology == "mica" || technology == "polystyrene") {
    return Series::e24;
  }
  return technology == "film" || technology == "ceramic" ? Series::e12 : Series::e6;
}

std::optional<Volt> sold_rating(const std::string& technology, Volt needed) {
  return first_not_below(ratings_of(technology), needed);
}

std::optional<Volt> sold_mains_rating(const std::string& safety_class, Volt needed) {
  static const Ratings across{275, 300, 305, 310, 330, 400, 440, 480, 530};
  static const Ratings to_earth{250, 300, 400, 440, 500};
  return first_not_below(safety_class.starts_with('Y') ? to_earth : across, needed);
}

std::optional<Volt> sold_pulse_rating(Volt needed, Volt needed_ac) {
  // Vishay MMKP 386, document 28163; 250 and 400 V from memory.
  struct Pair {
    double dc, ac;
  };
  static const std::vector<Pair> pairs{{250, 125},  {400, 200},  {630, 220},  {850, 300},
                                       {1000, 350}, {1250, 425}, {1400, 500}, {1600, 550},
                                       {2000, 700}, {2500, 900}};
  const auto found = std::find_if(pairs.begin(), pairs.end(), [&](const Pair& pair) {
    return Volt(pair.dc) >= needed * (1.0 - 1e-9) && Volt(pair.ac) >= needed_ac * (1.0 - 1e-9);
  });
  return found == pairs.end() ? std::nullopt : std::optional(Volt(found->dc));
}

Volt sold_motor_rating(Volt needed) {
  static const Ratings motor{250, 400, 450, 475, 500};  // IEC 60252-1, from memory
  return first_not_below(motor, needed).value_or(needed);
}

Farad sold_value(const std::string& technology, Farad old, double least, double most) {
  const Series finest = sold_series(technology);
  constexpr double rounding = 1e-6;
  if (quantities::is_preferred(old, finest) && least <= 1.0 + rounding && most >= 1.0 - rounding) {
    return quantities::nearest_preferred(old, finest);
  }
  for (const auto& [low, high] :
       {std::pair(least, most), std::pair(0.9, 1.1), std::pair(0.8, 1.25), std::pair(0.5, 2.0)}) {
    for (const Series series : {Series::e6, Series::e12, Series::e24}) {
      if (static_cast<int>(series) > static_cast<int>(finest)) {
        continue;
      }
      if (const auto value = nearest_within(old, series, low, high)) {
        return *value;
      }
    }
  }
  return quantities::nearest_preferred(old, finest);
}

Farad sold_not_above(Farad most) {
  Farad value = quantities::preferred_not_below(most, Series::e6);
  while (value > most * (1.0 + 1e-9)) {
    value = quantities::nearest_preferred(value * 0.68, Series::e6);
  }
  return value;
}

}  // namespace dryout::decision
