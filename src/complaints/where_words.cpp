#include "complaints/where_words.h"

#include <string_view>

namespace dryout::complaints {
namespace {

constexpr std::string_view minutes_mark = "minutes=";

std::string told_when(const std::string& when) {
  if (when.starts_with(minutes_mark)) {
    const std::string minutes = when.substr(minutes_mark.size());
    return "after " + minutes + (minutes == "1" ? " minute" : " minutes");
  }
  return when == "load" ? "under load" : "when " + when;
}

std::string told_one(const std::string& name, const std::string& word) {
  if (name == "channel") return word + " channel";
  if (name == "band") return "on " + word;
  if (name == "path") return "on " + word;
  if (name == "source") return "from " + word;
  if (name == "follows") return word == "not" ? "whatever the volume" : "follows the " + word;
  if (name == "rate") return word == "twice" ? "at twice the mains rate" : "at the mains rate";
  return told_when(word);
}

}  // namespace

std::string told(const Where& where) {
  std::string text;
  for (const auto& [name, word] : where) {
    text += (text.empty() ? "" : ", ") + told_one(name, word);
  }
  return text;
}

}  // namespace dryout::complaints
