#include "app/bundle_file.h"

#include <algorithm>
#include <filesystem>

#include "casework/case_file.h"
#include "documents/element_stream.h"
#include "documents/reader.h"
#include "quantities/shown_text.h"

namespace dryout::app {

using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

namespace {

Result<OwnText> read_own(const documents::StreamedElement& each, const std::string& path) {
  const auto document = documents::parse(each.text, path);
  if (!document) {
    return document.problems();
  }
  Problems problems;
  const documents::Reader root(*document, problems);
  root.accept_only({"file", "text"});
  OwnText own{root.text("file"), root.text("text")};
  if (problems.empty() && !is_own_name(own.name)) {
    root.complain("no name of a file of one's own", own_name_accepted,
                  '"' + quantities::excerpt(own.name) + '"');
  }
  for (Problem& problem : problems) {
    problem.place.line += problem.place.line > 0 ? each.line - 1 : 0;
    problem.place.pointer = "/own/" + std::to_string(each.index) + problem.place.pointer;
  }
  return problems.empty() ? Result<OwnText>(std::move(own)) : problems;
}

}  // namespace

bool is_own_name(const std::string& name) {
  constexpr std::size_t bytes_max = 200;
  const std::filesystem::path path = name;
  const bool place = name.starts_with("rules/") || name.starts_with("symptoms/");
  const bool hidden = std::any_of(path.begin(), path.end(), [](const auto& part) {
    return part.empty() || part.native().front() == '.';
  });
  return place && !hidden && name.ends_with(".json") && name.size() <= bytes_max &&
         name.find("//") == std::string::npos && name.find('\\') == std::string::npos &&
         quantities::shown_line(name) == name;  // no sign that is not seen
}

Result<Bundle> look_through(const std::string& path,
                            const std::function<Result<Done>(const OwnText&)>& visit) {
  Bundle bundle;
  const auto heading =
      documents::stream_elements(path, {"own", "cases"}, casework::case_bytes_max,
                                 [&](const documents::StreamedElement& each) -> Result<Done> {
                                   if (each.key != "own") {
                                     return Done{};
                                   }
                                   ++bundle.own;
                                   const auto own = read_own(each, path);
                                   return own ? visit(*own) : own.problems();
                                 });
  if (!heading) {
    return heading.problems();
  }
  Problems problems;
  const documents::Reader root(*heading, problems);
  if (root.text("format") != casework::format_of_shop && problems.empty()) {
    root.complain("this is no bundle of a shop",
                  "a file of `dryout shop export`; one of cases alone: `dryout case import`");
  }
  if (const auto settings = root.optional_member("settings")) {
    settings->accept_only({"in_the_figures"});
    bundle.in_the_figures = settings->boolean("in_the_figures");
  }
  return problems.empty() ? Result<Bundle>(bundle) : problems;
}

}  // namespace dryout::app
