#include "casestore/salvage.h"

#include <algorithm>
#include <utility>

#include "casestore/chain.h"
#include "casestore/page_reader.h"
#include "casestore/seal.h"
#include "documents/read_text.h"

namespace dryout::casestore {
namespace {

using quantities::Result;

struct Found {
  EventRow event;
  bool sealed = false;        ///< its seal is its own
  bool sealable = false;      ///< it bears one
  Digest before{}, digest{};  ///< all zero before there were chains
};

template <class T>
const T* column(const Record& record, std::size_t index) {
  return index < record.columns.size() ? std::get_if<T>(&record.columns[index]) : nullptr;
}

std::string text_of(const Record& record, std::size_t index) {
  const auto* text = column<std::string>(record, index);
  return text == nullptr ? "" : *text;
}

bool is_plausible(std::int64_t number, std::int64_t sequence) {
  constexpr std::int64_t sequence_max = 10'000'000;
  return number >= 1 && sequence >= 1 && sequence <= sequence_max;
}

class Gatherer {
 public:
  void operator()(const Record& record) {
    if (record.in_table) {
      take_head(record);
      take_store_head(record);
      take_facts(record);
    } else {
      take_step(record);
    }
  }

  Salvage finish() {
    Salvage all;
    for (auto& [number, steps] : steps_) {
      all.cases.push_back(put_together(number, steps));
    }
    for (const auto& [number, facts] : facts_) {
      if (!steps_.contains(number)) {
        SalvagedCase only;
        only.number = number;
        add_facts(only);
        only.missing.push_back(1);
        all.cases.push_back(std::move(only));
      }
    }
    for (const auto& [number, head] : heads_) {
      if (!steps_.contains(number)) {
        all.lost.push_back("case " + std::to_string(number) + ", which had " +
                           std::to_string(head.steps) + (head.steps == 1 ? " step" : " steps") +
                           ": no step of it is there");
      }
    }
    hold_against_record(all);
    std::sort(all.cases.begin(), all.cases.end(),
              [](const auto& a, const auto& b) { return a.number < b.number; });
    return all;
  }

 private:
  struct Line {
    CaseFacts facts;
    std::string identity;
    std::int64_t opened_at = 0;
  };

  /// event: bench_case, sequence, at, kind, body, seal, before, generation (chain.h); the later
  /// columns came with later versions.
  void take_step(const Record& record) {
    constexpr std::size_t seal_at = 5;
    const auto* number = column<std::int64_t>(record, 0);
    const auto* sequence = column<std::int64_t>(record, 1);
    const auto* at = column<std::int64_t>(record, 2);
    const auto* kind = column<std::string>(record, 3);
    const auto* body = column<std::string>(record, 4);
    if (number == nullptr || sequence == nullptr || at == nullptr || kind == nullptr ||
        body == nullptr || !is_plausible(*number, *sequence)) {
      return;
    }
    Found found;
    found.event = {static_cast<int>(*sequence), *at, *kind, *body};
    const auto* seal = column<std::int64_t>(record, seal_at);
    found.sealed = seal != nullptr && *seal == seal_of(*number, found.event);
    found.sealable = seal != nullptr;
    const auto* before = column<Blob>(record, seal_at + 1);
    const auto* generation = column<std::int64_t>(record, seal_at + 2);
    if (before != nullptr && generation != nullptr) {
      found.before = digest_of_bytes(before->bytes);
      found.digest = digest_of(found.before, *generation, found.event);
    }
    auto& same_place = steps_[*number][found.event.sequence];
    const auto known = std::find_if(same_place.begin(), same_place.end(), [&](const Found& each) {
      return each.event.at == found.event.at && each.event.kind == found.event.kind &&
             each.event.body == found.event.body;
    });
    if (known == same_place.end()) {
      same_place.push_back(std::move(found));
    } else if (found.sealed && !known->sealed) {
      *known = std::move(found);
    }
  }

