#include "readings/verdict.h"

#include <array>

namespace dryout::readings {

Verdict judge(const ResistanceFigures& figures) {
  if (figures.far_too_low >= 0.5) {
    return Verdict::suspect_short;
  }
  if (figures.exact && !figures.explained) {
    return Verdict::not_proven;  // the circuit as given is not the one on the bench
  }
  const bool mostly_masked = figures.hidden >= mostly_hidden;
  const bool convicted =
      figures.over_as_bound >= convincing ||
      (figures.exact && figures.over_by_inversion >= convincing && !mostly_masked);
  if (convicted) {
    return Verdict::over_limit;
  }
  if (mostly_masked) {
    return Verdict::masked;
  }
  const bool acquitted = figures.explained && figures.hidden <= hiding_tolerated &&
                         figures.over_by_inversion <= 1.0 - convincing &&
                         figures.over_as_bound <= 1.0 - convincing;
  return acquitted ? Verdict::within_limit : Verdict::not_proven;
}

std::string_view told(Across across) {
  constexpr std::array<std::string_view, 7> words{"something unknown",   "nothing",
                                                  "a ceramic capacitor", "another electrolytic",
                                                  "a winding",           "a regulator's output",
                                                  "a low resistor"};
  return words[static_cast<std::size_t>(across)];
}

namespace {

std::string against(const Wording& w) {
  return w.limit.empty() ? std::string("any limit")
                         : "the limit of " + w.limit + " (" + w.limit_told + ")";
}

std::string over_sentence(const ResistanceFigures& figures, const Wording& w) {
  const std::string text = w.reading + " is over " + against(w) + ".";
  if (!w.in_circuit) {
    return text + " Nothing else was in the measurement: the part is convicted.";
  }
  if (figures.over_as_bound >= convincing) {
    return text + " What sits across a part can only lower a reading, so the part is convicted.";
  }
  return w.reading + " looks low, but with " +
         (w.exact ? std::string("the circuit as given") : std::string(told(w.across))) +
         " across it the part itself must be over " + against(w) + ".";
}

std::string within_sentence(const Wording& w) {
  const std::string text = w.reading + " is within " + against(w);
  if (!w.in_circuit) {
    return text +
           ". That clears it of drying out; it says nothing of leakage or of breakdown "
           "under voltage.";
  }
  return text +
         ", and a bad part could not hide here. That clears it of drying out; it says "
         "nothing of leakage or of breakdown under voltage.";
}

std::string masked_sentence(const Wording& w) {
  std::string text = w.reading + " proves nothing: ";
  text +=
      w.exact ? "with the circuit as given" : "with " + std::string(told(w.across)) + " across it";
  text += " even an open part would read ";
  text += w.hidden_at.empty() ? "below " : "about " + w.hidden_at + ", below ";
  return text + against(w) + ".";
}

std::string not_proven_sentence(const ResistanceFigures& figures, const Wording& w) {
  if (w.limit.empty()) {
    return w.reading + " can't be held against anything: no limit is known for this part.";
  }
  if (!figures.explained) {
    return w.reading +
           " fits no resistance of the part in the circuit as given: the netlist is "
           "not what is on the bench, or the reading is a slip.";
  }
  const bool low = figures.over_as_bound <= 1.0 - convincing;
  if (low && w.in_circuit && figures.hidden > hiding_tolerated) {
    const bool unknown = w.across == Across::unknown && !w.exact;
    return w.reading + " is below " + against(w) +
           (unknown ? ", but nobody has looked what else is across the part, and that could hide "
                      "a bad one."
                    : ", but " + std::string(told(w.across)) + " across it could hide a bad part.");
  }
  if (w.source == LimitSource::datasheet) {
    return w.reading + " is too near to " + against(w) + " to call it either way.";
  }
  return w.reading + " against " + against(w) +
         " proves nothing: the part's own limit may lie on either side of the reading.";
}

}  // namespace

std::string sentence_for(Verdict verdict, const ResistanceFigures& figures,
                         const Wording& wording) {
  switch (verdict) {
    case Verdict::suspect_short:
      return wording.reading +
             " is less than a part of this type can have. Check its d.c. resistance before "
             "calling it good: a short reads like a splendid capacitor.";
    case Verdict::within_limit:
      return within_sentence(wording);
    case Verdict::masked:
      return masked_sentence(wording);
    case Verdict::not_proven:
      return not_proven_sentence(figures, wording);
    case Verdict::over_limit:
      break;
  }
  return over_sentence(figures, wording);
}

}  // namespace dryout::readings
