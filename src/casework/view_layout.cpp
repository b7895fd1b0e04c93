// The equipment as the case sees it: symptoms it can have, boards, blocks, what is open.
#include <algorithm>

#include "casework/build_view.h"
#include "casework/located_symptoms.h"
#include "casework/words.h"

namespace dryout::casework {
namespace {

using quantities::Probability;

std::string seen_of(const CaseState& state, const std::string& symptom) {
  std::string seen;
  for (const auto& told : state.symptoms) {  // the newest stands last
    if (told.what.symptom != symptom) continue;
    // There in one place and not in another: it is there.
    const bool elsewhere = seen == "yes" && !anywhere(told.what.where);
    seen = told.what.seen == Seen::yes || elsewhere ? "yes" : "no";
  }
  return seen;
}

std::vector<std::string> titles_of_rails(const knowledge::Equipment& equipment,
                                         const std::vector<std::string>& ids) {
  std::vector<std::string> titles;
  for (const std::string& id : ids) {
    const auto* rail = knowledge::find(equipment.rails, id);
    titles.push_back(rail == nullptr ? id : rail->title);
  }
  return titles;
}

std::string title_of_board(const knowledge::Equipment& equipment, const std::string& id) {
  const auto* board = knowledge::find(equipment.boards, id);
  return board == nullptr ? "" : board->title;
}

}  // namespace

std::vector<SymptomView> symptoms_of(const CaseInHand& hand) {
  std::vector<SymptomView> symptoms;
  for (const diagnosis::CompiledFinding& finding : hand.ground.compiled.findings) {
    const auto* symptom = knowledge::find(hand.ground.knowledge->symptoms, finding.symptom);
    if (symptom != nullptr) {
      symptoms.push_back({symptom->id, symptom->title, symptom->family, symptom->owner_words,
                          symptom->quick_test, seen_of(hand.state, symptom->id)});
      SymptomView& view = symptoms.back();
      view.has_rate = has_rate(*symptom);
      for (const auto& told : hand.state.symptoms) {
        if (told.what.symptom != symptom->id || anywhere(told.what.where)) continue;
        view.placed.push_back({told.what.where, std::string(word_of(told.what.seen)),
                               words_of(*hand.ground.equipment, told.what.where)});
      }
    }
  }
  return symptoms;
}

std::vector<PlaceAxisView> places_of(const CaseInHand& hand) {
  using knowledge::Axis;
  const knowledge::SignalPlaces places(*hand.ground.knowledge, *hand.ground.equipment);
  std::vector<PlaceAxisView> axes;
  for (const Axis axis : {Axis::channel, Axis::band, Axis::path, Axis::source}) {
    PlaceAxisView view{std::string(knowledge::word_of(axis)), {}};
    for (const knowledge::NamedPlace& place : places.on(axis)) {
      view.choices.push_back({place.id, place.title});
    }
    if (view.choices.size() > 1) axes.push_back(std::move(view));
  }
  return axes;
}

std::vector<BoardView> boards_of(const CaseInHand& hand) {
  const knowledge::Equipment& equipment = *hand.ground.equipment;
  const planning::Bench& bench = hand.reasoning.bench.bench;
  std::vector<BoardView> boards;
  for (std::size_t i = 0; i < equipment.boards.size(); ++i) {
    const knowledge::Board& board = equipment.boards[i];
    BoardView view{board.id, board.title, Probability(hand.reasoning.by_board[i]), {}, {}};
    for (std::size_t step = 0; step < bench.access.size(); ++step) {
      if (bench.access[step].id != board.access) {
        continue;
      }
      const auto steps = steps_to(bench, {step});
      view.access_effort = effort_of(bench, steps);
      for (const std::size_t each : steps) {
        view.opens_titles.push_back(equipment.access[each].title);
      }
    }
    boards.push_back(std::move(view));
  }
  return boards;
}

std::vector<BlockView> blocks_of(const CaseInHand& hand) {
  const knowledge::Equipment& equipment = *hand.ground.equipment;
  std::vector<BlockView> blocks;
  for (std::size_t i = 0; i < equipment.blocks.size(); ++i) {
    const knowledge::Block& block = equipment.blocks[i];
    BlockView view;
    view.id = block.id;
    view.title = block.title;
    view.kind = block.kind;
    view.board = block.board;
    view.board_title = title_of_board(equipment, block.board);
    view.suspicion = Probability(hand.reasoning.by_block[i]);
    view.signal_to = block.signal_to;
    view.fed_by = titles_of_rails(equipment, block.fed_by);
    view.makes = titles_of_rails(equipment, block.makes);
    for (std::size_t item = 0; item < hand.ground.compiled.items.size(); ++item) {
      if (hand.ground.compiled.items[item].block == i) {
        view.items.push_back(hand.ground.compiled.network.items[item].id);
      }
    }
    blocks.push_back(std::move(view));
  }
  return blocks;
}

std::vector<AccessView> accesses_of(const CaseInHand& hand) {
  const planning::Bench& bench = hand.reasoning.bench.bench;
  std::vector<AccessView> accesses;
  for (std::size_t i = 0; i < bench.access.size(); ++i) {
    accesses.push_back({bench.access[i].id, hand.ground.equipment->access[i].title,
                        bench.access[i].effort, bench.open[i]});
  }
  return accesses;
}

}  // namespace dryout::casework
