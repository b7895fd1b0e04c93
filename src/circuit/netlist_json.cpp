#include "circuit/netlist_json.h"

#include <map>
#include <set>

#include "documents/reader.h"
#include "quantities/measure.h"

namespace dryout::circuit {

using documents::Reader;
using documents::Value;
using quantities::Problems;
using quantities::Result;

namespace {

using quantities::Measure;

// Values beyond these are slips of the hand, and would only cost digits.
documents::Range range_in(Measure measure) {
  const quantities::PhysicalRange& range = quantities::range_of(measure);
  return {.min = range.least, .max = range.most};
}
const documents::Range any_resistance = range_in(Measure::circuit_resistance);
const documents::Range any_inductance = range_in(Measure::circuit_inductance);
const documents::Range any_capacitance = range_in(Measure::circuit_capacitance);
constexpr documents::Range any_turns{.max = 1e6, .above = 0.0};
const documents::Range any_frequency = range_in(Measure::circuit_frequency);

constexpr std::size_t elements_max = 20000;

void complain_at(const Reader& holder, std::string_view key, std::string message,
                 std::string accepted, std::optional<std::string> found = {}) {
  if (const auto member = holder.optional_member(key)) {
    member->complain(std::move(message), std::move(accepted), std::move(found));
  }
}

class NetlistReader {
 public:
  NetlistReader(const documents::Document& document, Problems& problems)
      : root_(document, problems) {}

  NetlistFile read() {
    root_.accept_only({"frequency_Hz", "probe", "meter", "elements", "target", "limit_ohm"});
    file_.point.frequency = quantities::hertz(root_.number("frequency_Hz", any_frequency));
    if (root_.has("meter")) {
      file_.point.shows = root_.one_of("meter", {"impedance", "resistance"}) == 0
                              ? MeterShows::impedance
                              : MeterShows::resistance;
    }
    root_.for_each("elements", [this](const Reader& element) { read_element(element); });
    if (file_.netlist.elements.size() > elements_max) {
      root_.complain("too many elements", "at most 20000");
    }
    read_probe();
    read_target();
    file_.point.limit_ohm = root_.optional_number("limit_ohm", {.max = 1e15, .above = 0.0});
    return std::move(file_);
  }

 private:
  std::size_t node(const std::string& name) {
    const auto [at, is_new] = numbers_.try_emplace(name, file_.netlist.nodes.size());
    if (is_new) {
      file_.netlist.nodes.push_back(name);
    }
    return at->second;
  }

  NodePair node_pair(const Reader& holder) {
    const std::vector<std::string> names = holder.texts("nodes");
    if (names.size() != 2) {
      if (holder.has("nodes")) {
        complain_at(holder, "nodes", "two nodes are needed", "[\"from\", \"to\"]");
      }
      return {};
    }
    return {node(names[0]), node(names[1])};
  }

  void read_element(const Reader& element) {
    const std::string id = element.id("id");
    if (!id.empty() && !ids_.insert(id).second) {
      element.complain("this id is used twice", "a different id for each element", id);
    }
    const std::size_t kind = element.one_of(
        "kind", {"resistor", "inductor", "capacitor", "transformer", "ideal-transformer"});
    kind >= 3 ? read_transformer(element, id, kind == 4) : read_two_ended(element, id, kind);
  }

  void read_two_ended(const Reader& element, const std::string& id, std::size_t kind) {
    Element part{.id = id, .nodes = node_pair(element)};
    if (kind == 0) {
      element.accept_only({"id", "kind", "nodes", "resistance_ohm"});
      part.kind = Element::Kind::resistor;
      part.resistance_ohm = element.number("resistance_ohm", any_resistance);
    } else if (kind == 1) {
      element.accept_only({"id", "kind", "nodes", "inductance_H", "resistance_ohm"});
      part.kind = Element::Kind::inductor;
      part.inductance_H = element.number("inductance_H", any_inductance);
      part.resistance_ohm = element.optional_number("resistance_ohm", any_resistance).value_or(0.0);
    } else {
      element.accept_only({"id", "kind", "nodes", "capacitance_F", "esr_ohm", "esl_H"});
      part.kind = Element::Kind::capacitor;
      part.capacitance_F = element.number("capacitance_F", any_capacitance);
      part.resistance_ohm = element.optional_number("esr_ohm", any_resistance).value_or(0.0);
      part.inductance_H = element.optional_number("esl_H", any_inductance).value_or(0.0);
    }
    file_.netlist.elements.push_back(std::move(part));
  }

