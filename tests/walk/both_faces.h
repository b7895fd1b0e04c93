// Everything that both faces can say of a case, said: what the command line prints, as text and as
// JSON, both papers and the parts sheet, and every page and chart of the window laid out. Whatever
// is read of a case is read here, so that a wrong index or a value never set does not hide.
#pragma once

#include <cstdint>
#include <string>

#include "casework/workshop.h"
#include "window/attend.h"
#include "window/windowless.h"

namespace dryout::walk {

/// A desk with one case on it, kept from step to step as a technician keeps his.
class BothFaces {
 public:
  /// The window is lent: to bake its faces anew for every case takes longer than all the rest.
  BothFaces(casework::Workshop& workshop, std::int64_t number, window::WindowlessDesk& lent);

  /// Does one thing at the desk. "" where it was done, else why not.
  std::string does(const window::Intention& wish);
  [[nodiscard]] const casework::CaseView& view() const { return desk_.open_case.value(); }
  /// Null until the faces were looked at, or where nothing could be weighed.
  [[nodiscard]] const casework::MendingView* mending() const {
    return desk_.mending ? &*desk_.mending : nullptr;
  }

  /// Says it all. `turn` picks what there are too many of: years, sizes of the page, charts, PDF.
  void look(unsigned turn);

 private:
  void lay_out_pages(unsigned turn);
  void lay_out_charts();
  void page(const std::string& name, bool filled);

  window::Bench bench_;
  window::Desk desk_;
  window::WindowlessDesk& window_;
  window::CommandQueue queue_;
};

}  // namespace dryout::walk
