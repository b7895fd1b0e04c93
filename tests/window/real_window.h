// The built program in a real window on a display of its own (Xvfb), worked with real key strokes
// and a real pointer (xdotool). Where an item lies is read from the program's own report.
#pragma once

#include <sys/types.h>

#include <optional>
#include <string>
#include <vector>

namespace dryout::window {

struct Spot {
  int left = 0, top = 0, right = 0, bottom = 0;
};

/// One folder with a store of its own, one display; programs come and go on it.
class RealWindow {
 public:
  RealWindow();
  ~RealWindow();
  /// A second window on the same display and the same store; its host must outlive it.
  explicit RealWindow(const RealWindow& host);
  RealWindow& operator=(const RealWindow&) = delete;

  /// Why it can't be tried on this machine, or "".
  [[nodiscard]] static std::string missing();

  /// Opens the window; false when it has not drawn its shelf in time.
  bool open(const std::string& options = "");
  void close();
  [[nodiscard]] bool running() const;
  [[nodiscard]] pid_t program() const { return program_; }

  /// Gives it the keyboard.
  void come_back();
  void key(const std::string& keys);  ///< xdotool's names: "F3", "ctrl+z"
  void type(const std::string& text);
  void hold(const std::string& key, int milliseconds);
  bool click(const std::string& name);  ///< scrolls it into sight first
  /// Steps to it by Tab; a field is then open for typing.
  bool tab_to(const std::string& name);
  bool press_by_tab(const std::string& name);
  /// Waits until an item of that name is in sight.
  bool wait_for(const std::string& name);
  bool wait_until_gone(const std::string& name);
  bool press_right(const std::string& name);
  void resize(int width, int height);
  /// Keeps a picture of the display when $DRYOUT_PICTURES names a folder.
  void picture(const std::string& name);

  [[nodiscard]] std::optional<Spot> spot(const std::string& name) const;
  [[nodiscard]] const std::string& folder() const { return folder_; }
  [[nodiscard]] const std::string& display() const { return display_; }
  /// Waits until a file whose name begins and ends so stands among the papers; its path, or "".
  [[nodiscard]] std::string wait_for_paper(const std::string& beginning,
                                           const std::string& ending) const;
  /// Names of the pictures it saved.
  [[nodiscard]] std::vector<std::string> pictures() const;
  /// Waits until it has saved one whose name begins so.
  [[nodiscard]] bool wait_for_picture(const std::string& beginning) const;
  /// The number of the frame last drawn.
  [[nodiscard]] int frame() const;
  /// Standard output of the command line on the same store.
  std::string dryout(const std::string& words) const;

 private:
  [[nodiscard]] std::string report() const;
  [[nodiscard]] std::vector<std::string> reported_items() const;  ///< one line each
  /// Waits until the program has drawn what it was told and sleeps.
  void settle() const;
  std::string run(const std::string& command) const;
  bool press(const std::string& name, const std::string& button);

  std::string folder_, display_, items_;
  pid_t server_ = -1, program_ = -1;
};

}  // namespace dryout::window
