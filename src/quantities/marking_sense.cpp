#include "quantities/marking_sense.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantities/engineering_notation.h"
#include "quantities/marked_value.h"
#include "quantities/preferred_value.h"

namespace dryout::quantities {
namespace {

/// What parts of a kind are commonly made for (judgement).
struct Usual {
  Body body;
  const char* title;
  double least, most;  ///< F
};
constexpr std::array<Usual, 9> usual{{{Body::unknown, "capacitors", 0.5e-12, 0.15},
                                      {Body::ceramic_or_film, "small parts", 0.5e-12, 30e-6},
                                      {Body::tantalum, "tantalum parts", 47e-9, 1e-3},
                                      {Body::electrolytic_can, "electrolytics", 0.1e-6, 0.15},
                                      {Body::ceramic, "ceramics", 0.4e-12, 4.7e-6},
                                      {Body::film, "film parts", 22e-12, 30e-6},
                                      {Body::mica, "micas", 1e-12, 0.1e-6},
                                      {Body::paper, "paper parts", 100e-12, 20e-6},
                                      {Body::double_layer, "double-layer cells", 4.7e-3, 500.0}}};

const Usual& usual_of(Body body) { return usual[static_cast<std::size_t>(body)]; }

bool is_small(Body body) {
  return body == Body::ceramic_or_film || body == Body::ceramic || body == Body::film ||
         body == Body::mica || body == Body::paper;
}

constexpr int codes_came_in = 1968;  ///< before, three plain figures on a small part are pF
constexpr int millifarads_came_in = 1990;

double of_plain_picofarads(const MarkedPart& part) {
  const bool old = part.year_made.value_or(codes_came_in) < codes_came_in;
  switch (part.body) {
    case Body::mica:
      return 0.0;
    case Body::electrolytic_can:
    case Body::tantalum:
    case Body::double_layer:
      return 6.0;
    default:
      return old ? 0.2 : 1.0;
  }
}

/// Volts that hardly anything but a smoothing can is made for.
bool smooths(const MarkingReading& reading) {
  constexpr std::array volts{350.0, 375.0, 385.0, 450.0, 475.0, 525.0};
  return reading.rated && std::find(volts.begin(), volts.end(), reading.rated->si()) != volts.end();
}

double of_three_figures(const MarkingReading& reading, const MarkedPart& part) {
  const bool old = part.year_made.value_or(codes_came_in) < codes_came_in;
  switch (part.body) {
    case Body::electrolytic_can:
    case Body::double_layer:
      return 2.0;
    case Body::tantalum:
      return 0.0;
    case Body::mica:
      return 0.6;
    case Body::paper:
      return 1.0;
    case Body::unknown:
      return old ? 1.0 : smooths(reading) && !reading.tolerance ? 0.5 : 0.0;
    default:
      return old ? 1.0 : 0.0;
  }
}

/// "16/450", "8 450V": volts behind a stroke, or those of smoothing cans, as long as a can or a
/// paper block is made so.
bool is_print_of_can(const MarkingReading& reading) {
  if (!reading.rated) return false;
  const double volts = reading.rated->si();
  const bool stroke = reading.how.find(volts_behind_stroke) != std::string::npos;
  constexpr double can_volts_most = 550.0;
  constexpr double block_volts_most = 1500.0;
  constexpr double joules_most = 40.0;
  const bool can =
      volts <= can_volts_most && 0.5 * reading.capacitance.si() * volts * volts <= joules_most;
  const bool block = volts <= block_volts_most && reading.capacitance <= microfarads(10);
  return (smooths(reading) && can) || (stroke && (can || block));
}

double of_plain_microfarads(const MarkingReading& reading, const MarkedPart& part) {
  constexpr double microfarad = 1e-6;
  const bool fraction = reading.capacitance < farads(microfarad);
  constexpr double low_volts = 100.0;
  switch (part.body) {
    case Body::electrolytic_can:
      return 0.0;
    case Body::tantalum:
      return 0.3;
    case Body::double_layer:
      return 4.0;
    case Body::paper:
      return fraction || is_print_of_can(reading) ? 0.0 : 1.2;
    default:
      break;
  }
  if (fraction) return 0.0;
  const bool low = reading.rated && reading.rated->si() <= low_volts;
  const bool of_can = low || !reading.sections.empty() || is_print_of_can(reading);
  return part.body == Body::unknown && of_can ? 0.0 : 2.0;
}

double of_written_unit(const MarkingReading& reading, const MarkedPart& part) {
  constexpr double backup_least = 4.7e-3;
  constexpr double backup_volts_max = 12.0;
  if (reading.how == "written in mF, taken as thousands of \u00b5F") {
    return part.year_made.value_or(0) >= millifarads_came_in ? 1.2 : 2.5;
  }
  if (!reading.how.starts_with("written in F")) {
    return 0.0;
  }
  constexpr double unrated_most = 10.0;  // F: what holds more says for how many volts
  const bool low = reading.rated ? reading.rated->si() < backup_volts_max
                                 : reading.capacitance <= farads(unrated_most);
  const bool backup = reading.capacitance >= farads(backup_least) && low;
  return backup ? 0.2 : 4.0;
}

/// By the way of reading alone.
double of_convention(const MarkingReading& reading, const MarkedPart& part) {
  const bool can = part.body == Body::electrolytic_can || part.body == Body::double_layer;
  switch (reading.convention) {
    case Convention::written_unit:
      return of_written_unit(reading, part);
    case Convention::three_figures:
      return of_three_figures(reading, part);
    case Convention::four_figures:
      return 2.2;
    case Convention::microfarad_figures:
      // "104" on a double-layer cell is 10 x 10^4 uF, a tenth of a farad.
      return part.body == Body::electrolytic_can ? 1.5
             : part.body == Body::double_layer   ? 0.0
                                                 : 7.0;
    case Convention::letter_for_point:
      return reading.how.ends_with("in \u00b5F") && is_small(part.body) ? 0.5
             : reading.how.ends_with("in pF") && !is_small(part.body) && part.body != Body::unknown
                 ? 4.0
                 : 0.0;
    case Convention::kilo_picofarads:
      return (can || part.body == Body::tantalum ? 4.0 : 0.8) +
             (reading.how.starts_with("K for") ? 0.6 : 0.0);
    case Convention::plain_microfarads:
      return of_plain_microfarads(reading, part);
    case Convention::plain_picofarads:
      return of_plain_picofarads(part);
    case Convention::plain_farads:
      return 0.0;
    case Convention::voltage_and_figures:
      return part.body == Body::tantalum ? -0.2 : 2.0;
    case Convention::two_characters:
      return part.body == Body::ceramic || part.body == Body::ceramic_or_film ? 0.0 : 2.0;
    case Convention::colours:
    case Convention::part_number:
      break;
  }
  return 0.0;
}

/// Values of before the preferred numbers: 8, 16, 25, 40, 50, 500.
bool is_of_old(Farad value) {
  const double decade = std::pow(10.0, std::floor(std::log10(value.si()) + 1e-9));
  const double mantissa = value.si() / decade;
  constexpr std::array old{1.25, 1.4, 1.75, 2.5, 3.2, 3.5, 4.0, 5.0, 6.0, 6.4, 7.0, 8.0, 9.0};
  return std::any_of(old.begin(), old.end(),
                     [mantissa](double each) { return std::abs(mantissa / each - 1.0) < 1e-6; });
}

class Judge {
 public:
  Judge(MarkingReading& reading, const MarkedPart& part) : reading_(reading), part_(part) {}

