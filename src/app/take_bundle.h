// dryout shop import: all of a bundle is looked at before any of it is written, and where it is
// refused nothing has changed.
#pragma once

#include <string>

#include "app/commands.h"

namespace dryout::app {

struct BundleWishes {
  bool replace = false;   ///< own files take the place of others of their name
  bool cautions = false;  ///< also those whose cautions or hazards are other than the shipped ones
};

[[nodiscard]] Exit take_bundle(const Invocation& invocation, const std::string& path,
                               const BundleWishes& wishes);

}  // namespace dryout::app
