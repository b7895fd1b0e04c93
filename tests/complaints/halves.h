// Complaints with known answers, and how many of them a reader gets right.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "complaints/complaint_reader.h"
#include "documents/parse.h"
#include "knowledge/load.h"

namespace dryout::complaints {

struct KnownComplaint {
  std::string said;
  std::set<std::string> symptoms, equipment, elsewhere;
  Where where;
};

inline std::set<std::string> ids_under(const documents::Value& complaint, const char* name) {
  std::set<std::string> ids;
  if (const documents::Value* list = complaint.find(name)) {
    for (const documents::Value& id : *list->array_elements()) {
      ids.insert(*id.text());
    }
  }
  return ids;
}

inline std::vector<KnownComplaint> known_complaints(const std::string& half) {
  const auto document =
      documents::read_file(std::string(DRYOUT_SOURCE_DIR "/tests/complaints/") + half + ".json");
  std::vector<KnownComplaint> known;
  for (const documents::Value& each : *document->root.find("complaints")->array_elements()) {
    KnownComplaint complaint{*each.find("said")->text(),
                             ids_under(each, "symptoms"),
                             ids_under(each, "equipment"),
                             ids_under(each, "elsewhere"),
                             {}};
    if (const documents::Value* where = each.find("where")) {
      for (const auto& [name, word] : *where->object_members()) {
        complaint.where[name] = *word.text();
      }
    }
    known.push_back(std::move(complaint));
  }
  return known;
}

inline const knowledge::KnowledgeBase& shipped_base() {
  static const knowledge::KnowledgeBase base = *knowledge::load({DRYOUT_SOURCE_DIR});
  return base;
}

inline const Vocabulary& shipped_vocabulary() {
  static const Vocabulary vocabulary = *load_vocabulary({DRYOUT_SOURCE_DIR});
  return vocabulary;
}

inline const ComplaintReader& shipped_reader() {
  static const ComplaintReader reader(shipped_base(), shipped_vocabulary());
  return reader;
}

/// Shares of the complaints that name a symptom, and of those that belong elsewhere.
struct Score {
  double first = 0, five = 0, nothing = 0;
  double elsewhere_first = 0;
  double where = 0;      ///< of those that name a place or condition: all of it found
  double equipment = 0;  ///< of those that name a kind: a right one first
  double sent_away = 0;  ///< of those with a symptom: something elsewhere offered, wrongly
};

inline double share(int some, int all) { return all == 0 ? 0.0 : static_cast<double>(some) / all; }

inline bool where_found(const KnownComplaint& complaint, const Heard& heard) {
  for (const auto& [name, word] : complaint.where) {
    const auto& first = heard.symptoms;
    if (first.empty() || !first.front().where.contains(name) ||
        first.front().where.at(name) != word) {
      return false;
    }
  }
  return true;
}

inline Score score_of(const ComplaintReader& reader, const std::vector<KnownComplaint>& known) {
  int ours = 0;
  int first = 0;
  int five = 0;
  int nothing = 0;
  int others = 0;
  int others_first = 0;
  int placed = 0;
  int placed_right = 0;
  int named = 0;
  int named_right = 0;
  int sent_away = 0;
  for (const KnownComplaint& complaint : known) {
    const Heard heard = reader.read(complaint.said);
    if (!complaint.elsewhere.empty()) {
      ++others;
      others_first +=
          !heard.elsewhere.empty() && complaint.elsewhere.contains(heard.elsewhere.front().id);
    }
    if (!complaint.symptoms.empty()) {
      ++ours;
      nothing += heard.symptoms.empty();
      bool among_five = false;
      for (std::size_t i = 0; i < heard.symptoms.size() && i < 5; ++i) {
        among_five = among_five || complaint.symptoms.contains(heard.symptoms[i].id);
      }
      five += among_five;
      first += !heard.symptoms.empty() && complaint.symptoms.contains(heard.symptoms.front().id);
      sent_away += !heard.elsewhere.empty() && complaint.elsewhere.empty();
    }
    if (!complaint.where.empty()) {
      ++placed;
      placed_right += where_found(complaint, heard);
    }
    if (!complaint.equipment.empty()) {
      ++named;
      named_right +=
          !heard.equipment.empty() && complaint.equipment.contains(heard.equipment.front().id);
    }
  }
  return {share(first, ours),          share(five, ours),           share(nothing, ours),
          share(others_first, others), share(placed_right, placed), share(named_right, named),
          share(sent_away, ours)};
}

}  // namespace dryout::complaints
