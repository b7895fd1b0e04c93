// Prints of several capacitors in one body, of a times sign, of volts behind a stroke and of
// thousands behind a comma, each with what an old hand reads there. The first list is what
// strangers found misread; the second was written on 28 November 2026 before the reader was asked
// for any of it and before these kinds were mended; its first score stands in block_marks_test.cpp.
//
// All of it is common practice, no source, but the voltage and value codes: IEC 60062, from memory.
// Classes X and Y: IEC 60384-14, from memory.
#pragma once

#include <vector>

#include "quantities/part_marking.h"

namespace dryout::quantities {

struct BlockMark {
  const char* print;
  Body body;
  int year;                          ///< 0 = not known
  std::vector<double> capacitances;  ///< F
  double volts;
  bool alternating;
  const char* classes;       ///< "", "X", "Y", "XY": what the remarks must name, and nothing else
  double alternative = 0.0;  ///< F: a further reading must have it first; 0 = any
};

inline const std::vector<BlockMark>& blocks_found_wrong() {
  static const std::vector<BlockMark> marks{
      {".25 x 200 V", Body::unknown, 0, {0.25e-6}, 200, false, ""},
      {"0.05 x 600", Body::unknown, 0, {0.05e-6}, 600, false, ""},
      {"0.1 x 3", Body::unknown, 0, {0.1e-6, 0.1e-6, 0.1e-6}, 0, false, ""},
      {"2 x 2200p Y 250~", Body::unknown, 0, {2.2e-9, 2.2e-9}, 250, true, "Y"},
      {"0.1\u00b5 + 2 x 2500p 250~", Body::unknown, 0, {0.1e-6, 2.5e-9, 2.5e-9}, 250, true, "XY"},
      {"0.1 + 2x2500p 250~ XY", Body::unknown, 0, {0.1e-6, 2.5e-9, 2.5e-9}, 250, true, "XY"},
      {"0.47 F 5.5V", Body::unknown, 0, {0.47}, 5.5, false, ""},
      {"0.47 F 5.5V", Body::double_layer, 0, {0.47}, 5.5, false, ""},
      {"2G 473 J", Body::unknown, 0, {47e-9}, 400, false, ""},
      {"2J 104 K", Body::unknown, 0, {100e-9}, 630, false, ""},
      {"2J 104 K", Body::film, 0, {100e-9}, 630, false, ""},
      {"25/25", Body::unknown, 0, {25e-6}, 25, false, "", 25e-6},
      {"25/25", Body::electrolytic_can, 0, {25e-6}, 25, false, "", 25e-6},
      {"50/50", Body::unknown, 0, {50e-6}, 50, false, "", 50e-6},
      {"100/100", Body::unknown, 0, {100e-6}, 100, false, "", 100e-6},
      {"16/450", Body::unknown, 1950, {16e-6}, 450, false, "", 16e-12},
      {"16/450", Body::unknown, 0, {16e-6}, 450, false, "", 16e-12},
      {"8/450", Body::unknown, 1950, {8e-6}, 450, false, "", 8e-12},
      {"32/450", Body::unknown, 1950, {32e-6}, 450, false, "", 32e-12},
      {"50/500", Body::unknown, 1950, {50e-6}, 500, false, "", 50e-12},
      {"10,000\u00b5F 63V", Body::unknown, 0, {10000e-6}, 63, false, "", 10e-6},
      // What the first answers to odd prints showed.
      {"0.1\u00b5F x", Body::unknown, 0, {0.1e-6}, 0, false, ""},
      {"100 25V 8x12", Body::electrolytic_can, 0, {100e-6}, 25, false, ""},
      {"0.1\u00b5F X 250V 50Hz", Body::film, 0, {0.1e-6}, 250, true, "X"},
      {"2200\u00b5F 63V 100Hz", Body::electrolytic_can, 0, {2200e-6}, 63, false, ""},
      {"2200 F", Body::unknown, 0, {2.2e-9}, 0, false, ""},
      {"0.47 F 5.5V", Body::electrolytic_can, 0, {0.47}, 5.5, false, ""},
      {"100 450V", Body::unknown, 0, {100e-6}, 450, false, "", 10e-12},
      {"40/450 25/25", Body::electrolytic_can, 0, {40e-6, 25e-6}, 450, false, ""},
      {"10 + 25", Body::tantalum, 0, {10e-6}, 25, false, ""},
      {"2 x 100", Body::electrolytic_can, 0, {100e-6, 100e-6}, 0, false, "", 2e-6},
      {"47/16V", Body::electrolytic_can, 0, {47e-6}, 16, false, ""},
      {"0.1/250~", Body::film, 0, {0.1e-6}, 250, true, ""},
      {"4,700 pF", Body::unknown, 0, {4.7e-9}, 0, false, "", 4.7e-12},
      {"104 5.5V", Body::double_layer, 0, {0.1}, 5.5, false, ""},
  };
  return marks;
}

inline const std::vector<BlockMark>& further_blocks() {
  static const std::vector<BlockMark> marks{
      // A times sign between value and volts.
      {".5 X 400", Body::paper, 0, {0.5e-6}, 400, false, ""},
      {"0.02x1000", Body::unknown, 0, {0.02e-6}, 1000, false, ""},
      {"0,1 \u00d7 1500 V", Body::paper, 0, {0.1e-6}, 1500, false, ""},
      {"8 x 450", Body::electrolytic_can, 0, {8e-6}, 450, false, ""},
      {"4 MFD x 600 V", Body::paper, 0, {4e-6}, 600, false, ""},
      {"16x500 V", Body::electrolytic_can, 1948, {16e-6}, 500, false, ""},
      // ... between a count and a value, either way round.
      {"3 x .1 400V", Body::paper, 0, {0.1e-6, 0.1e-6, 0.1e-6}, 400, false, ""},
      {".25 x 2 600 V", Body::paper, 0, {0.25e-6, 0.25e-6}, 600, false, ""},
      {"2 x 8 \u00b5F 450 V", Body::electrolytic_can, 0, {8e-6, 8e-6}, 450, false, ""},
      {"2x50/350", Body::electrolytic_can, 0, {50e-6, 50e-6}, 350, false, ""},
      {"2x100n 63V", Body::film, 0, {100e-9, 100e-9}, 63, false, ""},
      {".1 x .1 x .1 600V", Body::paper, 0, {0.1e-6, 0.1e-6, 0.1e-6}, 600, false, ""},
      {"100\u00b5F 25V 8x12", Body::electrolytic_can, 0, {100e-6}, 25, false, ""},
      // Classes, where they are classes.
      {"0.1 X 250~", Body::film, 0, {0.1e-6}, 250, true, "X"},
      {"0.22 \u00b5F X2 275 V AC", Body::film, 0, {0.22e-6}, 275, true, "X"},
      {"2 x 0.1 X2 275~", Body::film, 0, {0.1e-6, 0.1e-6}, 275, true, "X"},
      {"4700p X1/Y2 250~", Body::ceramic, 0, {4.7e-9}, 250, true, "XY"},
      {"472M X1Y2 250VAC", Body::ceramic, 0, {4.7e-9}, 250, true, "XY"},
      {"0,22\u00b5F + 2x2500pF 250V~",
       Body::unknown,
       0,
       {0.22e-6, 2.5e-9, 2.5e-9},
       250,
       true,
       "XY"},
      {"2x3300p + 0.047\u00b5 250~", Body::unknown, 0, {3.3e-9, 3.3e-9, 0.047e-6}, 250, true, "XY"},
      {"0.1\u00b5F 2x2500pF 250~ XY", Body::unknown, 0, {0.1e-6, 2.5e-9, 2.5e-9}, 250, true, "XY"},
      // Units behind each value.
      {"8uF+16uF 450V", Body::electrolytic_can, 0, {8e-6, 16e-6}, 450, false, ""},
      {"0.1uF + 0.01uF 400V", Body::paper, 0, {0.1e-6, 0.01e-6}, 400, false, ""},
      // Farads with a blank.
      {"0.1 F 5.5 V", Body::unknown, 0, {0.1}, 5.5, false, ""},
      {"1 F 5.5V", Body::double_layer, 0, {1.0}, 5.5, false, ""},
      {"2200 F 63V", Body::film, 0, {2.2e-9}, 63, false, ""},
      {"473 F 100", Body::film, 0, {47e-9}, 100, false, ""},
      // Codes apart.
      {"2G 103 K", Body::film, 0, {10e-9}, 400, false, ""},
      {"1J 224 J", Body::film, 0, {220e-9}, 63, false, ""},
      {"473J 2J", Body::film, 0, {47e-9}, 630, false, ""},
      {"1K 4n7", Body::film, 0, {4.7e-9}, 80, false, ""},
      {"2D 682 M", Body::unknown, 0, {6.8e-9}, 200, false, ""},
      // Volts behind a stroke.
      {"10/10", Body::electrolytic_can, 0, {10e-6}, 10, false, "", 10e-6},
      {"8/8", Body::electrolytic_can, 0, {8e-6, 8e-6}, 0, false, ""},
      {"16/16 450V", Body::electrolytic_can, 0, {16e-6, 16e-6}, 450, false, ""},
      {"50/50 350V", Body::unknown, 0, {50e-6, 50e-6}, 350, false, ""},
      {"100/350", Body::unknown, 0, {100e-6}, 350, false, ""},
      {"4/600", Body::unknown, 1940, {4e-6}, 600, false, ""},
      {"1000/500", Body::ceramic, 0, {1e-9}, 500, false, ""},
      {"50/500", Body::mica, 0, {50e-12}, 500, false, ""},
      {"4700/630", Body::film, 0, {4.7e-9}, 630, false, ""},
      {"25/6", Body::unknown, 1958, {25e-6}, 6, false, ""},
      // Thousands behind a comma.
      {"4,700 MFD 50 VDC", Body::electrolytic_can, 0, {4700e-6}, 50, false, "", 4.7e-6},
      {"22,000\u00b5F 16V", Body::unknown, 0, {22000e-6}, 16, false, ""},
      {"100,000 \u00b5F 10V", Body::electrolytic_can, 0, {0.1}, 10, false, ""},
      {"0,100\u00b5F 250V", Body::film, 0, {0.1e-6}, 250, false, ""},
      {"2,2\u00b5F 63V", Body::film, 0, {2.2e-6}, 63, false, ""},
  };
  return marks;
}

/// Written when the kinds above were mended, before the reader was asked for any of it.
inline const std::vector<BlockMark>& third_blocks() {
  static const std::vector<BlockMark> marks{
      {".002 x 1600 VDC", Body::paper, 0, {2e-9}, 1600, false, ""},
      {"0,5 MF x 750 V", Body::paper, 0, {0.5e-6}, 750, false, ""},
      {"2 X .5 MFD 400 V.D.C.", Body::paper, 0, {0.5e-6, 0.5e-6}, 400, false, ""},
      {"3 x 0,1 \u00b5F 250 V-", Body::paper, 0, {0.1e-6, 0.1e-6, 0.1e-6}, 250, false, ""},
      {"2x16\u00b5F 350/385V", Body::electrolytic_can, 0, {16e-6, 16e-6}, 350, false, ""},
      {"32 x 350", Body::electrolytic_can, 0, {32e-6}, 350, false, ""},
      {"470n x 3", Body::film, 0, {470e-9, 470e-9, 470e-9}, 0, false, ""},
      {"0.1 MFD 250VAC X1", Body::film, 0, {0.1e-6}, 250, true, "X"},
      {"2x4n7 Y2 250~", Body::ceramic, 0, {4.7e-9, 4.7e-9}, 250, true, "Y"},
      {"0,1 X1 + 2 x 2,5n Y2 250~", Body::unknown, 0, {0.1e-6, 2.5e-9, 2.5e-9}, 250, true, "XY"},
      {"0,1\u00b5F (X) + 2x2500pF (Y) 250V~",
       Body::unknown,
       0,
       {0.1e-6, 2.5e-9, 2.5e-9},
       250,
       true,
       "XY"},
      {"XY 0.033 + 2 x 0.0025 250~", Body::unknown, 0, {0.033e-6, 2.5e-9, 2.5e-9}, 250, true, "XY"},
      {"0.1+2x0.005\u00b5F 250VAC", Body::unknown, 0, {0.1e-6, 5e-9, 5e-9}, 250, true, "XY"},
      {"0.022 F 5.5 V", Body::double_layer, 0, {0.022}, 5.5, false, ""},
      {"3.3 F 2.5V", Body::unknown, 0, {3.3}, 2.5, false, ""},
      {"2A 332 J", Body::film, 0, {3.3e-9}, 100, false, ""},
      {"1C 475 K", Body::ceramic, 0, {4.7e-6}, 16, false, ""},
      {"3D 102 K", Body::ceramic, 0, {1e-9}, 2000, false, ""},
      {"683 J 2G", Body::film, 0, {68e-9}, 400, false, ""},
      {"50/25", Body::unknown, 1960, {50e-6}, 25, false, ""},
      {"8/500", Body::unknown, 1938, {8e-6}, 500, false, "", 8e-12},
      {"47/400", Body::unknown, 0, {47e-6}, 400, false, "", 47e-12},
      {"32+32/450", Body::electrolytic_can, 0, {32e-6, 32e-6}, 450, false, ""},
      {"25/25V", Body::unknown, 0, {25e-6}, 25, false, ""},
      {"100/100/450", Body::electrolytic_can, 0, {100e-6, 100e-6}, 450, false, ""},
      {"6,800 uF 40V", Body::electrolytic_can, 0, {6800e-6}, 40, false, ""},
      {"10,000 MFD. 15 VDC", Body::electrolytic_can, 0, {10000e-6}, 15, false, ""},
      {"2,000 MMF 500V", Body::mica, 0, {2e-9}, 500, false, ""},
  };
  return marks;
}

}  // namespace dryout::quantities
