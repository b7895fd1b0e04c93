// dryout shop words: what the bench's own closed cases teach the complaint reader.
#pragma once

#include "app/commands.h"

namespace dryout::app {

void add_shop_words(Commands& commands, CLI::App* shop_command);

}  // namespace dryout::app
