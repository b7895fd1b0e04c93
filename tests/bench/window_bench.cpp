// What a frame of the desk costs the processor before anything is put on pixels: layout, text,
// draw lists. The largest case has 300 readings, some 250 suspects and 55 blocks.
#include <benchmark/benchmark.h>

#include "window/sample.h"
#include "window/windowless.h"

namespace dryout::window {
namespace {

void frame_of(benchmark::State& state, Station station, casework::CaseView view) {
  Desk desk = desk_with(std::move(view));
  desk.station = station;
  WindowlessDesk window(1280, 800);
  CommandQueue queue;
  (void)window.frame(desk, queue);
  for (auto _ : state) {
    (void)window.frame(desk, queue);
  }
}

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
BENCHMARK(map_page)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(probe_page)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(suspects_page)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(first_frame)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dryout::window
