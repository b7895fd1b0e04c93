#include "complaints/stemmer.h"

#include <libstemmer.h>

#include "quantities/check.h"

namespace dryout::complaints {

void Stemmer::Deleter::operator()(sb_stemmer* stemmer) const { sb_stemmer_delete(stemmer); }

Stemmer::Stemmer() : stemmer_(sb_stemmer_new("english", "UTF_8")) {
  CHECK(stemmer_ != nullptr);  // English is part of every build of the library
}

std::string Stemmer::stem(std::string_view word) const {
  const auto* bytes = reinterpret_cast<const sb_symbol*>(word.data());
  const sb_symbol* stem = sb_stemmer_stem(stemmer_.get(), bytes, static_cast<int>(word.size()));
  if (stem == nullptr) {  // out of memory, says the library
    return std::string(word);
  }
  return {reinterpret_cast<const char*>(stem),
          static_cast<std::size_t>(sb_stemmer_length(stemmer_.get()))};
}

}  // namespace dryout::complaints
