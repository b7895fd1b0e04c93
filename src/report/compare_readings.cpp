#include "report/compare_readings.h"

#include <algorithm>

#include "casework/words.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::BeforeAfter;
using casework::ReadingView;

quantities::Unit unit_of_kind(const std::string& kind) {
  const auto known = casework::choice_of<casework::ReadingKind>(kind);
  return known ? casework::unit_of(*known) : quantities::Unit::none;
}

/// Pairs tell most, then readings that convict, then those with a limit.
enum Telling { pair, against, limited, bare };

struct Gathered {
  Telling telling = bare;
  double beyond = 0.0;  ///< how many times beyond its limit; 0 where there is none
  std::string kind, limit_source;
  ScaleRow row;
};

double times_beyond(const std::string& kind, double value, const std::optional<double>& limit) {
  if (!limit || *limit <= 0.0 || value <= 0.0) {
    return 0.0;
  }
  return words_of_kind(kind).high_is_bad ? value / *limit : *limit / value;
}

Gathered gathered(const BeforeAfter& compared) {
  return {pair,
          times_beyond(compared.kind, compared.before, compared.limit),
          compared.kind,
          compared.limit_source,
          {compared.item_title, compared.before, compared.after, compared.limit, {}, {}}};
}

Gathered gathered(const ReadingView& reading) {
  Gathered entry;
  entry.telling = convicts(reading) ? against : (reading.limit ? limited : bare);
  entry.beyond = times_beyond(reading.kind, reading.value, reading.limit);
  entry.kind = reading.kind;
  entry.limit_source = reading.limit ? reading.limit_source : "";
  entry.row.title = reading.item_title;
  entry.row.limit = reading.limit;
  if (!reading.over_range) {
    (reading.after_repair ? entry.row.after : entry.row.before) = reading.value;
  }
  for (const casework::BesideFigure& figure : reading.beside) {
    if (figure.source == "general-table") {
      entry.row.tables.push_back(figure.value);
    } else if (figure.source == "fresh-part") {
      entry.row.fresh = figure.value;
    }
  }
  return entry;
}

bool in_a_pair(const ReadingView& reading, const std::vector<BeforeAfter>& compared) {
  return std::any_of(compared.begin(), compared.end(), [&](const BeforeAfter& pair) {
    const double there = reading.after_repair ? pair.after : pair.before;
    return pair.item == reading.item && pair.kind == reading.kind && there == reading.value;
  });
}

ReadingGroup& group_of(std::vector<ReadingGroup>& groups, const std::string& kind) {
  const auto known = std::find_if(groups.begin(), groups.end(),
                                  [&](const ReadingGroup& group) { return group.kind == kind; });
  if (known != groups.end()) {
    return *known;
  }
  return groups.emplace_back(ReadingGroup{kind, {}, {}});
}

}  // namespace

bool convicts(const ReadingView& reading) {
  return reading.verdict == "over-limit" || reading.shorted;
}

std::string shown_value(const std::string& kind, double value) {
  return quantities::format_engineering(value, unit_of_kind(kind));
}

std::vector<ReadingGroup> gather_readings(const casework::CaseView& view,
                                          const casework::MendingView& mending) {
  std::vector<Gathered> all;
  for (const BeforeAfter& compared : mending.compared) {
    all.push_back(gathered(compared));
  }
  for (const ReadingView& reading : view.readings) {
    if (!in_a_pair(reading, mending.compared)) {
      all.push_back(gathered(reading));
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Gathered& a, const Gathered& b) {
    return a.telling != b.telling ? a.telling < b.telling : a.beyond > b.beyond;
  });
  std::vector<ReadingGroup> groups;
  for (const Gathered& entry : all) {
    ReadingGroup& group = group_of(groups, entry.kind);
    group.rows.push_back(entry.row);
    auto& sources = group.limit_sources;
    const bool known =
        std::find(sources.begin(), sources.end(), entry.limit_source) != sources.end();
    if (!entry.limit_source.empty() && !known) {
      sources.push_back(entry.limit_source);
    }
  }
  return groups;
}

Picture picture_of(const ReadingGroup& group, std::size_t first, std::size_t count_max) {
  const std::size_t begin = std::min(first, group.rows.size());
  const std::size_t end = std::min(begin + count_max, group.rows.size());
  const auto at = [&](std::size_t i) {
    return group.rows.begin() + static_cast<std::ptrdiff_t>(i);
  };
  const ReadingKindWords words = words_of_kind(group.kind);
  return scale_picture({unit_of_kind(group.kind), words.high_is_bad, std::string(words.title)},
                       {at(begin), at(end)});
}

}  // namespace dryout::report
