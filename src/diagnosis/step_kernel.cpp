#include "diagnosis/step_kernel.h"

#include <algorithm>

#include "quantities/check.h"

namespace dryout::diagnosis {
namespace {

/// Values that are taken through all entries before the next are: what several entries read is then
/// still in the first-level cache.
constexpr std::size_t chunk = 64;

/// One way through a step, seen as reading from `source` and writing to `target` vectors.
struct Passage {
  const Direction* direction = nullptr;
  const std::vector<Index>* base_source = nullptr;
  const std::vector<Index>* base_target = nullptr;
  Index run = 1;  ///< contiguous values, width included
  Index width = 1;
  bool add = false;  ///< to what the target holds
};

/// Tile neighbouring values of one state: the sum over the entries that write to it.
template <class Real, std::size_t Tile>
void sum_entries(const Real* coefficients, const Index* sources, Index entries, std::size_t width,
                 const Real* in, Real* target, bool add) {
  std::array<Real, Tile> sum{};
  if (add) {
    for (std::size_t i = 0; i < Tile; ++i) {
      sum[i] = target[i];
    }
  }
  for (Index e = 0; e < entries; ++e) {
    const Real c = coefficients[e];
    const Real* const source = in + sources[e] * width;
    for (std::size_t i = 0; i < Tile; ++i) {
      sum[i] += c * source[i];
    }
  }
  for (std::size_t i = 0; i < Tile; ++i) {
    target[i] = sum[i];
  }
}

template <class Real, std::size_t Tile>
void apply_bases(const Passage& passage, const Real* coefficients, const Real* in, Real* out) {
  const Direction& d = *passage.direction;
  const std::size_t width = passage.width;
  for (std::size_t r = 0; r < passage.base_source->size(); ++r) {
    const Real* const source = in + (*passage.base_source)[r] * width;
    Real* const target = out + (*passage.base_target)[r] * width;
    for (std::size_t begin = 0; begin < passage.run; begin += chunk) {
      const std::size_t end = std::min<std::size_t>(passage.run, begin + chunk);
      for (std::size_t g = 0; g < d.target.size(); ++g) {
        const Index first = d.first[g];
        for (std::size_t x = begin; x < end; x += Tile) {
          sum_entries<Real, Tile>(coefficients + first, &d.source[first], d.first[g + 1] - first,
                                  width, source + x, target + d.target[g] * width + x, passage.add);
        }
      }
    }
  }
}

template <class Real>
void apply_lane(const Passage& passage, const Real* coefficients, const Real* in, Real* out) {
  if (passage.run >= 8) {
    apply_bases<Real, 8>(passage, coefficients, in, out);
  } else if (passage.run == 4) {
    apply_bases<Real, 4>(passage, coefficients, in, out);
  } else if (passage.run == 2) {
    apply_bases<Real, 2>(passage, coefficients, in, out);
  } else {
    apply_bases<Real, 1>(passage, coefficients, in, out);
  }
}

/// to[k] += c * from[k]
template <class Real>
void add_scaled(Real c, const Real* from, std::size_t count, Real* to) {
  for (std::size_t k = 0; k < count; ++k) {
    to[k] += c * from[k];
  }
}

/// Sums of products that do not wait on each other: Tile places, one or two values at each.
template <class Real, std::size_t WidthBefore, std::size_t WidthAfter, std::size_t Tile>
struct Met {
  static constexpr std::size_t width = std::max(WidthBefore, WidthAfter);
  static constexpr std::size_t size = Tile * width;
  std::array<Real, size> sum{};

  /// Places begin to end, a multiple of Tile. Either side holds one value a place or, in a pair,
  /// two.
  void add(const Real* before, const Real* after, std::size_t begin, std::size_t end) {
    std::array<Real, size> local = sum;
    for (std::size_t x = begin; x < end; x += Tile) {
      for (std::size_t i = 0; i < size; ++i) {
        local[i] += before[x * WidthBefore + (WidthBefore == width ? i : i / width)] *
                    after[x * WidthAfter + (WidthAfter == width ? i : i / width)];
      }
    }
    sum = local;
  }

