#include <array>
#include <filesystem>
#include <string>
#include <system_error>

#include "window/attend.h"
#include "window/chart_picture.h"
#include "window/page_picture.h"
#include "window/window.h"

namespace dryout::window {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

struct Screen {
  int width, height;
  float scale;
  const char* name;
};
/// A usual screen, a small one, and a dense one.
constexpr std::array<Screen, 3> screens{
    {{1280, 800, 1, "1280x800"}, {1024, 700, 1, "1024x700"}, {1280, 800, 2, "1280x800-scale2"}}};

/// One desk at a time on paper, as every screen and theme shows it.
class Album {
 public:
  Album(Desk& desk, std::string folder) : desk_(desk), folder_(std::move(folder)) {}

  Result<Done> add(const std::string& name) {
    for (const Screen& screen : screens) {
      for (const auto& [theme, word] :
           {std::pair{ThemeName::dark, "dark"}, std::pair{ThemeName::light, "light"}}) {
        desk_.theme = theme;
        desk_.scale = screen.scale;
        const std::string path = folder_ + '/' + name + '-' + screen.name + '-' + word + ".png";
        if (Result<Done> drawn = draw_png(desk_, screen.width, screen.height, path); !drawn) {
          return drawn;
        }
      }
    }
    return Done{};
  }

  Result<Done> add_charts() {
    for (const std::string& chart : chart_names()) {
      // A case that has nothing to show in a chart yet is no fault of the album.
      (void)draw_chart_png(desk_, chart, folder_ + "/chart-" + chart + ".png");
    }
    return Done{};
  }

 private:
  Desk& desk_;
  std::string folder_;
};

/// Every page of the case, then a practice from beginning to end.
Result<Done> draw_album(casework::Workshop& workshop, Desk& desk, const std::string& folder) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed) {
    return Problem{"the folder can't be made: " + failed.message(),
                   {folder, 0, ""},
                   "",
                   "a folder this user may write"};
  }
  Bench bench{workshop};
  Album album(desk, folder);
  for (const std::string& view : view_names()) {
    if (Result<Done> turned = turn_to(desk, view); !turned) {
      return turned;
    }
    fetch_for_page(bench, desk);
    if (Result<Done> added = album.add(view); !added) {
      return added;
    }
  }
  desk.help = desk.far = false;
  if (Result<Done> added = album.add_charts(); !added) {
    return added;
  }
  constexpr std::uint64_t seed = 7;
  const std::string equipment = desk.open_case->equipment;
  CommandQueue queue;
  for (const auto& [wish, name] :
       {std::pair<Intention, const char*>{StartPractice{equipment, seed}, "practice-begun"},
        std::pair<Intention, const char*>{GoTo{Station::probe}, "practice-probe"},
        std::pair<Intention, const char*>{GiveUpPractice{}, "practice-end"}}) {
    queue.push(wish);
    (void)attend(bench, desk, queue);
    while (desk.practice && desk.practice->over && !desk.practice->compared) {
      queue.push(FollowAdvice{});
      (void)attend(bench, desk, queue);
    }
    if (Result<Done> added = album.add(name); !added) {
      return added;
    }
  }
  return Done{};
}

}  // namespace

Result<Done> snapshot(casework::Workshop& workshop, const SnapshotOptions& options) {
  if (options.scale < 1 || options.scale > 3) {
    return Problem{
        "this scale can't be drawn", {"--scale", 0, ""}, std::to_string(options.scale), "1 to 3"};
  }
  Desk desk;
  desk.theme = theme_named(options.theme);
  desk.scale = static_cast<float>(options.scale);
  Result<Done> laid = lay_desk(workshop, desk, options.case_number);
  if (!laid) {
    return laid;
  }
  if (options.view == every_view) {
    return desk.open_case ? draw_album(workshop, desk, options.path)
                          : Problem{"every view needs a case",
                                    {"--view", 0, ""},
                                    every_view,
                                    "the number of a case beside it"};
  }
  Result<Done> turned = turn_to(desk, options.view);
  if (!turned) {
    return turned;
  }
  Bench bench{workshop};
  fetch_for_page(bench, desk);
  return draw_png(desk, options.width, options.height, options.path);
}

}  // namespace dryout::window