  /// case_head: steps, digest.
  void take_head(const Record& record) {
    const auto* steps = column<std::int64_t>(record, 1);
    const auto* digest = column<Blob>(record, 2);
    if (record.columns.size() == 3 && steps != nullptr && digest != nullptr &&
        digest->bytes.size() == Digest{}.size() && is_plausible(record.rowid, *steps)) {
      heads_.emplace(record.rowid, Seen{static_cast<int>(*steps), digest_of_bytes(digest->bytes)});
    }
  }

  /// store_head: bench, generation, cases, digest. The newest is met first.
  void take_store_head(const Record& record) {
    constexpr std::size_t digest_at = 4;
    const auto* cases = column<std::int64_t>(record, digest_at - 1);
    const auto* digest = column<Blob>(record, digest_at);
    if (!total_ && record.rowid == 1 && record.columns.size() == digest_at + 1 &&
        column<std::string>(record, 1) != nullptr && cases != nullptr && digest != nullptr &&
        digest->bytes.size() == Digest{}.size()) {
      total_ = Total{*cases, digest_of_bytes(digest->bytes)};
    }
  }

  /// What check_heads() asks of a store that opens.
  void hold_against_record(Salvage& all) const {
    if (!total_) {
      return;
    }
    Digest counted{};
    for (const auto& [number, head] : heads_) {
      counted = with_share(counted, number, head);
    }
    const auto found = static_cast<std::int64_t>(heads_.size());
    if (found != total_->cases) {
      all.lost.push_back(std::to_string(total_->cases) + " cases on record in the store, " +
                         std::to_string(found) + " found");
    } else if (counted != total_->digest) {
      all.lost.emplace_back(
          "the record of the whole store does not follow from its cases: a case is not as it was "
          "written");
    }
  }

  /// bench_case: opened_at, changed_at, equipment, set_name, year_built, owner, complaint, cause,
  /// closed, notes, symptoms, parts, causes, identity.
  void take_facts(const Record& record) {
    constexpr std::size_t columns_min = 11;
    constexpr std::size_t identity_at = 14;
    const auto* opened = column<std::int64_t>(record, 1);
    const auto* equipment = column<std::string>(record, 3);
    const auto* set_name = column<std::string>(record, 4);
    if (record.columns.size() < columns_min || opened == nullptr || equipment == nullptr ||
        set_name == nullptr || column<std::string>(record, 10) == nullptr) {
      return;
    }
    Line line;
    line.opened_at = *opened;
    line.facts.equipment = *equipment;
    line.facts.set_name = *set_name;
    if (const auto* year = column<std::int64_t>(record, 5)) {
      line.facts.year_built = static_cast<int>(*year);
    }
    line.facts.owner = text_of(record, 6);
    line.facts.complaint = text_of(record, 7);
    line.identity = text_of(record, identity_at);
    facts_.emplace(record.rowid, std::move(line));
  }

  void add_facts(SalvagedCase& to) const {
    if (const auto line = facts_.find(to.number); line != facts_.end()) {
      to.facts = line->second.facts;
      to.identity = line->second.identity;
      to.opened_at = line->second.opened_at;
    }
  }

  using Steps = std::map<int, std::vector<Found>>;

  /// The one of several contents that stands: what the next step follows, else the first that is
  /// sealed, else the first from before there were seals.
  static const Found* standing(const std::vector<Found>& contents, const Digest& followed) {
    const auto first = [&](const auto& is_so) -> const Found* {
      const auto found = std::find_if(contents.begin(), contents.end(), is_so);
      return found == contents.end() ? nullptr : &*found;
    };
    if (const Found* chained = first([&](const Found& each) {
          return each.sealed && followed != Digest{} && each.digest == followed;
        })) {
      return chained;
    }
    if (const Found* sealed = first([](const Found& each) { return each.sealed; })) {
      return sealed;
    }
    return first([](const Found& each) { return !each.sealable; });
  }

