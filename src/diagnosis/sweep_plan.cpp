#include "diagnosis/sweep_plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "diagnosis/block_cut.h"
#include "diagnosis/elimination_order.h"

namespace dryout::diagnosis {
namespace {

std::vector<Block> gather_blocks(const FoldedEvidence& folded) {
  const Network& network = *folded.network;
  std::vector<Block> blocks;
  std::vector<Index> block_of_cohort(network.cohorts.size(), none);
  for (Index item = 0; item < network.items.size(); ++item) {
    if (!folded.is_hot(item)) {
      continue;
    }
    const auto& cohort = network.items[item].cohort;
    Index block = cohort ? block_of_cohort[*cohort] : none;
    if (block == none) {
      block = static_cast<Index>(blocks.size());
      blocks.emplace_back();
      if (cohort) {
        block_of_cohort[*cohort] = block;
        blocks.back().cohort = static_cast<Index>(*cohort);
        blocks.back().levels = folded.levels(item);
      }
    }
    blocks[block].items.push_back(item);
    blocks[block].shared = united(blocks[block].shared, shared_of_item(folded, item));
  }
  return blocks;
}

std::vector<Block> in_order(std::vector<Block> blocks, std::size_t shared_count) {
  std::vector<std::vector<Index>> sets;
  sets.reserve(blocks.size());
  for (const Block& block : blocks) {
    sets.push_back(block.shared);
  }
  std::vector<Block> ordered;
  for (const Index b : order_sets(sets, std::vector<Index>(shared_count, 0),
                                  std::vector<bool>(shared_count, false))) {
    ordered.push_back(std::move(blocks[b]));
  }
  return ordered;
}

/// Links and rows of the step's items, findings numbered within the step.
void describe_items(const FoldedEvidence& folded, Step& step) {
  step.first_link = {0};
  step.first_row = {0};
  for (const Index item : step.items) {
    for (Index k = folded.first_link[item]; k < folded.first_link[item + 1]; ++k) {
      const Link& link = folded.links[k];
      const auto at = std::lower_bound(step.shared.begin(), step.shared.end(), link.shared);
      step.links.push_back(
          {link.state, static_cast<Index>(at - step.shared.begin()), link.strength});
    }
    step.first_link.push_back(static_cast<Index>(step.links.size()));
    step.first_row.push_back(step.first_row.back() + folded.states(item));
  }
}

/// Cuts every block into steps and puts the steps of a block in order.
void lay_steps(const FoldedEvidence& folded, SweepPlan& plan) {
  const std::size_t count = folded.shared.size();
  Waiting waiting{std::vector<bool>(count, false), std::vector<Index>(count, 0)};
  for (const Block& block : plan.blocks) {
    for (const Index finding : block.shared) {
      ++waiting.left[finding];
    }
  }
  for (Index b = 0; b < plan.blocks.size(); ++b) {
    Block& block = plan.blocks[b];
    block.first_step = static_cast<Index>(plan.steps.size());
    for (const Index finding : block.shared) {
      --waiting.left[finding];
    }
    std::vector<Part> parts = cut_block(folded, block, waiting);
    for (std::size_t k = 0; k < parts.size(); ++k) {
      Step step;
      step.block = b;
      step.opens = k == 0;
      step.wide = parts[k].wide;
      step.lanes_in = k == 0 ? 1 : block.levels;
      step.lanes_out = k + 1 == parts.size() ? 1 : block.levels;
      step.items = std::move(parts[k].items);
      step.shared = std::move(parts[k].shared);
      describe_items(folded, step);
      plan.steps.push_back(std::move(step));
    }
    for (const Index finding : block.shared) {
      waiting.open[finding] = waiting.left[finding] > 0;
    }
  }
}

/// Sorts the kernel's entries by the state they write to.
Direction direction(const std::vector<Index>& source, const std::vector<Index>& target) {
  Direction d;
  d.entry.resize(source.size());
  for (Index k = 0; k < d.entry.size(); ++k) {
    d.entry[k] = k;
  }
  std::stable_sort(d.entry.begin(), d.entry.end(),
                   [&target](Index a, Index b) { return target[a] < target[b]; });
  for (Index k = 0; k < d.entry.size(); ++k) {
    const Index entry = d.entry[k];
    d.source.push_back(source[entry]);
    if (d.target.empty() || d.target.back() != target[entry]) {
      d.target.push_back(target[entry]);
      d.first.push_back(k);
    }
  }
  d.first.push_back(static_cast<Index>(d.entry.size()));
  return d;
}

/// Places of the open findings in the vector before and after one step.
struct Places {
  std::vector<Index> before;  ///< findings by place
  std::vector<Index> after;
  [[nodiscard]] static Index find(const std::vector<Index>& open, Index finding) {
    return static_cast<Index>(std::find(open.begin(), open.end(), finding) - open.begin());
  }
};

/// Offsets of every kernel entry, the first finding of the step being the fastest digit.
void lay_kernel(const Places& places, Step& step) {
  step.from = {0};
  step.to = {0};
  for (std::size_t k = 0; k < step.shared.size(); ++k) {
    const Role role = step.roles[k];
    const Index in = Index{1} << Places::find(places.before, step.shared[k]);
    const Index out = Index{1} << Places::find(places.after, step.shared[k]);
    std::array<Index, 3> from{0, 0, in};
    std::array<Index, 3> to{0, out, out};
    if (role == Role::leaves) {
      from = {0, in, 0};
      to = {0, 0, 0};
    } else if (role != Role::stays) {
      from = {0, 0, 0};
    }
    const std::size_t size = step.from.size();
    std::vector<Index> from_all;
    std::vector<Index> to_all;
    for (Index digit = 0; digit < entries_of(role); ++digit) {
      for (std::size_t e = 0; e < size; ++e) {
        from_all.push_back(step.from[e] + from[digit]);
        to_all.push_back(step.to[e] + (role == Role::passes ? 0 : to[digit]));
      }
    }
    step.from = std::move(from_all);
    step.to = std::move(to_all);
  }
  step.forward = direction(step.from, step.to);
  step.backward = direction(step.to, step.from);
}

/// Runs of entries that differ only in findings the step leaves alone.
void lay_runs(const Places& places, Step& step) {
  step.base_in = {0};
  step.base_out = {0};
  bool lowest = true;
  for (Index place = 0; place < places.before.size(); ++place) {
    const Index finding = places.before[place];
    if (std::binary_search(step.shared.begin(), step.shared.end(), finding)) {
      lowest = false;
      continue;
    }
    lowest = lowest && places.after[place] == finding;
    if (lowest) {
      ++step.log2_run;
      continue;
    }
    const Index in = Index{1} << place;
    const Index out = Index{1} << Places::find(places.after, finding);
    const std::size_t size = step.base_in.size();
    for (std::size_t r = 0; r < size; ++r) {
      step.base_in.push_back(step.base_in[r] + in);
      step.base_out.push_back(step.base_out[r] + out);
    }
  }
}

quantities::Problem too_close(const FoldedEvidence& folded, std::size_t open) {
  return {"the findings hang together too closely for an exact answer",
          {},
          std::to_string(folded.shared.size()) +
              " positive or soft findings with shared causes, of which " + std::to_string(open) +
              " must be weighed at once",
          "at most " + std::to_string(open_max) +
              " at once and 1 GB of working memory; leave out the findings that say least"};
}

/// The steps that touch each finding, in order.
using Touches = std::vector<std::vector<Index>>;

/// The step after t that touches the finding next; `none` where there is none.
Index next_touch(const Touches& touches, Index finding, Index t) {
  const std::vector<Index>& steps = touches[finding];
  const auto at = std::upper_bound(steps.begin(), steps.end(), t);
  return at == steps.end() ? none : *at;
}

/// Gives every finding of step t its role and the step its place in the vectors.
void assign_roles(const Touches& touches, Index t, Places& places, Step& step) {
  places.after.clear();
  const auto touched = [&step](Index finding) {
    return std::binary_search(step.shared.begin(), step.shared.end(), finding);
  };
  const auto goes_on = [&](Index finding) { return next_touch(touches, finding, t) != none; };
  for (const Index finding : places.before) {
    if (!touched(finding) || goes_on(finding)) {
      places.after.push_back(finding);
    }
  }
  for (const Index finding : step.shared) {
    const bool was_open = Places::find(places.before, finding) < places.before.size();
    if (goes_on(finding) && !was_open) {
      places.after.push_back(finding);
    }
    step.roles.push_back(was_open ? (goes_on(finding) ? Role::stays : Role::leaves)
                                  : (goes_on(finding) ? Role::enters : Role::passes));
  }
  step.log2_in = static_cast<Index>(places.before.size());
  step.log2_out = static_cast<Index>(places.after.size());

  // The lowest places should hold findings that the next steps leave alone, so that the inner loops
  // run over contiguous values. Where this step breaks them, its output is laid out anew.
  constexpr std::ptrdiff_t run_wanted = 3;
  const auto first_touched = std::find_if(places.before.begin(), places.before.end(), touched);
  if (!step.wide && first_touched - places.before.begin() < run_wanted) {
    std::stable_sort(places.after.begin(), places.after.end(), [&](Index a, Index b) {
      return next_touch(touches, a, t) > next_touch(touches, b, t);
    });
  }
}

/// What the step's vectors and index tables take, in bytes, before any of them is made.
double bytes_of(const Step& step) {
  double entries = 1.0;
  for (const Role role : step.roles) {
    entries *= step.wide ? 1.0 : entries_of(role);
  }
  const double vectors = 3.0 * step.lanes_out * std::exp2(step.log2_out) * sizeof(double);
  const double tables = entries * (40.0 + 16.0 * step.lanes());
  const double rows = static_cast<double>(step.first_row.back() + 1) * step.lanes() *
                      (step.wide ? static_cast<double>(step.rows())
                                 : std::exp2(static_cast<double>(step.shared.size()))) *
                      sizeof(double);
  return vectors + tables + rows;
}

void mark_pieces(SweepPlan& plan) {
  const std::size_t count = plan.steps.size();
  plan.piece_begin.resize(count);
  plan.piece_end.resize(count);
  for (std::size_t t = 0; t < count; ++t) {
    plan.piece_begin[t] =
        plan.steps[t].size_in() == 1 ? static_cast<Index>(t) : plan.piece_begin[t - 1];
  }
  for (std::size_t t = count; t-- > 0;) {
    plan.piece_end[t] =
        plan.steps[t].size_out() == 1 ? static_cast<Index>(t + 1) : plan.piece_end[t + 1];
  }
}

/// Roles, windows and index tables of all steps.
quantities::Result<quantities::Done> lay_windows(const FoldedEvidence& folded, SweepPlan& plan) {
  Touches touches(folded.shared.size());
  for (Index t = 0; t < plan.steps.size(); ++t) {
    for (const Index finding : plan.steps[t].shared) {
      touches[finding].push_back(t);
    }
  }
  Places places;
  double bytes = 0.0;
  for (Index t = 0; t < plan.steps.size(); ++t) {
    Step& step = plan.steps[t];
    assign_roles(touches, t, places, step);
    const std::size_t open = std::max(places.before.size(), places.after.size());
    bytes += bytes_of(step);
    if (open > open_max || step.shared.size() > open_max || bytes > memory_max) {
      return too_close(folded, std::max(open, step.shared.size()));
    }
    if (step.wide) {
      for (const Index finding : step.shared) {
        step.place.push_back(Places::find(places.before, finding));
      }
    } else {
      lay_kernel(places, step);
      lay_runs(places, step);
    }
    places.before = places.after;
  }
  return quantities::Done{};
}

}  // namespace

quantities::Result<SweepPlan> plan_sweep(const FoldedEvidence& folded) {
  SweepPlan plan;
  plan.blocks = in_order(gather_blocks(folded), folded.shared.size());
  lay_steps(folded, plan);
  if (const auto laid = lay_windows(folded, plan); !laid) {
    return laid.problems();
  }
  mark_pieces(plan);
  plan.step_of_item.assign(folded.network->items.size(), none);
  for (Index t = 0; t < plan.steps.size(); ++t) {
    for (const Index item : plan.steps[t].items) {
      plan.step_of_item[item] = t;
    }
  }
  plan.block_of_cohort.assign(folded.network->cohorts.size(), none);
  for (Index b = 0; b < plan.blocks.size(); ++b) {
    if (plan.blocks[b].cohort != none) {
      plan.block_of_cohort[plan.blocks[b].cohort] = b;
    }
  }
  return plan;
}

}  // namespace dryout::diagnosis
