#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>

#include "window/attend.h"
#include "window/chart_picture.h"
#include "window/desk_painter.h"
#include "window/lay_desk.h"
#include "window/picture.h"
#include "window/sitting.h"
#include "window/system_input.h"
#include "window/think_about.h"
#include "window/typed_text.h"
#include "window/window.h"

namespace dryout::window {
namespace {

using quantities::Done;
using quantities::Problem;
using quantities::Result;

/// Whoever opens GLFW closes it.
struct Glfw {
  bool running = glfwInit() == GLFW_TRUE;
  Glfw() = default;
  ~Glfw() { glfwTerminate(); }
  Glfw(const Glfw&) = delete;
  Glfw& operator=(const Glfw&) = delete;
};

/// The drawing library's two back ends on one window.
struct BackEnds {
  explicit BackEnds(GLFWwindow* window) {
    ImGui_ImplGlfw_InitForOpenGL(window, false);
    ImGui_ImplOpenGL3_Init("#version 330 core");
  }
  ~BackEnds() {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
  }
  BackEnds(const BackEnds&) = delete;
  BackEnds& operator=(const BackEnds&) = delete;
};

Result<GLFWwindow*> open_glfw_window(const WindowOptions& options) {
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  GLFWwindow* window = glfwCreateWindow(options.width, options.height, "Dryout", nullptr, nullptr);
  if (window == nullptr) {
    return Problem{"the window could not be opened",
                   {},
                   "",
                   "a display with OpenGL 3.3 (Debian: libgl1-mesa-dri)"};
  }
  glfwMakeContextCurrent(window);
  glfwSwapInterval(1);
  return window;
}

float scale_of(GLFWwindow* window, double asked) {
  float from_monitor = 1;
  glfwGetWindowContentScale(window, &from_monitor, nullptr);
  return std::clamp(asked > 0 ? static_cast<float>(asked) : from_monitor, 1.0F, 3.0F);
}

/// One window on one workshop.
class BenchWindow {
 public:
  BenchWindow(GLFWwindow* window, casework::Workshop& workshop, const WindowOptions& options)
      : window_(window),
        thinking_([] { glfwPostEmptyEvent(); }),
        bench_{workshop, nullptr, &thinking_},
        options_(options),
        sitting_(options.store_folder, options.store_file),
        input_(window),
        back_ends_(window) {
    desk_.theme = theme_named(options.theme);
    desk_.scale = scale_of(window, options.scale);
  }

  Result<Done> run() {
    constexpr std::chrono::milliseconds no_freeze(100);
    bench_.workshop.wait_for_store_at_most(no_freeze);
    desk_.drafts = sitting_.left().of_case;
    Result<Done> laid = lay_desk(bench_.workshop, desk_, 0);
    if (!laid) {
      return laid;
    }
    if (options_.case_number != 0) {
      bring_figures(bench_, desk_, options_.case_number, Bring::anew);
    }
    if (const auto coming = desk_.drafts.find(0);
        coming != desk_.drafts.end() && !desk_.open_case) {
      put_back(desk_, coming->second);
    }
    if (!sitting_.word().empty()) {
      desk_.word = sitting_.word();
    }
    (void)bench_.workshop.others_wrote();
    while (glfwWindowShouldClose(window_) == GLFW_FALSE) {
      (void)take_thoughts(bench_, desk_);
      if (input_.take_returned()) {
        look_again(bench_, desk_);
      }
      for (const std::string& path : input_.take_dropped()) {
        take_dropped(bench_, desk_, path, queue_);
      }
      draw();
      if (!painter_.settling() && !key_down_ && !input_.pending()) {
        wait();
      }
    }
    return Done{};
  }

 private:
  /// Frames drawn after the last input: hovering and scrolling need one to show and one to settle.
  static constexpr int after_input = 3;

  void wait() {
    if (input_.take_dirty()) {
      frames_due_ = after_input;
    }
    if (frames_due_ > 0) {
      --frames_due_;
      glfwPollEvents();
    } else {
      if (desk_.thinking.empty()) {
        report_sleep();
      }
      wait_for_news();
      frames_due_ = after_input;
    }
    if (input_.take_dirty()) {
      frames_due_ = after_input;
    }
  }

  /// Sleeps until there is something to show. Draws nothing while it only looks whether the
  /// knowledge was edited.
  void wait_for_news() {
    constexpr double look_each = 1.0;  // seconds
    bool news = false;
    while (!news && glfwWindowShouldClose(window_) == GLFW_FALSE) {
      constexpr double try_each = 0.25;  // seconds
      const bool hurries = !desk_.waiting.empty() || !desk_.thinking.empty();
      glfwWaitEventsTimeout(hurries ? try_each : look_each);
      news = input_.take_dirty() || take_up_edits(bench_, desk_);
      news = take_thoughts(bench_, desk_) || news;
      if (!desk_.waiting.empty()) {
        try_waiting(bench_, desk_);
        news = true;
      } else if (bench_.workshop.others_wrote()) {
        look_again(bench_, desk_);
        news = true;
      }
    }
  }

