// Finding, in the library, the rows that say most about a part whose own sheet is not at hand.
#include <algorithm>
#include <cmath>

#include "readings/limits_library.h"

namespace dryout::readings {

using quantities::Farad;
using quantities::Volt;

namespace {

constexpr double capacitance_factor_max = 2.05;
constexpr double volts_factor_max = 2.2;

/// Surface-mount and radial wet parts are one technology to a limit, told apart by the body.
bool same_technology(const std::string& a, const std::string& b) {
  const auto family = [](const std::string& t) {
    return t == "surface-mount-aluminium" ? std::string("wet-aluminium") : t;
  };
  return family(a) == family(b);
}

Body body_meant(const PartDescription& part) {
  return part.body == Body::unknown && part.technology == "surface-mount-aluminium" ? Body::smd
                                                                                    : part.body;
}

double times_apart(double a, double b) { return std::max(a / b, b / a); }

/// Ln-distances weighted by how strongly they move an ESR; nothing where it is no look-alike.
std::optional<double> distance_between(const LimitRow& row, const PartDescription& part) {
  if (!same_technology(row.technology, part.technology) || !row.capacitance || !part.capacitance) {
    return std::nullopt;
  }
  const double capacitance = times_apart(row.capacitance->si(), part.capacitance->si());
  const double volts = part.rated ? times_apart(row.rated.si(), part.rated->si()) : 1.5;
  if (capacitance > capacitance_factor_max || volts > volts_factor_max) {
    return std::nullopt;
  }
  const Body body = body_meant(part);
  const bool known = body != Body::unknown && row.body != Body::unknown;
  // A polymer can is one element on two wires or on two tabs; wet chips and beads are others.
  const double other_body = part.technology == "polymer" ? 0.1 : 0.4;
  const double body_apart = !known             ? std::min(0.15, other_body)
                            : body == row.body ? 0.0
                                               : other_body;
  // A general-purpose part may stand several times above a low-impedance row.
  const double better_grade = row.grade == "low-impedance" ? 0.2 : 0.0;
  const double mark_apart = 0.1 * static_cast<double>(row.mark);
  return 0.6 * std::log(capacitance) + 0.4 * std::log(volts) + body_apart + better_grade +
         mark_apart;
}

/// A part's own row speaks for its neighbours, no further; a series row for every value.
std::optional<double> value_apart(const LimitRow& row, const PartDescription& part) {
  if (!row.capacitance) {
    return 0.0;
  }
  const double apart = part.capacitance ? times_apart(row.capacitance->si(), part.capacitance->si())
                                        : 2.0 * capacitance_factor_max;
  return apart > capacitance_factor_max ? std::nullopt : std::optional(0.6 * std::log(apart));
}

/// What a sheet of another grade says of an ordinary part: of a computer's or a set of 1950 little.
double grade_apart(const std::string& grade) {
  if (grade.empty() || grade == "general") {
    return 0.0;
  }
  return grade == "low-impedance" || grade == "long-life" ? 0.1 : 0.3;
}

/// The row whose volts, body and grade are nearest and not far.
template <class Has>
const LimitRow* nearest_series(const LimitsLibrary& library, const PartDescription& part,
                               const Has& has) {
  const LimitRow* nearest = nullptr;
  double least = 1e9;
  for (const LimitRow& row : library.rows) {
    const auto value = value_apart(row, part);
    if (!same_technology(row.technology, part.technology) || !has(row) || !value) {
      continue;
    }
    const Body body = body_meant(part);
    const double volts = part.rated ? times_apart(row.rated.si(), part.rated->si()) : 1.0;
    const double apart = *value + std::log(volts) + (body == row.body ? 0.0 : 0.3) +
                         grade_apart(row.grade) + 0.1 * static_cast<double>(row.mark);
    if (volts <= volts_factor_max && apart < least) {
      least = apart;
      nearest = &row;
    }
  }
  return nearest;
}

}  // namespace

std::vector<LookAlike> look_alikes(const LimitsLibrary& library, const PartDescription& part) {
  std::vector<LookAlike> found;
  for (const LimitRow& row : library.rows) {
    if (!row.impedance_max && !row.esr_max) {
      continue;
    }
    if (const auto distance = distance_between(row, part)) {
      found.push_back({&row, *distance});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const LookAlike& a, const LookAlike& b) { return a.distance < b.distance; });
  return found;
}

Limit leakage_limit(const LimitsLibrary& library, const PartDescription& part) {
  Limit limit;
  limit.kind = Kind::leakage_current;
  limit.source = LimitSource::look_alike;
  const bool unmarked = !part.capacitance || !part.rated;
  LeakageRule rule{0.01, 3e-6, 0.0, 2.0};
  limit.document = "0.01 CV or 3 µA, the usual rule of makers' sheets";
  if (part.technology == "polymer") {
    // KEMET A765 and its like (second-hand); polymer tantalum promises half of it.
    rule.per_cv = 0.2;
    limit.document = "0.2 CV, as series of polymer parts promise";
  }
  const LimitRow* series =
      nearest_series(library, part, [](const LimitRow& r) { return r.leakage.has_value(); });
  if (series != nullptr) {
    rule = *series->leakage;
    limit.document = told(*series);
  }
  limit.minutes = rule.minutes;
  limit.value =
      leakage_allowed(rule, part.capacitance.value_or(Farad()), part.rated.value_or(Volt()));
  if (unmarked) {
    limit.value = std::max(limit.value, 3e-6);
    limit.extra_log_spread = 1.0;
  }
  return limit;
}

}  // namespace dryout::readings
