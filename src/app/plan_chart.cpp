#include "app/plan_chart.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string_view>
#include <vector>

#include "quantities/printed_number.h"

namespace dryout::app {
namespace {

using casework::PlanStep;

// Millimetres: the chart prints at this size where the page is large enough.
constexpr double box_width = 46.0;
constexpr double box_height = 13.0;
constexpr double column = 68.0;  ///< from box to box, left to right
constexpr double row = 16.0;     ///< from end to end, downwards
constexpr double margin = 8.0;
constexpr double head = 16.0;  ///< above the chart
constexpr double foot = 14.0;  ///< below
constexpr double width_least = 200.0;
constexpr double line = 3.6;  ///< from line to line of text

/// How much text goes into a place.
struct Room {
  std::size_t letters = 0;  ///< in a line
  std::size_t lines = 0;
};
constexpr Room in_box{26, 3};
constexpr Room in_foot{125, 2};

constexpr std::string_view caution =
    "Before each check read its cautions (dryout next): discharge and measure, mains off where "
    "the check does not need it. Keep to local codes; leave to licensed hands what belongs there.";

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        // Other control characters have no place in XML 1.0.
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

/// Letters as a reader counts them: bytes that begin a UTF-8 sequence.
std::size_t length_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U;
  }));
}

/// Lines of whole words; what does not fit any more is left to an ellipsis.
std::vector<std::string> wrapped(const std::string& text, Room room) {
  std::vector<std::string> lines;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (!lines.empty() && length_of(lines.back()) + 1 + length_of(word) <= room.letters) {
      lines.back() += ' ' + word;
    } else if (lines.size() < room.lines) {
      lines.push_back(word);
    } else {
      lines.back() += "\u2026";
      break;
    }
  }
  return lines;
}

std::string in_percent(quantities::Probability p) {
  return quantities::whole_number(100.0 * p.value()) + " %";
}

class Chart {
 public:
  std::string draw(const PlanStep& first, const std::string& heading) {
    body_ << std::fixed;
    body_.precision(1);
    place(first, margin);
    const double width = std::max(margin + right_, width_least);
    const double height = head + static_cast<double>(ends_) * row + foot;
    std::ostringstream out;
    out << "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" << width
        << "mm\" height=\"" << height << "mm\" viewBox=\"0 0 " << width << ' ' << height
        << "\" font-family=\"sans-serif\" font-size=\"3\">\n<title>" << escaped(heading)
        << "</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n<text x=\"" << margin
        << "\" y=\"9\" font-size=\"5\">" << escaped(heading) << "</text>\n"
        << body_.str();
    double y = height - foot + 5.0;
    for (const std::string& words : wrapped(std::string(caution), in_foot)) {
      out << "<text x=\"" << margin << "\" y=\"" << y << "\" font-size=\"2.6\">" << escaped(words)
          << "</text>\n";
      y += line;
    }
    out << "</svg>\n";
    return out.str();
  }

 private:
  /// Draws the step and all that follows; the height of its middle.
  double place(const PlanStep& step, double left) {
    right_ = std::max(right_, left + box_width);
    if (step.leaf) {
      const double middle = head + (static_cast<double>(ends_++) + 0.5) * row;
      box(left, middle, step, "Look to " + step.suspect_title + ", " + in_percent(step.suspicion));
      return middle;
    }
    std::vector<double> middles;
    for (const PlanStep& next : step.then) {
      middles.push_back(place(next, left + column));
    }
    const double middle = 0.5 * (middles.front() + middles.back());
    for (std::size_t k = 0; k < middles.size(); ++k) {
      connect(left + box_width, middle, middles[k],
              (k == 0 ? "bad " : "good ") + in_percent(step.then[k].reached));
    }
    box(left, middle, step, step.title);
    return middle;
  }

  void box(double left, double middle, const PlanStep& step, const std::string& text) {
    body_ << "<rect x=\"" << left << "\" y=\"" << middle - box_height / 2 << "\" width=\""
          << box_width << "\" height=\"" << box_height << "\" rx=\"" << (step.leaf ? 6.0 : 0.8)
          << "\" fill=\"" << (step.leaf ? "#eeeeee" : "white")
          << "\" stroke=\"black\" stroke-width=\"0.3\"/>\n";
    const std::vector<std::string> lines = wrapped(text, in_box);
    double y = middle - 0.5 * line * static_cast<double>(lines.size()) + 2.8;
    for (const std::string& words : lines) {
      body_ << "<text x=\"" << left + box_width / 2 << "\" y=\"" << y
            << "\" text-anchor=\"middle\">" << escaped(words) << "</text>\n";
      y += line;
    }
  }

  void connect(double from, double at, double to, const std::string& label) {
    const double elbow = from + 3.0;
    body_ << "<path d=\"M" << from << ' ' << at << " H" << elbow << " V" << to << " H"
          << from + column - box_width
          << "\" fill=\"none\" stroke=\"black\" stroke-width=\"0.3\"/>\n"
          << "<text x=\"" << elbow + 1.0 << "\" y=\"" << to - 1.0 << "\" font-size=\"2.6\">"
          << escaped(label) << "</text>\n";
  }

  std::ostringstream body_;
  std::size_t ends_ = 0;
  double right_ = 0.0;
};

}  // namespace

std::string plan_chart(const PlanStep& first, const std::string& heading) {
  return Chart().draw(first, heading);
}

}  // namespace dryout::app
