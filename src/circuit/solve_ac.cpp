#include "circuit/solve_ac.h"

#include <Eigen/Dense>
#include <Eigen/Sparse>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "quantities/check.h"

namespace dryout::circuit {
namespace {

using Complex = std::complex<double>;
using Vector = Eigen::VectorXcd;
using Triplets = std::vector<Eigen::Triplet<Complex>>;
using quantities::Problem;
using quantities::Result;

constexpr std::size_t not_an_unknown = static_cast<std::size_t>(-1);
constexpr double branch_below_ohm = 1e-3;  // as an admittance these would drown their neighbours
constexpr Eigen::Index dense_up_to = 60;
constexpr double residual_max = 1e-7;  // relative; a singular matrix leaves about 1

/// Sets of nodes that were joined.
class Joined {
 public:
  explicit Joined(std::size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }
  std::size_t root(std::size_t node) {
    while (parent_[node] != node) {
      node = parent_[node] = parent_[parent_[node]];
    }
    return node;
  }
  void join(NodePair nodes) { parent_[root(nodes.from)] = root(nodes.to); }

 private:
  std::vector<std::size_t> parent_;
};

bool is_open(Complex z) { return !std::isfinite(z.real()) || !std::isfinite(z.imag()); }

/// The matrix and where each node and branch current stands in it.
class System {
 public:
  System(const Netlist& netlist, double omega, const std::vector<std::size_t>& watched)
      : netlist_(netlist), omega_(omega), electrical_(netlist.nodes.size()) {
    join_shorted_nodes(watched);
    number_nodes();
    stamp_elements(watched);
    for (const Transformer& transformer : netlist_.transformers) {
      transformer.ideal ? stamp_ideal(transformer) : stamp_coupled(transformer);
    }
  }

  [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(unknowns_); }
  [[nodiscard]] const Triplets& entries() const { return entries_; }

  [[nodiscard]] Vector right_side(const Excitation& excitation,
                                  const std::vector<std::size_t>& watched) {
    Vector b = Vector::Zero(size());
    for (const Excitation::Current& current : excitation.currents) {
      push(b, current.nodes.from, current.ampere);
      push(b, current.nodes.to, -current.ampere);
    }
    for (const Excitation::SeriesVoltage& source : excitation.voltages) {
      const auto at = std::find(watched.begin(), watched.end(), source.element);
      CHECK(at != watched.end());
      b[index(watched_rows_[static_cast<std::size_t>(at - watched.begin())])] += source.volt;
    }
    return b;
  }

  [[nodiscard]] AcSolution read(const Vector& x) {
    AcSolution solution;
    for (std::size_t node = 0; node < netlist_.nodes.size(); ++node) {
      const std::size_t row = row_of(node);
      solution.node_volts.push_back(row == not_an_unknown ? Complex() : x[index(row)]);
    }
    for (const std::size_t row : watched_rows_) {
      solution.watched_amperes.push_back(x[index(row)]);
    }
    return solution;
  }

 private:
  static Eigen::Index index(std::size_t row) { return static_cast<Eigen::Index>(row); }
  std::size_t row_of(std::size_t node) { return node_rows_[electrical_.root(node)]; }

  void join_shorted_nodes(const std::vector<std::size_t>& watched) {
    for (std::size_t e = 0; e < netlist_.elements.size(); ++e) {
      const Element& element = netlist_.elements[e];
      const bool kept = std::find(watched.begin(), watched.end(), e) != watched.end();
      if (!kept && impedance(element) == Complex()) {
        electrical_.join(element.nodes);
      }
    }
  }

  /// One node of every galvanic island is its reference and gets no unknown.
  void number_nodes() {
    Joined islands(netlist_.nodes.size());
    for (const Element& element : netlist_.elements) {
      if (!is_open(impedance(element))) {
        islands.join(element.nodes);
      }
    }
    for (const Transformer& transformer : netlist_.transformers) {
      for (const Winding& winding : transformer.windings) {
        islands.join(winding.nodes);
      }
    }
    node_rows_.assign(netlist_.nodes.size(), not_an_unknown);
    for (std::size_t node = 0; node < netlist_.nodes.size(); ++node) {
      const std::size_t reference = electrical_.root(islands.root(node));
      if (electrical_.root(node) == node && node != reference) {
        node_rows_[node] = unknowns_++;
      }
    }
  }

