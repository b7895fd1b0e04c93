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
  const bool over = (figures.over_as_bound >= convincing && figures.above_printed) ||
                    (figures.exact && figures.over_by_inversion >= convincing && !mostly_masked &&
                     (figures.above_printed || figures.undone));
  if (over && figures.leads_explain) {
    return Verdict::not_proven;
  }
  if (over) {
    // Over a limit that is only believed, and yet likelier sound than not: no verdict.
    return figures.unsound >= convicted_from ? Verdict::over_limit : Verdict::not_proven;
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

/// The end of a sentence that clears nobody.
std::string table_clears_nobody(const Wording& w) {
  return w.source == LimitSource::general_table
             ? "; and a general table is too generous to clear anything."
             : ".";
}

std::string over_sentence(const ResistanceFigures& figures, const Wording& w) {
  if (w.exact && w.in_circuit && !w.behind.empty() && figures.over_as_bound < convincing) {
    return w.reading + " at the probes means " + w.behind +
           " of the part itself, once the circuit as given is undone: that is over " + against(w) +
           ", and the part is convicted.";
  }
  std::string text = w.reading + " is over " + against(w) + ".";
  if (!w.in_circuit) {
    text += " Nothing else was in the measurement: the part is convicted.";
  } else if (w.across == Across::winding) {
    text +=
        " Even in resonance with the winding a good part would not read so high: it is "
        "convicted.";
  } else {
    text += " What sits across it would only lower the reading, so the part is convicted.";
  }
  if (!w.leads.empty()) {
    text += " This takes the meter as zeroed with its tips together: leads of " + w.leads +
            " would explain it.";
  }
  return text;
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
  text += " even an open part could read ";
  text += w.hidden_at.empty() ? "below " : "about " + w.hidden_at + ", below ";
  text += against(w);
  return text + table_clears_nobody(w);
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
  if (figures.leads_explain && figures.above_printed) {
    return w.reading + " is over " + against(w) + ", but leads of " + w.leads +
           " would explain it, and nobody said that the meter was zeroed: hold its tips together, "
           "and give what it shows.";
  }
  if (figures.over_as_bound >= convincing && figures.above_printed) {
    return w.reading + " is over " + against(w) +
           ", but so few parts of this kind fail in that way that a wrong limit or a slip is as "
           "likely: measure again, and against the part's own sheet.";
  }
  if (figures.resonance_explains) {
    return w.reading + " is over " + against(w) + ", but " +
           (w.across == Across::winding
                ? "in resonance with the winding"
                : "in resonance with a winding across it, if there is one,") +
           " a part within its limit could read as much: lift one leg.";
  }
  const bool low = figures.over_as_bound <= 1.0 - convincing && !figures.above_printed;
  if (low && w.in_circuit && figures.hidden > hiding_tolerated) {
    const bool unknown = w.across == Across::unknown && !w.exact;
    return w.reading + " is below " + against(w) +
           (unknown ? ", but nobody has looked what else is across the part, and that could hide "
                      "a bad one"
                    : ", but " + std::string(told(w.across)) + " across it could hide a bad part") +
           table_clears_nobody(w);
  }
  if (w.source == LimitSource::datasheet) {
    return w.reading + " is too near to " + against(w) + " to call it either way.";
  }
  return w.reading + " against " + against(w) +
         " proves nothing: the part's own limit may lie on either side of the reading" +
         table_clears_nobody(w);
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
    case Verdict::no_reading:
    case Verdict::above_mark:
      break;
  }
  return over_sentence(figures, wording);
}

}  // namespace dryout::readings
