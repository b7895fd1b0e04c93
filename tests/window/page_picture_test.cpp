// Every page of the desk can be drawn to a picture without a display, in both themes, and a
// picture is the same each time. DRYOUT_PICTURES=<folder> keeps the pictures for looking at.
#include "window/page_picture.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "window/sample.h"
#include "window/window.h"

namespace dryout::window {
namespace {

std::string folder() {
  const char* kept = std::getenv("DRYOUT_PICTURES");
  const std::string path =
      kept != nullptr ? kept
                      : (std::filesystem::temp_directory_path() / "dryout-pictures").string();
  std::filesystem::create_directories(path);
  return path + '/';
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

struct Shot {
  const char* name;
  int width, height;
  float scale;
  ThemeName theme;
};

class PagePictureOfEveryView : public testing::TestWithParam<Shot> {};

TEST_P(PagePictureOfEveryView, IsDrawnWithoutADisplay) {
  const Shot shot = GetParam();
  for (const std::string& view : view_names()) {
    Desk desk = desk_with(sample_case());
    desk.theme = shot.theme;
    desk.scale = shot.scale;
    ASSERT_TRUE(turn_to(desk, view).ok()) << view;
    const std::string path = folder() + view + '-' + shot.name + ".png";
    const auto drawn = draw_png(desk, shot.width, shot.height, path);
    ASSERT_TRUE(drawn.ok()) << quantities::describe(drawn.problems());
    EXPECT_GT(std::filesystem::file_size(path), 8000U) << view << " looks empty";
  }
}

/// What is typed and how it is understood, side by side: room enough, too little, not to be read.
TEST_P(PagePictureOfEveryView, TellsWhatWasUnderstood) {
  const Shot shot = GetParam();
  Desk desk = desk_with(sample_case());
  desk.theme = shot.theme;
  desk.scale = shot.scale;
  ASSERT_TRUE(turn_to(desk, "probe").ok());
  desk.probe.reading.figure = ",47";
  desk.probe.reading.more = true;
  desk.probe.reading.limit = "0,000000123456789";
  desk.probe.reading.lead_zero = "4,700";
  desk.probe.reading.frequency = "1e12";
  desk.probe.print = "100/25";
  const std::string path = folder() + "understood-" + shot.name + ".png";
  ASSERT_TRUE(draw_png(desk, shot.width, shot.height, path).ok());
  EXPECT_GT(std::filesystem::file_size(path), 8000U);
}

INSTANTIATE_TEST_SUITE_P(SizesAndThemes, PagePictureOfEveryView,
                         testing::Values(Shot{"dark-1280", 1280, 800, 1, ThemeName::dark},
                                         Shot{"light-1280", 1280, 800, 1, ThemeName::light},
                                         Shot{"light-1024", 1024, 700, 1, ThemeName::light},
                                         Shot{"dark-scale2", 2560, 1600, 2, ThemeName::dark},
                                         Shot{"light-narrow-scale2", 1280, 800, 2,
                                              ThemeName::light}),
                         [](const auto& shot) {
                           std::string name = shot.param.name;
                           for (char& c : name) {
                             c = c == '-' ? '_' : c;
                           }
                           return name;
                         });

TEST(PagePicture, OfOneDeskIsTheSameEachTime) {
  Desk desk = desk_with(sample_case());
  ASSERT_TRUE(draw_png(desk, 1024, 700, folder() + "same-a.png").ok());
  Desk again = desk_with(sample_case());
  ASSERT_TRUE(draw_png(again, 1024, 700, folder() + "same-b.png").ok());
  EXPECT_EQ(bytes_of(folder() + "same-a.png"), bytes_of(folder() + "same-b.png"));
}

TEST(PagePicture, OfHardCasesIsDrawn) {
  struct Hard {
    const char* name;
    const char* view;
    casework::CaseView view_model;
  };
  const Hard hard[] = {{"fresh-probe", "probe", fresh_case()},
                       {"fresh-suspects", "suspects", fresh_case()},
                       {"fresh-map", "map", fresh_case()},
                       {"fresh-readings", "readings", fresh_case()},
                       {"dangerous-probe", "probe", dangerous_case()},
                       {"dangerous-far", "far", dangerous_case()},
                       {"contradictory-probe", "probe", contradictory_case()},
                       {"long-probe", "probe", long_winded_case()},
                       {"long-suspects", "suspects", long_winded_case()},
                       {"long-map", "map", long_winded_case()},
                       {"long-readings", "readings", long_winded_case()},
                       {"long-symptoms", "symptoms", long_winded_case()},
                       {"long-log", "log", long_winded_case()},
                       {"long-far", "far", long_winded_case()},
                       {"large-map", "map", large_case(300)},
                       {"large-readings", "readings", large_case(300)},
                       {"large-log", "log", large_case(300)},
                       {"long-mend", "mend", long_winded_case()},
                       {"long-hand-over", "hand-over", long_winded_case()},
                       {"closed-hand-over", "hand-over", closed_case()}};
  for (const Hard& one : hard) {
    Desk desk = desk_with(one.view_model);
    desk.theme = ThemeName::light;
    ASSERT_TRUE(turn_to(desk, one.view).ok());
    EXPECT_TRUE(draw_png(desk, 1024, 700, folder() + one.name + ".png").ok()) << one.name;
  }
}

TEST(PagePicture, NamesTheViewsWhenAskedForOneThatIsNotThere) {
  Desk desk = desk_with(sample_case());
  const auto turned = turn_to(desk, "kitchen");
  ASSERT_FALSE(turned.ok());
  EXPECT_NE(quantities::describe(turned.problems()).find("hand-over"), std::string::npos);
}

TEST(PagePicture, OfACaseNeedsACase) {
  Desk desk;
  EXPECT_FALSE(turn_to(desk, "probe").ok());
  EXPECT_TRUE(turn_to(desk, "cases").ok());
  EXPECT_TRUE(turn_to(desk, "help").ok());
}

TEST(PagePicture, RefusesASizeThatNoScreenHas) {
  Desk desk = desk_with(sample_case());
  EXPECT_FALSE(draw_png(desk, 10, 10, folder() + "tiny.png").ok());
  EXPECT_FALSE(draw_png(desk, 100000, 800, folder() + "huge.png").ok());
}

TEST(PagePicture, SaysWhereItCouldNotWrite) {
  Desk desk = desk_with(sample_case());
  const auto drawn = draw_png(desk, 640, 480, "/nonexistent/folder/a.png");
  ASSERT_FALSE(drawn.ok());
  EXPECT_NE(quantities::describe(drawn.problems()).find("/nonexistent/folder/a.png"),
            std::string::npos);
}

}  // namespace
}  // namespace dryout::window
