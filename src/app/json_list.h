// A list as JSON, the same way in every command.
#pragma once

#include <string>
#include <vector>

#include "documents/value.h"

namespace dryout::app {

/// An array of what `make` makes of each.
template <class List, class Make>
[[nodiscard]] documents::Value list_json(const List& list, Make make) {
  documents::Value array = documents::Value::array();
  for (const auto& each : list) {
    array.append(make(each));
  }
  return array;
}

[[nodiscard]] inline documents::Value texts_json(const std::vector<std::string>& texts) {
  return list_json(texts, [](const std::string& text) { return documents::Value(text); });
}

}  // namespace dryout::app
