#include "knowledge/load.h"

#include <filesystem>
#include <utility>

#include "knowledge/cross_check.h"
#include "knowledge/read_tree.h"

namespace dryout::knowledge {
namespace {

KnowledgeBase read_all(const std::vector<std::string>& directories,
                       quantities::Problems& problems) {
  KnowledgeBase knowledge;
  for (const std::string& directory : directories) {
    lay_over(knowledge, read_tree(directory, problems));
  }
  // References mean nothing while entries are missing because they could not be read.
  if (problems.empty()) {
    problems = broken_references(knowledge);
  }
  return knowledge;
}

}  // namespace

quantities::Result<KnowledgeBase> load(const std::vector<std::string>& directories) {
  quantities::Problems problems;
  KnowledgeBase knowledge = read_all(directories, problems);
  if (!problems.empty()) {
    return problems;
  }
  return knowledge;
}

bool holds_knowledge(const std::string& directory) {
  std::error_code error;
  const std::filesystem::path folder(directory);
  return std::filesystem::is_directory(folder / "rules", error) ||
         std::filesystem::is_directory(folder / "symptoms", error);
}

LintReport lint(const std::vector<std::string>& directories) {
  LintReport report;
  const KnowledgeBase knowledge = read_all(directories, report.faults);
  if (report.faults.empty()) {
    report.warnings = dead_ends(knowledge);
    report.faults = unsafe_advice(knowledge);
  }
  for (const std::string& directory : directories) {
    for (quantities::Problem& unread : unread_files(directory)) {
      report.warnings.push_back(std::move(unread));
    }
  }
  return report;
}

}  // namespace dryout::knowledge
