#include "complaints/said_parts.h"

#include <algorithm>
#include <cstddef>
#include <optional>

#include "complaints/understanding.h"

namespace dryout::complaints {
namespace {

constexpr std::size_t reach = 4;  ///< parts between a denial and what it denies

bool can_be_missing(const SaidPart& part) {
  return part.is(WordKind::function) && !part.missing && !part.fine;
}

/// The places up to `reach` parts from `at`, in its clause, nearest first, forwards or backwards.
std::vector<std::size_t> neighbours(const std::vector<SaidPart>& parts, std::size_t at,
                                    bool forwards) {
  std::vector<std::size_t> places;
  for (std::size_t step = 1; step <= reach; ++step) {
    if (!forwards && step > at) {
      break;
    }
    const std::size_t place = forwards ? at + step : at - step;
    if (place >= parts.size() || parts[place].clause != parts[at].clause) {
      break;
    }
    places.push_back(place);
  }
  return places;
}

/// A denial reaches past things and places to the first function or trouble.
bool deny_forwards(std::vector<SaidPart>& parts, std::size_t at, std::set<std::string>& excluded) {
  for (const std::size_t place : neighbours(parts, at, true)) {
    SaidPart& part = parts[place];
    if (part.is(WordKind::negation)) {
      return false;
    }
    if (can_be_missing(part)) {
      part.missing = true;
      // "no sound or picture"
      const std::size_t linked = place + 1;
      if (linked + 1 < parts.size() && parts[linked].sign == "or" &&
          can_be_missing(parts[linked + 1])) {
        parts[linked + 1].missing = true;
      }
      return true;
    }
    if (part.is(WordKind::trouble) || part.is(WordKind::absence)) {
      part.excluded = true;
      excluded.insert(part.sign);
      return true;
    }
  }
  return false;
}

bool deny_backwards(std::vector<SaidPart>& parts, std::size_t at) {
  for (const std::size_t place : neighbours(parts, at, false)) {
    if (can_be_missing(parts[place])) {
      parts[place].missing = true;
      return true;
    }
  }
  return false;
}

bool can_be_fine(const SaidPart& part) {
  return !part.missing && !part.fine &&
         (part.is(WordKind::function) || part.is(WordKind::thing) || part.is(WordKind::place) ||
          part.is(WordKind::level));
}

}  // namespace

void settle_denials(std::vector<SaidPart>& parts, std::set<std::string>& excluded) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].is(WordKind::negation)) {
      parts[i].spent = deny_forwards(parts, i, excluded) || deny_backwards(parts, i);
    }
  }
}

void settle_what_is_gone(std::vector<SaidPart>& parts) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!parts[i].is(WordKind::absence) || parts[i].excluded) {
      continue;
    }
    for (const bool forwards : {false, true}) {
      const auto beside = neighbours(parts, i, forwards);
      // "stereo, left speaker dead": it is said of the place that stands between.
      const auto gone = std::find_if(beside.begin(), beside.end(), [&](std::size_t each) {
        return can_be_missing(parts[each]) || parts[each].is(WordKind::place);
      });
      if (gone != beside.end() && can_be_missing(parts[*gone]) && !parts[i].spent) {
        parts[*gone].missing = true;
        parts[i].spent = true;
      }
    }
  }
}

void settle_what_is_fine(std::vector<SaidPart>& parts) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!parts[i].is(WordKind::working)) {
      continue;
    }
    for (const bool forwards : {false, true}) {
      for (const std::size_t place : neighbours(parts, i, forwards)) {
        if (parts[place].is(WordKind::trouble) || (forwards && parts[i].spent)) {
          break;
        }
        if (can_be_fine(parts[place])) {
          parts[place].fine = true;
          parts[i].spent = true;
        }
      }
    }
  }
}

void settle_places(const std::vector<SaidPart>& parts, Where& where) {
  bool both_named = false;
  for (const SaidPart& part : parts) {
    if (part.group == nullptr || part.fine || part.excluded) {
      continue;
    }
    for (const auto& [name, word] : part.group->where) {
      const auto [at, first] = where.emplace(name, word);
      both_named = both_named || (!first && name == "channel" && at->second != word);
    }
  }
  if (both_named) {
    where.erase("channel");
  }
}

void add_part(const SaidPart& part, Understood& understood) {
  if (part.excluded || part.spent || part.is(WordKind::negation)) {
    return;
  }
  const std::string before = part.missing ? "no " : part.fine ? "fine " : "";
  const auto add = [&](const std::string& sign, bool known) {
    const bool there = std::any_of(understood.things.begin(), understood.things.end(),
                                   [&](const SaidThing& thing) { return thing.sign == sign; });
    if (!there) {
      understood.things.push_back({sign, known, part.is(WordKind::set)});
    }
  };
  if (part.is(WordKind::place)) {
    // What is true of one channel or band is true of any; which one stands in `where`.
    const Where& where = part.group->where;
    if (where.contains("channel")) {
      add(before + "onechannel", true);
      return;
    }
    if (where.contains("band")) {
      add(before + "oneband", true);
    }
  }
  add(before + part.sign, part.group != nullptr);
}

}  // namespace dryout::complaints
