#include "window/driver.h"

#include <gtest/gtest.h>

namespace dryout::window {

Driver::Driver(Desk desk, int width, int height) : desk_(std::move(desk)), window_(width, height) {
  frames(2);
}

void Driver::fail(const std::string& why) { ADD_FAILURE() << why; }

void Driver::answer() {
  for (Intention& wish : queue_.take()) {
    if (!turn_page(desk_, wish)) {
      kept_.push_back(std::move(wish));
    }
  }
}

void Driver::frame(const InputEvents& events) {
  (void)window_.frame(desk_, queue_, events, mouse_);
  mouse_.wheel = 0;
  answer();
}

void Driver::frames(int count) {
  for (int i = 0; i < count; ++i) {
    frame();
  }
}

void Driver::key(Key key) {
  frame({{key}, {}});
  frames(2);
}

void Driver::type(const std::string& text) {
  for (const char c : text) {
    frame({{}, {static_cast<char32_t>(c)}});
    frame();
  }
}

void Driver::type_at_once(const std::string& text) {
  frame({{}, std::u32string(text.begin(), text.end())});
  frames(2);
}

void Driver::click(const std::string& name) {
  const Item* item = items().find(name);
  for (int turn = 0; item != nullptr && !item->visible && turn < 200; ++turn) {
    mouse_.x = (item->left + item->right) / 2;
    mouse_.y = 300;
    mouse_.wheel = item->top > 300 ? -2.0F : 2.0F;
    frames(2);
    item = items().find(name);
  }
  if (item == nullptr || !item->visible) {
    fail("nothing called " + name + " is in sight");
    return;
  }
  mouse_.x = (item->left + item->right) / 2;
  mouse_.y = (item->top + item->bottom) / 2;
  frame();
  mouse_.down = true;
  frame();
  mouse_.down = false;
  frame();
  frame();
}

void Driver::tab_to(const std::string& name) {
  for (std::size_t turn = 0; turn <= items().all().size() && !items().focused(name); ++turn) {
    key(Key::tab);
  }
  if (!items().focused(name)) {
    fail("Tab never came to " + name);
  }
}

void Driver::press_by_key(const std::string& name) {
  tab_to(name);
  key(Key::enter);
}

void Driver::hover(const std::string& name) {
  if (const Item* item = items().find(name)) {
    mouse_.x = (item->left + item->right) / 2;
    mouse_.y = (item->top + item->bottom) / 2;
  }
  frames(2);
}

bool Driver::shows(const std::string& name) const { return items().find(name) != nullptr; }

std::string Driver::label(const std::string& name) const {
  const Item* item = items().find(name);
  return item == nullptr ? "" : item->label;
}

}  // namespace dryout::window
