// Reading the files of one knowledge tree, and laying one tree over another.
#pragma once

#include <string>

#include "knowledge/knowledge_base.h"
#include "quantities/problem.h"

namespace dryout::knowledge {

/// Everything under `directory`; problems are collected, what could be read is returned.
[[nodiscard]] KnowledgeBase read_tree(const std::string& directory, quantities::Problems& problems);

/// Warnings for files that no room reads: a wrong folder, a wrong name.
[[nodiscard]] quantities::Problems unread_files(const std::string& directory);

/// Puts the entries of `over` in the place of those with the same id, and adds the others.
void lay_over(KnowledgeBase& base, KnowledgeBase over);

}  // namespace dryout::knowledge
