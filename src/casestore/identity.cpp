#include "casestore/identity.h"

#include <array>

#include "casestore/fingerprint.h"

namespace dryout::casestore {
namespace {

using quantities::Done;
using quantities::Result;

std::string hexadecimal(std::uint64_t value) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text(16, '0');
  for (auto digit = text.rbegin(); digit != text.rend(); ++digit, value >>= 4U) {
    *digit = digits[value & 0xfU];
  }
  return text;
}

std::string_view text_of(sqlite3_value* value) {
  const unsigned char* text = sqlite3_value_text(value);
  const auto size = static_cast<std::size_t>(sqlite3_value_bytes(value));
  return text == nullptr
             ? std::string_view()
             : std::string_view(reinterpret_cast<const char*>(text), size);  // NOLINT: SQLite's
}

void identity_of_first(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
  const std::array<sqlite3_value*, 3> given{values[0], values[1], values[2]};  // NOLINT: SQLite's
  const std::string identity =
      derived_identity({sqlite3_value_int64(given[0]), std::string(text_of(given[1])),
                        std::string(text_of(given[2]))});
  sqlite3_result_text(context, identity.data(), static_cast<int>(identity.size()),
                      SQLITE_TRANSIENT);  // NOLINT: SQLite's cast
}

}  // namespace

std::string derived_identity(const NewEvent& event) {
  const std::string head = std::to_string(event.at) + '\n' + event.kind + '\n';
  const std::uint64_t first = fingerprint(fingerprint(fingerprint_of_nothing, head), event.body);
  return hexadecimal(first) + hexadecimal(fingerprint(fingerprint(first, event.body), head));
}

Result<Done> offer_identities(const Database& database) {
  const int code = sqlite3_create_function(database.handle(), "identity_of_first", 3,
                                           SQLITE_UTF8 | SQLITE_DETERMINISTIC, nullptr,
                                           identity_of_first, nullptr, nullptr);
  return code == SQLITE_OK ? Result<Done>(Done{}) : database.problem(code, "prepare it");
}

}  // namespace dryout::casestore
