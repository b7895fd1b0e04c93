#include "casework/wording.h"

#include <array>
#include <cctype>
#include <cmath>
#include <ctime>

#include "casework/case_evidence.h"
#include "casework/words.h"
#include "quantities/engineering_notation.h"
#include "quantities/printed_number.h"

namespace dryout::casework {

std::string percent(double probability) {
  const double hundredths = probability * 100.0;
  if (hundredths < 1.0) {
    return "under 1 %";
  }
  if (hundredths > 99.0) {
    return "over 99 %";
  }
  return quantities::whole_number(hundredths) + " %";
}

std::string mid_sentence(const std::string& title) {
  const auto upper = [&](std::size_t i) {
    return i < title.size() && std::isupper(static_cast<unsigned char>(title[i])) != 0;
  };
  const bool word =
      upper(0) && title.size() > 1 && std::islower(static_cast<unsigned char>(title[1])) != 0;
  std::string text = title;
  if (word) {
    text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
  }
  return text;
}

std::string title_of(ReadingKind kind) {
  switch (kind) {
    case ReadingKind::esr:
      return "ESR";
    case ReadingKind::impedance:
      return "impedance";
    case ReadingKind::capacitance:
      return "capacitance";
    case ReadingKind::leakage_current:
      return "leakage";
    case ReadingKind::dc_resistance:
      return "d.c. resistance";
    case ReadingKind::ripple:
      return "ripple";
    case ReadingKind::dc_volts:
      return "d.c. voltage";
    case ReadingKind::insulation:
      return "insulation";
    case ReadingKind::dissipation:
      return "loss";
    case ReadingKind::hold_up:
      return "hold-up time";
  }
  return "";
}

std::string shown(ReadingKind kind, double value) {
  return quantities::format_engineering(value, unit_of(kind));
}

std::string shown(const RecordReading& reading) {
  if (reading.over_range) {
    return "OL";
  }
  const std::string text = shown(reading.kind, reading.value);
  return reading.test_volts ? text + " at " + format(*reading.test_volts) : text;
}

std::string local_time(std::int64_t at) {
  const auto seconds = static_cast<std::time_t>(at);
  std::tm parts{};
  std::array<char, 32> buffer{};
  if (localtime_r(&seconds, &parts) == nullptr) {
    return "";
  }
  return {buffer.data(), std::strftime(buffer.data(), buffer.size(), "%Y-%m-%d %H:%M", &parts)};
}

std::string title_of_item(const Ground& ground, const std::string& id) {
  const auto item = ground.item(id);
  if (item) {
    return ground.compiled.items[*item].title;
  }
  // A group all of whose parts have names is no item of its own any more.
  constexpr std::string_view prefix = "group:";
  const auto* group = knowledge::find(ground.equipment->groups,
                                      id.starts_with(prefix) ? id.substr(prefix.size()) : id);
  return group == nullptr ? id : group->title;
}

std::string title_of_check(const Ground& ground, const std::string& check,
                           const std::string& place) {
  if (const auto finding = ground.check_finding(check, place)) {
    return title_of_finding(ground, *finding);
  }
  return place.empty() ? check : check + '@' + place;
}

CautionView view_of(const knowledge::Caution& caution) {
  return {caution.id, caution.title, caution.wording, caution.danger};
}

}  // namespace dryout::casework
