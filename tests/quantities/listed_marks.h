// Prints as they stand on parts, each with what an old hand reads there. Written before the reader
// was asked (28 November 2026); the first score stands in DEVELOPERS.md.
//
// Sources, none of which was opened for this list: "60062" the value, tolerance and rated-voltage
// codes of IEC 60062, from memory; "198" the temperature and two-character codes of EIA-198, from
// memory; "sheet" a letter that makers' sheets print (Nichicon UCD: j A C E V H; KEMET A750: 0J 1A
// 1C 1E); "colours" the colour codes of EIA, JAN and RMA parts, from memory; "mil" MIL-PRF-39003,
// MIL-C-5 and MIL-C-11015 part numbers, from memory; "practice" common practice, no source.
#pragma once

namespace dryout::quantities {

struct ListedMark {
  const char* print;
  const char* part;  ///< what it stands on: can, tantalum, ceramic, film, mica, paper, backup, any
  double capacitance;  ///< F, of the first section
  double volts;        ///< 0 = none
  double plus;         ///< relative tolerance upwards, 0 = none
  int sections;        ///< 1 where the part is single
  const char* source;
};

constexpr ListedMark listed_marks[] = {
    // Three figures.
    {"104", "ceramic", 100e-9, 0, 0, 1, "60062"},
    {"473K", "film", 47e-9, 0, 0.10, 1, "60062"},
    {"222M", "ceramic", 2.2e-9, 0, 0.20, 1, "60062"},
    {"682J 100", "film", 6.8e-9, 100, 0.05, 1, "60062"},
    {"220J", "ceramic", 22e-12, 0, 0.05, 1, "60062"},
    {"151", "ceramic", 150e-12, 0, 0, 1, "60062"},
    {"229", "ceramic", 2.2e-12, 0, 0, 1, "60062"},
    {"106 16V K", "any", 10e-6, 16, 0.10, 1, "60062"},
    {"476", "tantalum", 47e-6, 0, 0, 1, "60062"},
    {"107", "tantalum", 100e-6, 0, 0, 1, "60062"},
    {"226 25K", "tantalum", 22e-6, 25, 0.10, 1, "60062"},
    {"475 35", "tantalum", 4.7e-6, 35, 0, 1, "60062"},
    {"335K 20V", "tantalum", 3.3e-6, 20, 0.10, 1, "60062"},
    {"105", "film", 1e-6, 0, 0, 1, "60062"},
    {"2E104K", "film", 100e-9, 250, 0.10, 1, "60062"},
    {"2J332J", "film", 3.3e-9, 630, 0.05, 1, "60062"},
    {"3A102K", "ceramic", 1e-9, 1000, 0.10, 1, "60062"},
    {"1H103M", "ceramic", 10e-9, 50, 0.20, 1, "60062"},
    {"104Z 50V", "ceramic", 100e-9, 50, 0.80, 1, "60062"},
    {"102K 1KV", "ceramic", 1e-9, 1000, 0.10, 1, "60062"},
    {"104M 250~ X2", "film", 100e-9, 250, 0.20, 1, "60062"},
    {"472M Z5U 1KV", "ceramic", 4.7e-9, 1000, 0.20, 1, "198"},
    {"103 X7R", "ceramic", 10e-9, 0, 0, 1, "198"},
    {"101J N750", "ceramic", 100e-12, 0, 0.05, 1, "198"},
    {"47J NP0", "ceramic", 47e-12, 0, 0.05, 1, "198"},
    {"102J C0G 100V", "ceramic", 1e-9, 100, 0.05, 1, "198"},
    {"A5", "ceramic", 100e-9, 0, 0, 1, "198"},
    {"S3", "ceramic", 4.7e-9, 0, 0, 1, "198"},
    // A letter in the place of the point.
    {"4n7 J 400", "film", 4.7e-9, 400, 0.05, 1, "60062"},
    {"n47", "any", 0.47e-9, 0, 0, 1, "60062"},
    {"R47", "film", 0.47e-6, 0, 0, 1, "practice"},
    {"p56", "ceramic", 0.56e-12, 0, 0, 1, "60062"},
    {"4p7", "ceramic", 4.7e-12, 0, 0, 1, "60062"},
    {"47n", "film", 47e-9, 0, 0, 1, "60062"},
    {"u47 K 63", "film", 0.47e-6, 63, 0.10, 1, "60062"},
    {"\u00b515 J 100", "film", 0.15e-6, 100, 0.05, 1, "60062"},
    {"2u2 M 35", "tantalum", 2.2e-6, 35, 0.20, 1, "60062"},
    {"1n5F", "film", 1.5e-9, 0, 0.01, 1, "60062"},
    {"220n K 250", "film", 220e-9, 250, 0.10, 1, "60062"},
    {"4K7", "ceramic", 4.7e-9, 0, 0, 1, "practice"},
    {"8R2D", "ceramic", 8.2e-12, 0, 0, 1, "60062"},
    {"100n", "any", 100e-9, 0, 0, 1, "60062"},
    {"1m0 40V", "can", 1000e-6, 40, 0, 1, "60062"},
    // Units written out, today's and yesterday's.
    {"2200 pF", "any", 2.2e-9, 0, 0, 1, "practice"},
    {"5000 \u00b5\u00b5F", "any", 5e-9, 0, 0, 1, "practice"},
    {"100 mmfd", "mica", 100e-12, 0, 0, 1, "practice"},
    {".05 MFD 400 VDC", "paper", 0.05e-6, 400, 0, 1, "practice"},
    {"0.1 mfd 600 W.V.D.C.", "paper", 0.1e-6, 600, 0, 1, "practice"},
    {"8 mF 450 V", "can", 8e-6, 450, 0, 1, "practice"},
    {"25MF 25V", "can", 25e-6, 25, 0, 1, "practice"},
    {"50 MMF", "mica", 50e-12, 0, 0, 1, "practice"},
    {"250 uuf", "mica", 250e-12, 0, 0, 1, "practice"},
    {"8uF", "can", 8e-6, 0, 0, 1, "practice"},
    {"100uF", "can", 100e-6, 0, 0, 1, "practice"},
    {"470\u00b5F 25V", "can", 470e-6, 25, 0, 1, "practice"},
    {"10000\u00b5F 63V", "can", 10000e-6, 63, 0, 1, "practice"},
    {"0.1F 5.5V", "any", 0.1, 5.5, 0, 1, "practice"},
    {"1F 5.5V", "backup", 1.0, 5.5, 0, 1, "practice"},
    {"0.047F 5.5V", "backup", 0.047, 5.5, 0, 1, "practice"},
    {"0.33 uF 630V", "film", 0.33e-6, 630, 0, 1, "practice"},
    {"68 nF", "film", 68e-9, 0, 0, 1, "practice"},
    {"0.022uF \u00b110% 400V", "film", 0.022e-6, 400, 0.10, 1, "practice"},
    {"2000 \u00b5F -10+50% 40V", "can", 2000e-6, 40, 0.50, 1, "practice"},
    // A figure alone, or with its volts.
    {"47/16", "can", 47e-6, 16, 0, 1, "practice"},
    {"47 16V", "any", 47e-6, 16, 0, 1, "practice"},
    {"100/25", "any", 100e-6, 25, 0, 1, "practice"},
    {"16/450", "can", 16e-6, 450, 0, 1, "practice"},
    {"2200/63", "can", 2200e-6, 63, 0, 1, "practice"},
    {"220 6V3", "can", 220e-6, 6.3, 0, 1, "60062"},
    {"100 16V", "tantalum", 100e-6, 16, 0, 1, "practice"},
    {"10 25+", "tantalum", 10e-6, 25, 0, 1, "practice"},
    {"0.1/400", "paper", 0.1e-6, 400, 0, 1, "practice"},
    {".047 630", "film", 0.047e-6, 630, 0, 1, "practice"},
    {".005", "ceramic", 5e-9, 0, 0, 1, "practice"},
    {".02 500V", "ceramic", 20e-9, 500, 0, 1, "practice"},
    {"330", "mica", 330e-12, 0, 0, 1, "practice"},
    {"4700", "ceramic", 4.7e-9, 0, 0, 1, "practice"},
    {"1000 500V", "mica", 1e-9, 500, 0, 1, "practice"},
    {"4,7 63V", "can", 4.7e-6, 63, 0, 1, "practice"},
    {"0,22", "film", 0.22e-6, 0, 0, 1, "practice"},
    {"1 50V BP", "can", 1e-6, 50, 0, 1, "practice"},
    {"22 35V 85\u00b0C 8512", "can", 22e-6, 35, 0, 1, "practice"},
    // Voltage letters.
    {"22 1E", "can", 22e-6, 25, 0, 1, "sheet"},
    {"100 0J", "can", 100e-6, 6.3, 0, 1, "sheet"},
    {"4.7 1H", "can", 4.7e-6, 50, 0, 1, "sheet"},
    {"33 2A", "can", 33e-6, 100, 0, 1, "sheet"},
    {"47 C", "can", 47e-6, 16, 0, 1, "sheet"},
    {"330 A", "can", 330e-6, 10, 0, 1, "sheet"},
    {"G107", "tantalum", 100e-6, 4, 0, 1, "practice"},
    {"D226", "tantalum", 22e-6, 20, 0, 1, "practice"},
    {"2W 10", "can", 10e-6, 450, 0, 1, "60062"},
    // Several sections in one can.
    {"40/20/20 450V", "can", 40e-6, 450, 0, 3, "practice"},
    {"50+50 350V", "can", 50e-6, 350, 0, 2, "practice"},
    {"32-32 uF 450V", "can", 32e-6, 450, 0, 2, "practice"},
    {"100+100+50/350", "can", 100e-6, 350, 0, 3, "practice"},
    {"2x50 450V", "can", 50e-6, 450, 0, 2, "practice"},
    {"8+8 MFD 450 VDC", "can", 8e-6, 450, 0, 2, "practice"},
    {"40/450 20/25", "can", 40e-6, 450, 0, 2, "practice"},
    {"16 uF 450/525 V", "can", 16e-6, 450, 0, 1, "practice"},
    // Colours.
    {"brown black orange", "any", 10e-9, 0, 0, 1, "colours"},
    {"yellow violet yellow white red", "film", 470e-9, 250, 0.10, 1, "colours"},
    {"brown black yellow black yellow", "film", 100e-9, 400, 0.20, 1, "colours"},
    {"red red brown", "mica", 220e-12, 0, 0, 1, "colours"},
    {"white red violet brown silver red", "mica", 270e-12, 0, 0.10, 1, "colours"},
    {"black brown black red gold orange", "mica", 1e-9, 0, 0.05, 1, "colours"},
    {"black brown green brown green", "ceramic", 150e-12, 0, 0.05, 1, "colours"},
    {"violet yellow violet black white", "ceramic", 47e-12, 0, 0.10, 1, "colours"},
    {"brown black yellow silver yellow", "paper", 100e-9, 400, 0.10, 1, "colours"},
    {"BN BK OG", "any", 10e-9, 0, 0, 1, "colours"},
    {"brown black white pink", "tantalum", 1e-6, 35, 0, 1, "colours"},
    {"yellow violet black green", "tantalum", 47e-6, 16, 0, 1, "colours"},
    // Part numbers that hold the value.
    {"CSR13E106KM", "tantalum", 10e-6, 20, 0.10, 1, "mil"},
    {"CM05FD151J03", "mica", 150e-12, 500, 0.05, 1, "mil"},
    {"CK05BX104K", "ceramic", 100e-9, 0, 0.10, 1, "mil"},
    {"CM06E102J", "mica", 1e-9, 0, 0.05, 1, "mil"},
};

}  // namespace dryout::quantities