  void weigh() {
    reading_.misfit += of_convention(reading_, part_);
    by_size();
    by_number();
    by_point();
    by_tolerance();
    by_volts();
    reading_.why = against_.empty() ? in_favour() : against_;
  }

 private:
  void speak_against(double misfit, const std::string& reason) {
    reading_.misfit += misfit;
    against_ += (against_.empty() ? "against it: " : "; ") + reason;
  }

  [[nodiscard]] bool says(const char* words) const {
    return reading_.how.find(words) != std::string::npos;
  }

  void by_size() {
    const Usual& range = usual_of(part_.body);
    const double value = reading_.capacitance.si();
    const double beyond = value < range.least  ? std::log10(range.least / value)
                          : value > range.most ? std::log10(value / range.most)
                                               : 0.0;
    const bool backup = part_.body == Body::unknown && reading_.how.starts_with("written in F");
    if (beyond > 1e-9 && !backup) {
      constexpr double out = 1.5;
      constexpr double a_decade = 2.0;
      speak_against(out + a_decade * beyond, std::string(range.title) + " are made from " +
                                                 format(Farad(range.least)) + " to " +
                                                 format(Farad(range.most)));
    }
  }

  void by_number() {
    const Farad value = reading_.capacitance;
    if (is_preferred(value, Series::e24)) return;
    const bool written = reading_.convention == Convention::written_unit;
    if (is_of_old(value)) {
      reading_.misfit += written ? 0.0 : 0.4;
      return;
    }
    const bool close = reading_.tolerance && reading_.tolerance->plus <= 0.02;
    reading_.misfit += written || close ? 0.3 : 0.0;
    if (!written && !close) {
      speak_against(2.5, "no value that parts are made in");
    }
  }

