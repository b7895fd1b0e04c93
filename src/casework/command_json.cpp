#include "casework/command_json.h"

#include <algorithm>
#include <array>
#include <concepts>
#include <utility>

#include "casework/command_members.h"
#include "casework/words.h"
#include "quantities/spelling.h"

namespace dryout::casework {
namespace {

using documents::Reader;
using documents::Value;

double si(double number) { return number; }
double si(quantities::Celsius temperature) { return temperature.degrees(); }
template <class Quantity>
double si(Quantity quantity) {
  return quantity.si();
}

class Writer {
 public:
  explicit Writer(std::string_view verb) : object_(Value::object({{"do", verb}})) {}

  void required(const char* key, const std::string& text) { object_.set(key, text); }
  void optional(const char* key, const std::string& text) {
    if (!text.empty()) {
      object_.set(key, text);
    }
  }
  template <class T>
  void optional(const char* key, const std::optional<T>& number) {
    if (number) {
      object_.set(key, si(*number));
    }
  }
  void optional(const char* key, const std::optional<int>& number) {
    if (number) {
      object_.set(key, *number);
    }
  }
  void always(const char* key, bool flag) { object_.set(key, flag); }
  void only_if(const char* key, bool flag) {
    if (flag) {
      object_.set(key, flag);
    }
  }
  template <class T>
  void always(const char* key, const T& value) {
    if constexpr (std::is_enum_v<T>) {
      object_.set(key, word_of(value));
    } else {
      object_.set(key, si(value));
    }
  }
  [[nodiscard]] Value take() { return std::move(object_); }

 private:
  Value object_;
};

class Filler {
 public:
  explicit Filler(const Reader& reader) : reader_(reader) {}

  void required(const char* key, std::string& text) { text = known(key).text(key); }
  void optional(const char* key, std::string& text) {
    text = known(key).optional_text(key).value_or("");
  }
  void optional(const char* key, std::optional<int>& number) {
    constexpr documents::Range years{.min = 0.0, .max = 9999.0};
    if (known(key).has(key)) {
      number = reader_.whole_number(key, years);
    }
  }
  template <class T>
  void optional(const char* key, std::optional<T>& number) {
    if (const auto read = known(key).optional_number(key)) {
      number = T(*read);
    }
  }
  void always(const char* key, bool& flag) { flag = known(key).boolean(key); }
  void only_if(const char* key, bool& flag) { flag = known(key).has(key) && reader_.boolean(key); }
  template <class T>
  void always(const char* key, T& value) {
    if constexpr (std::is_enum_v<T>) {
      value = choice<T>(key);
    } else {
      value = T(known(key).number(key));
    }
  }

  /// Complains about every member that was not asked for.
  void refuse_others() const {
    reader_.for_each_member([this](const std::string& key, const Reader& member) {
      if (std::find(keys_.begin(), keys_.end(), key) == keys_.end()) {
        const auto nearest = quantities::nearest_spelling(key, keys_);
        member.complain("unknown key", nearest ? "did you mean \"" + *nearest + "\"?" : accepted(),
                        '"' + quantities::excerpt(key) + '"');
      }
    });
  }

 private:
  const Reader& known(const char* key) {
    keys_.emplace_back(key);
    return reader_;
  }

  template <class T>
  T choice(const char* key) {
    const std::string word = known(key).text(key);
    const auto found = choice_of<T>(word);
    if (!found && !word.empty()) {
      std::string words;
      for (const std::string_view each : all_words<T>()) {
        words += (words.empty() ? "" : ", ") + std::string(each);
      }
      reader_.complain("unknown word for \"" + std::string(key) + '"', words,
                       '"' + quantities::excerpt(word) + '"');
    }
    return found.value_or(T{});
  }

  [[nodiscard]] std::string accepted() const {
    std::string list = "one of";
    for (const std::string_view key : keys_) {
      list += ' ' + std::string(key);
    }
    return list;
  }

  const Reader& reader_;
  std::vector<std::string_view> keys_{"do"};
};

template <class Alternative>
Command fill(const Reader& reader) {
  Alternative command;
  Filler filler(reader);
  visit_members(command, filler);
  filler.refuse_others();
  return command;
}

/// One reader per alternative, in the order of the variant.
template <std::size_t... Index>
constexpr auto fillers_of(std::index_sequence<Index...> /*all*/) {
  return std::array{&fill<std::variant_alternative_t<Index, Command>>...};
}
constexpr auto fillers = fillers_of(std::make_index_sequence<std::variant_size_v<Command>>());

}  // namespace

Value to_json(const Command& command) {
  Writer writer(word_of(command));
  std::visit([&](const auto& alternative) { visit_members(alternative, writer); }, command);
  return writer.take();
}

Command command_from_json(const Reader& reader) {
  if (reader.value().object_members() == nullptr) {
    reader.complain("wrong kind of value", "an object");
    return {};
  }
  const std::string verb = reader.text("do");
  const auto words = command_words();
  const auto found = std::find(words.begin(), words.end(), written_verb(verb));
  if (found == words.end()) {
    const auto nearest = quantities::nearest_spelling(verb, words);
    reader.complain("unknown command", nearest ? "did you mean \"" + *nearest + "\"?" : "",
                    '"' + quantities::excerpt(verb) + '"');
    return {};
  }
  return fillers.at(static_cast<std::size_t>(found - words.begin()))(reader);
}

}  // namespace dryout::casework