  void draw() {
    if (painter_.match(desk_)) {
      ImGui_ImplOpenGL3_DestroyFontsTexture();
      ImGui_ImplOpenGL3_CreateFontsTexture();
      for (const std::string& word : painter_.words()) {
        desk_.word = word;
      }
    }
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    const bool resting = key_down_ || painter_.settling();
    InputStep step = resting ? input_.rest() : input_.take_next();
    key_down_ = !step.events.keys.empty();
    painter_.compose(desk_, std::move(step.events), step.mouse, queue_);
    put_on_screen();
    if (keep_drafts(desk_)) {
      sitting_.keep(desk_.drafts);
    }
    if (!queue_.empty()) {
      frames_due_ = after_input;
      report_items();  // awake: who waits outside must not take the last sleep for this one
      for (const Intention& wish : attend(bench_, desk_, queue_)) {
        answer(wish);
      }
      if (keep_drafts(desk_)) {
        sitting_.keep(desk_.drafts);
      }
    }
    report_items();
  }

  void put_on_screen() {
    int width = 0;
    int height = 0;
    glfwGetFramebufferSize(window_, &width, &height);
    glViewport(0, 0, width, height);
    const ImVec4 paper = ImGui::ColorConvertU32ToFloat4(theme_of(desk_.theme).paper.packed());
    glClearColor(paper.x, paper.y, paper.z, 1.0F);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    if (picture_due_) {
      keep_picture(width, height);
    }
    glfwSwapBuffers(window_);
  }

  /// Writes a picture under a name of its own; the path.
  template <class Write>
  Result<std::string> write_picture(const std::string& name, Write write) {
    Result<std::string> path =
        bench_.workshop.files().free_path(casework::Made::pictures, "dryout-" + name, ".png");
    const Result<Done> written = path ? write(*path) : Result<Done>(path.problems());
    return written ? path : written.problems();
  }

  void keep_picture(int width, int height) {
    picture_due_ = false;
    tell_where(desk_, "The page is kept as ", write_picture("page", [&](const std::string& path) {
                 return write_png(read_pixels(width, height), path);
               }));
  }

  void keep_chart(const std::string& chart) {
    // It is drawn on a surface of its own, and one thread has one surface at a time.
    glfwMakeContextCurrent(nullptr);
    const Result<std::string> path = write_picture(
        chart, [&](const std::string& to) { return draw_chart_png(desk_, chart, to); });
    glfwMakeContextCurrent(window_);
    tell_where(desk_, "The picture is kept as ", path);
  }

  /// Written beside and moved into place: a reader never meets half of it.
  void report_items(const char* more = "") const {
    if (options_.items_file.empty()) {
      return;
    }
    const std::string beside = options_.items_file + ".new";
    std::ofstream(beside, std::ios::trunc) << describe_items(painter_.items()) << more;
    std::error_code failed;
    std::filesystem::rename(beside, options_.items_file, failed);
  }

  /// Who works the window from outside need not guess when it has answered.
  void report_sleep() const { report_items("{\"asleep\":true}\n"); }

  void answer(const Intention& wish) {
    if (const auto* copy = std::get_if<CopyText>(&wish)) {
      glfwSetClipboardString(window_, copy->text.c_str());
      tell(desk_, "Copied.");
    } else if (std::holds_alternative<SavePicture>(wish)) {
      picture_due_ = true;
    } else if (const auto* chart = std::get_if<SaveChart>(&wish)) {
      keep_chart(chart->chart);
    }
  }

  GLFWwindow* window_;
  casework::Thinking thinking_;
  Bench bench_;
  WindowOptions options_;
  Sitting sitting_;
  DeskPainter painter_;  // before the back ends: they live in its context
  SystemInput input_;
  BackEnds back_ends_;
  Desk desk_;
  CommandQueue queue_;
  int frames_due_ = 3;
  bool picture_due_ = false;
  bool key_down_ = false;  ///< in the frame just drawn: the next one lets it up
};

}  // namespace

Result<Done> run_window(casework::Workshop& workshop, const WindowOptions& options) {
  const Glfw glfw;
  if (!glfw.running) {
    return Problem{"there is no display to open a window on",
                   {},
                   "",
                   "a desktop session, or the guided session in the terminal: dryout guide"};
  }
  const Result<GLFWwindow*> window = open_glfw_window(options);
  if (!window) {
    return window.problems();
  }
  Result<Done> done = BenchWindow(*window, workshop, options).run();
  glfwDestroyWindow(*window);
  return done;
}

}  // namespace dryout::window
