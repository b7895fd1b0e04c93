#include "casestore/seal.h"

#include <span>

#include "casestore/fingerprint.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

std::string value_text(sqlite3_value* value) {
  const unsigned char* text = sqlite3_value_text(value);
  const int size = sqlite3_value_bytes(value);
  return text == nullptr ? std::string() : std::string(text, text + size);
}

void seal_of_columns(sqlite3_context* context, int count, sqlite3_value** values) {
  const std::span given(values, static_cast<std::size_t>(count));
  const EventRow event{sqlite3_value_int(given[1]), sqlite3_value_int64(given[2]),
                       value_text(given[3]), value_text(given[4])};
  sqlite3_result_int64(context, seal_of(sqlite3_value_int64(given[0]), event));
}

}  // namespace

std::int64_t seal_of(std::int64_t number, const EventRow& event) {
  const std::string head = std::to_string(number) + '\n' + std::to_string(event.sequence) + '\n' +
                           std::to_string(event.at) + '\n' + event.kind + '\n';
  return static_cast<std::int64_t>(
      fingerprint(fingerprint(fingerprint_of_nothing, head), event.body));
}

Result<Done> offer_seals(const Database& database) {
  constexpr int columns = 5;
  const int code = sqlite3_create_function(database.handle(), "seal_of", columns,
                                           SQLITE_UTF8 | SQLITE_DETERMINISTIC, nullptr,
                                           seal_of_columns, nullptr, nullptr);
  return code == SQLITE_OK ? Result<Done>(Done{}) : database.problem(code, "prepare it");
}

Problem damaged_event(const std::string& store, std::int64_t number, std::int64_t sequence) {
  return {"a step of this case is damaged in the case store",
          {store, 0, {}},
          "case " + std::to_string(number) + ", step " + std::to_string(sequence) +
              ": not as it was written",
          "`dryout case restore` with a backup; the other cases can be worked on meanwhile"};
}

}  // namespace dryout::casestore
