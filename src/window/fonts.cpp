#include "window/fonts.h"

#include <imgui.h>

#include <filesystem>

namespace dryout::window {
namespace {

// The atlas keeps pointers to its ranges until it is built: they must outlive it.
constexpr std::array<ImWchar, 27> word_ranges{
    0x0020, 0x017F, 0x0370, 0x03FF, 0x0400, 0x04FF, 0x2010, 0x2027, 0x2070,
    0x209F, 0x2100, 0x214F, 0x2190, 0x21FF, 0x2200, 0x22FF, 0x2300, 0x2307,
    0x25A0, 0x25FF, 0x26A0, 0x26A1, 0x2713, 0x2717, 0x2026, 0x2026, 0};
constexpr std::array<ImWchar, 25> large_ranges{
    0x0020, 0x017F, 0x0394, 0x0394, 0x03A9, 0x03A9, 0x03B4, 0x03B4, 0x03BC,
    0x03BC, 0x2010, 0x2015, 0x2018, 0x201F, 0x2026, 0x2026, 0x2126, 0x2126,
    0x2190, 0x2193, 0x2212, 0x2212, 0x2264, 0x2265, 0};

enum class FaceWeight { regular, heavy, figures };

struct Cut {
  Face face;
  FaceWeight weight;
  float size;
  bool large;
};
constexpr std::array<Cut, face_count> cuts{{
    {Face::note, FaceWeight::regular, 15, false},
    {Face::text, FaceWeight::regular, 18, false},
    {Face::strong, FaceWeight::heavy, 20, false},
    {Face::heading, FaceWeight::heavy, 32, true},
    {Face::large, FaceWeight::heavy, 48, true},
    {Face::far, FaceWeight::heavy, 72, true},
    {Face::figure_note, FaceWeight::figures, 15, false},
    {Face::figure, FaceWeight::figures, 18, false},
    {Face::figure_large, FaceWeight::figures, 48, true},
}};

constexpr const char* inter = "/usr/share/fonts/opentype/inter/";
constexpr const char* jetbrains = "/usr/share/fonts/truetype/jetbrains-mono/";
constexpr const char* dejavu = "/usr/share/fonts/truetype/dejavu/";

struct Candidates {
  std::string first, second;
  const char* package;
};

Candidates candidates(FaceWeight weight) {
  switch (weight) {
    case FaceWeight::heavy:
      return {std::string(inter) + "Inter-SemiBold.otf",
              std::string(dejavu) + "DejaVuSans-Bold.ttf", "fonts-inter"};
    case FaceWeight::figures:
      return {std::string(jetbrains) + "JetBrainsMono-Medium.ttf",
              std::string(dejavu) + "DejaVuSansMono.ttf", "fonts-jetbrains-mono"};
    case FaceWeight::regular:
      break;
  }
  return {std::string(inter) + "Inter-Regular.otf", std::string(dejavu) + "DejaVuSans.ttf",
          "fonts-inter"};
}

void say_once(std::vector<std::string>& words, std::string word) {
  for (const std::string& said : words) {
    if (said == word) {
      return;
    }
  }
  words.push_back(std::move(word));
}

ImFont* load(ImFontAtlas& atlas, const Cut& cut, float scale, std::vector<std::string>& words) {
  ImFontConfig config;
  config.OversampleH = cut.large ? 1 : 2;
  config.OversampleV = 1;
  const ImWchar* ranges = cut.large ? large_ranges.data() : word_ranges.data();
  const Candidates files = candidates(cut.weight);
  std::error_code unreadable;
  if (std::filesystem::is_regular_file(files.first, unreadable)) {
    return atlas.AddFontFromFileTTF(files.first.c_str(), cut.size * scale, &config, ranges);
  }
  if (std::filesystem::is_regular_file(files.second, unreadable)) {
    say_once(words,
             std::string("The package ") + files.package + " is not installed; DejaVu stands in.");
    return atlas.AddFontFromFileTTF(files.second.c_str(), cut.size * scale, &config, ranges);
  }
  say_once(words, std::string("Neither ") + files.package +
                      " nor fonts-dejavu-core is installed; signs such as the ohm may be missing.");
  config.SizePixels = cut.size * scale;
  return atlas.AddFontDefault(&config);
}

}  // namespace

Fonts load_fonts(ImFontAtlas& atlas, float scale, std::vector<std::string>& words) {
  atlas.Clear();
  atlas.Flags |= ImFontAtlasFlags_NoMouseCursors;
  Fonts fonts;
  for (const Cut& cut : cuts) {
    fonts.faces[static_cast<std::size_t>(cut.face)] = load(atlas, cut, scale, words);
  }
  atlas.Build();
  return fonts;
}

}  // namespace dryout::window
