#include "app/awaited_figures.h"

#include <csignal>
#include <utility>

namespace dryout::app {
namespace {

volatile std::sig_atomic_t interrupted = 0;

/// While it lives, Ctrl-C is noted and ends nothing.
class Interruptions {
 public:
  Interruptions() {
    interrupted = 0;
    struct sigaction note = {};
    note.sa_handler = [](int) { interrupted = 1; };
    ::sigaction(SIGINT, &note, &before_);
  }
  ~Interruptions() { ::sigaction(SIGINT, &before_, nullptr); }
  Interruptions(const Interruptions&) = delete;
  Interruptions& operator=(const Interruptions&) = delete;

 private:
  struct sigaction before_ = {};
};

}  // namespace

quantities::Result<casework::CaseView> AwaitedFigures::of(const casework::Workshop& workshop,
                                                          std::int64_t number) {
  constexpr std::chrono::milliseconds said_after(500);
  constexpr std::chrono::milliseconds looked_each(100);
  if (const auto asked = thinking_.ask(workshop, number, casework::AskFigures{}); !asked) {
    return asked.problems();
  }
  if (!thinking_.wait_at_most(said_after)) {
    const Interruptions noted;
    out_ << "The figures are being worked out; Ctrl-C gives them up. What was entered is kept."
         << std::endl;
    bool given_up = false;
    while (!thinking_.wait_at_most(looked_each)) {
      if (interrupted != 0 && !given_up) {
        given_up = true;
        thinking_.give_up();
      }
    }
  }
  for (casework::ThoughtOut& thought : thinking_.take()) {
    if (auto* view = std::get_if<quantities::Result<casework::CaseView>>(&thought.answer)) {
      return std::move(*view);
    }
  }
  return workshop.view(number);
}

}  // namespace dryout::app
