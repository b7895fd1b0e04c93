// The files a technician reads, looks for and is handed. The program says how they are reached and
// where they go; cases and window name no folder.
#pragma once

#include <functional>
#include <string>
#include <string_view>
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

/// What the program writes for a technician, each kind in a folder of its own.
enum class Made { papers, pictures };

/// Whatever is asked of files that nobody gave.
struct NoFiles {
  template <class... Asked>
  quantities::Problem operator()(const Asked&... /*asked*/) const {
    return {"this program was given no way to reach files", {}, "", ""};
  }
};

/// Until the program gives them, each refuses.
struct OwnFiles {
  /// The whole text of a parts list or a case file.
  std::function<quantities::Result<std::string>(const std::string& path)> read = NoFiles{};
  /// The text of a file below the own folder; "" where there is none.
  std::function<quantities::Result<std::string>(std::string_view name)> own_text = NoFiles{};
  /// Keeps a text under a name below the own folder; the path written. Refused where such a file
  /// is there and `replace` is not set.
  std::function<quantities::Result<std::string>(const std::string& name, const std::string& text,
                                                bool replace)>
      keep = NoFiles{};
  /// The folders, and the files with one of these endings (".csv"), whose path goes on from what
  /// was begun; "" begins in the technician's home. Hidden ones only where their dot was typed.
  std::function<quantities::Result<FolderView>(const std::string& begun,
                                               const std::vector<std::string>& endings)>
      look_into = NoFiles{};
  /// A path that is not taken: STEM-1.ending, STEM-2.ending ... The folder is made, for its owner
  /// alone, where it is missing.
  std::function<quantities::Result<std::string>(Made what, const std::string& stem,
                                                const std::string& ending)>
      free_path = NoFiles{};
  /// Writes a new file, for its owner alone, among the papers; its path.
  std::function<quantities::Result<std::string>(const std::string& stem, const std::string& ending,
                                                const std::string& bytes)>
      hand_out = NoFiles{};
  /// Keeps, for the next time the program starts, whether closed cases enter the figures.
  std::function<quantities::Result<quantities::Done>(bool wanted)> want_shop_history = NoFiles{};
};

}  // namespace dryout::casework