  [[nodiscard]] Complex impedance(const Element& element) const {
    return impedance_of(element, quantities::hertz(omega_ / (2.0 * std::numbers::pi)));
  }

  void add(std::size_t row, std::size_t column, Complex value) {
    if (row != not_an_unknown && column != not_an_unknown) {
      entries_.emplace_back(static_cast<int>(row), static_cast<int>(column), value);
    }
  }
  void push(Vector& b, std::size_t node, double ampere) {
    if (const std::size_t row = row_of(node); row != not_an_unknown) {
      b[index(row)] += ampere;
    }
  }

  /// A branch current as an unknown, counted in at both of its nodes.
  std::size_t add_branch(NodePair nodes) {
    const std::size_t branch = unknowns_++;
    add(row_of(nodes.from), branch, 1.0);
    add(row_of(nodes.to), branch, -1.0);
    return branch;
  }
  void add_volts(std::size_t equation, NodePair nodes, double factor) {
    add(equation, row_of(nodes.from), factor);
    add(equation, row_of(nodes.to), -factor);
  }

  void stamp_elements(const std::vector<std::size_t>& watched) {
    watched_rows_.assign(watched.size(), not_an_unknown);
    for (std::size_t e = 0; e < netlist_.elements.size(); ++e) {
      const Element& element = netlist_.elements[e];
      const Complex z = impedance(element);
      const auto at = std::find(watched.begin(), watched.end(), e);
      if (at != watched.end()) {
        CHECK(!is_open(z));
        watched_rows_[static_cast<std::size_t>(at - watched.begin())] = stamp_branch(element, z);
      } else if (!is_open(z) && z != Complex()) {
        std::abs(z) < branch_below_ohm ? void(stamp_branch(element, z))
                                       : stamp_admittance(element, 1.0 / z);
      }
    }
  }
  std::size_t stamp_branch(const Element& element, Complex z) {
    const std::size_t branch = add_branch(element.nodes);
    add_volts(branch, element.nodes, 1.0);
    add(branch, branch, -z);
    return branch;
  }
  void stamp_admittance(const Element& element, Complex y) {
    const std::size_t from = row_of(element.nodes.from);
    const std::size_t to = row_of(element.nodes.to);
    add(from, from, y);
    add(to, to, y);
    add(from, to, -y);
    add(to, from, -y);
  }

  void stamp_coupled(const Transformer& transformer) {
    std::vector<std::size_t> branches;
    for (const Winding& winding : transformer.windings) {
      branches.push_back(add_branch(winding.nodes));
    }
    for (std::size_t i = 0; i < branches.size(); ++i) {
      const Winding& own = transformer.windings[i];
      add_volts(branches[i], own.nodes, 1.0);
      for (std::size_t k = 0; k < branches.size(); ++k) {
        const double other = transformer.windings[k].inductance_H;
        const double factor = i == k ? 1.0 : transformer.coupling;
        const double mutual = factor * std::sqrt(own.inductance_H * other);
        add(branches[i], branches[k], -Complex(i == k ? own.resistance_ohm : 0.0, omega_ * mutual));
      }
    }
  }

  /// First row: ampere-turns sum to zero. Others: volts behind the resistance go as turns.
  void stamp_ideal(const Transformer& transformer) {
    const Winding& first = transformer.windings.front();
    std::vector<std::size_t> branches;
    for (const Winding& winding : transformer.windings) {
      branches.push_back(add_branch(winding.nodes));
      add(branches.front(), branches.back(), winding.turns);
    }
    for (std::size_t i = 1; i < branches.size(); ++i) {
      const Winding& other = transformer.windings[i];
      const double ratio = other.turns / first.turns;
      add_volts(branches[i], other.nodes, 1.0);
      add(branches[i], branches[i], -other.resistance_ohm);
      add_volts(branches[i], first.nodes, -ratio);
      add(branches[i], branches.front(), ratio * first.resistance_ohm);
    }
  }

