#include "diagnosis/network_json.h"

#include <algorithm>
#include <charconv>
#include <unordered_map>

#include "documents/reader.h"
#include "quantities/spelling.h"

namespace dryout::diagnosis {
namespace {

using documents::Document;
using documents::Reader;
using documents::Value;
using quantities::Problems;

/// Ids of one kind of element, in the order of the file.
class Ids {
 public:
  void add(const std::string& id) { index_of_.try_emplace(id, index_of_.size()); }

  /// The element that the member of `reader` names; complains and gives 0 where there is none.
  [[nodiscard]] std::size_t find(const Reader& reader, std::string_view key,
                                 std::string_view kind) const {
    const std::string id = reader.text(key);
    return id.empty() ? 0 : find(reader, id, key, kind);
  }

  [[nodiscard]] std::size_t find(const Reader& reader, const std::string& id, std::string_view key,
                                 std::string_view kind) const {
    const auto at = index_of_.find(id);
    if (at != index_of_.end()) {
      return at->second;
    }
    const auto nearest = nearest_id(id);
    reader.complain("\"" + std::string(key) + "\" names no " + std::string(kind),
                    nearest ? "did you mean \"" + *nearest + "\"?"
                            : "the id of one of the file's " + std::string(kind) + "s",
                    quantities::excerpt(id));
    return 0;
  }

 private:
  /// The search compares with every id: a file full of wrong names gets only its first few hints.
  [[nodiscard]] std::optional<std::string> nearest_id(const std::string& id) const {
    if (hints_left_ == 0) {
      return std::nullopt;
    }
    --hints_left_;
    std::vector<std::string_view> known;
    for (const auto& [name, index] : index_of_) {
      known.emplace_back(name);
    }
    std::sort(known.begin(), known.end());
    return quantities::nearest_spelling(id, known);
  }

  std::unordered_map<std::string, std::size_t> index_of_;
  mutable int hints_left_ = 20;
};

struct FileReader {
  NetworkFile file;
  Ids cohorts, items, findings;

  void read(const Reader& root) {
    root.accept_only({"cohorts", "items", "findings", "evidence"});
    root.for_each_optional("cohorts", [this](const Reader& r) { read_cohort(r); });
    root.for_each("items", [this](const Reader& r) { read_item(r); });
    root.for_each("findings", [this](const Reader& r) { read_finding(r); });
    if (const auto evidence = root.optional_member("evidence")) {
      read_evidence(*evidence);
    }
  }

 private:
  void read_cohort(const Reader& reader) {
    reader.accept_only({"id", "levels"});
    file.network.cohorts.push_back({reader.text("id"), reader.numbers("levels")});
    cohorts.add(file.network.cohorts.back().id);
  }

  void read_item(const Reader& reader) {
    reader.accept_only({"id", "cohort", "states", "given_level", "prior"});
    Item item;
    item.id = reader.text("id");
    item.states = reader.texts("states");
    if (reader.has("cohort")) {
      item.cohort = cohorts.find(reader, "cohort", "cohort");
      item.given_level = read_rows(reader, "given_level");
      refuse(reader, "prior", "\"given_level\" alone where there is a cohort");
    } else {
      item.given_level.push_back(reader.numbers("prior"));
      refuse(reader, "given_level", "\"prior\" alone where there is no cohort");
    }
    items.add(item.id);
    file.network.items.push_back(std::move(item));
  }

  static void refuse(const Reader& reader, std::string_view key, std::string accepted) {
    if (reader.has(key)) {
      reader.complain("\"" + std::string(key) + "\" has no place here", std::move(accepted), "");
    }
  }

  static std::vector<std::vector<double>> read_rows(const Reader& reader, std::string_view key) {
    std::vector<std::vector<double>> rows;
    reader.for_each(key, [&rows](const Reader& row) { rows.push_back(read_row(row)); });
    return rows;
  }

  static std::vector<double> read_row(const Reader& row) {
    std::vector<double> numbers;
    if (row.value().array_elements() == nullptr) {
      row.complain("wrong kind of value", "an array of numbers");
    } else {
      row.for_each_element([&](const Reader& cell) { numbers.push_back(cell.as_number()); });
    }
    return numbers;
  }

  void read_finding(const Reader& reader) {
    reader.accept_only({"id", "leak", "causes"});
    Finding finding;
    finding.id = reader.text("id");
    finding.leak = reader.number("leak");
    reader.for_each("causes",
                    [&](const Reader& cause) { finding.causes.push_back(read_cause(cause)); });
    findings.add(finding.id);
    file.network.findings.push_back(std::move(finding));
  }

  Cause read_cause(const Reader& reader) const {
    reader.accept_only({"item", "state", "strength"});
    Cause cause;
    cause.item = items.find(reader, "item", "item");
    cause.strength = reader.number("strength");
    const std::string state = reader.text("state");
    if (cause.item < file.network.items.size() && !state.empty()) {
      const std::vector<std::string>& states = file.network.items[cause.item].states;
      const auto at = std::find(states.begin(), states.end(), state);
      if (at == states.end()) {
        reader.complain("\"state\" names no state of the item", listed(states),
                        quantities::excerpt(state));
      } else {
        cause.state = static_cast<std::size_t>(at - states.begin());
      }
    }
    return cause;
  }

