// dryout decide CASE: repair or recap, and why; what a case without complaint should have measured;
// how to prove what was mended.
#include <CLI/CLI.hpp>
#include <cmath>
#include <iomanip>
#include <ostream>
#include <set>
#include <string>

#include "app/commands.h"
#include "app/mending_json.h"
#include "app/print_view.h"
#include "quantities/printed_number.h"

namespace dryout::app {
namespace {

using casework::MendingView;

std::string amount(double money) { return quantities::whole_number(money); }

void print_list(std::ostream& out, const char* title, const std::vector<std::string>& lines) {
  if (!lines.empty()) {
    out << '\n' << title << '\n';
  }
  for (const std::string& line : lines) {
    out << "  - " << line << '\n';
  }
}

void print_fitted(std::ostream& out, const MendingView& mending) {
  if (!mending.fitted.empty()) {
    out << "\nMended so far; what follows is what else could be done\n";
  }
  for (const casework::Fitted& fitted : mending.fitted) {
    out << "  - " << fitted.item_title << ": " << fitted.action
        << (fitted.fitted.empty() ? "" : ", " + fitted.fitted) << '\n';
  }
}

void print_options(std::ostream& out, const MendingView& mending) {
  out << "\n  expected  spread     now  risk  unmended  comes back  parts\n";
  for (const casework::OptionView& option : mending.options) {
    out << std::right << std::setw(10) << amount(option.expected_cost) << std::setw(8)
        << amount(option.spread) << std::setw(8) << amount(option.cost_now) << std::setw(6)
        << amount(option.damage_cost + option.come_back_cost) << std::setw(10)
        << amount(option.unmended_cost) << std::setw(12) << percent(option.come_back.value())
        << std::setw(7) << option.parts << "  " << option.title << " (" << option.scope << ")\n";
  }
  out << "  in " << mending.currency << "; spread: standard deviation of what it will have cost\n";
}

void print_sampling(std::ostream& out, const MendingView& mending) {
  out << "\nBatches to sample, the one that most threatens a come-back first\n";
  for (const casework::CohortSample& sample : mending.sampling) {
    out << "  " << sample.title << ": " << sample.parts << (sample.parts == 1 ? " part" : " parts")
        << ", gives up with " << percent(sample.gives_up.value()) << "\n    " << sample.sentence
        << '\n';
  }
  out << "  " << mending.sampling_rule << '\n';
}

void print_proof(std::ostream& out, const MendingView& mending) {
  out << "\nProof\n";
  std::set<std::string> said;  // a caution that several steps share is read once
  for (const casework::ProofStep& step : mending.proof) {
    const char* mark = step.failed ? "[!] " : step.done ? "[x] " : step.skipped ? "[-] " : "[ ] ";
    out << "  " << mark << step.title << "  (" << step.id << ")\n      " << step.wording << '\n';
    if (!step.remark.empty()) {
      out << "      noted: " << step.remark << '\n';
    }
    if (!step.caution.empty() && said.insert(step.caution).second) {
      out << "      CAUTION: " << step.caution << '\n';
    }
  }
}

}  // namespace

void print_mending(std::ostream& out, const MendingView& mending) {
  for (const std::string& notice : mending.notices) {
    out << "Note: " << notice << '\n';
  }
  out << mending.sentence << '\n';
  for (const std::string& reason : mending.reasons) {
    out << "  - " << reason << '\n';
  }
  if (!mending.flips.empty()) {
    out << mending.flips << '\n';
  }
  print_fitted(out, mending);
  print_options(out, mending);
  if (mending.preventive) {
    print_sampling(out, mending);
  }
  print_list(out, "What is left in the set", mending.left);
  if (!mending.compared.empty()) {
    out << "\nBefore and after\n";
  }
  for (const casework::BeforeAfter& pair : mending.compared) {
    out << "  " << pair.item_title << ", " << pair.kind << ": " << pair.before_shown << ", now "
        << pair.after_shown << '\n';
  }
  print_proof(out, mending);
}

namespace {

Exit decide(const Invocation& invocation, const std::string& name, double years) {
  const Terminal& terminal = invocation.terminal;
  const auto opened = open_case(invocation.surroundings, name);
  if (!opened) {
    return refuse(terminal, opened.problems());
  }
  const auto mending = opened->workshop->mending(opened->number, years);
  if (!mending) {
    return refuse(terminal, mending.problems());
  }
  if (terminal.json) {
    return answer(terminal, to_json(*mending));
  }
  print_mending(terminal.out, *mending);
  return Exit::done;
}

}  // namespace

void add_decide(Commands& commands) {
  std::string& name = commands.text();
  double& years = commands.real(casework::usual_horizon_years);
  CLI::App* command =
      commands.add("decide",
                   "Repair or recap: options, costs, reasons, proof; without a complaint, which "
                   "batches to measure and when to stop",
                   [&](const Invocation& invocation) { return decide(invocation, name, years); });
  command->add_option("case", name, "Case number or case file")->required();
  command->add_option("--years", years, "How long the owner wants it to last, 0.1 to 30")
      ->capture_default_str();
}

}  // namespace dryout::app
