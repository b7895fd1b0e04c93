// What may be fitted in place of a part: rules under rules/substitution/, by role and technology,
// each with its reason. Rules only ever narrow; where two apply, the stricter wins. What no rule
// allows is not proposed: a mains capacitor without a certified one, say. A mark in volts of direct
// current never becomes a rating in volts of alternating current.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "decision/old_body.h"
#include "decision/touch_current.h"
#include "documents/parse.h"
#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "quantities/result.h"

namespace dryout::decision {

struct SubstitutionRule {
  std::string id, title, because, source;
  std::vector<std::string> roles;                ///< applies to these roles; empty = any
  std::vector<std::string> technologies;         ///< and these technologies; empty = any
  std::vector<std::string> rails;                ///< on rails of these kinds; empty = any, or none
  std::vector<std::string> except_roles;         ///< but not to these
  std::vector<std::string> except_technologies;  ///< nor to these
  bool on_the_mains = false;              ///< only where no transformer parts it from the mains
  bool behind_a_transformer = false;      ///< only where one parts it from the mains
  bool live_chassis = false;              ///< only in a set whose chassis may be live
  bool behind_valve_rectifier = false;    ///< only where a valve charges it
  bool earthed = false;                   ///< only in a set whose touched metal a third wire earths
  bool unearthed = false;                 ///< only where none does
  std::optional<double> capacitance_min;  ///< factor on the old value; nothing: no say
  std::optional<double> capacitance_max;
  bool as_marked = false;                ///< sold by the marked value, not by a series
  double volts_min = 1.0;                ///< factor on the old rating
  std::optional<double> rail_volts_min;  ///< factor on the volts of its rail
  /// Factor on what its high tension rises to with no valve drawing current, bias added.
  std::optional<double> unloaded_peak_min;
  /// Factor on the volts of its rail, as volts a.c. that the part must be rated for.
  std::optional<double> rail_ac_volts_min;
  std::optional<double> mains_volts_min;  ///< factor on the mains at their highest, of class parts
  bool pulse_rated = false;               ///< made for pulses, by its sheet
  std::optional<double> temperature_min;  ///< degrees Celsius
  std::optional<double> life_hours_min;
  std::string fit;           ///< technology to fit; "" = the same
  std::string esr;           ///< "", "low", "as-original"
  bool certified = false;    ///< safety class and mark required
  std::string safety_class;  ///< X1, X2, Y1, Y2; "" = none named
  /// What the value is limited by, from mains to metal that is touched.
  std::optional<quantities::Ampere> touch_current_max;
  std::string advice;  ///< what to look at when fitting
  quantities::Place place = {};
};

struct SubstitutionRules {
  std::vector<SubstitutionRule> rules;
};

[[nodiscard]] quantities::Result<SubstitutionRules> load_substitution_rules(
    const std::vector<std::string>& directories);

/// A part that will be replaced.
struct PartNeed {
  std::string reference;  ///< "C12", or the group's title
  std::string board;
  std::string role;
  std::string technology;
  quantities::Farad capacitance;  ///< zero = to be read off the part
  quantities::Volt rated;         ///< zero = to be read off the part
  int count = 1;
  std::string rail_kind = {};        ///< of the rail that it stands on; "" = none known
  quantities::Volt rail_volts = {};  ///< without sign; zero = not known
  bool behind_valve_rectifier = false;
  bool on_the_mains = false;  ///< no transformer parts it from the mains, whatever its rail is
  bool live_chassis = false;  ///< of a set whose chassis may be live
  bool earthed = false;       ///< a third wire earths the metal of the set that is touched
  quantities::Volt unloaded_peak = {};  ///< of its high tension before valves draw; zero = none
  quantities::Volt bias_volts = {};     ///< what its other end stands below common, without sign
  /// The other parts from the mains to the same metal, each as it is; zero = not known. What is
  /// touched sums them up.
  std::vector<quantities::Farad> bridging_beside = {};
  Mains mains = {};
  OldBody body = {};
  std::string other = {};  ///< no capacitor: what is bought, in words; `count` of it, no spare
  std::vector<std::string> other_why = {};      ///< and why
  std::vector<std::string> other_look_at = {};  ///< and what to mind when fitting it
};

/// What to buy for it.
struct Substitute {
  quantities::Farad capacitance;  ///< a value that is sold (sold_parts.h); zero = unknown
  quantities::Volt rated;         ///< next sold rating not below what is needed, of a certified
                                  ///< part in volts a.c.; zero = unknown
  std::string technology;
  std::optional<quantities::Celsius> temperature_min;
  std::optional<double> life_hours_min;
  std::string esr;
  bool certified = false;
  std::string safety_class;
  bool pulse_rated = false;
  quantities::Volt ac_min;  ///< the volts a.c. it must stand as well; zero = direct current alone
  std::string body;         ///< what fits: "radial, pitch 5 mm, at most 10 x 16 mm"
  std::optional<quantities::Ampere> ripple_min;
  std::string other;             ///< no capacitor: in words
  std::vector<std::string> why;  ///< what follows from this very part, beside the rules
  std::vector<std::string> advice;
  std::vector<std::string> rules;  ///< ids that shaped it
};

[[nodiscard]] Substitute substitute_for(const PartNeed& need, const SubstitutionRules& rules);

}  // namespace dryout::decision