  void add_to(Real* met) const {
    for (std::size_t i = 0; i < size; ++i) {
      met[i % width] += sum[i];
    }
  }
};

template <class Real, std::size_t WidthBefore, std::size_t WidthAfter, std::size_t Tile>
void meet_tiles(const Step& step, const Real* in, const Real* out, Real* met) {
  using Entry = Met<Real, WidthBefore, WidthAfter, Tile>;
  const std::size_t run = std::size_t{1} << step.log2_run;
  std::vector<Entry> entries(step.from.size());
  for (std::size_t r = 0; r < step.base_in.size(); ++r) {
    for (std::size_t begin = 0; begin < run; begin += chunk) {
      const std::size_t end = std::min(run, begin + chunk);
      for (std::size_t e = 0; e < entries.size(); ++e) {
        entries[e].add(in + (step.base_in[r] + step.from[e]) * WidthBefore,
                       out + (step.base_out[r] + step.to[e]) * WidthAfter, begin, end);
      }
    }
  }
  for (std::size_t e = 0; e < entries.size(); ++e) {
    entries[e].add_to(&met[e * Entry::width]);
  }
}

template <class Real, std::size_t WidthBefore, std::size_t WidthAfter>
void meet_lane(const Step& step, const Real* in, const Real* out, Real* met) {
  // Many values a place fill the registers by themselves.
  constexpr bool narrow = std::max(WidthBefore, WidthAfter) <= 2;
  if (narrow && step.log2_run >= 3) {
    meet_tiles<Real, WidthBefore, WidthAfter, narrow ? 8 : 2>(step, in, out, met);
  } else if (narrow && step.log2_run == 2) {
    meet_tiles<Real, WidthBefore, WidthAfter, narrow ? 4 : 2>(step, in, out, met);
  } else if (step.log2_run >= 1) {
    meet_tiles<Real, WidthBefore, WidthAfter, 2>(step, in, out, met);
  } else {
    meet_tiles<Real, WidthBefore, WidthAfter, 1>(step, in, out, met);
  }
}

template <class Real, std::size_t WidthBefore, std::size_t WidthAfter>
std::vector<Real> meet_widths(const Step& step, const Real* before, const Real* after) {
  const std::size_t lane_size = step.entries() * std::max(WidthBefore, WidthAfter);
  std::vector<Real> met(step.lanes() * lane_size, Real{0});
  CHECK(!step.wide);
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    const Real* const in = before + (step.lanes_in == 1 ? 0 : lane << step.log2_in) * WidthBefore;
    const Real* const out = after + (step.lanes_out == 1 ? 0 : lane << step.log2_out) * WidthAfter;
    meet_lane<Real, WidthBefore, WidthAfter>(step, in, out, &met[lane * lane_size]);
  }
  return met;
}

/// Several values a place fill the registers by themselves; few places must not be overrun.
template <std::size_t Width, class Call>
auto in_tiles(const Step& step, const Call& call) {
  constexpr std::size_t tile = Width <= 2 ? 8 : 2;
  return step.log2_in >= 3 ? call.template operator()<tile>() : call.template operator()<1>();
}

template <class Real, std::size_t Tile>
std::vector<Real> meet_wide(const Step& step, const Real* before, const Real* after) {
  std::vector<Real> met(std::size_t{step.lanes()} * step.entries(), Real{0});
  for_each_run(step, before, 1,
               [&](Index lane, Index state, const Real* from, Index out, Index run) {
                 Met<Real, 1, 1, Tile> entry;
                 entry.add(from, after + out, 0, run);
                 entry.add_to(&met[lane * step.entries() + state]);
               });
  return met;
}

template <class Real, std::size_t Width, std::size_t Tile>
std::vector<Real> pass_on_wide(const Step& step, const Real* coefficients, const Real* before,
                               const Real* after, Real* next) {
  std::vector<Real> met(std::size_t{step.lanes()} * step.entries() * Width, Real{0});
  for_each_run(step, before, Width,
               [&](Index lane, Index state, const Real* from, Index out, Index run) {
                 const std::size_t at = lane * step.entries() + state;
                 add_scaled(coefficients[at], from, run * Width, next + out * Width);
                 Met<Real, Width, 1, Tile> entry;
                 entry.add(from, after + out, 0, run);
                 entry.add_to(&met[at * Width]);
               });
  return met;
}

template <class Real, std::size_t Width, std::size_t Tile>
std::vector<Real> pass_back_wide(const Step& step, const Real* coefficients, const Real* before,
                                 const Real* after, Real* next) {
  const std::size_t run = std::size_t{1} << step.log2_in;
  std::vector<Real> met(std::size_t{step.lanes()} * step.entries() * Width, Real{0});
  std::vector<Real> unexplained;
  for (std::size_t lane = 0; lane < step.lanes(); ++lane) {
    const std::size_t in = step.lanes_in == 1 ? 0 : lane * run;
    const Real* const from = after + (step.lanes_out == 1 ? 0 : lane * run) * Width;
    for (Index state = 0; state < step.entries(); ++state) {
      const std::size_t at = lane * step.entries() + state;
      unexplained.assign(from, from + run * Width);
      explain_transposed(step, state, unexplained.data(), Width);
      add_scaled(coefficients[at], unexplained.data(), run * Width, next + in * Width);
      Met<Real, 1, Width, Tile> entry;
      entry.add(before + in, unexplained.data(), 0, run);
      entry.add_to(&met[at * Width]);
    }
  }
  return met;
}

template <class Real, std::size_t Width>
std::vector<Real> pass_on_width(const Step& step, const std::vector<Real>& coefficients,
                                std::vector<Real>& before, const std::vector<Real>& after) {
  std::vector<Real> next(step.size_out() * Width);
  std::vector<Real> met;
  if (step.wide) {
    met = in_tiles<Width>(step, [&]<std::size_t Tile>() {
      return pass_on_wide<Real, Width, Tile>(step, coefficients.data(), before.data(), after.data(),
                                             next.data());
    });
  } else {
    met = meet_widths<Real, Width, 1>(step, before.data(), after.data());
    apply(step, Way::forward, coefficients, before.data(), next.data(), Width);
  }
  before = std::move(next);
  return met;
}

template <class Real, std::size_t Width>
std::vector<Real> pass_back_width(const Step& step, const std::vector<Real>& coefficients,
                                  const std::vector<Real>& before, std::vector<Real>& after) {
  std::vector<Real> next(step.size_in() * Width);
  std::vector<Real> met;
  if (step.wide) {
    met = in_tiles<Width>(step, [&]<std::size_t Tile>() {
      return pass_back_wide<Real, Width, Tile>(step, coefficients.data(), before.data(),
                                               after.data(), next.data());
    });
  } else {
    met = meet_widths<Real, 1, Width>(step, before.data(), after.data());
    apply(step, Way::backward, coefficients, after.data(), next.data(), Width);
  }
  after = std::move(next);
  return met;
}

/// One link of a wide step, Tile neighbouring values at a time: forward, what is not explained
/// becomes explained with that strength; backward, the transpose.
template <class Real, Way way, std::size_t Tile>
void move_along(Real* values, std::size_t size, std::size_t mask, Real strength) {
  const Real rest = Real{1} - strength;
  for (std::size_t high = 0; high < size; high += 2 * mask) {
    for (std::size_t low = high; low < high + mask; low += Tile) {
      std::array<Real, Tile> without;
      std::array<Real, Tile> with;
      std::copy_n(values + low, Tile, without.begin());
      std::copy_n(values + low + mask, Tile, with.begin());
      for (std::size_t i = 0; i < Tile; ++i) {
        if constexpr (way == Way::forward) {
          with[i] += strength * without[i];
          without[i] *= rest;
        } else {
          without[i] = rest * without[i] + strength * with[i];
        }
      }
      std::copy_n(without.begin(), Tile, values + low);
      if constexpr (way == Way::forward) {
        std::copy_n(with.begin(), Tile, values + low + mask);
      }
    }
  }
}

template <class Real, Way way>
void move_along_links(const Step& step, Index state, Real* values, Index width) {
  const std::size_t size = std::size_t{width} << step.log2_in;
  for (const LocalLink& link : step.links) {
    if (link.state != state) {
      continue;
    }
    const auto strength = static_cast<Real>(link.strength);
    const std::size_t mask = std::size_t{width} << step.place[link.finding];
    if (mask >= 8) {
      move_along<Real, way, 8>(values, size, mask, strength);
    } else if (mask == 4) {
      move_along<Real, way, 4>(values, size, mask, strength);
    } else if (mask == 2) {
      move_along<Real, way, 2>(values, size, mask, strength);
    } else {
      move_along<Real, way, 1>(values, size, mask, strength);
    }
  }
}

}  // namespace

