#include "window/page_picture.h"

#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <array>

#include "window/offscreen.h"
#include "window/picture.h"
#include "window/window.h"
#include "window/windowless.h"
#include "window/wording.h"

namespace dryout::window {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

struct NamedView {
  const char* name;
  Station station;
};
constexpr std::array<NamedView, 14> pages{{{"cases", Station::cases},
                                           {"shop", Station::shop},
                                           {"take-in", Station::take_in},
                                           {"symptoms", Station::symptoms},
                                           {"probe", Station::probe},
                                           {"suspects", Station::suspects},
                                           {"mend", Station::mend},
                                           {"hand-over", Station::hand_over},
                                           {"map", Station::map},
                                           {"readings", Station::readings},
                                           {"log", Station::log},
                                           {"library", Station::library},
                                           {"plan", Station::plan},
                                           {"practice", Station::practice}}};

Problem no_such_view(const std::string& view) {
  return {"there is no view of this name",
          {"--view", 0, ""},
          quantities::excerpt(view),
          joined(view_names())};
}

void clear_to(const Theme& theme, int width, int height) {
  glViewport(0, 0, width, height);
  const ImVec4 paper = ImGui::ColorConvertU32ToFloat4(theme.paper.packed());
  glClearColor(paper.x, paper.y, paper.z, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
}

}  // namespace

const std::vector<std::string>& view_names() {
  static const std::vector<std::string> names{
      "cases", "new-case",  "take-in",  "symptoms",  "probe",    "suspects",
      "mend",  "hand-over", "map",      "map-board", "readings", "log",
      "plan",  "library",   "practice", "shop",      "far",      "help"};
  return names;
}

Result<Done> turn_to(Desk& desk, const std::string& view) {
  if (std::find(view_names().begin(), view_names().end(), view) == view_names().end()) {
    return no_such_view(view);
  }
  const bool without_case = view == "cases" || view == "new-case" || view == "help" ||
                            view == "library" || view == "practice" || view == "shop";
  if (!without_case && !desk.open_case) {
    return Problem{
        "this view needs a case", {"--view", 0, ""}, view, "the number of a case beside it"};
  }
  desk.cases_state.taking_in = view == "new-case";
  desk.help = view == "help";
  desk.far = view == "far";
  if (view == "map-board") {
    desk.station = Station::map;
    desk.map.board = desk.open_case->boards.empty() ? "" : desk.open_case->boards.front().id;
  }
  if (view == "new-case") {
    desk.station = Station::cases;
  }
  for (const NamedView& page : pages) {
    if (view == page.name) {
      desk.station = page.station;
    }
  }
  return Done{};
}

Result<Done> draw_png(Desk& desk, int width, int height, const std::string& path) {
  constexpr int least = 320;
  constexpr int most = 8192;
  if (width < least || height < least || width > most || height > most) {
    return Problem{"a picture of this size can't be drawn",
                   {"--size", 0, ""},
                   std::to_string(width) + "x" + std::to_string(height),
                   "320 to 8192 pixels each way"};
  }
  const auto screen = Offscreen::open(width, height);
  if (!screen) {
    return screen.problems();
  }
  WindowlessDesk drawn(width, height);
  if (!ImGui_ImplOpenGL3_Init("#version 330 core")) {
    return Problem{"OpenGL 3.3 could not be started", {}, "", "the package libgl1-mesa-dri"};
  }
  CommandQueue nobody;
  // Scrolling regions learn their size in the first frame; the third stands still.
  for (int frame = 0; frame < 3; ++frame) {
    (void)drawn.frame(desk, nobody);
    if (frame == 0) {
      ImGui_ImplOpenGL3_NewFrame();
    }
  }
  clear_to(theme_of(desk.theme), width, height);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  const Picture picture = read_pixels(width, height);
  ImGui_ImplOpenGL3_Shutdown();
  return write_png(picture, path);
}

}  // namespace dryout::window
