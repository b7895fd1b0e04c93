// The JSON form of a bare fault network with its evidence (the file of `dryout infer`), and of the
// answer.
#pragma once

#include "diagnosis/network.h"
#include "diagnosis/posterior.h"
#include "documents/parse.h"

namespace dryout::diagnosis {

struct NetworkFile {
  Network network;
  Evidence evidence;
};

[[nodiscard]] quantities::Result<NetworkFile> read_network(const documents::Document& document);
[[nodiscard]] documents::Value to_json(const Network& network, const Posterior& posterior);

}  // namespace dryout::diagnosis
