#include "casework/plan_ahead.h"

namespace dryout::casework {
namespace {

constexpr int depth_max = 6;

PlanStep worded(const Ground& ground, const Reasoning& reasoning, const planning::TreeNode& node) {
  PlanStep step;
  step.leaf = node.leaf;
  step.reached = quantities::Probability(node.probability);
  step.suspect = ground.compiled.network.items[node.leading_item].id;
  step.suspect_title = ground.compiled.items[node.leading_item].title;
  step.suspicion = quantities::Probability(node.leading);
  if (node.leaf) {
    return step;
  }
  const KnownFinding finding = reasoning.bench.findings.at(node.check);
  step.check = ground.compiled.named(finding).check;
  step.place = ground.compiled.named(finding).place;
  step.title = title_of_finding(ground, finding);
  for (const planning::TreeNode& next : node.then) {
    step.then.push_back(worded(ground, reasoning, next));
  }
  return step;
}

}  // namespace

quantities::Result<PlanStep> plan_ahead(const Ground& ground, const Reasoning& reasoning,
                                        int depth) {
  if (depth < 1 || depth > depth_max) {
    return quantities::Problem{
        "a plan of that depth cannot be made", {}, std::to_string(depth), "1 to 6 checks in a row"};
  }
  const auto tree =
      planning::contingency_tree(reasoning.evidence.network.plain(), reasoning.evidence.evidence,
                                 reasoning.bench.bench, depth);
  if (!tree) {
    return tree.problems();
  }
  return worded(ground, reasoning, *tree);
}

}  // namespace dryout::casework
