#include "app/shown_stream.h"

#include "quantities/shown_text.h"

namespace dryout::app {

void ShownBuffer::finish() {
  if (!begun_.empty()) {
    sink_ << quantities::shown_text(begun_);
    begun_.clear();
  }
}

bool ShownBuffer::hand_on(std::string_view text) {
  begun_ += text;
  const std::size_t whole = begun_.size() - quantities::begun_character(begun_);
  sink_ << quantities::shown_text(std::string_view(begun_).substr(0, whole));
  begun_.erase(0, whole);
  return static_cast<bool>(sink_);
}

ShownBuffer::int_type ShownBuffer::overflow(int_type next) {
  if (traits_type::eq_int_type(next, traits_type::eof())) {
    return traits_type::not_eof(next);
  }
  const char c = traits_type::to_char_type(next);
  return hand_on({&c, 1}) ? next : traits_type::eof();
}

std::streamsize ShownBuffer::xsputn(const char* text, std::streamsize count) {
  return hand_on({text, static_cast<std::size_t>(count)}) ? count : 0;
}

int ShownBuffer::sync() {
  sink_.flush();
  return sink_ ? 0 : -1;
}

ShownStream::ShownStream(std::ostream& sink) : std::ostream(nullptr), buffer_(sink) {
  rdbuf(&buffer_);
}

ShownStream::~ShownStream() { buffer_.finish(); }

}  // namespace dryout::app