  static std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) {
      text += (text.empty() ? "" : ", ") + word;
    }
    return text;
  }

  void read_evidence(const Reader& reader) {
    reader.accept_only({"present", "absent", "soft", "readings"});
    file.evidence.present = read_findings(reader, "present");
    file.evidence.absent = read_findings(reader, "absent");
    reader.for_each_optional("soft", [this](const Reader& soft) {
      soft.accept_only({"finding", "present", "absent"});
      file.evidence.soft.push_back({findings.find(soft, "finding", "finding"),
                                    soft.number("present"), soft.number("absent")});
    });
    reader.for_each_optional("readings", [this](const Reader& reading) {
      reading.accept_only({"item", "likelihood"});
      file.evidence.readings.push_back(
          {items.find(reading, "item", "item"), read_likelihood(reading)});
    });
  }

  std::vector<std::size_t> read_findings(const Reader& reader, std::string_view key) const {
    std::vector<std::size_t> indices;
    reader.for_each_optional(key, [&](const Reader& name) {
      const std::string id = name.as_text();
      if (!id.empty()) {
        indices.push_back(findings.find(name, id, key, "finding"));
      }
    });
    return indices;
  }

  /// One number per state, or one row of them per level.
  static std::vector<std::vector<double>> read_likelihood(const Reader& reader) {
    const Value* const value = reader.value().find("likelihood");
    const Value::Array* const elements = value == nullptr ? nullptr : value->array_elements();
    const bool rows =
        elements != nullptr && !elements->empty() && elements->front().array_elements() != nullptr;
    if (rows) {
      return read_rows(reader, "likelihood");
    }
    return {reader.numbers("likelihood")};
  }
};

/// The line of the value that a JSON pointer names, or of the deepest part of it that exists.
int line_of(const Value& root, std::string_view pointer) {
  const Value* value = &root;
  while (!pointer.empty()) {
    pointer.remove_prefix(1);
    const std::string_view token = pointer.substr(0, pointer.find('/'));
    pointer.remove_prefix(token.size());
    const Value* next = nullptr;
    if (const Value::Array* const elements = value->array_elements(); elements != nullptr) {
      std::size_t index = elements->size();
      std::from_chars(token.data(), token.data() + token.size(), index);
      next = index < elements->size() ? &(*elements)[index] : nullptr;
    } else {
      next = value->find(token);
    }
    if (next == nullptr) {
      break;
    }
    value = next;
  }
  return value->line();
}

void place_in(const Document& document, Problems found, Problems& problems) {
  for (quantities::Problem& problem : found) {
    problem.place.file = document.file;
    problem.place.line = line_of(document.root, problem.place.pointer);
    problems.push_back(std::move(problem));
  }
}

void rescale(std::vector<double>& row) {
  double sum = 0.0;
  for (const double p : row) {
    sum += p;
  }
  for (double& p : row) {
    p /= sum;
  }
}

}  // namespace

quantities::Result<NetworkFile> read_network(const Document& document) {
  Problems problems;
  FileReader reader;
  reader.read(Reader(document, problems));
  if (problems.empty()) {
    place_in(document, check(reader.file.network), problems);
  }
  if (problems.empty()) {
    place_in(document, check(reader.file.network, reader.file.evidence), problems);
  }
  if (!problems.empty()) {
    return problems;
  }
  for (Cohort& cohort : reader.file.network.cohorts) {
    rescale(cohort.levels);
  }
  for (Item& item : reader.file.network.items) {
    for (std::vector<double>& row : item.given_level) {
      rescale(row);
    }
  }
  return std::move(reader.file);
}

documents::Value to_json(const Network& network, const Posterior& posterior) {
  Value items = Value::array();
  for (std::size_t i = 0; i < network.items.size(); ++i) {
    Value states = Value::object();
    for (std::size_t s = 0; s < network.items[i].states.size(); ++s) {
      states.set(network.items[i].states[s], posterior.items[i][s]);
    }
    items.append(Value::object({{"id", network.items[i].id}, {"posterior", std::move(states)}}));
  }
  Value cohorts = Value::array();
  for (std::size_t c = 0; c < network.cohorts.size(); ++c) {
    Value levels = Value::array();
    for (const double level : posterior.cohorts[c]) {
      levels.append(level);
    }
    cohorts.append(
        Value::object({{"id", network.cohorts[c].id}, {"posterior", std::move(levels)}}));
  }
  Value findings = Value::array();
  for (std::size_t f = 0; f < network.findings.size(); ++f) {
    findings.append(
        Value::object({{"id", network.findings[f].id}, {"present", posterior.findings[f]}}));
  }
  return Value::object({{"log_evidence", posterior.log_evidence},
                        {"items", std::move(items)},
                        {"cohorts", std::move(cohorts)},
                        {"findings", std::move(findings)}});
}

}  // namespace dryout::diagnosis
