// The bench record, second half: what was fitted, what was weighed and bought, how it was proved.
#include <array>
#include <cmath>
#include <cstdio>

#include "casework/wording.h"
#include "quantities/printed_number.h"
#include "report/bench_sections.h"
#include "report/compare_readings.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

using casework::MendingView;
using casework::percent;

std::string whole(double amount) { return quantities::whole_number(amount); }

void add_fitted(Blocks& blocks, const MendingView& mending) {
  if (mending.fitted.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"What was done"});
  Table table{{{"Part"}, {"Done"}, {"Fitted"}}, {}};
  for (const auto& fitted : mending.fitted) {
    table.rows.push_back(
        {fitted.item_title + " (" + fitted.item + ')', fitted.action, fitted.fitted});
  }
  blocks.emplace_back(table);
}

void add_compared(Blocks& blocks, const MendingView& mending) {
  if (mending.compared.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"Before and after, read in the same manner"});
  Table table{
      {{"Part"}, {"Kind"}, {"Before", true}, {"After", true}, {"Limit", true}, {"Limit from"}}, {}};
  for (const auto& pair : mending.compared) {
    table.rows.push_back({pair.item_title, std::string(words_of_kind(pair.kind).title),
                          pair.before_shown, pair.after_shown,
                          pair.limit ? shown_value(pair.kind, *pair.limit) : "\u2013",
                          pair.limit ? words_of_limit_source(pair.limit_source) : ""});
  }
  blocks.emplace_back(table);
}

void add_options(Blocks& blocks, const MendingView& mending) {
  if (mending.options.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"Mend one part or more: what was weighed"});
  if (!mending.sentence.empty()) {
    blocks.emplace_back(Paragraph{mending.sentence});
  }
  if (!mending.reasons.empty()) {
    blocks.emplace_back(Points{mending.reasons});
  }
  if (!mending.flips.empty()) {
    blocks.emplace_back(Paragraph{mending.flips});
  }
  Table table{{{"Option"},
               {"Parts", true},
               {"Now", true},
               {"Damage", true},
               {"Come-back", true},
               {"Unmended", true},
               {"In all", true},
               {"Spread", true},
               {"Comes back", true}},
              {}};
  for (const auto& option : mending.options) {
    table.rows.push_back({option.title, std::to_string(option.parts), whole(option.cost_now),
                          whole(option.damage_cost), whole(option.come_back_cost),
                          whole(option.unmended_cost), whole(option.expected_cost),
                          "\u00b1" + whole(option.spread), percent(option.come_back.value())});
  }
  blocks.emplace_back(table);
  blocks.emplace_back(Paragraph{
      "Expected costs" + (mending.currency.empty() ? "" : " in " + mending.currency) + " over " +
          counted(static_cast<std::size_t>(std::lround(mending.horizon_years)), "year", "years") +
          "; the spread is one standard deviation.",
      Paragraph::Tone::quiet});
}

void add_sampling(Blocks& blocks, const MendingView& mending) {
  if (mending.sampling.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"Batches sampled"});
  Table table{{{"Batch"},
               {"Parts", true},
               {"Measured", true},
               {"Out of limit", true},
               {"Spent", true},
               {"What to do with it"}},
              {}};
  std::size_t untouched = 0;
  for (const auto& batch : mending.sampling) {
    if (batch.measured == 0) {
      ++untouched;
      continue;
    }
    table.rows.push_back({batch.title, std::to_string(batch.parts), std::to_string(batch.measured),
                          std::to_string(batch.out_of_limit), percent(batch.spent.value()),
                          batch.sentence});
  }
  if (!table.rows.empty()) {
    blocks.emplace_back(table);
    if (!mending.sampling_rule.empty()) {
      blocks.emplace_back(Paragraph{mending.sampling_rule, Paragraph::Tone::quiet});
    }
  }
  if (untouched > 0) {
    blocks.emplace_back(
        Paragraph{counted(untouched, "batch", "batches") + " of which no part was measured.",
                  Paragraph::Tone::quiet});
  }
}

}  // namespace

Table shopping_table(const std::vector<casework::ShoppingRow>& shopping) {
  Table table{
      {{"Part"}, {"Needed", true}, {"Spare", true}, {"For"}, {"Chosen so because"}, {"Look at"}},
      {}};
  for (const casework::ShoppingRow& row : shopping) {
    table.rows.push_back({row.part, std::to_string(row.needed), std::to_string(row.spares),
                          one_a_line(row.for_parts), one_a_line(row.why), one_a_line(row.look_at)});
  }
  return table;
}

void add_bench_mending(Blocks& blocks, const MendingView& mending) {
  add_sampling(blocks, mending);
  add_fitted(blocks, mending);
  add_compared(blocks, mending);
  add_options(blocks, mending);
  if (!mending.shopping.empty()) {
    blocks.emplace_back(Heading{"Parts to order"});
    blocks.emplace_back(shopping_table(mending.shopping));
  }
  if (!mending.left.empty()) {
    blocks.emplace_back(Heading{"Left in the set"});
    blocks.emplace_back(Points{mending.left});
  }
  if (!mending.notices.empty()) {
    blocks.emplace_back(Heading{"Figures missing, and what was taken instead", 3});
    blocks.emplace_back(Points{mending.notices});
  }
}

void add_bench_proof(Blocks& blocks, const MendingView& mending) {
  if (mending.proof.empty()) {
    return;
  }
  blocks.emplace_back(Heading{"Proof of the repair"});
  Table table{{{"Step"}, {"How"}, {"Result"}}, {}};
  std::vector<std::string> to_do;
  for (const auto& step : mending.proof) {
    if (!step.failed && !step.skipped && !step.done) {
      to_do.push_back(step.title);
      continue;
    }
    const std::string result = step.failed ? "failed" : step.skipped ? "left out" : "passed";
    table.rows.push_back(
        {step.title, step.wording, result + (step.remark.empty() ? "" : ": " + step.remark)});
  }
  if (!table.rows.empty()) {
    blocks.emplace_back(table);
  }
  if (!to_do.empty()) {
    blocks.emplace_back(Paragraph{"Not on record as done: " + listed(to_do) + '.'});
  }
}

}  // namespace dryout::report
