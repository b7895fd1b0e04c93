// The files a technician reads, looks for and is handed. The program says how they are reached and
// where they go; cases and window name no folder.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "quantities/result.h"

namespace dryout::casework {

struct FolderEntry {
  std::string name;  ///< "parts.csv", "radios/"
  std::string path;  ///< whole; of a folder with the stroke at its end
  bool is_folder = false;
};

/// What a path goes on to that has been typed so far.
struct FolderView {
  std::string begun;                 ///< as it was typed
  std::string folder;                ///< the folder looked into, with the stroke at its end
  std::vector<FolderEntry> entries;  ///< folders first, each kind by name
  int left_out = 0;                  ///< entries beyond those listed
};

struct OwnFiles {
  /// The whole text of a parts list or a case file.
  std::function<quantities::Result<std::string>(const std::string& path)> read;
  /// Keeps a text under a name below the own folder; the path written. Refused where such a file
  /// is there and `replace` is not set.
  std::function<quantities::Result<std::string>(const std::string& name, const std::string& text,
                                                bool replace)>
      keep;
  /// The folders, and the files with one of these endings (".csv"), whose path goes on from what
  /// was begun; "" begins in the technician's home. Hidden ones only where their dot was typed.
  std::function<quantities::Result<FolderView>(const std::string& begun,
                                               const std::vector<std::string>& endings)>
      look_into;
  /// Writes a new file, for its owner alone, among the papers the program has made; its path.
  std::function<quantities::Result<std::string>(const std::string& stem, const std::string& ending,
                                                const std::string& bytes)>
      hand_out;
  /// A path among these papers that is not taken: STEM-1.ending, STEM-2.ending ...
  std::function<quantities::Result<std::string>(const std::string& stem, const std::string& ending)>
      free_path;
  /// Keeps, for the next time the program starts, whether closed cases enter the figures.
  std::function<quantities::Result<quantities::Done>(bool wanted)> want_shop_history;
};

}  // namespace dryout::casework
