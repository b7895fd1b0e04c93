#include "casework/library.h"

#include <algorithm>
#include <map>
#include <sstream>

#include "casework/library_entries.h"

namespace dryout::casework {
namespace {

std::string lowered(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return lower;
}

/// "check ripple-on-rail: Ripple on a rail".
std::string line_of_entry(const LibraryEntry& entry) {
  std::string shelf(shelf_words()[static_cast<std::size_t>(entry.shelf)]);
  if (shelf.back() == 's') shelf.pop_back();
  return shelf + ' ' + entry.id + ": " + entry.title;
}

std::vector<ShelvedEntry> shelve_all(const knowledge::KnowledgeBase& knowledge,
                                     const readings::ReadingKnowledge& readings) {
  std::vector<ShelvedEntry> all;
  const auto put = [&all](const auto& entries) {
    for (const auto& entry : entries) all.push_back(shelved(entry));
  };
  for (const auto& equipment : knowledge.equipment) all.push_back(shelved(equipment, knowledge));
  put(knowledge.symptoms);
  put(knowledge.checks);
  put(knowledge.roles);
  put(knowledge.causes);
  put(readings.limits.rows);
  put(readings.caveats);
  put(knowledge.cautions);
  for (const auto& link : knowledge.links) all.push_back(shelved(link, knowledge));
  put(knowledge.technologies);
  put(knowledge.modes);
  put(knowledge.phenomena);
  put(readings.meters);
  return all;
}

}  // namespace

const std::vector<std::string_view>& shelf_words() {
  static const std::vector<std::string_view> words{
      "equipment", "symptoms", "checks",       "roles", "causes",    "limits", "caveats",
      "cautions",  "rules",    "technologies", "modes", "phenomena", "meters"};
  return words;
}

std::string_view word_of_source(SourceKind kind) {
  switch (kind) {
    case SourceKind::published:
      return "published";
    case SourceKind::memory:
      return "from memory";
    case SourceKind::common_practice:
      return "common practice";
    case SourceKind::judgement:
      break;
  }
  return "judgement";
}

std::vector<LibraryEntry> library_of(const knowledge::KnowledgeBase& knowledge,
                                     const readings::ReadingKnowledge& readings) {
  std::vector<ShelvedEntry> all = shelve_all(knowledge, readings);
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < all.size(); ++i) {
    places.emplace(key_of(all[i].entry.shelf, all[i].entry.id), i);
  }
  for (const ShelvedEntry& speaker : all) {
    for (const std::string& key : speaker.speaks_of) {
      const auto place = places.find(key);
      if (place != places.end()) {
        all[place->second].entry.touched_by.push_back(line_of_entry(speaker.entry));
      }
    }
  }
  std::vector<LibraryEntry> library;
  library.reserve(all.size());
  for (ShelvedEntry& shelved : all) library.push_back(std::move(shelved.entry));
  return library;
}

bool matches(const LibraryEntry& entry, std::string_view words) {
  std::string hay = entry.id + ' ' + entry.title + ' ' + entry.because + ' ' + entry.source;
  for (const auto& [name, fact] : entry.facts) hay += ' ' + fact;
  hay = lowered(hay);
  std::istringstream stream(lowered(words));
  for (std::string word; stream >> word;) {
    if (hay.find(word) == std::string::npos) {
      return false;
    }
  }
  return true;
}

SourceCount count_sources(const std::vector<LibraryEntry>& entries, Shelf shelf) {
  SourceCount count;
  for (const LibraryEntry& entry : entries) {
    if (entry.shelf != shelf) continue;
    switch (entry.kind) {
      case SourceKind::published:
        ++count.published;
        break;
      case SourceKind::memory:
        ++count.memory;
        break;
      case SourceKind::common_practice:
        ++count.common_practice;
        break;
      case SourceKind::judgement:
        ++count.judgement;
        break;
    }
  }
  return count;
}

std::string source_table(const std::vector<LibraryEntry>& entries) {
  const auto row = [](std::string_view name, const SourceCount& count) {
    std::string line = "| " + std::string(name);
    for (const int number :
         {count.published, count.common_practice, count.judgement, count.memory, count.all()}) {
      line += " | " + std::to_string(number);
    }
    return line + " |\n";
  };
  std::string table =
      "| what | published | common practice | judgement | from memory | all |\n"
      "|---|---|---|---|---|---|\n";
  SourceCount all;
  for (std::size_t i = 0; i < shelf_words().size(); ++i) {
    const SourceCount count = count_sources(entries, static_cast<Shelf>(i));
    if (count.all() == 0) continue;
    table += row(shelf_words()[i], count);
    all.published += count.published;
    all.common_practice += count.common_practice;
    all.judgement += count.judgement;
    all.memory += count.memory;
  }
  return table + row("all", all);
}

}  // namespace dryout::casework
