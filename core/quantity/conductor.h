// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantity/quantity.h"

namespace ww::quantity {

/// Conductor size: an American gauge number or a nominal metric area. Solid copper.
struct Gauge {
  enum class System { awg, squareMillimetres } system = System::awg;
  double value = 18;
  friend bool operator==(const Gauge&, const Gauge&) = default;
};

/// "18" or "18 AWG" -> gauge 18; "0.75 mm2" -> metric area. Accepts AWG 10-30 and 0.05-10 mm2.
std::optional<Gauge> parseGauge(std::string_view text);
/// "18" / "0.75 mm2"; reads back with parseGauge.
std::string printGauge(const Gauge& gauge);

/// Cross-section of the copper. AWG: d = 0.005 in x 92^((36-g)/39), ASTM B258.
SquareMetres crossSection(const Gauge& gauge);

/// Loop-free resistance of one conductor. Annealed copper of 100 % IACS, 1/58 ohm mm2/m at 20 C
/// (NBS Handbook 100), 0.00393 per kelvin.
Ohms copperResistance(const Gauge& gauge, Metres length, Celsius temperature);

}  // namespace ww::quantity
