#include "report/bench_record.h"

#include <cmath>

#include "casework/wording.h"
#include "quantities/printed_number.h"
#include "report/bench_sections.h"
#include "report/compare_readings.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::CaseView;
using casework::MendingView;

Facts bench_facts(const CaseView& view, const Imprint& imprint) {
  Facts facts;
  const auto fact = [&](const char* name, const std::string& value) {
    facts.facts.emplace_back(name, value.empty() ? "\u2013" : value);
  };
  fact("Set", set_title(view));
  fact("Built as", view.equipment_title);
  fact("Year", view.year_built ? std::to_string(*view.year_built) : "");
  fact("Owner", view.owner);
  fact("Complaint", view.complaint);
  fact("Workshop", imprint.shop);
  fact("Case", view.number > 0 ? std::to_string(view.number) : "");
  fact("Printed", casework::local_time(imprint.made_at));
  fact("State", view.closed ? "closed" : "open");
  return facts;
}

void add_standing(Blocks& blocks, const CaseView& view) {
  blocks.emplace_back(Paragraph{view.leading.sentence, Paragraph::Tone::lead});
  if (view.leading.capacitor.value() + view.leading.other.value() + view.leading.unlisted.value() >
      0.0) {
    blocks.emplace_back(Paragraph{
        "Some capacitor makes some of what was reported: " +
        casework::percent(view.leading.capacitor.value()) +
        "; something else in the list: " + casework::percent(view.leading.other.value()) +
        "; something that is not in the list: " + casework::percent(view.leading.unlisted.value()) +
        '.'});
  }
  if (!view.contradiction.empty()) {
    blocks.emplace_back(Warning{"The evidence cannot all be true", view.contradiction});
  }
  if (!view.notices.empty()) {
    blocks.emplace_back(Paragraph{"Told, but without effect on the figures:"});
    blocks.emplace_back(Points{view.notices});
  }
}

void add_hazards(Blocks& blocks, const CaseView& view) {
  blocks.emplace_back(Heading{"What can hurt in this set"});
  blocks.emplace_back(Paragraph{
      "Local electrical codes, licensed practice and the maker's instructions come before "
      "this record."});
  for (const auto& hazard : view.hazards) {
    blocks.emplace_back(Warning{hazard.title, hazard.wording});
  }
}

}  // namespace

std::string shown_weight(quantities::Decibans weight) {
  if (!std::isfinite(weight.value)) {
    return weight.value > 0.0 ? "certain" : "ruled out";
  }
  const std::string figure = quantities::fixed_point(weight.value, 1);
  return (figure.front() == '-' ? "" : "+") + figure + " dB";
}

Document bench_record(const CaseView& view, const MendingView& mending, const Imprint& imprint) {
  Document document;
  document.title = "Bench record";
  document.subtitle = set_title(view) + ", " + view.equipment_title;
  document.subject = "Bench record of one case";
  document.author = imprint.shop;
  document.made_at = imprint.made_at;
  document.dense = true;
  document.running = running_line(view, imprint);
  Blocks& blocks = document.blocks;
  blocks.emplace_back(bench_facts(view, imprint));
  add_standing(blocks, view);
  add_hazards(blocks, view);
  add_bench_symptoms(blocks, view);
  add_bench_readings(blocks, view, mending);
  add_bench_suspects(blocks, view);
  add_bench_checks(blocks, view);
  add_bench_access(blocks, view);
  add_bench_mending(blocks, mending);
  add_bench_proof(blocks, mending);
  add_bench_log(blocks, view);
  return document;
}

}  // namespace dryout::report
