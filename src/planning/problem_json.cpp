// The JSON form of a bare troubleshooting problem and of a plan for it (the file and the answer of
// `dryout plan`).
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "documents/reader.h"
#include "planning/plan.h"

namespace dryout::planning {
namespace {

using documents::Range;
using documents::Reader;
using documents::Value;
using quantities::Problems;

using Ids = std::map<std::string, std::size_t>;

/// Two years of minutes: keeps sums finite and catches slips of the pen.
constexpr Range any_minutes{.min = 0.0, .max = 1e6};
constexpr Range any_prior{.min = 0.0, .max = 1e9};
constexpr double row_sum_tolerance = 1e-6;

/// Enters an id, refusing a second of the same name.
void enter(const Reader& reader, Ids& ids, const std::string& id) {
  if (!ids.emplace(id, ids.size()).second) {
    reader.complain("this id is already taken", "an id of its own", id);
  }
}

/// Held before anything is read, so that a hostile file costs no more than its own length.
bool within_sizes(const Reader& root) {
  using Problem = TroubleshootingProblem;
  bool fits = true;
  for (const auto& [key, size_max] :
       {std::pair("faults", Problem::faults_max), std::pair("access", Problem::access_max),
        std::pair("repairs", Problem::repairs_max), std::pair("checks", Problem::checks_max)}) {
    const Value* list = root.value().find(key);
    const auto* elements = list == nullptr ? nullptr : list->array_elements();
    if (elements != nullptr && elements->size() > size_max) {
      root.complain(std::string("too many ") + key, "up to " + std::to_string(size_max),
                    std::to_string(elements->size()));
      fits = false;
    }
  }
  return fits;
}

/// The indices of named things; an unknown name is a problem.
std::vector<std::size_t> indices(const Reader& reader, const char* key, const Ids& ids,
                                 const char* what) {
  std::vector<std::size_t> found;
  for (const std::string& name : reader.optional_texts(key)) {
    if (const auto id = ids.find(name); id != ids.end()) {
      found.push_back(id->second);
    } else {
      reader.complain(std::string("\"") + key + "\" names something that is not listed",
                      std::string("the id of ") + what, quantities::excerpt(name));
    }
  }
  return found;
}

Ids read_faults(const Reader& root, TroubleshootingProblem& problem) {
  Ids ids;
  double total = 0.0;
  root.for_each("faults", [&](const Reader& fault) {
    fault.accept_only({"id", "prior"});
    problem.faults.push_back({fault.id("id"), fault.number("prior", any_prior)});
    enter(fault, ids, problem.faults.back().id);
    total += problem.faults.back().prior;
  });
  if (!(total > 0.0)) {
    root.complain("no fault is possible", "at least one fault with a prior above 0",
                  "priors that sum to 0");
  } else {
    for (Fault& fault : problem.faults) {
      fault.prior /= total;
    }
  }
  return ids;
}

/// Marks along the needs of one access; true where they lead back to one that is being followed.
bool leads_back(const std::vector<Access>& access, std::size_t at, std::vector<int>& marks) {
  constexpr int following = 1;
  constexpr int followed = 2;
  if (marks[at] != 0) {
    return marks[at] == following;
  }
  marks[at] = following;
  for (const std::size_t need : access[at].needs) {
    if (leads_back(access, need, marks)) {
      return true;
    }
  }
  marks[at] = followed;
  return false;
}

Ids read_access(const Reader& root, TroubleshootingProblem& problem) {
  Ids ids;
  root.for_each_optional("access", [&](const Reader& access) {
    access.accept_only({"id", "minutes", "needs"});
    problem.access.push_back({access.id("id"), access.number("minutes", any_minutes), {}});
    enter(access, ids, problem.access.back().id);
  });
  std::size_t at = 0;
  root.for_each_optional("access", [&](const Reader& access) {
    problem.access[at++].needs = indices(access, "needs", ids, "an access");
  });
  std::vector<int> marks(problem.access.size(), 0);
  for (std::size_t a = 0; a < problem.access.size(); ++a) {
    if (leads_back(problem.access, a, marks)) {
      root.complain("access steps need each other in a circle", "\"needs\" without a circle",
                    problem.access[a].id);
      break;
    }
  }
  return ids;
}

/// Ids of steps share one name space, because a policy names them by id alone.
void enter_step(const Reader& reader, Ids& steps, const std::string& id) {
  if (id == "give-up") {
    reader.complain("this id has a meaning of its own in a policy", "another id", id);
  }
  enter(reader, steps, id);
}

/// One row of `given`, rescaled to sum to 1.
std::vector<double> read_row(const Reader& given, const std::string& fault, std::size_t size) {
  std::vector<double> row = given.numbers(fault, documents::any_probability);
  double total = 0.0;
  for (const double p : row) {
    total += p;
  }
  if (row.size() != size || std::abs(total - 1.0) > row_sum_tolerance) {
    if (given.has(fault)) {
      given.complain("the row of " + fault + " is no distribution over the outcomes",
                     std::to_string(size) + " probabilities that sum to 1",
                     std::to_string(row.size()) + " numbers that sum to " + std::to_string(total));
    }
    return std::vector<double>(size, 1.0 / static_cast<double>(size));
  }
  for (double& p : row) {
    p /= total;
  }
  return row;
}

void read_outcomes(const Reader& reader, Check& check) {
  check.outcomes = reader.texts("outcomes");
  Ids seen;
  for (const std::string& outcome : check.outcomes) {
    enter(reader, seen, outcome);
  }
  if (check.outcomes.empty()) {
    reader.complain("a check without outcomes", "at least one outcome", "[]");
    check.outcomes.emplace_back("none");
  }
}

Check read_check(const Reader& reader, const Ids& faults, const Ids& access) {
  reader.accept_only({"id", "minutes", "access", "outcomes", "given"});
  Check check{reader.id("id"),
              reader.number("minutes", any_minutes),
              indices(reader, "access", access, "an access"),
              {},
              {}};
  read_outcomes(reader, check);
  const Reader given = reader.object("given");
  given.for_each_member([&](const std::string& fault, const Reader& row) {
    if (!faults.contains(fault)) {
      row.complain("\"given\" names a fault that is not listed", "the id of a fault",
                   quantities::excerpt(fault));
    }
  });
  check.given.resize(faults.size());
  for (const auto& [fault, index] : faults) {
    check.given[index] = read_row(given, fault, check.outcomes.size());
  }
  return check;
}

Value node(const TroubleshootingProblem& problem, const Step& step) {
  if (step.kind == Step::Kind::give_up) {
    return Value::object({{"do", "give-up"}});
  }
  const bool checks = step.kind == Step::Kind::check;
  Value then = Value::object();
  for (std::size_t slot = 0; slot < step.then.size(); ++slot) {
    then.set(checks ? problem.checks[step.index].outcomes[slot] : "still-faulty",
             step.then[slot] == nullptr ? Value() : node(problem, *step.then[slot]));
  }
  const auto& id = checks ? problem.checks[step.index].id : problem.repairs[step.index].id;
  return Value::object({{"do", id}, {"then", std::move(then)}});
}

}  // namespace

quantities::Result<TroubleshootingProblem> read_problem(const documents::Document& document) {
  Problems problems;
  const Reader root(document, problems);
  root.accept_only({"faults", "access", "repairs", "checks", "give_up_minutes"});
  if (!within_sizes(root)) {
    return problems;
  }
  TroubleshootingProblem problem;
  const Ids faults = read_faults(root, problem);
  const Ids access = read_access(root, problem);
  Ids steps;
  root.for_each("repairs", [&](const Reader& repair) {
    repair.accept_only({"id", "fixes", "minutes", "access"});
    problem.repairs.push_back({repair.id("id"), indices(repair, "fixes", faults, "a fault"),
                               repair.number("minutes", any_minutes),
                               indices(repair, "access", access, "an access")});
    enter_step(repair, steps, problem.repairs.back().id);
  });
  root.for_each_optional("checks", [&](const Reader& check) {
    problem.checks.push_back(read_check(check, faults, access));
    enter_step(check, steps, problem.checks.back().id);
  });
  problem.give_up_minutes = root.number("give_up_minutes", any_minutes);
  if (!problems.empty()) {
    return problems;
  }
  return problem;
}

documents::Value to_json(const TroubleshootingProblem& problem, const Plan& plan) {
  return Value::object(
      {{"expected_minutes", plan.expected_minutes}, {"policy", node(problem, *plan.first)}});
}

}  // namespace dryout::planning
