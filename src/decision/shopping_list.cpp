#include "decision/shopping_list.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "quantities/engineering_notation.h"

namespace dryout::decision {
namespace {

constexpr int parts_per_spare = 5;

bool is_known(const Substitute& part) {
  return part.capacitance > quantities::Farad(0) && part.rated > quantities::Volt(0);
}

bool same_part(const Substitute& a, const Substitute& b) {
  if (!a.other.empty() || !b.other.empty()) {
    return a.other == b.other;
  }
  return is_known(a) && a.safety_class == b.safety_class && a.body == b.body &&
         a.pulse_rated == b.pulse_rated && a.ac_min == b.ac_min && a.ripple_min == b.ripple_min &&
         a.capacitance == b.capacitance && a.rated == b.rated && a.technology == b.technology &&
         a.temperature_min == b.temperature_min && a.life_hours_min == b.life_hours_min &&
         a.esr == b.esr && a.certified == b.certified;
}

std::string joined(const std::vector<std::string>& texts, const char* between) {
  std::string text;
  for (const std::string& part : texts) {
    text += (text.empty() ? "" : between) + part;
  }
  return text;
}

void add_new(std::vector<std::string>& known, const std::vector<std::string>& more) {
  for (const std::string& each : more) {
    if (std::find(known.begin(), known.end(), each) == known.end()) {
      known.push_back(each);
    }
  }
}

/// " on the main board", " under the chassis".
std::string at_board(const std::string& board) {
  constexpr std::array<std::string_view, 4> says_where{"under ", "inside ", "behind ", "on "};
  const bool says = std::any_of(says_where.begin(), says_where.end(),
                                [&](std::string_view word) { return board.starts_with(word); });
  return board.empty() ? "" : (says ? " " : " on the ") + board;
}

/// A line while parts are still being added to it.
struct OpenLine {
  ShoppingLine line;
  /// Each piece of advice with the parts that it goes for.
  std::vector<std::pair<std::string, std::vector<std::string>>> heard;

  void add(const PartNeed& need, const Substitute& part) {
    line.needed += need.count;
    line.for_parts.push_back(need.reference + at_board(need.board));
    add_new(line.part.rules, part.rules);
    add_new(line.part.why, part.why);
    for (const std::string& advice : part.advice) {
      auto known = std::find_if(heard.begin(), heard.end(),
                                [&advice](const auto& each) { return each.first == advice; });
      if (known == heard.end()) {
        known = heard.insert(heard.end(), {advice, {}});
      }
      known->second.push_back(need.reference);
    }
  }

  [[nodiscard]] ShoppingLine closed() && {
    // A spare diode or valve is the shop's own affair.
    line.spares =
        line.part.other.empty() ? (line.needed + parts_per_spare - 1) / parts_per_spare : 0;
    for (const auto& [advice, parts] : heard) {
      const bool for_all = parts.size() == line.for_parts.size();
      line.look_at.push_back(for_all ? advice : joined(parts, ", ") + ": " + advice);
    }
    return std::move(line);
  }
};

std::string value_text(const Substitute& part) {
  if (!part.other.empty()) {
    return part.other;
  }
  return part.capacitance > quantities::Farad(0) ? buyers_value(part.capacitance)
                                                 : "read off the part";
}

std::string volts_text(const Substitute& part) {
  if (!part.other.empty()) {
    return "";
  }
  return part.rated > quantities::Volt(0)
             ? quantities::format(part.rated) + (part.certified ? " a.c." : "") + ac_text(part)
             : "read off the part" + ac_text(part);
}

}  // namespace

std::string ac_text(const Substitute& part) {
  return part.ac_min > quantities::Volt(0)
             ? " d.c. and at least " + quantities::format(part.ac_min) + " a.c."
             : "";
}

std::string buyers_value(quantities::Farad capacitance) { return quantities::format(capacitance); }

std::vector<ShoppingLine> shopping_list(const std::vector<PartNeed>& needs,
                                        const SubstitutionRules& rules) {
  std::vector<OpenLine> open;
  for (const PartNeed& need : needs) {
    const Substitute part = substitute_for(need, rules);
    auto line = std::find_if(open.begin(), open.end(), [&part](const OpenLine& other) {
      return same_part(other.line.part, part);
    });
    if (line == open.end()) {
      line = open.insert(open.end(), OpenLine{{part, 0, 0, {}, {}}, {}});
    }
    line->add(need, part);
  }
  std::vector<ShoppingLine> lines;
  lines.reserve(open.size());
  for (OpenLine& line : open) {
    lines.push_back(std::move(line).closed());
  }
  std::stable_sort(lines.begin(), lines.end(), [](const ShoppingLine& a, const ShoppingLine& b) {
    return a.part.capacitance < b.part.capacitance;
  });
  return lines;
}

std::string csv_field(const std::string& text) {
  const bool formula =
      !text.empty() && (std::string_view("=+-@").find(text[0]) != std::string_view::npos ||
                        static_cast<unsigned char>(text[0]) < 0x20);
  std::string field = formula ? "'" + text : text;
  if (field.find_first_of(",\"\r\n") == std::string::npos) {
    return field;
  }
  std::string quoted = "\"";
  for (const char c : field) {
    quoted += c == '"' ? "\"\"" : std::string(1, c);
  }
  return quoted + '"';
}

std::string to_csv(const std::vector<ShoppingLine>& lines) {
  std::string csv =
      "value,rated,technology,temperature,life,ESR,certified,ripple,body,needed,spares,for,"
      "look at\r\n";
  for (const ShoppingLine& line : lines) {
    const Substitute& part = line.part;
    const std::vector<std::string> fields = {
        value_text(part),
        volts_text(part),
        part.technology + (part.pulse_rated ? ", pulse-rated" : ""),
        part.temperature_min ? quantities::format(*part.temperature_min) : "",
        part.life_hours_min ? std::to_string(static_cast<int>(*part.life_hours_min)) + " h" : "",
        part.esr,
        part.certified && !part.safety_class.empty() ? "class " + part.safety_class
        : part.certified                             ? "yes"
                                                     : "",
        part.ripple_min ? quantities::format(*part.ripple_min) : "",
        part.body,
        std::to_string(line.needed),
        std::to_string(line.spares),
        joined(line.for_parts, "; "),
        joined(line.look_at, "; ")};
    std::string row;
    for (const std::string& field : fields) {
      row += (&field == &fields.front() ? "" : ",") + csv_field(field);
    }
    csv += row + "\r\n";
  }
  return csv;
}

}  // namespace dryout::decision