  /// "10.000": a maker prints so fine a figure of no capacitor; but a can of thousands of uF is no
  /// part for hundreds of volts.
  void by_point() {
    if (says(points_decimal)) {
      speak_against(1.5, "hardly any maker prints three figures behind a decimal point");
    }
    constexpr double joules_most = 400.0;
    const double volts = reading_.rated.value_or(Volt(0)).si();
    if (says(points_thousands) && 0.5 * reading_.capacitance.si() * volts * volts > joules_most) {
      speak_against(2.5, "hardly any can holds so much at " + format(*reading_.rated));
    }
  }

  /// "0.1F": who writes a plain figure seldom promises one per cent.
  void by_tolerance() {
    const bool plain = reading_.convention == Convention::plain_microfarads ||
                       reading_.convention == Convention::plain_picofarads;
    constexpr double one_percent = 0.01;
    const bool polar = part_.body == Body::electrolytic_can || part_.body == Body::tantalum;
    if (plain && reading_.tolerance && !reading_.tolerance->absolute_farads &&
        reading_.tolerance->plus <= one_percent && part_.body != Body::mica) {
      speak_against(polar ? 3.0 : 1.0, polar ? "no can or bead is made within one per cent"
                                             : "a plain figure within one per cent is rare");
    }
  }

  void by_volts() {
    constexpr double low_volts = 100.0;
    if (reading_.rated && part_.body == Body::unknown && reading_.rated->si() <= low_volts &&
        reading_.capacitance < farads(1e-9) &&
        reading_.convention != Convention::plain_microfarads &&
        reading_.convention != Convention::written_unit) {
      speak_against(1.5, "a part of so few pF hardly ever carries so low a rating");
    }
    if (reading_.rated && part_.in_circuit &&
        reading_.rated->si() < part_.in_circuit->si() * (1.0 - 1e-9)) {
      speak_against(2.0, "its " + format(*reading_.rated) + " lie below the " +
                             format(*part_.in_circuit) + " that stand across it");
    }
  }

  [[nodiscard]] std::string in_favour() const {
    const Farad value = reading_.capacitance;
    std::string text = format(value) + " is ";
    text += is_preferred(value, Series::e24) ? "a value of the usual series"
            : is_of_old(value)               ? "a usual value of old"
                                             : "what stands there";
    const bool can = part_.body == Body::electrolytic_can || part_.body == Body::unknown;
    if (can && reading_.alternating && reading_.capacitance >= microfarads(1)) {
      return text +
             "; rated for a.c. it is a motor's or a lamp's part: oil or film for running, a "
             "bipolar electrolytic for starting, and no polarised one takes its place";
    }
    if (part_.body != Body::unknown) {
      text += ", and what " + std::string(usual_of(part_.body).title) + " are made for";
    }
    return text + custom();
  }

  /// What speaks against the way of reading where nothing speaks against the value.
  [[nodiscard]] std::string custom() const {
    const double cost = of_convention(reading_, part_);
    constexpr double noticed = 0.5;
    if (cost < noticed) return "";
    const bool any_body = part_.body == Body::unknown && !reading_.rated;
    if (any_body && reading_.convention == Convention::plain_picofarads) {
      return ", as on discs and micas; a can carries its volts beside the figure";
    }
    if (any_body && reading_.convention == Convention::plain_microfarads) {
      return "; but a can that carries whole microfarads carries its volts beside them";
    }
    switch (reading_.convention) {
      case Convention::three_figures:
        return "; but such parts mostly carry plain figures";
      case Convention::plain_picofarads:
        return "; but such parts mostly carry a code";
      case Convention::plain_microfarads:
        return "; but whole microfarads by themselves mostly stand on cans";
      case Convention::written_unit:
        return reading_.how.starts_with("written in F")
                   ? "; but only back-up cells of a few volts hold farads"
                   : "; but until about 1990 mF was the microfarad";
      default:
        return "; but this way of marking is rare on such parts";
    }
  }

  MarkingReading& reading_;
  const MarkedPart& part_;
  std::string against_;
};

bool same(const MarkingReading& a, const MarkingReading& b) {
  return std::abs(a.capacitance / b.capacitance - 1.0) < 1e-9 && a.rated == b.rated &&
         a.sections.size() == b.sections.size();
}

}  // namespace

void rank_readings(std::vector<MarkingReading>& readings, const MarkedPart& part) {
  for (MarkingReading& reading : readings) {
    Judge(reading, part).weigh();
  }
  std::stable_sort(readings.begin(), readings.end(),
                   [](const auto& a, const auto& b) { return a.misfit < b.misfit; });
  constexpr double hopeless = 3.0;
  std::vector<MarkingReading> kept;
  for (MarkingReading& reading : readings) {
    const bool twice = std::any_of(kept.begin(), kept.end(),
                                   [&reading](const auto& other) { return same(other, reading); });
    if (!twice && reading.misfit <= readings.front().misfit + hopeless) {
      kept.push_back(std::move(reading));
    }
  }
  readings = std::move(kept);
}

}  // namespace dryout::quantities
