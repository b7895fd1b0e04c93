#include "knowledge/read_entries.h"

namespace dryout::knowledge {
namespace {

using documents::Reader;

void read_when(const Reader& when, Link& link) {
  when.accept_only({"role", "mode", "cause", "phenomenon", "kinds"});
  const int openings = static_cast<int>(when.has("role")) + static_cast<int>(when.has("cause")) +
                       static_cast<int>(when.has("phenomenon"));
  if (openings != 1) {
    when.complain("a link opens in one way", "one of role (with mode), cause, phenomenon");
    return;
  }
  if (when.has("mode") && !when.has("role")) {
    when.complain("a mode belongs to a role", "\"role\" and \"mode\" together");
  }
  if (when.has("role")) {
    link.roles = when.texts("role");
    link.mode = when.id("mode");
  } else if (when.has("cause")) {
    link.cause = when.id("cause");
  } else {
    link.from_phenomenon = when.id("phenomenon");
  }
  link.from_kinds = when.optional_texts("kinds");
}

}  // namespace

Link read_link(const Reader& reader) {
  reader.accept_only({"id", "because", "source", "judged", "when", "then", "strength"});
  Link link;
  read_head(reader, link, false);
  read_when(reader.object("when"), link);
  const Reader then = reader.object("then");
  then.accept_only({"phenomenon", "reach", "kinds", "through"});
  link.phenomenon = then.id("phenomenon");
  link.reach = static_cast<Reach>(then.one_of(
      "reach", {"here", "own-rail", "own-block", "fed-blocks", "source-block", "next-blocks",
                "previous-blocks", "made-rails", "supply-rails", "branch-rails", "neighbours"}));
  link.to_kinds = then.optional_texts("kinds");
  link.to_through = then.optional_texts("through");
  link.strength = reader.number("strength", {.max = 1.0, .above = 0.0});
  return link;
}

}  // namespace dryout::knowledge
