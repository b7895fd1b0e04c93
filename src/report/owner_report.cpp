#include "report/owner_report.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "casework/wording.h"
#include "report/escape.h"
#include "report/owner_sections.h"

namespace dryout::report {
namespace {

using casework::CaseView;
using casework::MendingView;
using casework::SuspectView;

Stage stage_of(const CaseView& view, const MendingView& mending) {
  if (view.closed) {
    return view.cause.empty() ? Stage::closed_without_cause : Stage::closed_with_cause;
  }
  const bool mended =
      !mending.fitted.empty() || std::any_of(view.suspects.begin(), view.suspects.end(),
                                             [](const auto& s) { return !s.mended.empty(); });
  return mended ? Stage::mended : Stage::in_work;
}

const SuspectView* first_where(const CaseView& view, bool (*fits)(const SuspectView&)) {
  const auto found = std::find_if(view.suspects.begin(), view.suspects.end(), fits);
  return found == view.suspects.end() ? nullptr : &*found;
}

const SuspectView* main_of(const CaseView& view, Stage stage) {
  if (stage == Stage::closed_without_cause) {
    return nullptr;
  }
  if (stage == Stage::closed_with_cause) {
    const auto cause = std::find_if(view.suspects.begin(), view.suspects.end(),
                                    [&](const auto& s) { return s.item == view.cause; });
    return cause == view.suspects.end() ? nullptr : &*cause;
  }
  const SuspectView* mended =
      first_where(view, [](const SuspectView& s) { return !s.mended.empty(); });
  const bool reported =
      view.leading.capacitor.value() + view.leading.other.value() + view.leading.unlisted.value() >
      0.0;
  if (mended != nullptr || !reported || view.suspects.empty()) {
    return mended;
  }
  // What makes the trouble: not what is bad besides.
  return &*std::max_element(
      view.suspects.begin(), view.suspects.end(),
      [](const SuspectView& a, const SuspectView& b) { return a.blame.value() < b.blame.value(); });
}

Facts owner_facts(const CaseView& view, const Imprint& imprint) {
  Facts facts;
  const auto fact = [&](const char* name, const std::string& value) {
    if (!value.empty()) {
      facts.facts.emplace_back(name, value);
    }
  };
  fact("Owner", cut_to(view.owner, 200));
  const std::string kind = view.equipment_title == set_title(view) || view.equipment_title.empty()
                               ? ""
                               : " (" + casework::mid_sentence(view.equipment_title) + ')';
  fact("Set", cut_to(set_title(view), 200) +
                  (view.year_built ? ", built " + std::to_string(*view.year_built) : "") + kind);
  fact("Workshop", cut_to(imprint.shop, 200));
  const std::string number = view.number > 0 ? "case " + std::to_string(view.number) + ", " : "";
  fact("Date", number + date_of(imprint));
  return facts;
}

}  // namespace

Imprint imprint_now(std::string shop) {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return {std::move(shop), std::chrono::duration_cast<std::chrono::seconds>(now).count()};
}

std::string date_of(const Imprint& imprint) {
  return casework::local_time(imprint.made_at).substr(0, 10);
}

std::string set_title(const CaseView& view) {
  return view.set_name.empty() ? view.equipment_title : view.set_name;
}

std::string running_line(const CaseView& view, const Imprint& imprint) {
  return (imprint.shop.empty() ? "" : imprint.shop + " \u00b7 ") +
         (view.number > 0 ? "Case " + std::to_string(view.number) + " \u00b7 " : "") +
         date_of(imprint) + " \u00b7 " + set_title(view);
}

OwnerCase owner_case(const CaseView& view, const MendingView& mending) {
  const Stage stage = stage_of(view, mending);
  return {view, mending, stage, main_of(view, stage)};
}

Document owner_report(const CaseView& view, const MendingView& mending, const Imprint& imprint) {
  const OwnerCase of = owner_case(view, mending);
  const std::string set = cut_to(set_title(view), 120);
  Document document;
  document.title = of.stage == Stage::in_work ? "Where your repair stands" : "About your repair";
  document.subtitle = set;
  document.subject = "Repair report for the owner";
  document.author = imprint.shop;
  document.made_at = imprint.made_at;
  document.pages_wanted = 2;
  document.running = running_line(view, imprint);
  document.blocks.emplace_back(owner_facts(view, imprint));
  for (const auto add : {add_summary, add_complaint, add_findings, add_replaced, add_readings,
                         add_proposal, add_left, add_proof, add_look_out, add_owner_cautions}) {
    add(document.blocks, of);
  }
  add_words(document.blocks);
  return document;
}

}  // namespace dryout::report
