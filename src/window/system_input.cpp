#include "window/system_input.h"

#include <GLFW/glfw3.h>

#include <array>
#include <optional>

namespace dryout::window {
namespace {

struct Known {
  int code;
  Key key;
};
constexpr std::array<Known, 26> plain_keys{{
    {GLFW_KEY_ENTER, Key::enter},
    {GLFW_KEY_KP_ENTER, Key::enter},
    {GLFW_KEY_ESCAPE, Key::escape},
    {GLFW_KEY_UP, Key::up},
    {GLFW_KEY_DOWN, Key::down},
    {GLFW_KEY_LEFT, Key::left},
    {GLFW_KEY_RIGHT, Key::right},
    {GLFW_KEY_PAGE_UP, Key::page_up},
    {GLFW_KEY_PAGE_DOWN, Key::page_down},
    {GLFW_KEY_HOME, Key::home},
    {GLFW_KEY_END, Key::end},
    {GLFW_KEY_BACKSPACE, Key::backspace},
    {GLFW_KEY_DELETE, Key::remove},
    {GLFW_KEY_TAB, Key::tab},
    {GLFW_KEY_F1, Key::f1},
    {GLFW_KEY_F2, Key::f2},
    {GLFW_KEY_F3, Key::f3},
    {GLFW_KEY_F4, Key::f4},
    {GLFW_KEY_F5, Key::f5},
    {GLFW_KEY_F6, Key::f6},
    {GLFW_KEY_F7, Key::f7},
    {GLFW_KEY_F8, Key::f8},
    {GLFW_KEY_F9, Key::f9},
    {GLFW_KEY_F10, Key::plan},
    {GLFW_KEY_F12, Key::practice},
    {GLFW_KEY_F11, Key::library},
}};
constexpr std::array<Known, 13> control_keys{{
    {GLFW_KEY_O, Key::cases},
    {GLFW_KEY_X, Key::cut},
    {GLFW_KEY_A, Key::select_all},
    {GLFW_KEY_Z, Key::undo},
    {GLFW_KEY_Y, Key::redo},
    {GLFW_KEY_EQUAL, Key::larger},
    {GLFW_KEY_KP_ADD, Key::larger},
    {GLFW_KEY_MINUS, Key::smaller},
    {GLFW_KEY_KP_SUBTRACT, Key::smaller},
    {GLFW_KEY_C, Key::copy},
    {GLFW_KEY_V, Key::paste},
    {GLFW_KEY_P, Key::picture},
    {GLFW_KEY_T, Key::take_proposal},
}};

template <std::size_t Count>
std::optional<Key> known(const std::array<Known, Count>& keys, int code) {
  for (const Known& entry : keys) {
    if (entry.code == code) {
      return entry.key;
    }
  }
  return std::nullopt;
}

/// The layout's own letter where there is one: Ctrl Z is where Z is printed.
int printed(int code) {
  const char* name = glfwGetKeyName(code, 0);
  if (name != nullptr && name[0] >= 'a' && name[0] <= 'z' && name[1] == '\0') {
    return GLFW_KEY_A + (name[0] - 'a');
  }
  return code;
}

}  // namespace

SystemInput::SystemInput(GLFWwindow* window) {
  glfwSetWindowUserPointer(window, this);
  glfwSetKeyCallback(window, [](GLFWwindow* w, int code, int, int action, int modifiers) {
    of(w).key(code, action, modifiers);
  });
  glfwSetCharCallback(window, [](GLFWwindow* w, unsigned int code) { of(w).letter(code); });
  listen_to_mouse(window);
  glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
    for (int i = 0; i < count; ++i) of(w).dropped_.emplace_back(paths[i]);
    of(w).dirty_ = true;
  });
  glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { of(w).dirty_ = true; });
  glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { of(w).dirty_ = true; });
  glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int focused) {
    of(w).dirty_ = true;
    of(w).returned_ = focused == GLFW_TRUE;
  });
}

void SystemInput::listen_to_mouse(GLFWwindow* window) {
  glfwSetCursorPosCallback(window, [](GLFWwindow* w, double x, double y) {
    of(w).pointer(static_cast<float>(x), static_cast<float>(y));
  });
  glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int entered) {
    if (entered == GLFW_FALSE) {
      of(w).pointer(-1, -1);
    }
  });
  glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int button, int action, int) {
    if (button == GLFW_MOUSE_BUTTON_LEFT || button == GLFW_MOUSE_BUTTON_RIGHT) {
      Mouse& now = of(w).now_;
      (button == GLFW_MOUSE_BUTTON_LEFT ? now.down : now.right) = action == GLFW_PRESS;
      of(w).add({});
    }
  });
  glfwSetScrollCallback(window, [](GLFWwindow* w, double, double down) {
    of(w).now_.wheel = static_cast<float>(down);
    of(w).add({});
    of(w).now_.wheel = 0;
  });
}

void SystemInput::add(InputEvents events, Moved moved) {
  dirty_ = true;
  const bool move = moved == Moved::yes;
  // Of a long way only the end matters.
  if (move && last_was_move_ && !steps_.empty()) {
    steps_.back().mouse = now_;
  } else {
    steps_.push_back({std::move(events), now_});
  }
  last_was_move_ = move;
}

void SystemInput::pointer(float x, float y) {
  now_.x = x;
  now_.y = y;
  add({}, Moved::yes);
}

InputStep SystemInput::take_next() {
  if (steps_.empty()) {
    return rest();
  }
  InputStep next = std::move(steps_.front());
  steps_.pop_front();
  taken_ = next.mouse;
  taken_.wheel = 0;
  return next;
}

SystemInput& SystemInput::of(GLFWwindow* window) {
  return *static_cast<SystemInput*>(glfwGetWindowUserPointer(window));
}

void SystemInput::key(int code, int action, int modifiers) {
  dirty_ = true;
  repeating_ = action == GLFW_REPEAT;
  const bool repeats = code == GLFW_KEY_UP || code == GLFW_KEY_DOWN || code == GLFW_KEY_TAB ||
                       code == GLFW_KEY_PAGE_UP || code == GLFW_KEY_PAGE_DOWN ||
                       code == GLFW_KEY_LEFT || code == GLFW_KEY_RIGHT ||
                       code == GLFW_KEY_BACKSPACE || code == GLFW_KEY_DELETE;
  if (action == GLFW_RELEASE || (repeating_ && !repeats)) {
    return;
  }
  const bool control = (modifiers & GLFW_MOD_CONTROL) != 0;
  std::optional<Key> meant = control ? known(control_keys, printed(code)) : known(plain_keys, code);
  if (meant == Key::tab && (modifiers & GLFW_MOD_SHIFT) != 0) {
    meant = Key::back_tab;
  }
  if (meant) {
    add({{*meant}, {}});
  }
}

void SystemInput::letter(unsigned int code) {
  dirty_ = true;
  if (!repeating_) {
    add({{}, {static_cast<char32_t>(code)}});
  }
}

}  // namespace dryout::window
