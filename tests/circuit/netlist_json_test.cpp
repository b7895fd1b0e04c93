#include "circuit/netlist_json.h"

#include <gtest/gtest.h>

namespace dryout::circuit {
namespace {

std::string refusal(const std::string& text) {
  const auto document = documents::parse(text, "n.json");
  if (!document) {
    return describe(document.problems());
  }
  const auto file = read_netlist(*document);
  return file.ok() ? "accepted" : describe(file.problems());
}

/// A valid file with one piece replaced.
std::string altered(const std::string& piece = {}, const std::string& by = {}) {
  std::string text = R"({ "frequency_Hz":100000, "probe":["a","b"], "meter":"impedance",
  "elements":[ {"id":"C1","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-5,"esr_ohm":4.5},
               {"id":"R1","kind":"resistor","nodes":["a","b"],"resistance_ohm":100},
               {"id":"L1","kind":"inductor","nodes":["b","c"],"inductance_H":1e-3},
               {"id":"T1","kind":"transformer","coupling":0.95,"windings":[
                  {"nodes":["b","c"],"inductance_H":1e-3,"resistance_ohm":1},
                  {"nodes":["d","e"],"inductance_H":1e-2}]},
               {"id":"T2","kind":"ideal-transformer","windings":[
                  {"nodes":["d","e"],"turns":10},{"nodes":["f","g"],"turns":1}]},
               {"id":"R2","kind":"resistor","nodes":["f","g"],"resistance_ohm":8} ],
  "target":"C1", "limit_ohm":3.0 })";
  if (!piece.empty()) {
    const auto at = text.find(piece);
    EXPECT_NE(at, std::string::npos) << piece;
    text.replace(at, piece.size(), by);
  }
  return text;
}

TEST(NetlistJson, ReadsEveryKindOfElement) {
  const auto document = documents::parse(altered(), "n.json");
  ASSERT_TRUE(document.ok());
  const auto file = read_netlist(*document);
  ASSERT_TRUE(file.ok()) << describe(file.problems());
  EXPECT_EQ(file->netlist.elements.size(), 4U);
  EXPECT_EQ(file->netlist.transformers.size(), 2U);
  EXPECT_EQ(file->netlist.nodes.size(), 7U);
  EXPECT_EQ(file->point.target, 0U);
  EXPECT_TRUE(answer_in_circuit(file->netlist, file->point).ok());
}

TEST(NetlistJson, SaysWhatIsWrongAndWhere) {
  const struct {
    const char *piece, *by, *said;
  } cases[] = {
      {"\"probe\":[\"a\",\"b\"]", "\"probe\":[\"a\",\"z\"]", "no element touches"},
      {"\"probe\":[\"a\",\"b\"]", "\"probe\":[\"a\"]", "two nodes"},
      {"\"target\":\"C1\"", "\"target\":\"R1\"", "no capacitor"},
      {"\"id\":\"R1\"", "\"id\":\"C1\"", "used twice"},
      {"\"resistance_ohm\":100", "\"resistance_ohm\":-100", "-100"},
      {"\"capacitance_F\":1e-5", "\"capacitance_uF\":10", "capacitance_F"},
      {"\"frequency_Hz\":100000", "\"frequency_Hz\":0", "frequency_Hz"},
      {"\"coupling\":0.95", "\"coupling\":1.2", "1.2"},
      {"\"kind\":\"inductor\"", "\"kind\":\"coil\"", "coil"},
      {"{\"nodes\":[\"f\",\"g\"],\"turns\":1}", "", ""},
      {"\"nodes\":[\"f\",\"g\"],\"turns\":1", "\"nodes\":[\"f\"],\"turns\":1", "two nodes"},
      {"\"meter\":\"impedance\"", "\"meter\":\"phase\"", "phase"},
      {"\"limit_ohm\":3.0", "\"limit_ohm\":0", "limit_ohm"},
  };
  for (const auto& wrong : cases) {
    const std::string said = refusal(altered(wrong.piece, wrong.by));
    EXPECT_NE(said, "accepted") << wrong.by;
    EXPECT_NE(said.find(wrong.said), std::string::npos) << said;
    EXPECT_NE(said.find("n.json"), std::string::npos) << said;
  }
}

TEST(NetlistJson, WritesInfinityAsNull) {
  const auto document = documents::parse(
      R"({"frequency_Hz":1e5,"probe":["a","b"],"target":"C1","limit_ohm":3,
          "elements":[{"id":"C1","kind":"capacitor","nodes":["a","b"],"capacitance_F":1e-5}]})",
      "n.json");
  ASSERT_TRUE(document.ok());
  const auto file = read_netlist(*document);
  ASSERT_TRUE(file.ok());
  const auto answer = answer_in_circuit(file->netlist, file->point, 4.5);
  ASSERT_TRUE(answer.ok());
  const documents::Value json = to_json(*answer);
  EXPECT_TRUE(json.find("reading_if_open_ohm")->is_null());
  EXPECT_EQ(*json.find("masked")->boolean(), false);
  EXPECT_NEAR(*json.find("esr_from_reading")->number(), 4.497, 1e-3);
}

}  // namespace
}  // namespace dryout::circuit
