// A stream that people read: whatever goes through it is shown as quantities/shown_text.h says, so
// that no name, note or file can steer a terminal. What programs read does not go through it.
#pragma once

#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace dryout::app {

class ShownBuffer : public std::streambuf {
 public:
  explicit ShownBuffer(std::ostream& sink) : sink_(sink) {}
  /// What is still begun, and will not be ended.
  void finish();

 protected:
  int_type overflow(int_type next) override;
  std::streamsize xsputn(const char* text, std::streamsize count) override;
  int sync() override;

 private:
  bool hand_on(std::string_view text);

  std::ostream& sink_;
  std::string begun_;  ///< bytes of a character whose others have not come yet
};

class ShownStream : public std::ostream {
 public:
  /// Hands on to `sink` at once; what fails there fails here.
  explicit ShownStream(std::ostream& sink);
  ~ShownStream() override;
  ShownStream(const ShownStream&) = delete;
  ShownStream& operator=(const ShownStream&) = delete;

 private:
  ShownBuffer buffer_;
};

}  // namespace dryout::app
