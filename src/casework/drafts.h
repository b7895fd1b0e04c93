// What was typed at the window and not entered yet, as it is kept from one run to the next: a crash
// costs no sentence. It is no part of any case; what is entered goes.
#pragma once

#include <cstdint>
#include <map>
#include <string>

#include "quantities/result.h"

namespace dryout::casework {

/// Text by the name of its field; no empty ones.
using TypedText = std::map<std::string, std::string>;

struct Drafts {
  std::string store;    ///< file name of the store whose cases they are of
  bool closed = false;  ///< the window that kept them was closed, and did not just end
  std::map<std::int64_t, TypedText> of_case;  ///< 0 = of a set that is not taken in yet

  friend bool operator==(const Drafts&, const Drafts&) = default;
};

/// As JSON.
[[nodiscard]] std::string drafts_text(const Drafts& drafts);
/// What drafts_text() made. Anything else is a problem.
[[nodiscard]] quantities::Result<Drafts> drafts_of(const std::string& text);

}  // namespace dryout::casework
