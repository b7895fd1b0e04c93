#include "window/symptom_search.h"

#include <algorithm>

#include "complaints/complaint_reader.h"

namespace dryout::window {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool in_word(char c) {
  const char low = lower(c);
  return (low >= 'a' && low <= 'z') || (c >= '0' && c <= '9') ||
         static_cast<unsigned char>(c) >= 0x80;
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (in_word(c)) {
      words.back() += lower(c);
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) {
    words.pop_back();
  }
  return words;
}

bool begins_one(const std::string& asked, const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(),
                     [&asked](const std::string& word) { return word.rfind(asked, 0) == 0; });
}

}  // namespace

int words_matched(std::string_view asked, std::string_view text) {
  const std::vector<std::string> wanted = words_of(asked);
  if (wanted.empty()) {
    return 1;
  }
  const std::vector<std::string> words = words_of(text);
  return static_cast<int>(
      std::count_if(wanted.begin(), wanted.end(),
                    [&words](const std::string& word) { return begins_one(word, words); }));
}

std::vector<std::size_t> find_symptoms(const std::vector<casework::SymptomView>& symptoms,
                                       std::string_view asked) {
  struct Fit {
    int words;
    std::size_t place;
  };
  std::vector<Fit> fits;
  for (std::size_t i = 0; i < symptoms.size(); ++i) {
    std::string text = symptoms[i].title + ' ' + symptoms[i].family;
    for (const std::string& words : symptoms[i].owner_words) {
      text += ' ' + words;
    }
    const int matched = words_matched(asked, text);
    if (matched > 0) {
      fits.push_back({matched, i});
    }
  }
  std::stable_sort(fits.begin(), fits.end(),
                   [](const Fit& a, const Fit& b) { return a.words > b.words; });
  std::vector<std::size_t> places;
  places.reserve(fits.size());
  for (const Fit& fit : fits) {
    places.push_back(fit.place);
  }
  return places;
}

std::vector<std::size_t> find_symptoms(const casework::CaseView& view, std::string_view asked,
                                       const casework::Catalogue& catalogue) {
  std::vector<std::size_t> places;
  if (catalogue.complaint_reader != nullptr && !asked.empty()) {
    const complaints::Beside beside{view.equipment, view.year_built};
    for (const auto& heard : catalogue.complaint_reader->read(asked, beside).symptoms) {
      for (std::size_t i = 0; i < view.symptoms.size(); ++i) {
        if (view.symptoms[i].id == heard.id) {
          places.push_back(i);
        }
      }
    }
  }
  for (const std::size_t place : find_symptoms(view.symptoms, asked)) {
    if (std::find(places.begin(), places.end(), place) == places.end()) {
      places.push_back(place);
    }
  }
  return places;
}

}  // namespace dryout::window
