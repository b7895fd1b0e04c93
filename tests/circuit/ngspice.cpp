#include "ngspice.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <numeric>
#include <sstream>
#include <vector>

namespace dryout::circuit {
namespace {

std::string text(double value) {
  char digits[40];
  std::snprintf(digits, sizeof digits, "%.17g", value);
  return digits;
}

/// Writes one netlist as a deck. Every galvanic island is tied to ground at one node, which
/// carries no current and so changes nothing.
class Deck {
 public:
  Deck(const Netlist& netlist, NodePair probe) {
    island_.resize(netlist.nodes.size());
    std::iota(island_.begin(), island_.end(), std::size_t{0});
    for (const Element& element : netlist.elements) {
      join(element.nodes);
    }
    for (const Transformer& transformer : netlist.transformers) {
      for (const Winding& winding : transformer.windings) {
        join(winding.nodes);
      }
    }
    grounded_.assign(netlist.nodes.size(), false);
    grounded_[probe.to] = true;
    for (std::size_t n = 0; n < island_.size(); ++n) {
      if (island_[n] == n && island_[probe.to] != n) {
        grounded_[n] = true;
      }
    }
    line("Itest 0 " + node(probe.from) + " dc 0 ac 1");
    for (const Element& element : netlist.elements) {
      write(element);
    }
    for (const Transformer& transformer : netlist.transformers) {
      transformer.ideal ? write_ideal(transformer) : write_coupled(transformer);
    }
  }

  [[nodiscard]] std::string analysed_at(double frequency, NodePair probe) {
    const std::string at = node(probe.from);
    return "network\n" + body_.str() + ".control\nset numdgt=15\nac lin 1 " + text(frequency) +
           " " + text(frequency) + "\nlet re = real(v(" + at + "))\nlet im = imag(v(" + at +
           "))\nprint re\nprint im\n.endc\n.end\n";
  }

 private:
  void join(NodePair nodes) {
    const std::size_t from = island_[nodes.from];
    const std::size_t to = island_[nodes.to];
    for (std::size_t& island : island_) {
      island = island == from ? to : island;
    }
  }
  [[nodiscard]] std::string node(std::size_t n) const {
    return grounded_[n] ? "0" : "n" + std::to_string(n);
  }
  std::string fresh() { return "x" + std::to_string(++fresh_); }
  void line(const std::string& text_line) { body_ << text_line << '\n'; }

  /// A chain of parts from one node to another, leaving out what is zero.
  void chain(std::string from, const std::string& to,
             const std::vector<std::pair<char, double>>& parts) {
    std::vector<std::pair<char, double>> real;
    for (const auto& part : parts) {
      if (part.second != 0.0) {
        real.push_back(part);
      }
    }
    for (std::size_t i = 0; i < real.size(); ++i) {
      const std::string next = i + 1 == real.size() ? to : fresh();
      line(std::string(1, real[i].first) + fresh() + " " + from + " " + next + " " +
           text(real[i].second));
      from = next;
    }
  }
  void write(const Element& element) {
    chain(
        node(element.nodes.from), node(element.nodes.to),
        {{'R', element.resistance_ohm}, {'L', element.inductance_H}, {'C', element.capacitance_F}});
  }

  void write_coupled(const Transformer& transformer) {
    std::vector<std::string> coils;
    for (const Winding& winding : transformer.windings) {
      const std::string inner = fresh();
      coils.push_back("L" + fresh());
      line("R" + fresh() + " " + node(winding.nodes.from) + " " + inner + " " +
           text(winding.resistance_ohm));
      line(coils.back() + " " + inner + " " + node(winding.nodes.to) + " " +
           text(winding.inductance_H));
    }
    for (std::size_t i = 0; i < coils.size(); ++i) {
      for (std::size_t k = i + 1; k < coils.size(); ++k) {
        line("K" + fresh() + " " + coils[i] + " " + coils[k] + " " + text(transformer.coupling));
      }
    }
  }

  /// First winding: takes the current that the others ask for; the others: sources of its volts.
  void write_ideal(const Transformer& transformer) {
    const Winding& first = transformer.windings.front();
    const std::string inner = fresh();
    const std::string to = node(first.nodes.to);
    line("R" + fresh() + " " + node(first.nodes.from) + " " + inner + " " +
         text(first.resistance_ohm));
    for (std::size_t i = 1; i < transformer.windings.size(); ++i) {
      const Winding& other = transformer.windings[i];
      const std::string ratio = text(other.turns / first.turns);
      const std::string outer = fresh();
      const std::string sensed = fresh();
      const std::string sense = "V" + fresh();
      line("R" + fresh() + " " + node(other.nodes.from) + " " + outer + " " +
           text(other.resistance_ohm));
      line(sense + " " + outer + " " + sensed + " dc 0");
      line("E" + fresh() + " " + sensed + " " + node(other.nodes.to) + " " + inner + " " + to +
           " " + ratio);
      // i1 = -sum (n_k / n_1) i_k
      line("F" + fresh() + " " + to + " " + inner + " " + sense + " " + ratio);
    }
  }

  std::vector<std::size_t> island_;
  std::vector<bool> grounded_;
  std::ostringstream body_;
  int fresh_ = 0;
};

}  // namespace

std::map<std::string, double> run_ngspice(const std::string& deck) {
  const std::string path = (std::filesystem::temp_directory_path() /
                            ("dryout-deck-" + std::to_string(::getpid()) + ".cir"))
                               .string();
  std::ofstream(path) << deck;
  std::map<std::string, double> numbers;
  std::FILE* pipe = ::popen(("ngspice -b " + path + " 2>/dev/null").c_str(), "r");
  if (pipe == nullptr) {
    ADD_FAILURE() << "ngspice can't be started; it is a test dependency";
    return numbers;
  }
  char line[512];
  while (std::fgets(line, sizeof line, pipe) != nullptr) {
    char name[128];
    double value = 0.0;
    if (std::sscanf(line, "%127s = %lf", name, &value) == 2) {
      numbers[name] = value;
    }
  }
  ::pclose(pipe);
  std::filesystem::remove(path);
  EXPECT_FALSE(numbers.empty()) << "ngspice (a test dependency) answered nothing to:\n" << deck;
  return numbers;
}

std::complex<double> ngspice_impedance(const Netlist& netlist, quantities::Hertz frequency,
                                       NodePair probe) {
  const auto numbers = run_ngspice(Deck(netlist, probe).analysed_at(frequency.si(), probe));
  const auto re = numbers.find("re");
  const auto im = numbers.find("im");
  if (re == numbers.end() || im == numbers.end()) {
    ADD_FAILURE() << "ngspice printed no impedance";
    return {};
  }
  return {re->second, im->second};
}

}  // namespace dryout::circuit
