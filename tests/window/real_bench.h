// The fixture of all scenarios in a real window: a store of its own, a display of its own.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

#include "window/real_window.h"

namespace dryout::window {

class RealInput : public testing::Test {
 protected:
  void SetUp() override {
    if (const std::string missing = RealWindow::missing(); !missing.empty()) {
      GTEST_SKIP() << missing;
    }
  }
  /// A receiver with hum, taken in through the command line.
  void take_in_a_receiver() {
    (void)bench.dryout(
        "case new --equipment stereo-receiver --set 'Tarnbeck 614' --complaint hums");
  }
  /// A receiver with hum, its complaint told, on the page of that key.
  void open_at(const std::string& key) {
    take_in_a_receiver();
    (void)bench.dryout("case symptom 1 hum-steady yes");
    ASSERT_TRUE(bench.open("1"));
    bench.key(key);
  }
  /// The case changed last (a fresh store may come with a case to look at), or "0".
  [[nodiscard]] std::string newest() const {
    return std::to_string(std::atoi(bench.dryout("case list").c_str()));
  }
  [[nodiscard]] std::string kept() const { return bench.dryout("case export " + newest()); }
  [[nodiscard]] bool holds(const std::string& word) const {
    return kept().find(word) != std::string::npos;
  }
  RealWindow bench;
};

}  // namespace dryout::window
