#include "app/shop_setting.h"

#include <filesystem>

#include "documents/parse.h"
#include "documents/reader.h"
#include "documents/write_whole.h"

namespace dryout::app {
namespace {

namespace fs = std::filesystem;
using quantities::Done;
using quantities::Problem;
using quantities::Result;

fs::path setting_file(const Surroundings& surroundings) {
  return fs::path(surroundings.own_knowledge).parent_path() / "shop_history.json";
}

}  // namespace

std::string shop_setting_file(const Surroundings& surroundings) {
  return surroundings.own_knowledge.empty() ? "" : setting_file(surroundings).string();
}

Result<bool> shop_history_wanted(const Surroundings& surroundings) {
  if (surroundings.own_knowledge.empty()) {
    return false;
  }
  const fs::path file = setting_file(surroundings);
  std::error_code error;
  if (!fs::exists(file, error)) {
    return false;
  }
  const auto document = documents::read_file(file.string());
  if (!document) {
    return document.problems();
  }
  quantities::Problems problems;
  const documents::Reader root(*document, problems);
  root.accept_only({"schema", "in_the_figures"});
  (void)root.whole_number("schema", {.min = 1.0, .max = 1.0});
  const bool wanted = root.boolean("in_the_figures");
  return problems.empty() ? Result<bool>(wanted) : Result<bool>(problems);
}

Result<Done> want_shop_history(const Surroundings& surroundings, bool wanted) {
  if (surroundings.own_knowledge.empty()) {
    return no_data_folder();
  }
  const fs::path file = setting_file(surroundings);
  std::error_code error;
  fs::create_directories(file.parent_path(), error);
  if (error) {
    return Problem{"the folder for the setting cannot be made",
                   {file.parent_path().string(), 0, {}},
                   error.message(),
                   "a folder this user may write"};
  }
  return documents::write_whole(
      file.string(),
      documents::to_text(documents::Value::object({{"schema", 1}, {"in_the_figures", wanted}})));
}

}  // namespace dryout::app
