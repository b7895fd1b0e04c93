// The whole job in a terminal, question by question: take in, symptoms, probing, repair, proof.
// Every answer becomes a casework::Command; the session itself knows nothing that the case does
// not.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "app/awaited_figures.h"
#include "app/conversation.h"
#include "casework/workshop.h"

namespace dryout::app {

class GuidedSession {
 public:
  GuidedSession(const Conversation& talk, casework::Workshop& workshop)
      : talk_(talk), workshop_(workshop), figures_(talk.out()) {}

  /// Goes on with a case of the store or takes a set in; nothing where the person walks away.
  [[nodiscard]] std::optional<std::int64_t> begin();
  /// Probing until the person leaves or the case is closed.
  Exit work(std::int64_t number);

 private:
  [[nodiscard]] std::optional<std::int64_t> take_in();
  bool apply(const casework::Command& command);
  void take_up_edits();
  void refresh(const quantities::Result<casework::CaseView>& view);
  /// What a step came to.
  bool show_step(const quantities::Result<quantities::Done>& entered);
  void ask_symptoms();
  casework::ReportSymptom ask_report(const casework::SymptomView& symptom);
  void ask_other_channels(const casework::SymptomView& symptom, const std::string& channel);
  void ask_complaint_symptoms(const std::string& question);
  /// The symptoms of the case in the order in which they are offered.
  [[nodiscard]] std::vector<std::size_t> offered_symptoms(std::size_t& fitting) const;
  void propose();
  /// False when the session is to end.
  bool turn();
  bool answer_key(char key, const std::string& rest);
  void record(casework::Seen bad);
  /// Shows cautions and asks.
  [[nodiscard]] bool heeds(const std::vector<casework::CautionView>& cautions,
                           const std::string& reminder);
  bool heeded();
  void ask_across(casework::RecordReading& reading);
  void measure(const std::string& number);
  void decline();
  void choose_alternative();
  void open_access();
  void explain();
  void mend();
  void prove();

  const Conversation& talk_;
  casework::Workshop& workshop_;
  AwaitedFigures figures_;
  casework::CaseView view_;
  std::size_t chosen_ = 0;  ///< which of the ranked checks is proposed
};

}  // namespace dryout::app