  const Netlist& netlist_;
  double omega_;
  Joined electrical_;
  std::vector<std::size_t> node_rows_;
  std::vector<std::size_t> watched_rows_;
  std::size_t unknowns_ = 0;
  Triplets entries_;
};

bool is_small(const Vector& residual, const Vector& b) {
  return residual.allFinite() && residual.norm() <= residual_max * b.norm();
}

template <class Matrix, class Solver>
bool solve_refined(const Matrix& matrix, const Solver& solver, const Vector& b, Vector& x) {
  x = solver.solve(b);
  x += solver.solve(b - matrix * x);
  return x.allFinite() && is_small(b - matrix * x, b);
}

/// False where the matrix is singular.
bool solve_all(const System& system, const std::vector<Vector>& right, std::vector<Vector>& x) {
  Eigen::SparseMatrix<Complex> sparse(system.size(), system.size());
  sparse.setFromTriplets(system.entries().begin(), system.entries().end());
  x.resize(right.size());
  bool good = true;
  if (system.size() <= dense_up_to) {
    const Eigen::MatrixXcd dense(sparse);
    const Eigen::PartialPivLU<Eigen::MatrixXcd> solver(dense);
    for (std::size_t i = 0; i < right.size(); ++i) {
      good = solve_refined(dense, solver, right[i], x[i]) && good;
    }
    return good;
  }
  sparse.makeCompressed();
  const Eigen::SparseLU<Eigen::SparseMatrix<Complex>> solver(sparse);
  if (solver.info() != Eigen::Success) {
    return false;
  }
  for (std::size_t i = 0; i < right.size(); ++i) {
    good = solve_refined(sparse, solver, right[i], x[i]) && good;
  }
  return good;
}

}  // namespace

Complex impedance_of(const Element& element, quantities::Hertz frequency) {
  const double omega = angular(frequency).radians_per_second();
  double reactance = omega * element.inductance_H;
  if (element.kind == Element::Kind::capacitor) {
    reactance -= 1.0 / (omega * element.capacitance_F);
  }
  return {element.resistance_ohm, reactance};
}

Result<std::vector<AcSolution>> solve_ac(const Netlist& netlist, quantities::Hertz frequency,
                                         const std::vector<Excitation>& excitations,
                                         const std::vector<std::size_t>& watched) {
  System system(netlist, angular(frequency).radians_per_second(), watched);
  std::vector<Vector> right;
  right.reserve(excitations.size());
  for (const Excitation& excitation : excitations) {
    right.push_back(system.right_side(excitation, watched));
  }
  std::vector<Vector> x(right.size(), Vector(0));
  if (system.size() > 0 && !solve_all(system, right, x)) {
    return Problem{"the network has no finite answer at this frequency",
                   {},
                   "a lossless resonance, a loop of perfect windings, or an ideal transformer "
                   "working into nothing",
                   "parts with some resistance"};
  }
  std::vector<AcSolution> solutions;
  solutions.reserve(x.size());
  for (const Vector& solution : x) {
    solutions.push_back(system.read(solution));
  }
  return solutions;
}

bool are_connected(const Netlist& netlist, NodePair nodes) {
  Joined islands(netlist.nodes.size());
  for (const Element& element : netlist.elements) {
    if (element.kind != Element::Kind::capacitor || element.capacitance_F > 0.0) {
      islands.join(element.nodes);
    }
  }
  for (const Transformer& transformer : netlist.transformers) {
    for (const Winding& winding : transformer.windings) {
      islands.join(winding.nodes);
    }
  }
  return islands.root(nodes.from) == islands.root(nodes.to);
}

Result<std::optional<Complex>> impedance_between(const Netlist& netlist,
                                                 quantities::Hertz frequency, NodePair nodes) {
  if (!are_connected(netlist, nodes)) {
    return std::optional<Complex>();
  }
  const auto solved = solve_ac(netlist, frequency, {Excitation{{{nodes, 1.0}}, {}}});
  if (!solved) {
    return solved.problems();
  }
  const std::vector<Complex>& volts = solved->front().node_volts;
  return std::optional<Complex>(volts[nodes.from] - volts[nodes.to]);
}

}  // namespace dryout::circuit
