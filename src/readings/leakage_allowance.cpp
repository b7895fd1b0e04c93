#include "readings/leakage_allowance.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dryout::readings {
namespace {

using quantities::Volt;

constexpr double pre_war_rules_years = 55.0;
// JAN-C-62 (second-hand): about 1.1 mA for 20 uF at 450 V, 0.12 of C times V.
constexpr double old_per_CV = 0.12;
// What a grid or a control notices (common practice, no source): less is not held against a part.
constexpr double least_leak_A = 0.1e-6;
constexpr double telling_share = 0.5;    // of the rated volts: below, a pass says little
constexpr double volts_unmarked = 25.0;  // where neither mark nor test is known; cancels in ohms

/// Insulation that makers promise at least: ohms, or ohms times farads where that is less. Film:
/// a polyester sheet asks 10 gigohm below 0.33 uF; products by WIMA's table of dielectrics; paper
/// and mica from memory.
struct DryInsulation {
  std::string_view technology;
  double least_ohm, ohm_farad;
};
constexpr std::array dry_insulations{
    DryInsulation{"film", 10e9, 3000.0},  DryInsulation{"mains-film", 10e9, 3000.0},
    DryInsulation{"paper", 1e9, 500.0},   DryInsulation{"oil-paper", 1e9, 500.0},
    DryInsulation{"mica", 3e9, 1000.0},   DryInsulation{"polystyrene", 30e9, 30e3},
    DryInsulation{"ceramic", 1e9, 500.0}, DryInsulation{"trimmer", 1e9, 1e3}};

struct Floor {
  double ohm;
  std::string document;
  const LimitRow* row = nullptr;
};

/// The least insulation of a dry part, by rows near its volts, else by its dielectric. Sheets of
/// one technology differ by a decade (polyester, polypropylene) and the body does not say which it
/// is: the one that asks least.
std::optional<Floor> floor_of(const ReadingInput& input, const LimitsLibrary& library) {
  constexpr double near = 0.9;  // ln of volts, and of the value where the row has one
  const quantities::Farad c = input.capacitance.value_or(quantities::Farad(1e-8));
  std::optional<Floor> least;
  for (const LimitRow& row : library.rows) {
    double apart = input.rated ? std::abs(std::log(row.rated / *input.rated)) : 0.0;
    apart += row.capacitance ? std::abs(std::log(*row.capacitance / c)) : 0.0;
    if (row.technology != input.technology || !row.insulation || apart > near) {
      continue;
    }
    const auto ohm = insulation_floor(row, c);
    if (ohm && ohm->si() > 0.0 && (!least || ohm->si() < least->ohm)) {
      least = Floor{ohm->si(), told(row), &row};
    }
  }
  for (const DryInsulation& dry : dry_insulations) {
    const double ohm = std::min(dry.least_ohm, dry.ohm_farad / c.si());
    if (dry.technology == input.technology && (!least || ohm < least->ohm)) {
      least = Floor{ohm, "what makers promise of this dielectric", nullptr};
    }
  }
  return least;
}

Limit typed_limit(const ReadingInput& input, Volt volts) {
  Limit limit;
  limit.kind = Kind::leakage_current;
  limit.source = input.limit_source;
  limit.document = input.limit_document;
  limit.value = input.kind == Kind::insulation ? volts.si() / *input.limit : *input.limit;
  return limit;
}

void allow_dry(const ReadingInput& input, const LimitsLibrary& library, LeakageAllowance& allowed) {
  const char* const noticed =
      input.technology == "mains-film"
          ? "what is let pass in a part across or near the mains (common practice)"
          : "what a grid or a control notices (common practice)";
  const bool at_known_volts =
      input.test_volts || (input.rated && input.kind == Kind::leakage_current);
  const auto floor = floor_of(input, library);
  const double current = floor ? allowed.volts.si() / floor->ohm : least_leak_A;
  if (input.kind == Kind::insulation && !at_known_volts) {
    allowed.limit.value = current;
    allowed.limit.document = floor ? floor->document : noticed;
    allowed.row = floor ? floor->row : nullptr;
    return;
  }
  allowed.limit.value = at_known_volts ? std::max(current, least_leak_A) : least_leak_A;
  const bool by_floor = floor && at_known_volts && current > least_leak_A;
  allowed.limit.document = by_floor ? floor->document : noticed;
  allowed.row = by_floor ? floor->row : nullptr;
  allowed.sound_times =
      at_known_volts ? std::min(1.0, current / allowed.limit.value) : allowed.sound_times;
}

}  // namespace

bool telling_volts(const ReadingInput& input) {
  if (!input.test_volts) {
    return false;
  }
  return !input.rated || input.test_volts->si() >= telling_share * input.rated->si();
}

std::string too_few_volts(const ReadingInput& input) {
  const std::string wanted =
      input.rated ? format(quantities::volts(telling_share * input.rated->si())) + " or more"
                  : std::string("its working volts");
  return input.test_volts
             ? "leakage shows at working volts: read it at " + wanted
             : "say at how many volts it was read: leakage shows at working volts, " + wanted;
}

LeakageAllowance leakage_allowance(const ReadingInput& input, const LimitsLibrary& library) {
  LeakageAllowance allowed;
  allowed.volts = input.test_volts.value_or(input.rated.value_or(Volt(volts_unmarked)));
  if (input.limit) {
    allowed.limit = typed_limit(input, allowed.volts);
    return allowed;
  }
  allowed.limit =
      leakage_limit(library, {input.technology, input.body, input.capacitance, input.rated});
  if (has_dry_dielectric(input.technology)) {
    allow_dry(input, library, allowed);
  } else if (is_aluminium_electrolytic(input.technology) && input.years >= pre_war_rules_years &&
             input.capacitance && input.rated) {
    const double old = old_per_CV * input.capacitance->si() * input.rated->si();
    if (old > allowed.limit.value) {
      allowed.limit.value = old;
      allowed.limit.document = "JAN-C-62, for parts of that time (second-hand)";
    }
  }
  return allowed;
}

}  // namespace dryout::readings
