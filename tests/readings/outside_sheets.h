// Figures of published sheets that neither rules/limits nor any other test holds. The list and what
// is expected of it were committed before the program was asked (28 November 2026).
#pragma once

#include <string_view>

#include "readings/reading.h"

namespace dryout::readings {

struct SheetFigure {
  std::string_view source;
  Kind kind;
  std::string_view technology;
  Body body;
  double microfarads, rated_V;
  double greatest;  ///< SI unit of the kind; of insulation the least
  double hertz;     ///< of ESR and loss
  double test_V;    ///< of insulation; 0 = none
};

/// A resin-dipped bead, greatest ESR at 100 kHz (read in a stored text layer; which line belongs to
/// which capacitance by counting from the largest one up).
constexpr SheetFigure bead(double microfarads, double rated_V, double ohms) {
  return {"NDTM series, resin dipped solid tantalum, eeworld 60894126",
          Kind::esr,
          "solid-tantalum",
          Body::radial,
          microfarads,
          rated_V,
          ohms,
          100e3,
          0.0};
}

constexpr SheetFigure bead_loss(double microfarads, double rated_V, double tan_delta) {
  SheetFigure figure = bead(microfarads, rated_V, tan_delta);
  figure.kind = Kind::dissipation;
  figure.hertz = 120.0;
  return figure;
}

constexpr SheetFigure insulated(std::string_view source, std::string_view technology,
                                double microfarads, double rated_V, double ohms, double test_V) {
  return {source, Kind::insulation, technology, Body::radial, microfarads, rated_V, ohms, 1e3,
          test_V};
}

constexpr SheetFigure loss_1k(std::string_view source, std::string_view technology,
                              double microfarads, double rated_V, double tan_delta) {
  return {source,  Kind::dissipation, technology, Body::radial, microfarads,
          rated_V, tan_delta,         1e3,        0.0};
}

inline constexpr std::string_view r413 = "KEMET R413, class Y2, R413R33305000M";
inline constexpr std::string_view ks = "polyester film/foil to JIS C 5107, icticorp ks_c5107";
inline constexpr std::string_view cde_mica =
    "Cornell Dubilier cylindrical mica, 293200B500JO0, page 9";

inline constexpr SheetFigure sheet_figures[] = {
    bead(10, 6.3, 6.0),
    bead(22, 6.3, 3.7),
    bead(47, 6.3, 2.0),
    bead(100, 6.3, 1.6),
    bead(10, 10, 5.0),
    bead(33, 10, 2.1),
    bead(100, 10, 1.0),
    bead(4.7, 16, 5.0),
    bead(10, 16, 3.2),
    bead(22, 16, 2.0),
    bead(47, 16, 1.3),
    bead(10, 20, 2.9),
    bead(22, 20, 1.8),
    bead(2.2, 25, 6.0),
    bead(4.7, 25, 4.0),
    bead(10, 25, 2.5),
    bead(22, 25, 1.5),
    bead(1.0, 35, 8.0),
    bead(2.2, 35, 5.0),
    bead(4.7, 35, 3.0),
    bead(10, 35, 2.0),
    bead(22, 35, 1.3),
    bead_loss(1.0, 35, 0.04),
    bead_loss(4.7, 35, 0.06),
    bead_loss(10, 16, 0.08),
    bead_loss(47, 16, 0.08),
    bead_loss(100, 10, 0.10),
    insulated(r413, "mains-film", 0.0047, 300, 100e9, 100),
    insulated(r413, "mains-film", 0.1, 300, 100e9, 100),
    insulated(r413, "mains-film", 1.0, 300, 30e9, 100),
    loss_1k(r413, "mains-film", 0.01, 300, 0.003),
    insulated(ks, "film", 0.01, 100, 30e9, 100),
    insulated(ks, "film", 0.1, 400, 30e9, 100),
    loss_1k(ks, "film", 0.047, 100, 0.010),
    insulated(cde_mica, "mica", 0.001, 1000, 7.5e9, 100),
    loss_1k(cde_mica, "mica", 0.0022, 1000, 0.0005),
    {"Nichicon UWT, 47 uF 50 V surface mount (second-hand: dercuano, notes on capacitors)",
     Kind::dissipation, "surface-mount-aluminium", Body::smd, 47, 50, 0.14, 120.0, 0.0},
    {"Nichicon UWT, leakage 0.01 CV (second-hand, the same)", Kind::leakage_current,
     "surface-mount-aluminium", Body::smd, 47, 50, 23.5e-6, 100e3, 50.0},
    {"Vishay 293D336X9010D2, 33 uF 10 V (second-hand: icgoo)", Kind::esr, "solid-tantalum",
     Body::smd, 33, 10, 0.8, 100e3, 0.0},
};

}  // namespace dryout::readings
