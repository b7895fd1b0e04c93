#include "readings/coverage.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "readings/rule_files.h"

namespace dryout::readings {

using documents::Reader;
using quantities::Problems;

namespace {

constexpr double same_value = 0.05;  // in ln: the next E24 value is twice as far
constexpr double like_volts = 0.8;   // in ln: a factor of 2.2, as for look-alikes

bool near(double a, double b, double log_apart) { return std::abs(std::log(a / b)) < log_apart; }

void read_group(const Reader& entry, std::vector<CommonPart>& parts) {
  entry.accept_only({"id", "technology", "body", "because", "source", "pairs"});
  CommonPart common;
  common.group = entry.id("id");
  common.part.technology = entry.text("technology");
  static_cast<void>(entry.text("because"));
  static_cast<void>(read_source(entry));
  const std::string word = entry.optional_text("body").value_or("unknown");
  const auto body = body_of(word);
  if (!body) {
    entry.complain("no such body", "unknown, smd, radial, axial or can", word);
  }
  common.part.body = body.value_or(Body::unknown);
  entry.for_each("pairs", [&](const Reader& pair) {
    pair.accept_only({"capacitance_F", "rated_V"});
    const documents::Range above_zero{.max = 1e5, .above = 0.0};
    common.part.capacitance = quantities::Farad(pair.number("capacitance_F", above_zero));
    common.part.rated = quantities::volts(pair.number("rated_V", above_zero));
    parts.push_back(common);
  });
}

/// A series that states the loss or the insulation of such a part, at like volts.
const LimitRow* series_of(const LimitsLibrary& library, const PartDescription& part) {
  const auto found =
      std::find_if(library.rows.begin(), library.rows.end(), [&](const LimitRow& row) {
        return row.technology == part.technology && !row.capacitance &&
               (row.tan_delta_max || row.insulation) &&
               near(row.rated.si(), part.rated->si(), like_volts);
      });
  return found == library.rows.end() ? nullptr : &*found;
}

Coverage covered(const LimitsLibrary& library, const CommonPart& common) {
  const std::vector<LookAlike> alike = look_alikes(library, common.part);
  for (const LookAlike& found : alike) {
    if (near(found.row->capacitance->si(), common.part.capacitance->si(), same_value) &&
        near(found.row->rated.si(), common.part.rated->si(), same_value)) {
      return {common, Covered::own_row, told(*found.row)};
    }
  }
  if (!alike.empty()) {
    return {common, Covered::look_alike, told(*alike.front().row)};
  }
  // A wet part without any series still has a usual tan delta: doubted, and not counted.
  const auto derived = best_limit(library, common.part, Kind::esr);
  if (derived && derived->extra_log_spread == 0.0) {
    return {common, Covered::series, derived->document};
  }
  const LimitRow* series = series_of(library, common.part);
  return series != nullptr ? Coverage{common, Covered::series, told(*series)}
                           : Coverage{common, Covered::nothing, ""};
}

}  // namespace

quantities::Result<std::vector<CommonPart>> load_common_parts(
    const std::vector<std::string>& directories) {
  Problems problems;
  std::vector<CommonPart> parts;
  for_each_rule(directories, "common_values", "common_values", problems,
                [&](const Reader& entry, std::size_t) { read_group(entry, parts); });
  if (!problems.empty()) {
    return problems;
  }
  return parts;
}

std::string_view word_of(Covered covered) {
  constexpr std::array<std::string_view, 4> words{"own row", "look-alike", "series", "nothing"};
  return words[static_cast<std::size_t>(covered)];
}

std::vector<Coverage> coverage_of(const LimitsLibrary& library,
                                  const std::vector<CommonPart>& parts) {
  std::vector<Coverage> found;
  found.reserve(parts.size());
  for (const CommonPart& part : parts) {
    found.push_back(covered(library, part));
  }
  return found;
}

}  // namespace dryout::readings
