// Writing and counting the facts for statistics.
#include "casestore/statistics.h"

#include <cmath>

#include "casestore/facts_rows.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Result;

/// Marked values are compared within a thousandth: 4.7e-5 typed in two ways may differ in the last
/// digit.
constexpr double same_value = 1e-3;

Result<Done> write_closed(const Database& database, std::int64_t number,
                          const std::string& equipment, const ClosedFact& closed) {
  auto insert = Statement::prepare(
      database,
      "INSERT INTO closed_case (bench_case, equipment, family, subject, year, age) VALUES (?, ?, "
      "?, ?, ?, ?)");
  if (!insert) {
    return insert.problems();
  }
  return insert->bind(number)
      .bind(equipment)
      .bind(closed.family)
      .bind(closed.subject)
      .bind(closed.year)
      .bind(closed.age)
      .finish();
}

Result<Done> write_readings(const Database& database, std::int64_t number,
                            const std::vector<ReadingFact>& readings) {
  auto insert = Statement::prepare(
      database,
      "INSERT INTO reading (bench_case, event, technology, kind, role, capacitance, rated, value, "
      "upper_limit, age, standing, alone, bin) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insert) {
    return insert.problems();
  }
  for (const ReadingFact& reading : readings) {
    auto done = insert->again()
                    .bind(number)
                    .bind(reading.event)
                    .bind(reading.technology)
                    .bind(reading.kind)
                    .bind(reading.role)
                    .bind(reading.capacitance.si())
                    .bind(reading.rated.si())
                    .bind(reading.value)
                    .bind(reading.limit)
                    .bind(reading.age)
                    .bind(static_cast<int>(reading.standing))
                    .bind(reading.alone ? 1 : 0)
                    .bind(bin_of(reading.value))
                    .finish();
    if (!done) {
      return done;
    }
  }
  return Done{};
}

Result<Done> take_out(const Database& database, std::int64_t number) {
  for (const std::string_view sql : {"DELETE FROM closed_case WHERE bench_case = ?",
                                     "DELETE FROM reading WHERE bench_case = ?"}) {
    auto remove = Statement::prepare(database, sql);
    if (!remove) {
      return remove.problems();
    }
    if (auto done = remove->bind(number).finish(); !done) {
      return done;
    }
  }
  return Done{};
}

ReadingFact read_fact(const Statement& row) {
  return {.event = static_cast<int>(row.integer(0)),
          .technology = row.text(1),
          .kind = row.text(2),
          .role = row.text(3),
          .capacitance = quantities::Farad(row.real(4)),
          .rated = quantities::Volt(row.real(5)),
          .value = row.real(6),
          .limit = row.optional_real(7),
          .age = row.optional_integer(8),
          .standing = static_cast<Standing>(row.integer(9)),
          .alone = row.integer(10) != 0};
}

/// Conditions of a query, joined by AND, and what they are to be bound to.
struct Conditions {
  std::string sql;
  std::vector<std::string> texts;
  std::vector<double> reals;

  void add(const std::string& condition) { sql += (sql.empty() ? " WHERE " : " AND ") + condition; }
  void equal(const std::string& column, const std::string& value) {
    if (!value.empty()) {
      add(column + " = ?");
      texts.push_back(value);
    }
  }
  void near(const std::string& column, double value) {
    add(column + " BETWEEN ? AND ?");
    reals.insert(reals.end(), {value * (1.0 - same_value), value * (1.0 + same_value)});
  }
  /// Texts first: equal() before near().
  void bind(Statement& statement) const {
    for (const std::string& text : texts) {
      statement.bind(text);
    }
    for (const double real : reals) {
      statement.bind(real);
    }
  }
};

/// Runs a counting query and makes one row of each that it gives.
template <class Row, class Make>
Result<std::vector<Row>> counted(const Database& database, const std::string& sql,
                                 const Conditions& conditions, Make make) {
  auto statement = Statement::prepare(database, sql);
  if (!statement) {
    return statement.problems();
  }
  conditions.bind(*statement);
  std::vector<Row> rows;
  const auto done = statement->for_each_row([&] { rows.push_back(make(*statement)); });
  return done ? Result<std::vector<Row>>(std::move(rows)) : done.problems();
}

}  // namespace

int bin_of(double value) {
  return static_cast<int>(std::floor(bins_per_decade * std::log10(value)));
}