  /// A record whose digest is that of no step at its place, while further ones hang together with
  /// it, is itself what turned: the steps stand for themselves.
  static bool is_bearable(const Seen& head, const Steps& steps) {
    const auto contents = steps.find(head.steps);
    const auto further = steps.find(head.steps + 1);
    if (contents == steps.end() || further == steps.end()) {
      return true;
    }
    return std::any_of(contents->second.begin(), contents->second.end(),
                       [&](const Found& each) { return each.digest == head.digest; });
  }

  SalvagedCase put_together(std::int64_t number, const Steps& steps) const {
    SalvagedCase whole;
    whole.number = number;
    add_facts(whole);
    auto head = heads_.find(number);
    if (head != heads_.end() && !is_bearable(head->second, steps)) {
      head = heads_.end();
      whole.unvouched.emplace_back("the record of its last step is not that of its steps");
    } else if (head == heads_.end() && (total_ || !heads_.empty())) {
      whole.unvouched.emplace_back(
          "it stands outside the record of the store: how many steps it had, nobody knows");
    }
    int last = steps.rbegin()->first;
    Digest followed{};
    if (head != heads_.end()) {
      last = std::max(last, head->second.steps);
      followed = head->second.digest;
    }
    for (int sequence = last; sequence >= 1; --sequence) {
      const auto contents = steps.find(sequence);
      const bool beyond = head != heads_.end() && sequence > head->second.steps;
      const Found* stands =
          contents == steps.end() || beyond ? nullptr : standing(contents->second, followed);
      const bool another = stands != nullptr && followed != Digest{} && stands->digest != followed;
      followed = stands == nullptr ? (beyond ? followed : Digest{}) : stands->before;
      if (another) {
        followed = Digest{};  // what does not hang together with the rest vouches for nothing
        whole.unvouched.push_back(
            "step " + std::to_string(sequence) +
            ": saved as it is found, and what stands on record behind it is of another");
      }
      if (stands != nullptr) {
        whole.events.push_back(stands->event);
      } else if (!beyond) {
        whole.missing.push_back(sequence);
      }
      if (contents != steps.end()) {
        for (const Found& other : contents->second) {
          if (beyond && other.sealed) {
            whole.beyond.push_back(sequence);
          }
          if (&other != stands) {
            whole.doubtful.push_back("step " + std::to_string(sequence) + ", " +
                                     (other.sealed ? "sealed" : "damaged") + ": " +
                                     other.event.kind + ' ' + other.event.body);
          }
        }
      }
    }
    // Lists bear no seals: the first step says whose it is.
    if (followed != Digest{} && followed != root_of(whole.identity)) {
      whole.identity.clear();
    }
    std::reverse(whole.events.begin(), whole.events.end());
    std::reverse(whole.missing.begin(), whole.missing.end());
    std::reverse(whole.doubtful.begin(), whole.doubtful.end());
    std::reverse(whole.unvouched.begin(), whole.unvouched.end());
    return whole;
  }

  std::map<std::int64_t, Steps> steps_;
  std::map<std::int64_t, Line> facts_;
  std::map<std::int64_t, Seen> heads_;
  struct Total {
    std::int64_t cases = 0;
    Digest digest{};
  };
  std::optional<Total>
      total_;  ///< on record; nothing before there were chains, or where it is lost
};

}  // namespace

Result<Salvage> salvage(const std::string& path) {
  constexpr const char* accepted = "a store or a backup on a disk";
  auto file = documents::read_text(path, accepted, salvaged_bytes_max);
  if (!file) {
    return file.problems();
  }
  auto log = documents::read_text(path + "-wal", accepted, salvaged_bytes_max);
  const PageReader pages(std::move(*file), log ? std::move(*log) : std::string());
  Gatherer gatherer;
  pages.visit_records([&](const Record& record) { gatherer(record); });
  return gatherer.finish();
}

}  // namespace dryout::casestore
