// What every drawing function needs at hand: colours, faces, scale, the keys of this frame and the
// register of items.
#pragma once

#include "window/fonts.h"
#include "window/item_register.h"
#include "window/keys.h"
#include "window/theme.h"

namespace dryout::window {

struct Sheet {
  const Theme& theme;
  const Fonts& fonts;
  float scale = 1.0F;
  ItemRegister& items;
  Keys& keys;

  /// Device pixels of a length drawn for scale 1.
  [[nodiscard]] float px(float length) const { return length * scale; }
};

}  // namespace dryout::window
