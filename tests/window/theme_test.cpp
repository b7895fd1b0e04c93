#include "window/theme.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace dryout::window {
namespace {

double linear(std::uint8_t channel) {
  const double share = channel / 255.0;
  return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

/// Relative luminance and contrast ratio as defined in W3C, Web Content Accessibility Guidelines
/// 2.1, "Definitions" (recalled, not opened; the threshold there is written 0.03928, which gives
/// the same for eight-bit channels).
double luminance(Colour c) {
  return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}
double contrast(Colour a, Colour b) {
  const double light = std::max(luminance(a), luminance(b));
  const double dark = std::min(luminance(a), luminance(b));
  return (light + 0.05) / (dark + 0.05);
}

Colour over(Colour top, double alpha, Colour ground) {
  const auto mix = [alpha](std::uint8_t a, std::uint8_t b) {
    return static_cast<std::uint8_t>(std::lround(alpha * a + (1 - alpha) * b));
  };
  return {mix(top.red, ground.red), mix(top.green, ground.green), mix(top.blue, ground.blue)};
}

TEST(Contrast, IsTwentyOneBetweenBlackAndWhite) {
  EXPECT_NEAR(contrast(hex(0x000000), hex(0xFFFFFF)), 21.0, 1e-9);  // WCAG 2.1: the largest ratio
}

class EitherTheme : public testing::TestWithParam<ThemeName> {};

TEST_P(EitherTheme, KeepsSevenToOneForEveryTextOnEveryGround) {
  const Theme& theme = theme_of(GetParam());
  for (const Colour ground : {theme.paper, theme.margin, theme.card}) {
    for (const Colour text : {theme.ink, theme.faint, theme.accuses, theme.clears}) {
      EXPECT_GE(contrast(text, ground), 7.0)
          << std::hex << text.packed() << " on " << ground.packed();
    }
  }
  EXPECT_GE(contrast(theme.on_next, theme.next), 7.0);
  EXPECT_GE(contrast(theme.on_caution, theme.caution), 7.0);
}

TEST_P(EitherTheme, KeepsSevenToOneOnABlockOfTheMapUnderFullSuspicion) {
  const Theme& theme = theme_of(GetParam());
  const Colour tinted = over(theme.accuses, 64.0 / 255.0, theme.card);
  EXPECT_GE(contrast(theme.ink, tinted), 7.0);
}

/// What a reader without red or without green receptors sees, in linear light: the matrices of
/// Viénot, Brettel and Mollon, Color Research and Application 24 (1999), recalled, not opened.
std::array<double, 3> seen_without_green(Colour c) {
  const double r = linear(c.red), g = linear(c.green), b = linear(c.blue);
  return {0.29275 * r + 0.70725 * g, 0.29275 * r + 0.70725 * g, -0.02234 * r + 0.02234 * g + b};
}

TEST_P(EitherTheme, LeavesAccusingAndClearingApartWithoutGreenReceptors) {
  const Theme& theme = theme_of(GetParam());
  const auto a = seen_without_green(theme.accuses);
  const auto b = seen_without_green(theme.clears);
  // Yellowish against bluish: the sign of (yellow - blue) differs.
  EXPECT_GT(a[0] - a[2], 0.0);
  EXPECT_LT(b[0] - b[2], 0.0);
}

INSTANTIATE_TEST_SUITE_P(DarkAndLight, EitherTheme,
                         testing::Values(ThemeName::dark, ThemeName::light), [](const auto& theme) {
                           return theme.param == ThemeName::dark ? "dark" : "light";
                         });

TEST(Theme, IsNamedByItsWord) {
  EXPECT_EQ(theme_named("light"), ThemeName::light);
  EXPECT_EQ(theme_named("dark"), ThemeName::dark);
  EXPECT_EQ(theme_named("mauve"), ThemeName::dark);
}

}  // namespace
}  // namespace dryout::window
