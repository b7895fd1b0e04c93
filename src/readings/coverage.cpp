#include "readings/coverage.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "readings/choose_limit.h"
#include "readings/leakage_allowance.h"
#include "readings/rule_files.h"

namespace dryout::readings {

using documents::Reader;
using quantities::Problems;

namespace {

constexpr double same_value = 0.05;  // in ln: the next E24 value is twice as far

bool near(double a, double b, double log_apart) { return std::abs(std::log(a / b)) < log_apart; }

void read_group(const Reader& entry, std::vector<CommonPart>& parts) {
  entry.accept_only({"id", "technology", "body", "because", "source", "pairs"});
  CommonPart common;
  common.group = entry.id("id");
  common.part.technology = entry.text("technology");
  static_cast<void>(entry.text("because"));
  static_cast<void>(read_source(entry));
  common.place = entry.place();
  const std::string word = entry.optional_text("body").value_or("unknown");
  const auto body = body_of(word);
  if (!body) {
    refuse_word(entry, "body", word, body_words());
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

/// A part alone on the bench, read by what its kind is judged by: dry ones by their insulation, the
/// rest by their resistance.
ReadingInput reading_of(const PartDescription& part) {
  ReadingInput input;
  input.kind = has_dry_dielectric(part.technology) ? Kind::insulation : Kind::esr;
  input.technology = part.technology;
  input.body = part.body;
  input.capacitance = part.capacitance;
  input.rated = part.rated;
  input.frequency = usual_frequency(input.kind, part.technology);
  input.in_circuit = false;
  return input;
}

Covered covered_by(const LimitRow* row, const Limit& limit, const PartDescription& part) {
  if (row == nullptr) {
    return Covered::usual;
  }
  if (limit.source != LimitSource::look_alike || !row->capacitance) {
    return Covered::series;
  }
  const bool own = near(row->capacitance->si(), part.capacitance->si(), same_value) &&
                   near(row->rated.si(), part.rated->si(), same_value);
  return own ? Covered::own_row : Covered::look_alike;
}

/// Asked as a reading asks, so that what is named here is what a reading is held against.
Coverage covered(const LimitsLibrary& library, const CommonPart& common) {
  const ReadingInput input = reading_of(common.part);
  Coverage coverage{common, Covered::nothing, input.kind, ""};
  std::optional<Limit> limit;
  const LimitRow* row = nullptr;
  if (input.kind == Kind::insulation) {
    const LeakageAllowance allowed = leakage_allowance(input, library);
    limit = allowed.limit;
    row = allowed.row;
  } else {
    const ChosenLimit chosen = choose_limit(input, library);
    row = chosen.row;
    if (chosen.limit && esr_limit_under(*chosen.limit, conditions_of(input))) {
      limit = chosen.limit;
    }
  }
  if (limit) {
    coverage.by = covered_by(row, *limit, common.part);
    coverage.document = limit->document;
  }
  return coverage;
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
  constexpr std::array<std::string_view, 5> words{"own row", "look-alike", "series", "usual",
                                                  "nothing"};
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
