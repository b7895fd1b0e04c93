#include "window/item_register.h"

#include <algorithm>
#include <cstddef>

#include "quantities/shown_text.h"

namespace dryout::window {

void ItemRegister::begin_frame() {
  noted_.clear();
  cut_.clear();
  caret_asked_ = false;
}

void ItemRegister::note(Item item) {
  item.label = quantities::shown_line(item.label);  // as it is drawn
  noted_.push_back(std::move(item));
}

void ItemRegister::end_frame() {
  shown_.swap(noted_);
  pressed_.clear();
  ++frame_;
  // A focus asked for ahead of its page stays until that page is drawn.
  if (find(focus_) != nullptr) {
    arrived_ = false;
  } else if (!arrived_) {
    focus_.clear();
  }
}

const Item* ItemRegister::find(std::string_view name) const {
  const auto found = std::find_if(shown_.begin(), shown_.end(),
                                  [name](const Item& item) { return item.name == name; });
  return found == shown_.end() ? nullptr : &*found;
}

void ItemRegister::step_focus(int step) {
  std::vector<const Item*> stops;
  for (const Item& item : shown_) {
    if (item.tab_stop && item.enabled) {
      stops.push_back(&item);
    }
  }
  if (stops.empty()) {
    return;
  }
  const auto count = static_cast<std::ptrdiff_t>(stops.size());
  const auto here = std::find_if(stops.begin(), stops.end(),
                                 [this](const Item* item) { return item->name == focus_; });
  std::ptrdiff_t place = step > 0 ? 0 : count - 1;
  if (here != stops.end()) {
    place = (here - stops.begin() + step + count) % count;
  }
  focus_on(stops[static_cast<std::size_t>(place)]->name);
}

void ItemRegister::focus_on(std::string name) {
  focus_ = std::move(name);
  arrived_ = true;
}

void ItemRegister::drop_focus() { focus_.clear(); }

bool ItemRegister::take_press(std::string_view name) {
  if (name.empty() || pressed_ != name) {
    return false;
  }
  pressed_.clear();
  return true;
}

namespace {
std::string json_text(std::string_view text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      json += '\\';
    }
    json += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  return json + '"';
}
}  // namespace

std::string describe_items(const ItemRegister& items) {
  std::string lines;
  for (const Item& item : items.all()) {
    if (!item.visible) {
      continue;
    }
    lines += "{\"frame\":" + std::to_string(items.frame()) + ",\"name\":" + json_text(item.name) +
             ",\"label\":" + json_text(item.label) +
             ",\"enabled\":" + (item.enabled ? "true" : "false") +
             (items.focused(item.name) ? ",\"focused\":true" : "") + ",\"rect\":[" +
             std::to_string(static_cast<int>(item.left)) + ',' +
             std::to_string(static_cast<int>(item.top)) + ',' +
             std::to_string(static_cast<int>(item.right)) + ',' +
             std::to_string(static_cast<int>(item.bottom)) + "]}\n";
  }
  return lines;
}

}  // namespace dryout::window
