#include "window/drop_source.h"

#include <X11/Xatom.h>
#include <X11/Xlib.h>

#include <array>
#include <chrono>
#include <thread>

namespace dryout::window {
namespace {

using namespace std::chrono_literals;

constexpr long xdnd_version = 5;

class DropSource {
 public:
  explicit DropSource(const std::string& display) : display_(XOpenDisplay(display.c_str())) {
    if (display_ != nullptr) {
      root_ = DefaultRootWindow(display_);
      own_ = XCreateSimpleWindow(display_, root_, 0, 0, 1, 1, 0, 0, 0);
      XSetSelectionOwner(display_, atom("XdndSelection"), own_, CurrentTime);
    }
  }
  ~DropSource() {
    if (display_ != nullptr) {
      XCloseDisplay(display_);
    }
  }
  DropSource(const DropSource&) = delete;
  DropSource& operator=(const DropSource&) = delete;

  std::string drop(const std::string& file) {
    if (display_ == nullptr) {
      return "the display";
    }
    target_ = find_target(root_);
    if (target_ == None) {
      return "a window that takes drops";
    }
    uri_ = "file://" + file + "\r\n";
    tell("XdndEnter", {0, xdnd_version << 24, static_cast<long>(atom("text/uri-list")), 0, 0});
    const auto [x, y] = middle();
    tell("XdndPosition",
         {0, 0, x << 16 | y, CurrentTime, static_cast<long>(atom("XdndActionCopy"))});
    if (!wait_for("XdndStatus")) {
      return "XdndStatus";
    }
    tell("XdndDrop", {0, 0, CurrentTime, 0, 0});
    return wait_for("XdndFinished") ? "" : "XdndFinished";
  }

 private:
  Atom atom(const char* name) { return XInternAtom(display_, name, False); }

  bool takes_drops(Window window) {
    Atom type = None;
    int format = 0;
    unsigned long items = 0;
    unsigned long after = 0;
    unsigned char* data = nullptr;
    XGetWindowProperty(display_, window, atom("XdndAware"), 0, 1, False, XA_ATOM, &type, &format,
                       &items, &after, &data);
    if (data != nullptr) {
      XFree(data);
    }
    return type == XA_ATOM && items > 0;
  }

  Window find_target(Window below) {
    Window root = None;
    Window parent = None;
    Window* children = nullptr;
    unsigned int count = 0;
    Window found = None;
    XQueryTree(display_, below, &root, &parent, &children, &count);
    for (unsigned int i = 0; i < count && found == None; ++i) {
      found = takes_drops(children[i]) ? children[i] : find_target(children[i]);
    }
    if (children != nullptr) {
      XFree(children);
    }
    return found;
  }

  std::pair<long, long> middle() {
    XWindowAttributes attributes{};
    XGetWindowAttributes(display_, target_, &attributes);
    return {attributes.x + attributes.width / 2, attributes.y + attributes.height / 2};
  }

  /// The first word of every message is who speaks.
  void tell(const char* what, std::array<long, 5> words) {
    XEvent event{};
    event.xclient.type = ClientMessage;
    event.xclient.display = display_;
    event.xclient.window = target_;
    event.xclient.message_type = atom(what);
    event.xclient.format = 32;
    words[0] = static_cast<long>(own_);
    for (std::size_t i = 0; i < words.size(); ++i) {
      event.xclient.data.l[i] = words[i];
    }
    XSendEvent(display_, target_, False, NoEventMask, &event);
    XFlush(display_);
  }

  void hand_over(const XSelectionRequestEvent& asked) {
    XChangeProperty(display_, asked.requestor, asked.property, asked.target, 8, PropModeReplace,
                    reinterpret_cast<const unsigned char*>(uri_.data()),
                    static_cast<int>(uri_.size()));
    XEvent answer{};
    answer.xselection.type = SelectionNotify;
    answer.xselection.requestor = asked.requestor;
    answer.xselection.selection = asked.selection;
    answer.xselection.target = asked.target;
    answer.xselection.property = asked.property;
    answer.xselection.time = asked.time;
    XSendEvent(display_, asked.requestor, False, NoEventMask, &answer);
    XFlush(display_);
  }

  /// Half a minute at most; hands the file's name over when it is asked for it.
  bool wait_for(const char* message) {
    const Atom wanted = atom(message);
    for (int turn = 0; turn < 3000; ++turn) {
      while (XPending(display_) > 0) {
        XEvent event;
        XNextEvent(display_, &event);
        if (event.type == SelectionRequest) {
          hand_over(event.xselectionrequest);
        } else if (event.type == ClientMessage && event.xclient.message_type == wanted) {
          return true;
        }
      }
      std::this_thread::sleep_for(10ms);
    }
    return false;
  }

  Display* display_;
  Window root_ = None, own_ = None, target_ = None;
  std::string uri_;
};

}  // namespace

std::string drop_on_window(const std::string& display, const std::string& file) {
  return DropSource(display).drop(file);
}

}  // namespace dryout::window
