#include "quantities/colour_code.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string_view>
#include <utility>

namespace dryout::quantities {
namespace {

using Colours = std::vector<Colour>;

std::optional<Colour> colour_of(const std::string& word) {
  struct Name {
    std::string_view word;
    Colour colour;
  };
  constexpr std::array<Name, 46> names{{
      {"black", Colour::black},   {"bk", Colour::black},      {"blk", Colour::black},
      {"brown", Colour::brown},   {"bn", Colour::brown},      {"brn", Colour::brown},
      {"br", Colour::brown},      {"red", Colour::red},       {"rd", Colour::red},
      {"orange", Colour::orange}, {"og", Colour::orange},     {"or", Colour::orange},
      {"orn", Colour::orange},    {"org", Colour::orange},    {"yellow", Colour::yellow},
      {"ye", Colour::yellow},     {"yel", Colour::yellow},    {"yl", Colour::yellow},
      {"green", Colour::green},   {"gn", Colour::green},      {"grn", Colour::green},
      {"blue", Colour::blue},     {"bu", Colour::blue},       {"blu", Colour::blue},
      {"bl", Colour::blue},       {"violet", Colour::violet}, {"vt", Colour::violet},
      {"vio", Colour::violet},    {"purple", Colour::violet}, {"vi", Colour::violet},
      {"grey", Colour::grey},     {"gray", Colour::grey},     {"gy", Colour::grey},
      {"gry", Colour::grey},      {"white", Colour::white},   {"wh", Colour::white},
      {"wht", Colour::white},     {"gold", Colour::gold},     {"gd", Colour::gold},
      {"gld", Colour::gold},      {"silver", Colour::silver}, {"sr", Colour::silver},
      {"slv", Colour::silver},    {"sil", Colour::silver},    {"pink", Colour::pink},
      {"pk", Colour::pink},
  }};
  std::string lower;
  for (const char c : word) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const auto found = std::find_if(names.begin(), names.end(),
                                  [&lower](const Name& name) { return name.word == lower; });
  return found == names.end() ? std::nullopt : std::optional(found->colour);
}

std::optional<int> figure_of(Colour colour) {
  return colour <= Colour::white ? std::optional(static_cast<int>(colour)) : std::nullopt;
}

/// Picofarads; grey and white are hundredths and tenths on small parts, gold and silver on others.
std::optional<double> multiplier_of(Colour colour) {
  switch (colour) {
    case Colour::grey:
    case Colour::silver:
      return 0.01;
    case Colour::white:
    case Colour::gold:
      return 0.1;
    case Colour::pink:
    case Colour::violet:
      return std::nullopt;
    default:
      return std::pow(10.0, static_cast<int>(colour));
  }
}

using Percents = std::vector<std::pair<Colour, double>>;

std::optional<Tolerance> within(const Percents& percents, Colour colour) {
  for (const auto& [name, percent] : percents) {
    if (name == colour) return Tolerance{percent / 100.0, percent / 100.0, false};
  }
  return std::nullopt;
}

std::optional<Tolerance> mica_tolerance(Colour colour) {
  return within({{Colour::black, 20},
                 {Colour::brown, 1},
                 {Colour::red, 2},
                 {Colour::orange, 3},
                 {Colour::yellow, 4},
                 {Colour::green, 5},
                 {Colour::gold, 5},
                 {Colour::silver, 10},
                 {Colour::white, 10}},
                colour);
}

std::optional<Tolerance> paper_tolerance(Colour colour) {
  return within({{Colour::black, 20},
                 {Colour::orange, 30},
                 {Colour::yellow, 40},
                 {Colour::green, 5},
                 {Colour::gold, 5},
                 {Colour::silver, 10},
                 {Colour::white, 10}},
                colour);
}

std::optional<Tolerance> film_tolerance(Colour colour) {
  return within({{Colour::black, 20}, {Colour::white, 10}, {Colour::green, 5}, {Colour::red, 2}},
                colour);
}

/// Of ceramics: a share above ten picofarads, picofarads below.
std::optional<Tolerance> ceramic_tolerance(Colour colour, Farad capacitance) {
  if (capacitance > farads(10e-12)) {
    return within({{Colour::black, 20},
                   {Colour::brown, 1},
                   {Colour::red, 2},
                   {Colour::orange, 2.5},
                   {Colour::green, 5},
                   {Colour::white, 10}},
                  colour);
  }
  constexpr std::array<std::pair<Colour, double>, 5> picofarads{{{Colour::black, 2.0},
                                                                 {Colour::brown, 0.1},
                                                                 {Colour::green, 0.5},
                                                                 {Colour::grey, 0.25},
                                                                 {Colour::white, 1.0}}};
  for (const auto& [name, allowed] : picofarads) {
    if (name == colour) return Tolerance{allowed * 1e-12, allowed * 1e-12, true};
  }
  return std::nullopt;
}

std::string ceramic_temperature(Colour colour) {
  constexpr std::array<const char*, 10> coefficients{"NP0",
                                                     "N30",
                                                     "N75",
                                                     "N150",
                                                     "N220",
                                                     "N330",
                                                     "N470",
                                                     "N750",
                                                     "+30 ppm/K or general purpose",
                                                     "P100 or general purpose"};
  const auto figure = figure_of(colour);
  return figure ? "temperature: " + std::string(coefficients[static_cast<std::size_t>(*figure)])
                : "";
}

std::optional<Volt> hundreds_of_volts(Colour colour) {
  if (colour == Colour::gold) return Volt(1000.0);
  if (colour == Colour::silver) return Volt(2000.0);
  const auto figure = figure_of(colour);
  return figure && *figure > 0 ? std::optional(Volt(100.0 * *figure)) : std::nullopt;
}

std::optional<Volt> film_volts(Colour colour) {
  switch (colour) {
    case Colour::brown:
      return Volt(100.0);
    case Colour::red:
      return Volt(250.0);
    case Colour::yellow:
      return Volt(400.0);
    case Colour::blue:
      return Volt(630.0);
    default:
      return std::nullopt;
  }
}

std::optional<Volt> bead_volts(Colour colour) {
  constexpr std::array<std::pair<Colour, double>, 7> volts{{{Colour::white, 3.0},
                                                            {Colour::yellow, 6.3},
                                                            {Colour::black, 10.0},
                                                            {Colour::green, 16.0},
                                                            {Colour::blue, 20.0},
                                                            {Colour::grey, 25.0},
                                                            {Colour::pink, 35.0}}};
  for (const auto& [name, rated] : volts) {
    if (name == colour) return Volt(rated);
  }
  return std::nullopt;
}

/// Figures and their multiplier, in units of `unit` farads.
std::optional<Farad> value_of(const Colours& figures, Colour multiplier, double unit) {
  double value = 0.0;
  for (const Colour colour : figures) {
    const auto figure = figure_of(colour);
    if (!figure) return std::nullopt;
    value = 10.0 * value + *figure;
  }
  const auto times = multiplier_of(multiplier);
  if (!times || value == 0.0) return std::nullopt;
  return Farad(value * *times * unit);
}

constexpr double picofarad = 1e-12;

class ColourReader {
 public:
  ColourReader(const Colours& colours, Body body) : c_(colours), body_(body) {}

