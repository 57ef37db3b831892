// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/conductor.h"

#include <cmath>
#include <numbers>

#include "quantity/text.h"

namespace ww::quantity {

namespace {
constexpr double kResistivity20 = 1e-6 / 58;  // ohm metre
constexpr double kPerKelvin = 0.00393;        // at 20 C
constexpr double kMetresPerInch = 0.0254;

bool withoutSuffix(std::string_view& text, std::string_view suffix) {
  if (!text.ends_with(suffix)) return false;
  text.remove_suffix(suffix.size());
  return true;
}
}  // namespace

std::optional<Gauge> parseGauge(std::string_view text) {
  text = trimmed(text);
  const bool metric = withoutSuffix(text, "mm2");
  if (!metric && !withoutSuffix(text, "AWG")) withoutSuffix(text, "awg");
  const auto number = parseNumber(text);
  if (!number) return std::nullopt;
  if (metric) {
    if (*number < 0.05 || *number > 10) return std::nullopt;
    return Gauge{Gauge::System::squareMillimetres, *number};
  }
  if (*number < 10 || *number > 30 || *number != std::floor(*number)) return std::nullopt;
  return Gauge{Gauge::System::awg, *number};
}

std::string printGauge(const Gauge& gauge) {
  const std::string number = printNumber(gauge.value);
  return gauge.system == Gauge::System::awg ? number : number + " mm2";
}

SquareMetres crossSection(const Gauge& gauge) {
  if (gauge.system == Gauge::System::squareMillimetres) return SquareMetres(gauge.value * 1e-6);
  const double diameter = 0.005 * kMetresPerInch * std::pow(92.0, (36 - gauge.value) / 39);
  return SquareMetres(std::numbers::pi / 4 * diameter * diameter);
}

Ohms copperResistance(const Gauge& gauge, Metres length, Celsius temperature) {
  const double resistivity = kResistivity20 * (1 + kPerKelvin * (temperature.si() - 20));
  return Ohms(resistivity * length.si() / crossSection(gauge).si());
}

}  // namespace ww::quantity
