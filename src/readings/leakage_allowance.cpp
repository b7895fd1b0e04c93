#include "readings/leakage_allowance.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dryout::readings {
namespace {

using quantities::Volt;

// Parts of the years of JAN-C-62, and from when on sheets come from lean to theirs (judged): what
// lies between is drawn evenly, ln(I) against years.
constexpr double old_rules_years = 55.0;
constexpr double todays_rules_years = 30.0;
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

/// Of the rows for parts of before 1965 the lowest that reaches the part's volts, else the highest.
const LimitRow* old_rule(const ReadingInput& input, const LimitsLibrary& library) {
  const LimitRow* nearest = nullptr;
  double least = 1e9;
  for (const LimitRow& row : library.rows) {
    const double above = std::log(row.rated / *input.rated);
    constexpr double behind_all = 100.0;
    const double apart =
        (above >= 0.0 ? above : behind_all - above) + (row.body == input.body ? 0.0 : 0.01);
    if (row.grade == "pre-1965" && row.leakage && apart < least) {
      least = apart;
      nearest = &row;
    }
  }
  return nearest;
}

/// Sheets of its day allowed an old part more than today's do.
void allow_old(const ReadingInput& input, const LimitsLibrary& library, LeakageAllowance& allowed) {
  const LimitRow* row = old_rule(input, library);
  if (row == nullptr) {
    return;
  }
  const double then = leakage_allowed(*row->leakage, *input.capacitance, row->rated);
  if (then <= allowed.limit.value) {
    return;
  }
  const double way = std::clamp(
      (input.years - todays_rules_years) / (old_rules_years - todays_rules_years), 0.0, 1.0);
  allowed.limit.value *= std::pow(then / allowed.limit.value, way);
  allowed.limit.document =
      way < 1.0 ? "between today's sheets and " + told(*row) + ", by its age" : told(*row);
  allowed.row = way < 1.0 ? nullptr : row;
  allowed.limit.minutes = row->leakage->minutes;
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
  const bool at_known_volts = input.test_volts || input.rated;
  const auto floor = floor_of(input, library);
  const double current = floor ? allowed.volts.si() / floor->ohm : least_leak_A;
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
  if (input.kind == Kind::insulation && !input.test_volts) {
    // The fewest volts that would tell ask for the fewest ohms.
    allowed.volts_unsaid = true;
    allowed.volts = Volt(telling_share * allowed.volts.si());
  }
  if (input.limit) {
    allowed.limit = typed_limit(input, allowed.volts);
    return allowed;
  }
  allowed.limit =
      leakage_limit(library, {input.technology, input.body, input.capacitance, input.rated});
  if (has_dry_dielectric(input.technology)) {
    allow_dry(input, library, allowed);
  } else if (is_aluminium_electrolytic(input.technology) && input.years > todays_rules_years &&
             input.capacitance && input.rated) {
    allow_old(input, library, allowed);
  }
  allowed.still_falling = input.technology == "supercap";
  return allowed;
}

}  // namespace dryout::readings
