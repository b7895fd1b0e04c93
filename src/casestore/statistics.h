// Facts for statistics: what was at fault in a closed case, and what each part read. They follow
// from the journal; what a subject or a part type is, is the business of casework.
//
// Readings are counted by size: forty steps a decade, so that a quantile taken from the counts lies
// within 3 % of the reading it stands for.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "quantities/quantity.h"

namespace dryout::casestore {

/// A closed case, as far as causes are counted.
struct ClosedFact {
  std::string family;      ///< of the equipment
  std::string subject;     ///< "role:reservoir", "cause:dry-joint"; "" = closed without a cause
  int year = 0;            ///< in which it was taken in
  std::optional<int> age;  ///< of the set then, years
  friend bool operator==(const ClosedFact&, const ClosedFact&) = default;
};

/// How a part that was read turned out. Not known: the case is open, or closed without a cause.
enum class Standing { not_known, sound, bad };

struct ReadingFact {
  int event = 0;
  std::string technology, kind, role;
  quantities::Farad capacitance;  ///< marked; zero = not known
  quantities::Volt rated;         ///< marked; zero = not known
  double value = 0.0;             ///< SI unit of the kind, above zero
  std::optional<double> limit;    ///< as typed
  std::optional<int> age;         ///< of the set, years
  Standing standing = Standing::not_known;
  bool alone = false;  ///< lifted, or nothing across it
  friend bool operator==(const ReadingFact&, const ReadingFact&) = default;
};

struct CaseStatistics {
  std::optional<ClosedFact> closed;
  std::vector<ReadingFact> readings;  ///< by event
  friend bool operator==(const CaseStatistics&, const CaseStatistics&) = default;
};

struct CauseCount {
  std::string family, equipment, subject;
  std::int64_t cases = 0;
};

/// Empty (or zero) = any. A role goes alone, without marked values.
struct ReadingQuery {
  std::string technology, kind, role;
  quantities::Farad capacitance;
  quantities::Volt rated;
};

/// So many readings of one size.
struct ReadingCount {
  std::optional<int> decade;  ///< age of the set in tens of years
  Standing standing = Standing::not_known;
  int bin = 0;
  std::int64_t readings = 0;
};

/// Sound parts of one type, read alone, of one size.
struct SoundCount {
  std::string technology, kind;
  quantities::Farad capacitance;
  quantities::Volt rated;
  int bin = 0;
  std::int64_t readings = 0;
};

inline constexpr int bins_per_decade = 40;
/// The bin of a value above zero, and the (geometric) middle of a bin.
[[nodiscard]] int bin_of(double value);
[[nodiscard]] double middle_of_bin(int bin);

}  // namespace dryout::casestore