  std::vector<MarkingReading> read() {
    bead();
    if (c_.size() <= 4) bands();
    if (c_.size() == 5) {
      five_of_film();
      five_of_ceramic();
      five_of_paper();
    }
    if (c_.size() == 6) {
      six_dots();
      six_of_old();
    }
    return std::move(readings_);
  }

 private:
  MarkingReading* add(const std::optional<Farad>& value, const char* how, double misfit) {
    if (!value) return nullptr;
    MarkingReading reading;
    reading.capacitance = *value;
    reading.how = how;
    reading.convention = Convention::colours;
    reading.misfit = misfit;
    return &readings_.emplace_back(std::move(reading));
  }

  [[nodiscard]] double fits(std::initializer_list<Body> bodies) const {
    constexpr double otherwise = 3.0;
    const bool named = std::find(bodies.begin(), bodies.end(), body_) != bodies.end();
    return body_ == Body::unknown || named ? 0.0 : otherwise;
  }

  void bead() {
    if (c_.size() != 3 && c_.size() != 4) return;
    // The spot of a bead goes from a hundredth to a hundred: no bead holds thousands of uF.
    const bool spot = c_[2] == Colour::black || c_[2] == Colour::brown || c_[2] == Colour::red ||
                      c_[2] == Colour::grey || c_[2] == Colour::white;
    if (!spot) return;
    const double misfit = body_ == Body::tantalum ? 0.0 : body_ == Body::unknown ? 2.0 : 4.0;
    auto* reading =
        add(value_of({c_[0], c_[1]}, c_[2], 1e-6),
            "tantalum bead: two figures, a spot for the multiplier in \u00b5F, volts", misfit);
    if (reading != nullptr && c_.size() == 4) {
      reading->rated = bead_volts(c_[3]);
      reading->misfit += reading->rated ? 0.0 : 2.0;
    }
  }