  void read_transformer(const Reader& element, const std::string& id, bool ideal) {
    Transformer transformer;
    transformer.id = id;
    transformer.ideal = ideal;
    if (ideal) {
      element.accept_only({"id", "kind", "windings"});
    } else {
      element.accept_only({"id", "kind", "windings", "coupling"});
      transformer.coupling = element.number("coupling", {.min = 0.0, .max = 1.0});
    }
    element.for_each("windings", [&](const Reader& winding) {
      transformer.windings.push_back(read_winding(winding, ideal));
    });
    if (transformer.windings.size() < 2) {
      element.complain("a transformer has at least two windings", "two or more", id);
      return;
    }
    file_.netlist.transformers.push_back(std::move(transformer));
  }

  Winding read_winding(const Reader& reader, bool ideal) {
    Winding winding{.nodes = node_pair(reader)};
    if (ideal) {
      reader.accept_only({"nodes", "turns", "resistance_ohm"});
      winding.turns = reader.number("turns", any_turns);
    } else {
      reader.accept_only({"nodes", "inductance_H", "resistance_ohm"});
      winding.inductance_H = reader.number("inductance_H", any_inductance);
    }
    winding.resistance_ohm = reader.optional_number("resistance_ohm", any_resistance).value_or(0.0);
    return winding;
  }

  void read_probe() {
    const std::vector<std::string> names = root_.texts("probe");
    if (names.size() != 2) {
      if (root_.has("probe")) {
        complain_at(root_, "probe", "a probe pair is two nodes", "[\"a\", \"b\"]");
      }
      return;
    }
    for (const std::string& name : names) {
      if (numbers_.find(name) == numbers_.end()) {
        complain_at(root_, "probe", "no element touches this node", "a node named by an element",
                    name);
        return;
      }
    }
    file_.point.probe = {node(names[0]), node(names[1])};
  }

  void read_target() {
    const auto id = root_.optional_text("target");
    if (!id) {
      return;
    }
    const auto& elements = file_.netlist.elements;
    for (std::size_t e = 0; e < elements.size(); ++e) {
      if (elements[e].id == *id && elements[e].kind == Element::Kind::capacitor &&
          elements[e].capacitance_F > 0.0) {
        file_.point.target = e;
        return;
      }
    }
    complain_at(root_, "target", "the target is no capacitor of this netlist",
                "the id of a capacitor above 0 F");
  }

  Reader root_;
  NetlistFile file_;
  std::map<std::string, std::size_t> numbers_;  // of the nodes
  std::set<std::string> ids_;
};

Value or_null(const std::optional<double>& number) { return number ? Value(*number) : Value(); }

}  // namespace

Result<NetlistFile> read_netlist(const documents::Document& document) {
  Problems problems;
  NetlistFile file = NetlistReader(document, problems).read();
  if (!problems.empty()) {
    return problems;
  }
  return file;
}

Value to_json(const InCircuitAnswer& answer) {
  Value json = Value::object();
  json.set("z_real_ohm", answer.z ? Value(answer.z->real()) : Value());
  json.set("z_imag_ohm", answer.z ? Value(answer.z->imag()) : Value());
  json.set("reading_ohm", or_null(answer.reading));
  if (answer.about_target) {
    json.set("reading_at_limit_ohm", or_null(answer.reading_at_limit));
    json.set("reading_if_open_ohm", or_null(answer.reading_if_open));
    json.set("ceiling_ohm", or_null(answer.ceiling));
    json.set("masked", answer.masked ? Value(*answer.masked) : Value());
  }
  if (answer.inverted_reading) {
    json.set("esr_from_reading",
             answer.esr_solutions.empty() ? Value() : Value(answer.esr_solutions.front()));
    Value all = Value::array();
    for (const double esr : answer.esr_solutions) {
      all.append(esr);
    }
    json.set("esr_solutions", std::move(all));
    json.set("esr_remark", answer.esr_remark);
  }
  return json;
}

}  // namespace dryout::circuit