template <class Real>
void explain(const Step& step, Index state, Real* values, Index width) {
  move_along_links<Real, Way::forward>(step, state, values, width);
}

template <class Real>
void explain_transposed(const Step& step, Index state, Real* values, Index width) {
  move_along_links<Real, Way::backward>(step, state, values, width);
}

template <class Real>
std::vector<Real> in_order_of(const Step& step, Way way, const std::vector<Real>& kernel) {
  if (step.wide) {
    return kernel;
  }
  const Direction& direction = way == Way::forward ? step.forward : step.backward;
  std::vector<Real> ordered;
  ordered.reserve(kernel.size());
  for (std::size_t lane = 0; lane < kernel.size(); lane += step.entries()) {
    for (const Index entry : direction.entry) {
      ordered.push_back(kernel[lane + entry]);
    }
  }
  return ordered;
}

template <class Real>
void apply_wide(const Step& step, Way way, const std::vector<Real>& coefficients, const Real* in,
                Real* out, Index width) {
  const Index size = way == Way::forward ? step.size_out() : step.size_in();
  std::fill_n(out, static_cast<std::size_t>(size) * width, Real{0});
  if (way == Way::forward) {
    for_each_run(step, in, width,
                 [&](Index lane, Index state, const Real* from, Index at, Index run) {
                   const Real c = coefficients[lane * step.entries() + state];
                   Real* const to = out + at * width;
                   for (std::size_t x = 0; x < std::size_t{run} * width; ++x) {
                     to[x] += c * from[x];
                   }
                 });
    return;
  }
  for_each_run_back(step, out, width, [&](Index lane, Index state, Real* to, Index at, Index run) {
    const Real c = coefficients[lane * step.entries() + state];
    const Real* const from = in + at * width;
    for (std::size_t x = 0; x < std::size_t{run} * width; ++x) {
      to[x] += c * from[x];
    }
  });
}

