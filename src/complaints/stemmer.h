// Word forms brought to one stem, so that "humming" is "hum": the Snowball stemmer for English.
#pragma once

#include <memory>
#include <string>
#include <string_view>

struct sb_stemmer;

namespace dryout::complaints {

class Stemmer {
 public:
  Stemmer();
  /// Of one word in lower case; a word that has no stem comes back as it is.
  [[nodiscard]] std::string stem(std::string_view word) const;

 private:
  struct Deleter {
    void operator()(sb_stemmer* stemmer) const;
  };
  std::unique_ptr<sb_stemmer, Deleter> stemmer_;
};

}  // namespace dryout::complaints
