// A hundred and twenty-seven parts that benches meet, written down before the program was asked
// about any of them (common practice, no source). What it said then: tests/readings/README.md.
#pragma once

#include <string>
#include <vector>

#include "readings/reading.h"

namespace dryout::readings {

struct ListedPart {
  double microfarad;
  double volts;
  const char* technology;
  Body body;
};

inline const std::vector<ListedPart>& listed_parts() {
  static const std::vector<ListedPart> parts = [] {
    std::vector<ListedPart> all;
    const auto add = [&](const char* technology, Body body,
                         std::vector<std::pair<double, double>> values) {
      for (const auto& [microfarad, volts] : values) {
        all.push_back({microfarad, volts, technology, body});
      }
    };
    add("wet-aluminium", Body::radial,
        {{1, 50},    {2.2, 50},  {3.3, 50},  {4.7, 50},  {4.7, 63},  {10, 16},   {10, 25},
         {10, 50},   {22, 16},   {22, 25},   {22, 50},   {33, 16},   {33, 35},   {47, 16},
         {47, 25},   {47, 35},   {47, 63},   {100, 10},  {100, 16},  {100, 25},  {100, 35},
         {100, 50},  {100, 63},  {220, 10},  {220, 16},  {220, 25},  {220, 35},  {220, 50},
         {330, 16},  {330, 25},  {470, 10},  {470, 16},  {470, 25},  {470, 35},  {470, 50},
         {1000, 10}, {1000, 16}, {1000, 25}, {1000, 35}, {1000, 50}, {2200, 10}, {2200, 16},
         {2200, 25}, {2200, 35}, {3300, 16}, {3300, 25}, {1, 100},   {10, 100},  {47, 100},
         {100, 100}, {4.7, 250}, {10, 250},  {22, 160},  {33, 250},  {47, 250},  {100, 200},
         {4.7, 400}, {10, 400},  {10, 450},  {22, 450}});
    add("wet-aluminium", Body::can,
        {{2200, 50},  {2200, 63},  {3300, 50},  {4700, 25},  {4700, 35},  {4700, 50},  {4700, 63},
         {6800, 50},  {6800, 63},  {10000, 25}, {10000, 35}, {10000, 50}, {10000, 63}, {15000, 63},
         {22000, 40}, {22000, 63}, {47, 450},   {100, 400},  {100, 450},  {150, 400},  {220, 400},
         {330, 400},  {470, 200},  {680, 200},  {50, 450}});
    add("wet-aluminium", Body::axial,
        {{1, 63},
         {2.2, 63},
         {4.7, 63},
         {10, 25},
         {10, 63},
         {22, 25},
         {47, 25},
         {47, 40},
         {100, 25},
         {100, 63},
         {220, 25},
         {470, 25},
         {470, 40},
         {1000, 25},
         {1000, 40},
         {2200, 40},
         {8, 450},
         {16, 450},
         {32, 450}});
    add("surface-mount-aluminium", Body::smd,
        {{1, 50},
         {4.7, 25},
         {4.7, 35},
         {10, 16},
         {10, 25},
         {22, 6.3},
         {22, 16},
         {33, 16},
         {47, 6.3},
         {47, 16},
         {47, 25},
         {100, 6.3},
         {100, 16},
         {220, 6.3},
         {220, 16}});
    add("bipolar-aluminium", Body::radial,
        {{1, 50}, {2.2, 50}, {4.7, 50}, {10, 25}, {22, 25}, {47, 25}, {3.3, 100}, {10, 100}});
    return all;
  }();
  return parts;
}

}  // namespace dryout::readings
