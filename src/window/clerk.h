// The part of attending that deals with files and with all cases at once: papers, parts lists,
// cases that come and go, the shop's history.
#pragma once

#include <string>

#include "window/attend.h"

namespace dryout::window {

struct Clerk {
  Bench& bench;
  Desk& desk;

  void operator()(const WritePaper& wish) const;
  void operator()(const LookIntoFolder& wish) const;
  void operator()(const LookAtPartsList& wish) const;
  void operator()(const KeepPartsList& wish) const;
  void operator()(const TakeCasesIn& wish) const;
  void operator()(const CopyAllCases& wish) const;
  void operator()(const CheckStore& wish) const;
  void operator()(const UseShopHistory& wish) const;
  void operator()(const SetShopFigure& wish) const;
};

}  // namespace dryout::window