template <class Real>
void apply(const Step& step, Way way, const std::vector<Real>& coefficients, const Real* in,
           Real* out, Index width) {
  const bool forward = way == Way::forward;
  if (step.wide) {
    apply_wide(step, way, coefficients, in, out, width);
    return;
  }
  Passage passage{forward ? &step.forward : &step.backward,
                  forward ? &step.base_in : &step.base_out,
                  forward ? &step.base_out : &step.base_in, width << step.log2_run, width};
  const Index lanes_source = forward ? step.lanes_in : step.lanes_out;
  const Index lanes_target = forward ? step.lanes_out : step.lanes_in;
  const Index log2_source = forward ? step.log2_in : step.log2_out;
  const Index log2_target = forward ? step.log2_out : step.log2_in;
  for (Index lane = 0; lane < step.lanes(); ++lane) {
    const Real* const c = &coefficients[lane * step.from.size()];
    const Real* const source = in + (lanes_source == 1 ? 0 : lane << log2_source) * width;
    Real* const target = out + (lanes_target == 1 ? 0 : lane << log2_target) * width;
    passage.add = lanes_target == 1 && lane > 0;
    apply_lane(passage, c, source, target);
  }
}

template <class Real>
std::vector<Real> meet(const Step& step, const Real* before, const Real* after) {
  return step.wide ? in_tiles<1>(step,
                                 [&]<std::size_t Tile>() {
                                   return meet_wide<Real, Tile>(step, before, after);
                                 })
                   : meet_widths<Real, 1, 1>(step, before, after);
}

template <class Real>
std::vector<Real> pass_on(const Step& step, const std::vector<Real>& coefficients,
                          std::vector<Real>& before, const std::vector<Real>& after, Index width) {
  switch (width) {
    case 1:
      return pass_on_width<Real, 1>(step, coefficients, before, after);
    case 2:
      return pass_on_width<Real, 2>(step, coefficients, before, after);
    case 4:
      return pass_on_width<Real, 4>(step, coefficients, before, after);
    default:
      CHECK(width == 8);
      return pass_on_width<Real, 8>(step, coefficients, before, after);
  }
}

template <class Real>
std::vector<Real> pass_back(const Step& step, const std::vector<Real>& coefficients,
                            const std::vector<Real>& before, std::vector<Real>& after,
                            Index width) {
  switch (width) {
    case 1:
      return pass_back_width<Real, 1>(step, coefficients, before, after);
    case 2:
      return pass_back_width<Real, 2>(step, coefficients, before, after);
    case 4:
      return pass_back_width<Real, 4>(step, coefficients, before, after);
    default:
      CHECK(width == 8);
      return pass_back_width<Real, 8>(step, coefficients, before, after);
  }
}

template void explain(const Step&, Index, double*, Index);
template void explain(const Step&, Index, long double*, Index);
template void explain_transposed(const Step&, Index, double*, Index);
template void explain_transposed(const Step&, Index, long double*, Index);
template std::vector<double> in_order_of(const Step&, Way, const std::vector<double>&);
template std::vector<long double> in_order_of(const Step&, Way, const std::vector<long double>&);
template void apply(const Step&, Way, const std::vector<double>&, const double*, double*, Index);
template void apply(const Step&, Way, const std::vector<long double>&, const long double*,
                    long double*, Index);
template std::vector<double> meet(const Step&, const double*, const double*);
template std::vector<long double> meet(const Step&, const long double*, const long double*);
template std::vector<double> pass_on(const Step&, const std::vector<double>&, std::vector<double>&,
                                     const std::vector<double>&, Index);
template std::vector<long double> pass_on(const Step&, const std::vector<long double>&,
                                          std::vector<long double>&,
                                          const std::vector<long double>&, Index);
template std::vector<double> pass_back(const Step&, const std::vector<double>&,
                                       const std::vector<double>&, std::vector<double>&, Index);
template std::vector<long double> pass_back(const Step&, const std::vector<long double>&,
                                            const std::vector<long double>&,
                                            std::vector<long double>&, Index);

}  // namespace dryout::diagnosis
