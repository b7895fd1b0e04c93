// A limit and how far it can be trusted: the ladder from the part's own data sheet down to a
// general table. The rung's spread is a log-normal one and enters the arithmetic, so that with a
// general table alone a middling reading honestly proves nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/celsius.h"
#include "quantities/quantity.h"
#include "quantities/result.h"
#include "readings/reading.h"

namespace dryout::readings {

/// Most trusted first.
enum class LimitSource { datasheet, fresh_part, look_alike, tan_delta, general_table };

/// What a rung of the ladder is worth. The figures are judged; `because` says how.
struct Rung {
  LimitSource source = LimitSource::datasheet;
  std::string_view word;    ///< "datasheet"
  std::string_view told;    ///< "the part's own data sheet"
  double factor = 1.0;      ///< median of the part's own limit over the stated figure
  double log_spread = 0.0;  ///< standard deviation of ln(part's own limit / median)
  std::string_view because;
};
[[nodiscard]] const std::vector<Rung>& ladder();
[[nodiscard]] const Rung& rung_of(LimitSource source);
[[nodiscard]] std::optional<LimitSource> limit_source_of(std::string_view word);

/// A limit as somebody stated it.
struct Limit {
  double value = 0.0;  ///< SI unit of `kind`
  Kind kind = Kind::esr;
  LimitSource source = LimitSource::datasheet;
  quantities::Hertz frequency{100e3};
  quantities::Celsius temperature{20.0};
  std::string document;           ///< maker, series, sheet; "" = as typed
  double extra_log_spread = 0.0;  ///< on top of the rung's: a row from memory, a far look-alike
  double minutes = 0.0;  ///< of a leakage: it holds after so long at the volts; 0 = not said
  /// Of a loss that is stated for a low frequency, where another row tells the resistance at a high
  /// one (ohms, at `frequency`): readings between the two are held against what lies between.
  struct HighEnd {
    quantities::Hertz frequency{100e3};
    double median = 0.0;
    double log_spread = 0.0;
  };
  std::optional<HighEnd> high_end;
};

/// The part's own limit as a log-normal belief.
struct BelievedLimit {
  double median = 0.0;
  double log_spread = 0.0;
};
[[nodiscard]] BelievedLimit believe(const Limit& limit);

/// The conditions under which a reading was taken.
struct Conditions {
  quantities::Hertz frequency{100e3};
  quantities::Celsius temperature{23.0};
  std::optional<quantities::Farad> capacitance;
  bool wet = true;
  std::optional<quantities::Volt> rated = std::nullopt;
  Body body = Body::unknown;
};

/// The limit on the part's series resistance under the conditions of the reading, from one on ESR
/// or |Z| under its own. Refused, with the reason, where a conversion would be guesswork: |Z| that
/// is nearly all reactance; frequencies off the plateau of ESR (about 8 kHz to 1 MHz); a part
/// colder than 5 or hotter than 60 degrees. Between 15 and 30 degrees, where benches and the
/// makers' 20 degrees lie, nothing is converted: the few per cent are left as doubt.
[[nodiscard]] quantities::Result<BelievedLimit> esr_limit_under(const Limit& limit,
                                                                const Conditions& conditions);

/// A limit derived from the tan delta that is printed for 120 Hz: resistance at 120 Hz is
/// tan delta / (2 pi f C), several times too generous at 100 kHz. esr_limit_under carries it there
/// by the step that is fitted from rows with both figures (loss_fit.h), and widens the belief by
/// the fit's own spread. Between the two frequencies the limit falls evenly, ln R against ln f:
/// never below the one at 100 kHz; how far the two-term law (oxide as 1/f, electrolyte constant)
/// would lie from that is left as doubt.
[[nodiscard]] Limit derive_from_tan_delta(double tan_delta, quantities::Hertz frequency,
                                          quantities::Farad capacitance, std::string document);

}  // namespace dryout::readings
