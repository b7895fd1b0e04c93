// The shop's figures one by one: seen with their ranges, set, and taken back to what is shipped.
#include <algorithm>
#include <cmath>
#include <utility>

#include "decision/shop_places.h"
#include "quantities/spelling.h"

namespace dryout::decision {
namespace {

using documents::Value;
using quantities::Problem;
using quantities::Result;

constexpr std::string_view own_words = "the shop's own figure";

bool is_factor(const std::string& key) { return key.find('.') != std::string::npos; }

std::string number_text(double value) {
  return std::isfinite(value) ? documents::to_line(Value(value)) : "no number";
}

/// The object without that member.
Value without(const Value& object, std::string_view key) {
  Value::Object kept;
  for (const Value::Member& member : *object.object_members()) {
    if (member.first != key) {
      kept.push_back(member);
    }
  }
  return {std::move(kept)};
}

/// The object with that member in its place, or at the end.
Value with(const Value& object, const std::string& key, Value value) {
  Value::Object members = *object.object_members();
  const auto same = std::find_if(members.begin(), members.end(),
                                 [&](const Value::Member& each) { return each.first == key; });
  if (same != members.end()) {
    same->second = std::move(value);
  } else {
    members.emplace_back(key, std::move(value));
  }
  return {std::move(members)};
}

Value own_member(const std::string& key, double value) {
  return is_factor(key)
             ? Value(value)
             : Value::object({{"value", value},
                              {"because", "Set by the shop in place of the shipped one."},
                              {"source", own_words}});
}

/// A map of factors where only some are the shop's: those, and why.
Value with_factor(const Value& root, const std::string& key, std::optional<double> value) {
  const std::string map = key.substr(0, key.find('.'));
  const std::string name = key.substr(key.find('.') + 1);
  const Value* found = root.find(map);
  Value factors = found != nullptr && found->object_members() != nullptr
                      ? *found
                      : Value::object({{"because", "Set by the shop in place of the shipped one."},
                                       {"source", own_words}});
  factors = value ? with(factors, name, Value(*value)) : without(factors, name);
  const auto& left = *factors.object_members();
  const bool empty = std::all_of(left.begin(), left.end(), [](const Value::Member& member) {
    return member.first == "because" || member.first == "source";
  });
  return empty ? without(root, map) : with(root, map, std::move(factors));
}

Problem no_such_figure(const std::string& key, const std::vector<ShopFigure>& figures) {
  std::vector<std::string> keys;
  keys.reserve(figures.size());
  for (const ShopFigure& figure : figures) {
    keys.push_back(figure.key);
  }
  std::string accepted;
  for (const std::string& each : keys) {
    accepted += (accepted.empty() ? "" : ", ") + each;
  }
  return {"the shop has no such figure", {}, '"' + quantities::excerpt(key) + '"', accepted};
}

Result<Value> root_of(const std::string& own, const std::string& file) {
  if (own.empty()) {
    return Value::object({{"schema", 1}});
  }
  const auto document = documents::parse(own, file);
  if (!document) {
    return document.problems();
  }
  if (document->root.object_members() == nullptr) {
    return Problem{"this is no file of a shop's figures",
                   {file, 1, {}},
                   std::string(document->root.kind_name()),
                   "an object with figures"};
  }
  return document->root;
}

}  // namespace

std::vector<ShopFigure> figures_of(const ShopSettings& shop) {
  std::vector<ShopFigure> figures;
  for (const ShopPlace& place : shop_places) {
    const Figure& figure = shop.*place.figure;
    figures.push_back({std::string(place.key), std::string(place.title),
                       place.unit == "money" ? shop.currency : std::string(place.unit),
                       std::max(place.range.min, 0.0), place.range.max, figure.value,
                       figure.because, figure.source});
  }
  for (const FactorPlace& place : factor_places) {
    for (const auto& [name, factor] : shop.*place.factors) {
      figures.push_back({std::string(place.key) + '.' + name, std::string(place.title) + name,
                         "times", factor_range.min, factor_range.max, factor,
                         "Factor on the life of a part.", std::string(place.key)});
    }
  }
  return figures;
}

Result<std::string> own_figures_with(const std::string& own, const std::string& file,
                                     const ShopSettings& shipped, const std::string& key,
                                     std::optional<double> value) {
  const std::vector<ShopFigure> figures = figures_of(shipped);
  const auto figure = std::find_if(figures.begin(), figures.end(),
                                   [&](const ShopFigure& each) { return each.key == key; });
  if (figure == figures.end()) {
    return no_such_figure(key, figures);
  }
  if (value && !(*value >= figure->least && *value <= figure->most)) {
    return Problem{"the figure \"" + key + "\" is out of its range",
                   {},
                   number_text(*value),
                   number_text(figure->least) + " to " + number_text(figure->most)};
  }
  auto root = root_of(own, file);
  if (!root) {
    return root.problems();
  }
  Value changed = is_factor(key) ? with_factor(*root, key, value)
                  : value        ? with(*root, key, own_member(key, *value))
                                 : without(*root, key);
  std::string text = documents::to_text(changed);
  // Read back as the program will: what it would refuse at the next start is refused here.
  const auto document = documents::parse(text, file);
  if (!document) {
    return document.problems();
  }
  const auto read = read_shop_settings(*document, shipped);
  if (!read) {
    return read.problems();
  }
  return text;
}

}  // namespace dryout::decision
