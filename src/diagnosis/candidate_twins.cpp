#include "diagnosis/candidate_twins.h"

#include <string>
#include <type_traits>
#include <unordered_map>

namespace dryout::diagnosis {
namespace {

/// Values side by side, byte for byte; equal keys say the same.
class Key {
 public:
  template <class T>
  void add(const T& value) {
    static_assert(std::is_arithmetic_v<T>);
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  void add_rows(const std::vector<std::vector<double>>& rows) {
    add(rows.size());
    for (const std::vector<double>& row : rows) {
      add(row.size());
      for (const double value : row) {
        add(value);
      }
    }
  }
  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

/// The only item that can show the finding.
std::optional<std::size_t> only_item(const Finding& finding) {
  std::optional<std::size_t> item;
  for (const Cause& cause : finding.causes) {
    if (cause.strength <= 0.0) {
      continue;
    }
    if (item && *item != cause.item) {
      return std::nullopt;
    }
    item = cause.item;
  }
  return item;
}

class TwinFinder {
 public:
  TwinFinder(const Network& network, const Evidence& evidence)
      : network_(network), observed_(network.findings.size(), false), items_(network.items.size()) {
    for (std::size_t i = 0; i < items_.size(); ++i) {
      const Item& item = network.items[i];
      items_[i].add(item.cohort ? *item.cohort + 1 : std::size_t{0});
      items_[i].add_rows(item.given_level);
    }
    for (const std::size_t finding : evidence.present) {
      observe(finding, 0.0, 1.0);
    }
    for (const std::size_t finding : evidence.absent) {
      observe(finding, 1.0, 0.0);
    }
    for (const SoftFinding& soft : evidence.soft) {
      observe(soft.finding, soft.if_absent, soft.if_present);
    }
    for (const ItemReading& reading : evidence.readings) {
      items_[reading.item].add('r');
      items_[reading.item].add_rows(reading.likelihood);
    }
  }

  std::vector<std::optional<CandidateTwin>> run(std::span<const std::size_t> candidates) {
    std::vector<std::optional<CandidateTwin>> twins(candidates.size());
    for (std::size_t c = 0; c < candidates.size(); ++c) {
      const Finding& finding = network_.findings[candidates[c]];
      const auto item = observed_[candidates[c]] ? std::nullopt : only_item(finding);
      if (!item) {
        continue;
      }
      Key key;
      key.add(finding.leak);
      for (const Cause& cause : finding.causes) {
        key.add(cause.state);
        key.add(cause.strength);
      }
      const auto [first, fresh] =
          first_.try_emplace(key.bytes() + items_[*item].bytes(), First{c, *item});
      if (!fresh) {
        twins[c] = CandidateTwin{first->second.candidate, first->second.item, *item};
      }
    }
    return twins;
  }

 private:
  struct First {
    std::size_t candidate, item;
  };

  /// What only one item can show sets it apart by what was seen; anything else by itself, too.
  void observe(std::size_t finding, double if_absent, double if_present) {
    const bool of_one = only_item(network_.findings[finding]).has_value();
    observed_[finding] = true;
    for (const Cause& cause : network_.findings[finding].causes) {
      Key& key = items_[cause.item];
      key.add('o');
      key.add(of_one ? std::size_t{0} : finding + 1);
      key.add(network_.findings[finding].leak);
      key.add(if_absent);
      key.add(if_present);
      key.add(cause.state);
      key.add(cause.strength);
    }
  }

  const Network& network_;
  std::vector<bool> observed_;
  std::vector<Key> items_;
  std::unordered_map<std::string, First> first_;
};

}  // namespace

std::vector<std::optional<CandidateTwin>> find_twins(const Network& network,
                                                     const Evidence& evidence,
                                                     std::span<const std::size_t> candidates) {
  return TwinFinder(network, evidence).run(candidates);
}

}  // namespace dryout::diagnosis
