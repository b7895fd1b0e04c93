#include "diagnosis/network.h"

#include <cmath>
#include <unordered_set>

#include "quantities/printed_number.h"

namespace dryout::diagnosis {
namespace {

using quantities::Problems;

std::string shown(double x) { return quantities::significant_figures(x, 10); }

/// Collects problems; each names its place by JSON pointer, as in the file of a bare network.
class Checker {
 public:
  explicit Checker(Problems& problems) : problems_(problems) {}

  void complain(const std::string& pointer, std::string message, std::string found,
                std::string accepted) {
    problems_.push_back(
        {std::move(message), {"", 0, pointer}, std::move(found), std::move(accepted)});
  }

  void probability(const std::string& pointer, double p) {
    if (!(p >= 0.0 && p <= 1.0)) {
      complain(pointer, "probability out of range", shown(p), "0 to 1");
    }
  }

  void distribution(const std::string& pointer, const std::vector<double>& row) {
    constexpr double sum_tolerance = 1e-6;
    double sum = 0.0;
    for (std::size_t k = 0; k < row.size(); ++k) {
      probability(pointer + '/' + std::to_string(k), row[k]);
      sum += row[k];
    }
    if (!(std::abs(sum - 1.0) <= sum_tolerance)) {
      complain(pointer, "probabilities do not sum to 1", "a sum of " + shown(sum),
               "a sum of 1 within 1e-6");
    }
  }

  void likelihood(const std::string& pointer, double weight) {
    if (!(weight >= 0.0 && std::isfinite(weight))) {
      complain(pointer, "likelihood out of range", shown(weight), "0 or more");
    }
  }

  template <class Element>
  void unique_ids(const std::string& pointer, const std::vector<Element>& elements) {
    std::unordered_set<std::string> seen;
    for (std::size_t k = 0; k < elements.size(); ++k) {
      if (!seen.insert(elements[k].id).second) {
        complain(pointer + '/' + std::to_string(k) + "/id", "the id is taken already",
                 quantities::excerpt(elements[k].id), "an id that no other element has");
      }
    }
  }

  bool index(const std::string& pointer, std::size_t index, std::size_t size) {
    if (index >= size) {
      complain(pointer, "index out of range", std::to_string(index),
               "below " + std::to_string(size));
    }
    return index < size;
  }

 private:
  Problems& problems_;
};

void check_item(const Network& network, std::size_t i, Checker& checker) {
  const Item& item = network.items[i];
  const std::string pointer = "/items/" + std::to_string(i);
  if (item.states.size() < 2) {
    checker.complain(pointer + "/states", "too few states", std::to_string(item.states.size()),
                     "two or more, the sound one first");
  }
  std::unordered_set<std::string> seen;
  for (const std::string& state : item.states) {
    if (!seen.insert(state).second) {
      checker.complain(pointer + "/states", "a state is named twice", quantities::excerpt(state),
                       "different states");
    }
  }
  if (item.cohort && !checker.index(pointer + "/cohort", *item.cohort, network.cohorts.size())) {
    return;
  }
  const std::size_t rows = item.cohort ? network.cohorts[*item.cohort].levels.size() : 1;
  const std::string table = pointer + (item.cohort ? "/given_level" : "/prior");
  if (item.given_level.size() != rows) {
    checker.complain(table, "wrong number of rows", std::to_string(item.given_level.size()),
                     std::to_string(rows) + ", one per level of the cohort");
  }
  for (std::size_t row = 0; row < item.given_level.size(); ++row) {
    const std::string at = item.cohort ? table + '/' + std::to_string(row) : table;
    if (item.given_level[row].size() != item.states.size()) {
      checker.complain(at, "wrong number of probabilities",
                       std::to_string(item.given_level[row].size()),
                       std::to_string(item.states.size()) + ", one per state");
    } else {
      checker.distribution(at, item.given_level[row]);
    }
  }
}

void check_finding(const Network& network, std::size_t f, Checker& checker) {
  const Finding& finding = network.findings[f];
  const std::string pointer = "/findings/" + std::to_string(f);
  checker.probability(pointer + "/leak", finding.leak);
  for (std::size_t k = 0; k < finding.causes.size(); ++k) {
    const Cause& cause = finding.causes[k];
    const std::string at = pointer + "/causes/" + std::to_string(k);
    if (checker.index(at + "/item", cause.item, network.items.size())) {
      checker.index(at + "/state", cause.state, network.items[cause.item].states.size());
    }
    checker.probability(at + "/strength", cause.strength);
  }
}

void check_hard(const Network& network, const std::string& name,
                const std::vector<std::size_t>& findings, Checker& checker) {
  std::unordered_set<std::size_t> seen;
  for (std::size_t k = 0; k < findings.size(); ++k) {
    const std::string at = "/evidence/" + name + '/' + std::to_string(k);
    if (checker.index(at, findings[k], network.findings.size()) &&
        !seen.insert(findings[k]).second) {
      checker.complain(at, "the finding is named twice",
                       quantities::excerpt(network.findings[findings[k]].id), "each finding once");
    }
  }
}

void check_reading(const Network& network, const ItemReading& reading, const std::string& pointer,
                   Checker& checker) {
  if (!checker.index(pointer + "/item", reading.item, network.items.size())) {
    return;
  }
  const Item& item = network.items[reading.item];
  const std::string at = pointer + "/likelihood";
  if (reading.likelihood.size() != 1 && reading.likelihood.size() != item.given_level.size()) {
    checker.complain(at, "wrong number of rows", std::to_string(reading.likelihood.size()),
                     "1, or " + std::to_string(item.given_level.size()) +
                         ", one per level of the item's cohort");
  }
  for (const std::vector<double>& row : reading.likelihood) {
    if (row.size() != item.states.size()) {
      checker.complain(at, "wrong number of likelihoods", std::to_string(row.size()),
                       std::to_string(item.states.size()) + ", one per state");
    }
    for (const double weight : row) {
      checker.likelihood(at, weight);
    }
  }
}

}  // namespace

Problems check(const Network& network) {
  Problems problems;
  Checker checker(problems);
  checker.unique_ids("/cohorts", network.cohorts);
  checker.unique_ids("/items", network.items);
  checker.unique_ids("/findings", network.findings);
  for (std::size_t c = 0; c < network.cohorts.size(); ++c) {
    checker.distribution("/cohorts/" + std::to_string(c) + "/levels", network.cohorts[c].levels);
  }
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    check_item(network, i, checker);
  }
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    check_finding(network, f, checker);
  }
  return problems;
}

Problems check(const Network& network, const Evidence& evidence) {
  Problems problems;
  Checker checker(problems);
  check_hard(network, "present", evidence.present, checker);
  check_hard(network, "absent", evidence.absent, checker);
  for (std::size_t k = 0; k < evidence.soft.size(); ++k) {
    const SoftFinding& soft = evidence.soft[k];
    const std::string at = "/evidence/soft/" + std::to_string(k);
    checker.index(at + "/finding", soft.finding, network.findings.size());
    checker.likelihood(at + "/present", soft.if_present);
    checker.likelihood(at + "/absent", soft.if_absent);
  }
  for (std::size_t k = 0; k < evidence.readings.size(); ++k) {
    check_reading(network, evidence.readings[k], "/evidence/readings/" + std::to_string(k),
                  checker);
  }
  return problems;
}

}  // namespace dryout::diagnosis
