// Random commands, sensible and senseless, for long cases: mostly of ids that the view shows, now
// and then from nowhere. One seed gives one case on every machine.
#pragma once

#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/command.h"
#include "casework/mending_view.h"
#include "casework/words.h"

namespace dryout::casework::tests {

class CommandMaker {
 public:
  CommandMaker(unsigned seed, const CaseView& view) : random_(seed), view_(&view) {}
  /// Steps of the proof are taken from the mending; without it they come from nowhere. Both must
  /// stay until others are looked at.
  void look_at(const CaseView& view, const MendingView* mending = nullptr) {
    view_ = &view;
    mending_ = mending;
  }

  unsigned upto(std::size_t n) { return static_cast<unsigned>(random_() % n); }

  Command make() {
    if (view_->closed && upto(3) != 0) {
      return ReopenCase{text()};
    }
    switch (upto(17)) {
      case 0:
        return intake();
      case 1:
      case 2:
        return ReportSymptom{symptom(), seen()};
      case 3:
      case 4:
        return on_check([&](auto c, auto p) { return RecordOutcome{c, p, seen(), text()}; });
      case 5:
        return reading();
      case 6:
        return part();
      case 7:
        return on_check([](auto c, auto p) { return AcknowledgeCautions{c, p}; });
      case 8:
        return on_check([&](auto c, auto p) { return DeclineCheck{c, p, text()}; });
      case 9:
        return reconsidered();
      case 10:
        return OpenAccess{access()};
      case 11:
        return CloseAccess{access()};
      case 12:
        return JudgeSuspect{item(), static_cast<JudgeSuspect::Verdict>(upto(3))};
      case 13:
        return repair();
      case 14:
        return retest();
      case 15:
        return proof();
      default:
        break;
    }
    return upto(3) == 0   ? Command(CloseCase{upto(3) == 0 ? "" : item(), text()})
           : upto(2) == 0 ? Command(ReopenCase{text()})
                          : Command(AddNote{text()});
  }

  /// What is done to a set again and again until its complaint is gone.
  Command mend_or_retest() {
    const unsigned which = upto(6);
    return which == 0   ? Command(ReportSymptom{symptom(), Seen::yes})
           : which == 1 ? on_check([&](auto c, auto p) {
               return RecordOutcome{c, p, seen(), ""};
             })
           : which == 2 ? Command(reading())
           : which == 3 ? repair()
                        : retest();
  }

 private:
  bool astray() { return upto(25) == 0; }
  Seen seen() { return static_cast<Seen>(upto(3)); }
  std::string text() {
    static const std::array<std::string, 6> texts{"",     "hums", "µF Ω", "\"quoted\"\n",
                                                  "\xff", "=1+1"};
    return texts.at(upto(texts.size()));
  }
  template <class List, class IdOf>
  std::string pick(const List& list, IdOf id_of) {
    return list.empty() || astray() ? "nowhere" : id_of(list[upto(list.size())]);
  }
  /// Mostly one that was told: what is told again and again is what goes wrong.
  std::string symptom() {
    std::vector<std::string> told;
    for (const SymptomView& each : view_->symptoms) {
      if (!each.seen.empty()) {
        told.push_back(each.id);
      }
    }
    return !told.empty() && upto(3) != 0
               ? pick(told, [](const auto& id) { return id; })
               : pick(view_->symptoms, [](const auto& s) { return s.id; });
  }
  /// Half of them among the most suspicious.
  std::string item() {
    constexpr std::size_t leading = 6;
    if (view_->suspects.size() > leading && upto(2) == 0) {
      return view_->suspects[upto(leading)].item;
    }
    return pick(view_->suspects, [](const auto& s) { return s.item; });
  }
  std::string access() {
    return pick(view_->access, [](const auto& a) { return a.id; });
  }
  std::string group() {
    const std::string id = item();
    return id.starts_with("group:") ? id.substr(6) : "reservoirs";
  }
  template <class Make>
  Command on_check(Make make) {
    if (view_->next.empty() || astray()) {
      return make(std::string("ripple-on-rail"), std::string("nowhere"));
    }
    const CheckView& check = view_->next[upto(view_->next.size())];
    return make(check.check, check.place);
  }
  Command reconsidered() {
    if (!view_->declined.empty()) {
      const CheckView& check = view_->declined[upto(view_->declined.size())];
      return ReconsiderCheck{check.check, check.place};
    }
    return on_check([](auto c, auto p) { return ReconsiderCheck{c, p}; });
  }
  Command intake() {
    TakeIn intake{"", text(), {}, upto(2) == 0 ? "" : "Frau Abel", text()};
    if (upto(2) == 0) {
      intake.year_built = 1900 + static_cast<int>(upto(140));
    }
    return intake;
  }
  Command part() {
    NamePart part{"C" + std::to_string(upto(9)), group(), {}, {}, "", text()};
    if (upto(2) == 0) {
      part.capacitance = quantities::Farad(std::pow(10.0, static_cast<int>(upto(11)) - 11));
    }
    if (upto(2) == 0) {
      part.rated = quantities::Volt(std::pow(10.0, static_cast<int>(upto(4))));
    }
    if (upto(4) == 0) {
      part.technology = upto(2) == 0 ? "wet-aluminium" : "film";
    }
    return part;
  }
  Command repair() {
    static const std::array<std::string, 4> actions{"replaced", "resoldered", "cleaned",
                                                    "adjusted"};
    return RecordRepair{item(), actions.at(upto(2) == 0 ? 0 : upto(actions.size())), text()};
  }
  Command retest() { return RetestSymptom{symptom(), upto(2) == 0}; }
  Command proof() {
    const auto outcome = static_cast<Proved>(upto(3));
    if (mending_ != nullptr && !mending_->proof.empty() && !astray()) {
      return RecordProof{mending_->proof[upto(mending_->proof.size())].id, outcome, text()};
    }
    return RecordProof{upto(2) == 0 ? "soak" : "rail-volts@" + symptom(), outcome, text()};
  }
  Command reading() {
    RecordReading reading;
    reading.item = item();
    reading.kind = static_cast<ReadingKind>(upto(readings::kind_words().size()));
    reading.value = astray()       ? std::numeric_limits<double>::quiet_NaN()
                    : upto(9) == 0 ? 0.0
                                   : std::pow(10.0, static_cast<int>(upto(9)) - 6);
    reading.in_circuit = upto(2) == 0;
    reading.across = static_cast<Across>(upto(readings::across_words().size()));
    if (upto(2) == 0) {
      reading.limit = std::pow(10.0, static_cast<int>(upto(5)) - 3);
      reading.limit_source = limit_source_words().at(upto(limit_source_words().size()));
    }
    if (upto(3) == 0) {
      reading.frequency = quantities::hertz(upto(2) == 0 ? 120.0 : 1000.0);
      reading.temperature = quantities::Celsius(static_cast<double>(upto(60)) - 10.0);
      reading.lead_zero = upto(2) == 0 ? 0.05 : 0.5;
    }
    return reading;
  }

  std::mt19937 random_;
  const CaseView* view_;
  const MendingView* mending_ = nullptr;
};

}  // namespace dryout::casework::tests
