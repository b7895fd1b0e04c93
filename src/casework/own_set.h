// A technician's own equipment out of a parts list, for both faces: what would come of it, in words
// and plain values, and the text of the file to keep. Reading and keeping files is the caller's.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "knowledge/describe_set.h"
#include "quantities/result.h"

namespace dryout::casework {

struct OwnSetWish {
  std::string file;  ///< the parts list, as complaints name it
  std::string like;  ///< id of the nearest architecture; "" = the one that fits best
  std::string id;    ///< "" = made of the title, else of the file's name
  std::string title;
  bool only_listed = false;  ///< blocks without listed capacitors lose the architecture's groups
  bool replace = false;      ///< an own equipment of that id may be overwritten
};

struct OwnSet {
  std::string id, title;
  knowledge::Nearness like;
  std::vector<knowledge::Nearness> nearest;  ///< the three best
  int capacitors = 0;                        ///< in the list
  int placed = 0;
  int not_fitted = 0;
  std::vector<knowledge::PartGroup> groups;  ///< of the new equipment
  std::vector<std::string> lent;             ///< "C7: Main reservoirs"
  std::vector<std::string> kept;             ///< groups that stayed the architecture's
  std::vector<std::string> missing;          ///< "C12, 47u: what it does (its role)"
  std::map<std::string, int> others;         ///< other parts by letters of their reference
  std::vector<std::string> unread;           ///< headings that say nothing to us
  std::string sentence;                      ///< all of it in one or two sentences
  std::string file_text;                     ///< the equipment file
  std::string file_name;                     ///< below the own folder: rules/equipment/ID.json
  knowledge::Equipment equipment;
};

/// `text` is the parts list's whole text. Nothing is written.
[[nodiscard]] quantities::Result<OwnSet> describe_own_set(const knowledge::KnowledgeBase& knowledge,
                                                          const std::string& text,
                                                          const OwnSetWish& wish);

}  // namespace dryout::casework