  void bands() {
    auto* reading =
        add(value_of({c_[0], c_[1]}, c_[2], picofarad), "two figures and a multiplier in pF",
            body_ == Body::tantalum || body_ == Body::electrolytic_can ? 3.0 : 0.0);
    if (reading == nullptr) return;
    if (c_.size() == 4) {
      reading->tolerance = body_ == Body::film    ? film_tolerance(c_[3])
                           : body_ == Body::paper ? paper_tolerance(c_[3])
                           : body_ == Body::mica  ? mica_tolerance(c_[3])
                                                  : ceramic_tolerance(c_[3], reading->capacitance);
    }
  }

  void five_of_film() {
    auto* reading =
        add(value_of({c_[0], c_[1]}, c_[2], picofarad),
            "film: two figures, multiplier in pF, tolerance, volts", fits({Body::film}));
    if (reading == nullptr) return;
    reading->tolerance = film_tolerance(c_[3]);
    reading->rated = film_volts(c_[4]);
    reading->misfit += (reading->tolerance ? 0.0 : 1.5) + (reading->rated ? 0.0 : 1.5);
  }

  void five_of_ceramic() {
    auto* reading = add(value_of({c_[1], c_[2]}, c_[3], picofarad),
                        "ceramic: temperature, two figures, multiplier in pF, tolerance",
                        fits({Body::ceramic}) + 0.5);
    if (reading == nullptr) return;
    reading->tolerance = ceramic_tolerance(c_[4], reading->capacitance);
    reading->misfit += reading->tolerance ? 0.0 : 1.5;
    if (const std::string told = ceramic_temperature(c_[0]); !told.empty()) {
      reading->remarks.push_back(told);
    }
  }

  void five_of_paper() {
    auto* reading =
        add(value_of({c_[0], c_[1]}, c_[2], picofarad),
            "paper or mica: two figures, multiplier in pF, tolerance, hundreds of volts",
            fits({Body::paper, Body::mica}) + 0.2);
    if (reading == nullptr) return;
    reading->tolerance = paper_tolerance(c_[3]);
    reading->rated = hundreds_of_volts(c_[4]);
    reading->misfit += (reading->tolerance ? 0.0 : 1.5) + (reading->rated ? 0.0 : 1.5);
  }

  /// The first dot tells the kind: white a mica of EIA, black one of JAN, silver a paper.
  void six_dots() {
    const bool mica = c_[0] == Colour::white || c_[0] == Colour::black;
    if (!mica && c_[0] != Colour::silver) return;
    auto* reading = add(value_of({c_[1], c_[2]}, c_[3], picofarad),
                        mica ? "mica of six dots: kind, two figures, multiplier in pF, tolerance, "
                               "class"
                             : "paper of six dots: kind, two figures, multiplier in pF, tolerance, "
                               "class",
                        fits({mica ? Body::mica : Body::paper}));
    if (reading == nullptr) return;
    reading->tolerance = mica_tolerance(c_[4]);
    reading->misfit += reading->tolerance ? 0.0 : 1.5;
  }

  void six_of_old() {
    auto* reading = add(value_of({c_[0], c_[1], c_[2]}, c_[3], picofarad),
                        "six dots of before 1945: three figures, multiplier in pF, tolerance, "
                        "hundreds of volts",
                        fits({Body::mica, Body::paper}) + (c_[0] == Colour::black ? 3.0 : 1.0));
    if (reading == nullptr) return;
    reading->tolerance = mica_tolerance(c_[4]);
    reading->rated = hundreds_of_volts(c_[5]);
    reading->misfit += (reading->tolerance ? 0.0 : 1.5) + (reading->rated ? 0.0 : 1.5);
  }

  const Colours& c_;
  Body body_;
  std::vector<MarkingReading> readings_;
};

}  // namespace

std::optional<Colours> colours_in(const std::vector<std::string>& words) {
  constexpr std::size_t least = 3;
  constexpr std::size_t most = 6;
  Colours colours;
  for (const std::string& word : words) {
    const auto colour = colour_of(word);
    if (!colour) return std::nullopt;
    colours.push_back(*colour);
  }
  return colours.size() >= least && colours.size() <= most ? std::optional(colours) : std::nullopt;
}

std::vector<MarkingReading> read_colours(const Colours& colours, Body body) {
  return ColourReader(colours, body).read();
}

}  // namespace dryout::quantities
