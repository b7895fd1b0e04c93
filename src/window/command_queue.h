// What the person at the desk wants. Pages push; after the frame is drawn, one place answers:
// turn_pages.cpp what concerns only the desk, attend.cpp what concerns the case.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "casework/command.h"
#include "casework/own_set.h"
#include "casework/shop_memory.h"

namespace dryout::window {

/// The stations of a job in the order they come up, then the pictures that accompany all of them.
enum class Station {
  cases,
  take_in,
  symptoms,
  probe,
  suspects,
  mend,
  hand_over,
  map,
  readings,
  log,
  library,
  plan,
  practice,
  shop
};

struct StartCase {
  casework::TakeIn intake;
  std::vector<casework::Command> then = {};  ///< the first steps of the case: symptoms taken
};
struct OpenCase {
  std::int64_t number = 0;
};
/// One step of the log, whichever it is (LogLine::event).
struct TakeBack {
  int event = 0;
};
struct Undo {};
struct Redo {};
struct GoTo {
  Station station = Station::probe;
};
struct ShowSuspect {
  std::string item;
};
struct ShowCheck {
  std::string check, place;
};  ///< "" = the best one
/// How long the owner wants the set to last.
struct ChangeHorizon {
  double years = 0.0;
};
/// Cases older than those on the shelf, by their words; none = the newest alone.
struct SearchShelf {
  std::string words;
};
struct ToggleFar {};
struct ToggleHelp {};
struct ToggleTheme {};
struct ChangeScale {
  int steps = 0;
};  ///< of a quarter
struct CopyText {
  std::string text;
};
/// One of the papers of the open case (papers.h names them), as a new file.
struct WritePaper {
  std::string paper;
};
/// What a path goes on to that was begun, among files with these endings.
struct LookIntoFolder {
  std::string begun;
  std::vector<std::string> endings;
};
/// Cases from another bench.
struct TakeCasesIn {
  std::string path;
};
/// What the shop's page shows of all cases (shop_view.h).
struct AskShop {
  casework::ReadingsAsked readings;
};
/// Whether closed cases enter the figures, from now on.
/// One of the shop's figures; nothing = back to what is shipped.
struct SetShopFigure {
  std::string key;
  std::optional<double> value;
};
struct UseShopHistory {
  bool on = false;
};
/// All cases into one new file: a copy of the store, or a text that another bench can take in.
struct CopyAllCases {
  bool as_text = false;
};
/// Reads every page of the store and says whether it is sound.
struct CheckStore {};
/// The form for readings, open for the parts of a batch: an item id of its group.
struct MeasureBatch {
  std::string group;
};
struct SavePicture {};
/// One chart alone, as a picture (chart_picture.h names them).
struct SaveChart {
  std::string chart;
};
/// Checks in a row of the plan ahead.
struct ChangeDepth {
  int depth = 3;
};
/// What would change if these were done.
struct AskWhatIf {
  std::vector<casework::Command> commands;
};
/// A set with hidden faults; `seed` 0 = any.
struct StartPractice {
  std::string equipment;
  std::uint64_t seed = 0;
};
struct AskHint {};
struct GiveUpPractice {};
/// The advice's next step on the set that was practised on: one a frame, so that nothing stands
/// still.
struct FollowAdvice {};
struct LeavePractice {};
/// What is being worked out is not waited for any longer.
struct StopThinking {};
/// What would come of a parts list; and keeping it as own equipment.
struct LookAtPartsList {
  casework::OwnSetWish wish;
};
struct KeepPartsList {
  casework::OwnSetWish wish;
};

using Intention =
    std::variant<casework::Command, StartCase, OpenCase, TakeBack, Undo, Redo, GoTo, ShowSuspect,
                 ShowCheck, ChangeHorizon, ToggleFar, ToggleHelp, ToggleTheme, ChangeScale,
                 CopyText, SavePicture, SaveChart, ChangeDepth, AskWhatIf, StartPractice, AskHint,
                 GiveUpPractice, FollowAdvice, LeavePractice, LookAtPartsList, KeepPartsList,
                 SearchShelf, WritePaper, LookIntoFolder, TakeCasesIn, AskShop, UseShopHistory,
                 SetShopFigure, CopyAllCases, CheckStore, MeasureBatch, StopThinking>;

class CommandQueue {
 public:
  void push(Intention intention) { wanted_.push_back(std::move(intention)); }
  [[nodiscard]] std::vector<Intention> take() { return std::exchange(wanted_, {}); }
  [[nodiscard]] const std::vector<Intention>& wanted() const { return wanted_; }
  [[nodiscard]] bool empty() const { return wanted_.empty(); }

 private:
  std::vector<Intention> wanted_;
};

}  // namespace dryout::window
