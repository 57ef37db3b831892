// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

#include "quantity/loaded.h"

namespace ww::checklist {

/// How far healthy installations differ from their typical figures: one standard deviation each, relative
/// where no unit is named.
struct Priors {
  double line = 0, regulation = 0;        ///< regulation in absolute share
  double coilVoltAmps = 0, coilOhms = 0;  ///< one coil family: sealed VA, DC ohms
  double supplyVoltAmps = 0, supplyOhms = 0;
  double inputOhms = 0, contactOhms = 0, cableLength = 0;
  double temperatureKelvin = 0;
  double meterGain = 0;                           ///< an error that repeats
  double pileVolts = 0;                           ///< thermopiles and the small supplies of sensors
  double volts = 0, voltsNearZero = 0, ohms = 0;  ///< of a single reading
  double millivolts = 0;                          ///< the same, direct millivolts
  double grossError = 0;                          ///< share of readings that tell nothing
};

quantity::Loaded<Priors> readPriors(std::string_view text);
/// The figures that ship with the program.
const Priors& standardPriors();

/// A file of resources/ as it was built into the program.
struct ShippedFile {
  std::string_view name, text;
};
const std::vector<ShippedFile>& shippedPriors();

}  // namespace ww::checklist
