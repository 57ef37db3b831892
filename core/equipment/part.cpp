// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/part.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ww::equipment {

namespace {
constexpr double kRatedVolts = 24;
}

Impedance impedance(const Load& load) {
  const double magnitude = kRatedVolts * kRatedVolts / load.power.si();
  const double pf = load.powerFactor;
  return {magnitude * pf, magnitude * std::sqrt(std::max(0.0, 1 - pf * pf))};
}

Ohms resistanceAt(const ResistorPart& part, double celsius) {
  constexpr double kZero = 273.15, kReference = kZero + 25;
  return part.resistance * std::exp(part.beta * (1 / (celsius + kZero) - 1 / kReference));
}

double meltingSeconds(const FusePart& fuse, double amps) {
  const double rated = fuse.rating.si();
  const double times = amps / rated;
  if (!(times > fuse.holdsTo)) return std::numeric_limits<double>::infinity();
  const double quick = fuse.meltingAmpSquaredSeconds / (amps * amps);
  if (times >= fuse.quickFrom) return quick;
  const double atQuick = fuse.meltingAmpSquaredSeconds / std::pow(fuse.quickFrom * rated, 2);
  const double way = std::log(times / fuse.holdsTo) / std::log(fuse.quickFrom / fuse.holdsTo);
  return std::max(quick, fuse.slowest.si() * std::pow(atQuick / fuse.slowest.si(), way));
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
