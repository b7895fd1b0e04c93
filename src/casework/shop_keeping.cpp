#include "casework/shop_keeping.h"

namespace dryout::casework {

using quantities::Result;

Result<decision::ShopSettings> keep_shop_figure(const OwnFiles& files,
                                                const decision::ShopSettings& shipped,
                                                const std::string& key,
                                                std::optional<double> value) {
  const std::string file = "rules/decision/shop.json";
  const auto own = files.own_text(file);
  if (!own) {
    return own.problems();
  }
  const auto text = decision::own_figures_with(*own, file, shipped, key, value);
  if (!text) {
    return text.problems();
  }
  const auto document = documents::parse(*text, file);
  if (!document) {
    return document.problems();
  }
  auto settings = decision::read_shop_settings(*document, shipped);
  if (!settings) {
    return settings;
  }
  const auto kept = files.keep(file, *text, true);
  if (!kept) {
    return kept.problems();
  }
  return settings;
}

}  // namespace dryout::casework
