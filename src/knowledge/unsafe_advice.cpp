// Advice that can hurt: a danger told without saying who comes before us, and re-forming told of
// parts that have no oxide to form.
#include <algorithm>
#include <cctype>

#include "knowledge/cross_check.h"
#include "knowledge/known_ids.h"

namespace dryout::knowledge {
namespace {

using quantities::Place;
using quantities::Problems;

constexpr std::string_view formed[] = {"wet-aluminium", "bipolar-aluminium",
                                       "surface-mount-aluminium"};

bool mentions(std::string_view text, std::string_view words) {
  return text.find(words) != std::string_view::npos;
}

/// Says that a part is to be re-formed, by a word that begins so ("preformed" is no such word).
bool speaks_of_reforming(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const char* word : {"reform", "re-form"}) {
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
      if (at == 0 || std::isalpha(static_cast<unsigned char>(text[at - 1])) == 0) {
        return true;
      }
    }
  }
  return false;
}

void check_text(const std::string& text, const Place& place, const std::string& id,
                Problems& problems) {
  if (speaks_of_reforming(text) && !mentions(text, "aluminium electrolytic") &&
      !mentions(text, "never re-formed")) {
    problems.push_back({"re-forming is advised without saying for what", place, id,
                        "\"aluminium electrolytic\" in the same text, or \"never re-formed\""});
  }
}

template <class Entries, class Texts>
void check_each(const Entries& entries, Texts texts, Problems& problems) {
  for (const auto& entry : entries) {
    for (const std::string& text : texts(entry)) {
      check_text(text, entry.place, entry.id, problems);
    }
    check_text(entry.title, entry.place, entry.id, problems);
    check_text(entry.because, entry.place, entry.id, problems);
  }
}

/// A check of these technologies alone may say it in short.
bool for_formed_parts_alone(const CheckRule& check) {
  return check.per == CheckRule::Per::group && !check.technologies.empty() &&
         std::all_of(check.technologies.begin(), check.technologies.end(),
                     [](const std::string& technology) {
                       return std::find(std::begin(formed), std::end(formed), technology) !=
                              std::end(formed);
                     });
}

}  // namespace

bool defers(std::string_view wording) {
  return mentions(wording, "local electrical code") && mentions(wording, "licensed practice");
}

Problems unsafe_advice(const KnowledgeBase& knowledge) {
  using Texts = std::vector<std::string>;
  Problems problems;
  for (const Caution& caution : knowledge.cautions) {
    if (caution.danger != "none" && !defers(caution.wording)) {
      problems.push_back({"a caution that does not say who comes first",
                          within(caution.place, "/wording"), caution.id,
                          "\"local electrical code\" and \"licensed practice\" in its wording"});
    }
  }
  check_each(
      knowledge.cautions, [](const Caution& c) { return Texts{c.wording}; }, problems);
  check_each(
      knowledge.roles, [](const Role& r) { return Texts{r.measure}; }, problems);
  check_each(
      knowledge.causes, [](const OtherCause& c) { return Texts{c.how_to_tell}; }, problems);
  check_each(
      knowledge.technologies, [](const Technology& /*t*/) { return Texts{}; }, problems);
  check_each(
      knowledge.links, [](const Link& /*l*/) { return Texts{}; }, problems);
  check_each(
      knowledge.symptoms,
      [](const Symptom& s) {
        return Texts{s.quick_test, s.discriminates};
      },
      problems);
  for (const CheckRule& check : knowledge.checks) {
    if (for_formed_parts_alone(check)) {
      continue;
    }
    for (const std::string& text :
         {check.title, check.because, check.instrument, check.probes, check.good, check.bad}) {
      check_text(text, check.place, check.id, problems);
    }
  }
  return problems;
}

}  // namespace dryout::knowledge
