#include "decision/old_body.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <sstream>
#include <vector>

#include "quantities/engineering_notation.h"

namespace dryout::decision {
namespace {

using quantities::Problem;
using quantities::Result;

constexpr std::array<const char*, 6> lead_styles{"radial", "axial",         "snap-in",
                                                 "screw",  "surface-mount", "chassis-can"};
constexpr double millimetres_min = 0.5;
constexpr double millimetres_max = 200.0;

/// A comma between figures of one digit is decimal (12,5x20); followed by a space it parts two.
std::vector<std::string> words_of(const std::string& text) {
  std::string spaced;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool parts = text[i] == ',' && (i + 1 == text.size() || text[i + 1] == ' ');
    spaced += parts ? ' ' : text[i] == ',' ? '.' : text[i];
  }
  // The sign that is printed between diameter and height.
  for (std::size_t at; (at = spaced.find("\u00d7")) != std::string::npos;) {
    spaced.replace(at, std::string("\u00d7").size(), "x");
  }
  std::istringstream stream(spaced);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) {
    words.push_back(word);
  }
  return words;
}

std::optional<double> number_in(const std::string& text, double least, double most) {
  if (text.empty() || text.find_first_not_of("0123456789.") != std::string::npos ||
      std::count(text.begin(), text.end(), '.') > 1 || text == ".") {
    return {};
  }
  const double value = std::stod(text);
  return value >= least && value <= most ? std::optional(value) : std::nullopt;
}

std::optional<double> millimetres(std::string text) {
  if (text.ends_with("mm")) {
    text.resize(text.size() - 2);
  }
  return number_in(text, millimetres_min, millimetres_max);
}

bool take_size(const std::string& word, OldBody& body) {
  const std::size_t times = word.find('x');
  if (times == std::string::npos) {
    return false;
  }
  const auto diameter = millimetres(word.substr(0, times));
  const auto height = millimetres(word.substr(times + 1));
  if (!diameter || !height) {
    return false;
  }
  body.diameter_mm = diameter;
  body.height_mm = height;
  return true;
}

bool take_grade(std::string word, OldBody& body) {
  for (const char* sign : {"\u00b0C", "C"}) {
    if (word.ends_with(sign)) {
      word.resize(word.size() - std::string(sign).size());
      if (const auto degrees = number_in(word, 40.0, 200.0)) {
        body.grade = quantities::Celsius(*degrees);
        return true;
      }
    }
  }
  return false;
}

bool take_ripple(std::string word, OldBody& body) {
  if (!word.ends_with('A')) {
    return false;
  }
  word.pop_back();
  const bool milli = word.ends_with('m');
  if (milli) {
    word.pop_back();
  }
  const auto amperes = milli ? number_in(word, 1.0, 100'000.0) : number_in(word, 0.001, 100.0);
  if (amperes) {
    body.ripple = quantities::Ampere(milli ? *amperes / 1000.0 : *amperes);
  }
  return amperes.has_value();
}

bool take_leads(const std::string& word, OldBody& body) {
  const auto found = std::find(lead_styles.begin(), lead_styles.end(), word);
  if (found != lead_styles.end()) {
    body.leads = *found;
  }
  return found != lead_styles.end();
}

std::string short_number(double value) {
  std::ostringstream text;
  text << value;
  return text.str();
}

std::optional<double> usual_pitch(double diameter_mm) {
  struct Step {
    double diameter_max, pitch;
  };
  constexpr std::array<Step, 5> steps{
      {{5.5, 2.0}, {6.8, 2.5}, {8.5, 3.5}, {13.0, 5.0}, {18.5, 7.5}}};
  for (const Step& step : steps) {
    if (diameter_mm <= step.diameter_max) {
      return step.pitch;
    }
  }
  return {};
}

}  // namespace

bool OldBody::said_nothing() const { return *this == OldBody{}; }

Result<OldBody> parse_old_body(const std::string& text) {
  OldBody body;
  const std::vector<std::string> words = words_of(text);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (word == "pitch" && i + 1 < words.size() && millimetres(words[i + 1])) {
      body.pitch_mm = millimetres(words[++i]);
    } else if (word == "mm" && i > 0) {
      continue;  // "10 x 16 mm" is refused below, "10x16 mm" is not
    } else if (!take_size(word, body) && !take_leads(word, body) && !take_grade(word, body) &&
               !take_ripple(word, body)) {
      return Problem{"this does not describe the body of a part",
                     {},
                     '"' + quantities::excerpt(word) + '"',
                     "diameter x height in mm (10x16), pitch 5, radial, axial, snap-in, screw, "
                     "surface-mount or chassis-can, grade (105C), ripple (0.6A)"};
    }
  }
  return body;
}

std::string fits_in_place_of(const OldBody& body) {
  std::string text = body.leads == "chassis-can" ? "can for the chassis" : body.leads;
  auto pitch = body.pitch_mm;
  if (!pitch && body.leads == "radial" && body.diameter_mm) {
    pitch = usual_pitch(*body.diameter_mm);
  }
  const auto add = [&](const std::string& more) { text += (text.empty() ? "" : ", ") + more; };
  if (pitch) {
    add("pitch " + short_number(*pitch) + " mm");
  }
  if (body.diameter_mm && body.height_mm) {
    add("at most " + short_number(*body.diameter_mm) + " x " + short_number(*body.height_mm) +
        " mm");
  }
  return text;
}

}  // namespace dryout::decision
