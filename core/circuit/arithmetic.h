// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Products and reciprocals of the two scalars. The complex ones are written out because the library's
// product looks for infinities after every multiplication, which costs more than the rest of a solve.

#include <cmath>
#include <complex>

namespace ww::circuit {

inline double product(double a, double b) { return a * b; }
inline std::complex<double> product(const std::complex<double>& a, const std::complex<double>& b) {
  return {a.real() * b.real() - a.imag() * b.imag(), a.real() * b.imag() + a.imag() * b.real()};
}

/// |x| squared.
inline double square(double x) { return x * x; }
inline double square(const std::complex<double>& x) { return x.real() * x.real() + x.imag() * x.imag(); }

inline double magnitude(double x) { return std::abs(x); }
inline double magnitude(const std::complex<double>& x) { return std::sqrt(square(x)); }

inline double conjugate(double x) { return x; }
inline std::complex<double> conjugate(const std::complex<double>& x) { return {x.real(), -x.imag()}; }

/// 1/x, given |x| squared (which must be neither zero nor infinite).
inline double reciprocal(double x, double) { return 1.0 / x; }
inline std::complex<double> reciprocal(const std::complex<double>& x, double squared) {
  const double scale = 1.0 / squared;
  return {x.real() * scale, -x.imag() * scale};
}

/// Zero where x is a number, not a number where it is not.
inline double finiteness(double x) { return x * 0.0; }
inline double finiteness(const std::complex<double>& x) { return x.real() * 0.0 + x.imag() * 0.0; }

}  // namespace ww::circuit
