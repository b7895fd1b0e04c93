#include "readings/setting.h"

#include <algorithm>
#include <cmath>

#include "quantities/check.h"
#include "readings/normal_law.h"

namespace dryout::readings {

using Complex = std::complex<double>;
using circuit::MeterShows;

namespace {

constexpr int grid_points = 9;            // of a log-normal value, from -2 to +2 spreads
constexpr double least_shown = 1e-6;      // so that a logarithm can be taken
constexpr double endless_siemens = 1e-9;  // below this a path is no path to any meter

/// What the meter shows of an admittance g + j b: 1 / |Y|, or Re(1 / Y).
double shown(double g, double b, MeterShows shows) {
  const double square = g * g + b * b;
  return std::max(shows == MeterShows::impedance ? 1.0 / std::sqrt(square) : g / square,
                  least_shown);
}

/// The usual answers. Medians and spreads are judged: a bypass ceramic is most often 100 nF; a
/// winding some 200 uH; an idle regulator some hundred ohms of divider and junctions; a low
/// resistor some ten ohms.
struct Usual {
  double median;
  double log_spread;
};
constexpr Usual ceramic_F{100e-9, 1.1};
constexpr Usual winding_H{200e-6, 1.5};
constexpr Usual regulator_ohm{300.0, 1.0};
constexpr Usual low_resistor_ohm{10.0, 1.0};
constexpr double brother_log_spread = 0.5;
// A class 2 ceramic is no pure reactance: makers allow 2.5 % (KEMET C0805C474K5R, second-hand), so
// that 100 nF across an open part still reads some 0.4 ohm in phase at 100 kHz.
constexpr double ceramic_loss = 0.025;
// A winding can meet the part in parallel resonance and raise a reading above the part's own: a
// share of windings (judged) is taken to lie just there. Their loss is that of small chokes.
constexpr double share_resonant = 0.02;
constexpr double winding_loss = 0.03;
constexpr double least_winding_ohm = 0.5;  // of a microhenry at 100 kHz: nobody winds less
constexpr double resonant_log_spread = 0.35;

// Of doubts, both judged: one answer in twenty is wrong and there is nothing across; and a brother
// across a part is in one case of four about as worn as the part, for it had the same life.
constexpr double share_mistaken = 0.05;
constexpr double share_alike = 0.25;

// How often each is the truth when nobody looked.
constexpr double share_nothing = 0.45;
constexpr double share_ceramic = 0.25;
constexpr double share_electrolytic = 0.20;
constexpr double share_low_resistor = 0.10;
constexpr double share_winding = 0.05;

}  // namespace

Setting Setting::lifted(MeterShows shows, quantities::Ohm reactance) {
  Setting setting;
  setting.shows_ = shows;
  setting.reactance_ = reactance.si();
  setting.paths_ = {{Complex(), 1.0}};
  setting.told_ = 1;
  return setting;
}

template <class MakePath>
void Setting::add_group(double share, double median, double log_spread, const MakePath& path_of) {
  double total = 0.0;
  const std::size_t first = paths_.size();
  for (int i = 0; i < grid_points; ++i) {
    const double z = -2.0 + 4.0 * i / (grid_points - 1);
    const double weight = normal_density(z, 0.0, 1.0);
    paths_.push_back(path_of(median * std::exp(log_spread * z)));
    paths_.back().weight = weight;
    total += weight;
  }
  for (std::size_t p = first; p < paths_.size(); ++p) {
    paths_[p].weight *= share / total;
  }
}

Setting Setting::with(Across across, MeterShows shows, quantities::Ohm reactance,
                      quantities::Hertz frequency, quantities::Ohm typical_resistance) {
  Setting setting;
  setting.shows_ = shows;
  setting.reactance_ = reactance.si();
  const double w = angular(frequency).radians_per_second();
  const auto add = [&](Across what, double share) {
    switch (what) {
      case Across::ceramic:
        setting.add_group(share, ceramic_F.median, ceramic_F.log_spread, [w](double farad) {
          return Path{Complex(0.0, w * farad) / Complex(1.0, ceramic_loss)};
        });
        break;
      case Across::winding:
        setting.add_group(
            share * (1.0 - share_resonant), winding_H.median, winding_H.log_spread,
            [w](double henry) { return Path{1.0 / (Complex(winding_loss, 1.0) * (w * henry))}; });
        if (reactance.si() >= least_winding_ohm) {
          setting.add_group(share * share_resonant, reactance.si(), resonant_log_spread,
                            [](double x) { return Path{1.0 / (Complex(winding_loss, 1.0) * x)}; });
        }
        break;
      case Across::electrolytic:
        setting.add_group(
            share, typical_resistance.si(), brother_log_spread,
            [x = reactance.si()](double ohm) { return Path{1.0 / Complex(ohm, -x)}; });
        break;
      case Across::regulator:
        setting.add_group(share, regulator_ohm.median, regulator_ohm.log_spread,
                          [](double ohm) { return Path{Complex(1.0 / ohm)}; });
        break;
      case Across::low_resistor:
        setting.add_group(share, low_resistor_ohm.median, low_resistor_ohm.log_spread,
                          [](double ohm) { return Path{Complex(1.0 / ohm)}; });
        break;
      case Across::nothing:
      case Across::unknown:
        setting.paths_.push_back({Complex(), share});
        break;
    }
  };
  if (across == Across::unknown) {
    // Only small parts can meet a winding in resonance; across others it hides nothing.
    const bool may_resonate = reactance.si() >= least_winding_ohm;
    add(Across::nothing, share_nothing - (may_resonate ? share_winding : 0.0));
    add(Across::ceramic, share_ceramic);
    add(Across::electrolytic, share_electrolytic);
    add(Across::low_resistor, share_low_resistor);
    if (may_resonate) {
      add(Across::winding, share_winding);
    }
  } else {
    add(across, 1.0);
  }
  setting.told_ = setting.paths_.size();
  setting.add_doubts(across);
  return setting;
}

void Setting::add_doubts(Across across) {
  const double mistaken =
      across == Across::unknown || across == Across::nothing ? 0.0 : share_mistaken;
  const double brother = across == Across::electrolytic ? 1.0 - mistaken
                         : across == Across::unknown    ? share_electrolytic
                                                        : 0.0;
  const double alike = brother * share_alike;
  for (Path& path : paths_) {
    path.weight *= 1.0 - mistaken - alike;
  }
  if (alike > 0.0) {
    add_group(alike, 1.0, brother_log_spread, [](double ratio) { return Path{{}, 1.0, ratio}; });
  }
  if (mistaken > 0.0) {
    paths_.push_back({Complex(), mistaken});
  }
}

Setting Setting::from_netlist(std::vector<Exact> exact, MeterShows shows) {
  CHECK(!exact.empty());
  Setting setting;
  setting.shows_ = shows;
  setting.exact_ = std::move(exact);
  return setting;
}

double Setting::weight(std::size_t circuit) const {
  return exact_.empty() ? paths_[circuit].weight : 1.0;
}

const circuit::ResistanceSweep& Setting::nearest(double kept) const {
  const auto at =
      std::min_element(exact_.begin(), exact_.end(), [&](const Exact& a, const Exact& b) {
        return std::abs(a.kept - kept) < std::abs(b.kept - kept);
      });
  return at->sweep;
}

double Setting::reading(std::size_t circuit, double resistance, double kept) const {
  if (!exact_.empty()) {
    return std::max(nearest(kept).reading(resistance, shows_), least_shown);
  }
  const double reactance = kept > 0.0 ? reactance_ / kept : 0.0;
  // Bare numbers, for this is the innermost loop of every reading: Y = 1 / (r - j x) + y.
  const double r = std::max(resistance, least_shown);
  const double square = r * r + reactance * reactance;
  const Path& path = paths_[circuit];
  Complex across = path.admittance;
  if (path.alike > 0.0) {
    const double other = path.alike * r;
    const double other_square = other * other + reactance * reactance;
    across = {other / other_square, reactance / other_square};
  }
  return shown(r / square + across.real(), reactance / square + across.imag(), shows_);
}

std::optional<double> Setting::reading_if_open(std::size_t circuit) const {
  if (!exact_.empty()) {
    return nearest(1.0).reading_if_open(shows_);
  }
  const Complex y = paths_[circuit].admittance;
  return std::abs(y) < endless_siemens ? std::nullopt
                                       : std::optional(shown(y.real(), y.imag(), shows_));
}

double Setting::highest_up_to(double resistance) const {
  constexpr int steps = 40;
  double highest = 0.0;
  for (std::size_t c = 0; c < circuits_told(); ++c) {
    for (int i = 0; i <= steps; ++i) {
      highest = std::max(highest, reading(c, resistance * i / steps, 1.0));
    }
  }
  return highest;
}

double Setting::share_masking(double reading) const {
  double share = 0.0;
  double total = 0.0;
  for (std::size_t c = 0; c < circuits_told(); ++c) {
    const auto open = reading_if_open(c);
    total += weight(c);
    if (open && *open < reading) {
      share += weight(c);
    }
  }
  return share / total;
}

}  // namespace dryout::readings