double middle_of_bin(int bin) { return std::pow(10.0, (bin + 0.5) / bins_per_decade); }

Result<Done> write_statistics(const Database& database, std::int64_t number,
                              const std::string& equipment, const CaseStatistics& facts) {
  if (auto done = take_out(database, number); !done) {
    return done;
  }
  if (facts.closed) {
    if (auto done = write_closed(database, number, equipment, *facts.closed); !done) {
      return done;
    }
  }
  return facts.readings.empty() ? Result<Done>(Done{})
                                : write_readings(database, number, facts.readings);
}

Result<CaseStatistics> statistics_of(const Database& database, std::int64_t number) {
  auto closed = Statement::prepare(
      database, "SELECT family, subject, year, age FROM closed_case WHERE bench_case = ?");
  auto readings = Statement::prepare(
      database,
      "SELECT event, technology, kind, role, capacitance, rated, value, upper_limit, age, "
      "standing, alone FROM reading WHERE bench_case = ? ORDER BY event");
  if (!closed || !readings) {
    return (closed ? readings : closed).problems();
  }
  CaseStatistics facts;
  const auto done = closed->bind(number).for_each_row([&] {
    facts.closed = ClosedFact{closed->text(0), closed->text(1),
                              static_cast<int>(closed->integer(2)), closed->optional_integer(3)};
  });
  const auto read =
      readings->bind(number).for_each_row([&] { facts.readings.push_back(read_fact(*readings)); });
  if (!done || !read) {
    return (done ? read : done).problems();
  }
  return facts;
}

Result<CaseStatistics> CaseStore::statistics(std::int64_t number) const {
  return statistics_of(*database_, number);
}

Result<std::vector<CauseCount>> CaseStore::cause_counts(const std::string& family,
                                                        const std::string& equipment) const {
  Conditions conditions;
  conditions.equal("family", family);
  conditions.equal("equipment", equipment);
  return counted<CauseCount>(
      *database_,
      "SELECT family, equipment, subject, count(*) FROM closed_case" + conditions.sql +
          " GROUP BY family, equipment, subject",
      conditions, [](const Statement& row) {
        return CauseCount{row.text(0), row.text(1), row.text(2), row.integer(3)};
      });
}

Result<std::vector<ReadingCount>> CaseStore::reading_counts(const ReadingQuery& query) const {
  const bool by_capacitance = query.capacitance.si() > 0.0;
  const bool by_volts = query.rated.si() > 0.0;
  if (!query.role.empty() && (by_capacitance || by_volts)) {
    return quantities::Problem{"readings are counted by role or by marked value, not by both",
                               {database_->path(), 0, {}},
                               query.role,
                               "a role alone, or capacitance and volts alone"};
  }
  Conditions conditions;
  conditions.equal("technology", query.technology);
  conditions.equal("kind", query.kind);
  conditions.equal("role", query.role.empty() ? "*" : query.role);
  if (by_capacitance) {
    conditions.near("capacitance", query.capacitance.si());
  } else {
    conditions.add("capacitance = -1");
  }
  if (by_volts) {
    conditions.near("rated", query.rated.si());
  } else {
    conditions.add("rated = -1");
  }
  conditions.add("readings > 0");
  return counted<ReadingCount>(
      *database_,
      "SELECT nullif(decade, -1), standing, bin, sum(readings) FROM reading_count" +
          conditions.sql + " GROUP BY decade, standing, bin ORDER BY decade, standing, bin",
      conditions, [](const Statement& row) {
        return ReadingCount{row.optional_integer(0), static_cast<Standing>(row.integer(1)),
                            static_cast<int>(row.integer(2)), row.integer(3)};
      });
}

Result<std::vector<SoundCount>> CaseStore::sound_counts() const {
  Conditions conditions;
  conditions.add("readings > 0");
  return counted<SoundCount>(
      *database_,
      "SELECT technology, kind, capacitance, rated, bin, readings FROM sound_count" +
          conditions.sql + " ORDER BY technology, kind, capacitance, rated, bin",
      conditions, [](const Statement& row) {
        return SoundCount{row.text(0),
                          row.text(1),
                          quantities::Farad(row.real(2)),
                          quantities::Volt(row.real(3)),
                          static_cast<int>(row.integer(4)),
                          row.integer(5)};
      });
}

}  // namespace dryout::casestore
