// Finding a file by typing its path: what a path goes on to that has been begun.
#pragma once

#include <string>
#include <vector>

#include "casework/own_files.h"
#include "quantities/result.h"

namespace dryout::app {

/// See casework::OwnFiles::look_into. A folder that is not there or may not be read is a problem.
[[nodiscard]] quantities::Result<casework::FolderView> look_into_folder(
    const std::string& begun, const std::vector<std::string>& endings);

}  // namespace dryout::app
