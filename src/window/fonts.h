// The faces: a proportional one for words, a monospaced one for figures, each baked at the sizes
// used times the scale (stretching a small bake blurs it). Looked for where Debian's fonts-inter
// and fonts-jetbrains-mono put them, then DejaVu; failing both, the library's built-in face, and
// a word about what is missing.
#pragma once

#include <array>
#include <string>
#include <vector>

struct ImFont;
struct ImFontAtlas;

namespace dryout::window {

enum class Face {
  note,          ///< 15 px words
  text,          ///< 18 px words
  strong,        ///< 20 px words, heavier
  heading,       ///< 32 px
  large,         ///< 48 px
  far,           ///< 72 px, to be read from two metres
  figure_note,   ///< 15 px figures
  figure,        ///< 18 px figures
  figure_large,  ///< 48 px figures
};
inline constexpr std::size_t face_count = 9;

struct Fonts {
  std::array<ImFont*, face_count> faces{};
  [[nodiscard]] ImFont* operator[](Face face) const {
    // cppcheck-suppress CastIntegerToAddressAtReturn ; the element is returned, not its index
    return faces[static_cast<std::size_t>(face)];
  }
};

/// Replaces all faces of the atlas. What could not be found is said in `words`.
[[nodiscard]] Fonts load_fonts(ImFontAtlas& atlas, float scale, std::vector<std::string>& words);

}  // namespace dryout::window
