// The door through which faces reach the cases: opens the store, knows the knowledge, applies
// commands, shows views. Everything changes here or nowhere.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "casework/case_view.h"
#include "casework/command.h"
#include "knowledge/knowledge_base.h"
#include "quantities/result.h"

namespace dryout::casework {

/// Seconds since the epoch; a parameter, so that replay is exact.
using Clock = std::function<std::int64_t()>;

struct CaseSummary {
  std::int64_t number = 0;
  std::string set_name, equipment_title, complaint, opened, state;
};

class Workshop {
 public:
  /// Opens (or makes) the case store and takes the loaded knowledge.
  [[nodiscard]] static quantities::Result<std::unique_ptr<Workshop>> open(
      const std::string& store_path, knowledge::KnowledgeBase knowledge, Clock clock);
  ~Workshop();

  [[nodiscard]] const knowledge::KnowledgeBase& knowledge() const;
  [[nodiscard]] quantities::Result<std::vector<CaseSummary>> cases() const;

  /// A new case; its number. Written before this returns.
  [[nodiscard]] quantities::Result<std::int64_t> start(const TakeIn& intake);
  /// Applies one command, writes it, and shows the case as it then is. A refused command changes
  /// nothing.
  [[nodiscard]] quantities::Result<CaseView> apply(std::int64_t number, const Command& command);
  [[nodiscard]] quantities::Result<CaseView> undo(std::int64_t number);
  [[nodiscard]] quantities::Result<CaseView> redo(std::int64_t number);
  [[nodiscard]] quantities::Result<CaseView> view(std::int64_t number) const;

  /// One JSON text with everything in the journal; reading it back gives the same case.
  [[nodiscard]] quantities::Result<std::string> export_case(std::int64_t number) const;
  [[nodiscard]] quantities::Result<std::int64_t> import_case(const std::string& text,
                                                             const std::string& file);

 private:
  struct Inside;
  explicit Workshop(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace dryout::casework
