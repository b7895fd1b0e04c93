#include "readings/impossible_limits.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace dryout::readings {
namespace {

using quantities::Farad;
using quantities::Problems;
using quantities::Volt;

struct Made {
  std::string_view technology;
  Farad least, most;
  Volt volts_most;
};

/// From the smallest to the largest that is made, generously. Common practice, no source.
constexpr std::array<Made, 14> made_as{{
    {"wet-aluminium", Farad(10e-9), Farad(1.0), Volt(1000.0)},
    {"bipolar-aluminium", Farad(10e-9), Farad(0.1), Volt(1000.0)},
    {"surface-mount-aluminium", Farad(10e-9), Farad(0.1), Volt(1000.0)},
    {"solid-tantalum", Farad(1e-9), Farad(0.01), Volt(150.0)},
    {"polymer", Farad(100e-9), Farad(0.1), Volt(500.0)},
    {"film", Farad(1e-12), Farad(1e-3), Volt(100e3)},
    {"mains-film", Farad(10e-12), Farad(1e-3), Volt(10e3)},
    {"paper", Farad(10e-12), Farad(1e-3), Volt(100e3)},
    {"oil-paper", Farad(10e-12), Farad(1e-3), Volt(100e3)},
    {"mica", Farad(0.1e-12), Farad(10e-6), Volt(100e3)},
    {"ceramic", Farad(0.1e-12), Farad(1e-3), Volt(100e3)},
    {"polystyrene", Farad(1e-12), Farad(100e-6), Volt(10e3)},
    {"supercap", Farad(1e-3), Farad(10e3), Volt(1000.0)},
    {"trimmer", Farad(0.1e-12), Farad(10e-9), Volt(100e3)},
}};

constexpr double too_far = 100.0;
constexpr double plateau_from = 8e3;  // hertz: above, |Z| is mostly resistance
constexpr double slope = 0.75;        // of ln |Z| against ln C, as rows of one sheet fall
constexpr std::size_t neighbours_least = 5;
constexpr std::size_t neighbours_most = 7;

void complain(const LimitRow& row, const char* member, std::string message, std::string found,
              std::string accepted, Problems& problems) {
  quantities::Place place = row.place;
  place.pointer += std::string("/") + member;
  problems.push_back({std::move(message), std::move(place), std::move(found), std::move(accepted)});
}

void check_size(const LimitRow& row, Problems& problems) {
  const auto* made = std::find_if(made_as.begin(), made_as.end(), [&](const Made& each) {
    return each.technology == row.technology;
  });
  if (made == made_as.end()) {
    return;
  }
  const std::string kind(made->technology);
  if (row.capacitance && (*row.capacitance < made->least || *row.capacitance > made->most)) {
    complain(row, "capacitance_F", "no part of " + kind + " is made in this capacitance",
             quantities::format(*row.capacitance),
             quantities::format(made->least) + " to " + quantities::format(made->most), problems);
  }
  if (row.rated > made->volts_most) {
    complain(row, "rated_V", "no part of " + kind + " is made for these volts",
             quantities::format(row.rated), "up to " + quantities::format(made->volts_most),
             problems);
  }
}

std::string_view kind_of(const LimitRow& row) {
  constexpr std::string_view aluminium = "aluminium";
  return std::string_view(row.technology).ends_with(aluminium) ? aluminium
                                                               : std::string_view(row.technology);
}

std::optional<double> series_resistance(const LimitRow& row) {
  if (!row.capacitance || row.frequency.si() < plateau_from ||
      (!row.esr_max && !row.impedance_max)) {
    return std::nullopt;
  }
  return row.esr_max ? row.esr_max->si() : row.impedance_max->si();
}

/// What the neighbours of a row let expect of its |Z| or ESR, in ohm.
std::optional<double> expected_resistance(const LimitsLibrary& library, const LimitRow& row) {
  std::vector<std::pair<double, double>> near;  // how far, what it lets expect
  for (const LimitRow& other : library.rows) {
    const auto ohms = series_resistance(other);
    if (&other == &row || !ohms || kind_of(other) != kind_of(row)) {
      continue;
    }
    const double larger = std::log(*other.capacitance / *row.capacitance);
    near.emplace_back(std::hypot(larger, std::log(other.rated / row.rated)),
                      *ohms * std::exp(slope * larger));
  }
  if (near.size() < neighbours_least) {
    return std::nullopt;
  }
  std::sort(near.begin(), near.end());
  near.resize(std::min(near.size(), neighbours_most));
  std::sort(near.begin(), near.end(),
            [](const auto& a, const auto& b) { return a.second < b.second; });
  return near[near.size() / 2].second;
}

/// The middle tan delta of all other rows of the kind.
std::optional<double> expected_tan_delta(const LimitsLibrary& library, const LimitRow& row) {
  std::vector<double> others;
  for (const LimitRow& other : library.rows) {
    if (&other != &row && other.tan_delta_max && kind_of(other) == kind_of(row)) {
      others.push_back(*other.tan_delta_max);
    }
  }
  if (others.size() < neighbours_least) {
    return std::nullopt;
  }
  std::sort(others.begin(), others.end());
  return others[others.size() / 2];
}

bool far_apart(double a, double b) { return a > b * too_far || a * too_far < b; }

std::string between(double middle, quantities::Unit unit) {
  return quantities::format_engineering(middle / too_far, unit) + " to " +
         quantities::format_engineering(middle * too_far, unit);
}

void check_resistance(const LimitsLibrary& library, const LimitRow& row, Problems& problems) {
  if (!series_resistance(row)) {
    return;
  }
  const auto expected = expected_resistance(library, row);
  const auto check = [&](const std::optional<quantities::Ohm>& stated, const char* member,
                         const char* name) {
    if (expected && stated && far_apart(stated->si(), *expected)) {
      complain(row, member,
               std::string("this ") + name +
                   " lies further than a factor of 100 from that of "
                   "such parts of near value, a slip of the power of ten?",
               quantities::format(*stated), between(*expected, quantities::Unit::ohm), problems);
    }
  };
  check(row.impedance_max, "impedance_ohm", "|Z|");
  check(row.esr_max, "esr_ohm", "ESR");
}

void check_tan_delta(const LimitsLibrary& library, const LimitRow& row, Problems& problems) {
  if (!row.tan_delta_max) {
    return;
  }
  const auto expected = expected_tan_delta(library, row);
  if (expected && far_apart(*row.tan_delta_max, *expected)) {
    complain(row, "tan_delta",
             "this tan delta lies further than a factor of 100 from that of such parts",
             quantities::format_engineering(*row.tan_delta_max, quantities::Unit::none),
             between(*expected, quantities::Unit::none), problems);
  }
}

}  // namespace

Problems impossible_limits(const LimitsLibrary& library) {
  Problems problems;
  for (const LimitRow& row : library.rows) {
    check_size(row, problems);
    check_resistance(library, row, problems);
    check_tan_delta(library, row, problems);
  }
  return problems;
}

}  // namespace dryout::readings
