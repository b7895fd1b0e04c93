// What a frame of the desk costs the processor before anything is put on pixels: layout, text,
// draw lists. The largest case has 300 readings, some 250 suspects and 55 blocks.
#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <benchmark/benchmark.h>
#include <imgui.h>

#include <cstdlib>
#include <new>

#include "window/offscreen.h"
#include "window/sample.h"
#include "window/windowless.h"

namespace {
// Everything that asks for memory in C++ is counted; what the drawing library takes goes through
// its own allocator and grows only until its buffers fit.
std::size_t allocations = 0;
}  // namespace

void* operator new(std::size_t size) {
  ++allocations;
  if (void* place = std::malloc(size == 0 ? 1 : size)) {
    return place;
  }
  throw std::bad_alloc();
}
void operator delete(void* place) noexcept { std::free(place); }
void operator delete(void* place, std::size_t /*size*/) noexcept { std::free(place); }

namespace dryout::window {
namespace {

void frame_of(benchmark::State& state, Station station, casework::CaseView view) {
  Desk desk = desk_with(std::move(view));
  desk.station = station;
  WindowlessDesk window(1280, 800);
  CommandQueue queue;
  (void)window.frame(desk, queue);
  const std::size_t before = allocations;
  for (auto _ : state) {
    (void)window.frame(desk, queue);
  }
  state.counters["allocations/frame"] =
      static_cast<double>(allocations - before) /
      static_cast<double>(std::max<benchmark::IterationCount>(1, state.iterations()));
}

/// The whole way to pixels: layout, draw lists, and the software renderer until it has finished.
void to_pixels(benchmark::State& state, Station station) {
  const auto width = static_cast<int>(state.range(0));
  const auto height = static_cast<int>(state.range(1));
  const auto screen = Offscreen::open(width, height);
  if (!screen) {
    state.SkipWithError("no EGL without a display");
    return;
  }
  Desk desk = desk_with(large_case(300));
  desk.station = station;
  WindowlessDesk window(width, height);
  (void)ImGui_ImplOpenGL3_Init("#version 330 core");
  CommandQueue queue;
  (void)window.frame(desk, queue);
  ImGui_ImplOpenGL3_NewFrame();
  for (auto _ : state) {
    (void)window.frame(desk, queue);
    glViewport(0, 0, width, height);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glFinish();
  }
  ImGui_ImplOpenGL3_Shutdown();
}
void readings_to_pixels(benchmark::State& state) { to_pixels(state, Station::readings); }
void map_to_pixels(benchmark::State& state) { to_pixels(state, Station::map); }

void readings_page(benchmark::State& state) {
  frame_of(state, Station::readings, large_case(static_cast<int>(state.range(0))));
}
void log_page(benchmark::State& state) {
  frame_of(state, Station::log, large_case(static_cast<int>(state.range(0))));
}
void map_page(benchmark::State& state) {
  frame_of(state, Station::map, large_case(static_cast<int>(state.range(0))));
}
void probe_page(benchmark::State& state) {
  frame_of(state, Station::probe, large_case(static_cast<int>(state.range(0))));
}
void suspects_page(benchmark::State& state) {
  frame_of(state, Station::suspects, large_case(static_cast<int>(state.range(0))));
}

/// From nothing to the first frame's draw lists: faces are read and baked.
void first_frame(benchmark::State& state) {
  for (auto _ : state) {
    Desk desk = desk_with(sample_case());
    desk.scale = static_cast<float>(state.range(0));
    WindowlessDesk window(1280, 800);
    CommandQueue queue;
    (void)window.frame(desk, queue);
  }
}

BENCHMARK(readings_page)->Arg(3)->Arg(30)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(log_page)->Arg(3)->Arg(30)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(readings_to_pixels)
    ->Args({1024, 700})
    ->Args({1280, 800})
    ->Args({2560, 1600})
    ->Unit(benchmark::kMillisecond);
BENCHMARK(map_to_pixels)->Args({1280, 800})->Unit(benchmark::kMillisecond);
BENCHMARK(map_page)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(probe_page)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(suspects_page)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(first_frame)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dryout::window
