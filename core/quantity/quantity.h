// SPDX-License-Identifier: GPL-3.0-or-later
// Room quantity: physical quantities as thin strong types, SI inside, and the
// outcome type of everything that is read from outside. Knows no trade, no
// files, no language: a Problem carries a key and figures, never a sentence.
#pragma once

#include <compare>

namespace ww::quantity {

/// One physical quantity in its SI unit. Units add and compare only with their own kind.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double si) : si_(si) {}
  constexpr double si() const { return si_; }

  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.si_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(k * a.si_); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.si_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }

 private:
  double si_ = 0;
};

using Volts = Quantity<struct VoltUnit>;
using Amps = Quantity<struct AmpUnit>;
using Ohms = Quantity<struct OhmUnit>;
using VoltAmps = Quantity<struct VoltAmpUnit>;
using Metres = Quantity<struct MetreUnit>;
using SquareMetres = Quantity<struct SquareMetreUnit>;
using Seconds = Quantity<struct SecondUnit>;
using Celsius =
    Quantity<struct CelsiusUnit>;  ///< degrees Celsius, not kelvin: the trade's scale for wire tables

constexpr Volts operator*(Amps i, Ohms r) { return Volts(i.si() * r.si()); }
constexpr Volts operator*(Ohms r, Amps i) { return i * r; }
constexpr Amps operator/(Volts v, Ohms r) { return Amps(v.si() / r.si()); }
constexpr Ohms operator/(Volts v, Amps i) { return Ohms(v.si() / i.si()); }
constexpr VoltAmps operator*(Volts v, Amps i) { return VoltAmps(v.si() * i.si()); }

}  // namespace ww::quantity
