// Where the program finds its knowledge and keeps its cases, by the XDG base directory
// specification, unless told otherwise on the command line.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "casework/workshop.h"
#include "knowledge/knowledge_base.h"
#include "quantities/result.h"

namespace dryout::app {

struct Surroundings {
  std::vector<std::string> knowledge;  ///< the shipped tree first, then those laid over it
  std::string own_knowledge;           ///< the technician's own folder, there or not yet
  std::string demo_case;               ///< an invented set to try things on
  std::string pictures;                ///< where the window saves pictures
  std::string papers;                  ///< where the window writes reports, lists, case files
  std::string store;                   ///< the case store, an SQLite file
  int year_now = 0;                    ///< for ages and date codes
};

/// The defaults: $DRYOUT_KNOWLEDGE, or share/dryout beside the program, or the source tree it was
/// built from; then the technician's own folder $XDG_DATA_HOME/dryout/own where there is one; and
/// the store $XDG_DATA_HOME/dryout/cases.db. Without XDG_DATA_HOME and HOME nobody knows where:
/// those are then "", and what would be kept there is refused with no_data_folder().
[[nodiscard]] Surroundings find_surroundings();

[[nodiscard]] quantities::Problem no_data_folder();

/// Loads the knowledge and opens the store (its folder is made where it is missing).
[[nodiscard]] quantities::Result<std::unique_ptr<casework::Workshop>> open_workshop(
    const Surroundings& surroundings);

/// Takes the demo set into a store that has no case yet, so that a first look finds something to
/// probe. A store with cases is left alone.
[[nodiscard]] quantities::Result<quantities::Done> lay_out_demo(const Surroundings& surroundings,
                                                                casework::Workshop& workshop);

/// A case as the command line names it: a number in the store, or the path of a case file, which
/// is then looked at without being kept.
struct OpenCase {
  std::unique_ptr<casework::Workshop> workshop;
  std::int64_t number = 0;
  bool kept = true;  ///< false: from a file; changes would be lost, so they are refused

  /// Which of its steps are damaged or missing, in a sentence; "" = none, or no case.
  [[nodiscard]] std::string damage() const;
};
[[nodiscard]] quantities::Result<OpenCase> open_case(const Surroundings& surroundings,
                                                     const std::string& name);

/// The same, but an empty name opens the store with no case (number 0).
[[nodiscard]] quantities::Result<OpenCase> open_store_or_case(const Surroundings& surroundings,
                                                              const std::string& name);

}  // namespace dryout::app
