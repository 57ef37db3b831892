// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/part.h"

#include <algorithm>
#include <cmath>

namespace ww::equipment {

namespace {
constexpr double kRatedVolts = 24;
}

Impedance impedance(const Load& load) {
  const double magnitude = kRatedVolts * kRatedVolts / load.power.si();
  const double pf = load.powerFactor;
  return {magnitude * pf, magnitude * std::sqrt(std::max(0.0, 1 - pf * pf))};
}

std::vector<std::string> contradictions(const CoilPart& coil) {
  const Impedance sealed = impedance(coil.sealed);
  const Impedance inrush = impedance(coil.inrush);
  std::vector<std::string> found;
  if (coil.dc.si() > inrush.real()) found.emplace_back("coil-dc-above-inrush");
  if (coil.dc.si() > sealed.real()) found.emplace_back("coil-dc-above-sealed");
  // The armature closes the air gap: inductance may only rise.
  if (sealed.imag() < inrush.imag()) found.emplace_back("coil-reactance-falls");
  if (!(coil.dropOut < coil.pullInTypical)) found.emplace_back("coil-drop-out-order");
  if (!(coil.pullInTypical < coil.pullInGuaranteed)) found.emplace_back("coil-pull-in-order");
  return found;
}

}  // namespace ww::equipment
