// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/power_flow.h"

#include "circuit/arithmetic.h"

#include <algorithm>
#include <cmath>

namespace ww::circuit {
namespace {

using Phasors = std::vector<Phasor>;

double largest(const Phasors& values) {
  double size = 0;
  for (const Phasor& value : values) size = std::max(size, square(value));
  return std::sqrt(size);
}

/// load (S/V)*
Phasor drawn(const PowerNetwork& network, std::size_t port, const Phasor& volts, double load) {
  return product(conjugate(network.voltAmps[port]), volts) * (load / square(volts));
}

/// E - load Z (S/V)*
void map(const PowerNetwork& network, const Phasors& volts, double load, Phasors& next) {
  const std::size_t n = network.size();
  next = network.openVolts;
  for (std::size_t j = 0; j < n; ++j) {
    const Phasor amps = drawn(network, j, volts[j], load);
    for (std::size_t i = 0; i < n; ++i) next[i] -= product(network.impedance[i * n + j], amps);
  }
}

/// The derivative of the map takes dV to M dV*; this is M.
Phasors derivative(const PowerNetwork& network, const Phasors& volts, double load) {
  const std::size_t n = network.size();
  Phasors matrix(n * n);
  for (std::size_t j = 0; j < n; ++j) {
    const Phasor siemens = product(drawn(network, j, volts[j], load), volts[j]) / square(volts[j]);
    for (std::size_t i = 0; i < n; ++i) matrix[i * n + j] = product(network.impedance[i * n + j], siemens);
  }
  return matrix;
}

/// Solves a dense real system (row-major, n rows with the right-hand side as last column) by Gaussian
/// elimination with partial pivoting; false when it is singular. The solution ends in the last column.
bool solveDense(std::vector<double>& rows, std::size_t n) {
  const std::size_t width = n + 1;
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t best = k;
    for (std::size_t i = k + 1; i < n; ++i)
      if (std::abs(rows[i * width + k]) > std::abs(rows[best * width + k])) best = i;
    if (!(std::abs(rows[best * width + k]) > 0)) return false;
    for (std::size_t j = k; j < width; ++j) std::swap(rows[k * width + j], rows[best * width + j]);
    for (std::size_t i = 0; i < n; ++i) {
      if (i == k) continue;
      const double factor = rows[i * width + k] / rows[k * width + k];
      for (std::size_t j = k; j < width; ++j) rows[i * width + j] -= factor * rows[k * width + j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) rows[i * width + n] /= rows[i * width + i];
  return true;
}

/// One Newton step on V - map(V) = 0; returns its size, negative when it cannot be made.
double newtonStep(const PowerNetwork& network, Phasors& volts, double load) {
  const std::size_t n = network.size();
  const std::size_t width = 2 * n + 1;
  const Phasors matrix = derivative(network, volts, load);
  Phasors target;
  map(network, volts, load, target);
  std::vector<double> rows(2 * n * width);
  for (std::size_t i = 0; i < n; ++i) {
    double* real = &rows[i * width];
    double* imaginary = &rows[(n + i) * width];
    for (std::size_t j = 0; j < n; ++j) {
      const Phasor m = matrix[i * n + j];
      real[j] = -m.real() + (i == j);
      real[n + j] = -m.imag();
      imaginary[j] = -m.imag();
      imaginary[n + j] = m.real() + (i == j);
    }
    real[2 * n] = target[i].real() - volts[i].real();
    imaginary[2 * n] = target[i].imag() - volts[i].imag();
  }
  if (!solveDense(rows, 2 * n)) return -1;
  double size = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Phasor step{rows[i * width + 2 * n], rows[(n + i) * width + 2 * n]};
    volts[i] += step;
    size = std::max(size, std::abs(step));
  }
  return std::isfinite(size) ? size : -1;
}

double spectralRadius(const PowerNetwork& network, const Phasors& volts, double load) {
  // The map's derivative is antilinear; applied twice it is the linear M M*. Squaring that again and again
  // leaves the largest eigenvalue: |B^m|^(1/m) with m = 2^16.
  const std::size_t n = network.size();
  const auto times = [n](const Phasors& a, const Phasors& b) {
    Phasors c(n * n);
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t k = 0; k < n; ++k)
        for (std::size_t j = 0; j < n; ++j) c[i * n + j] += product(a[i * n + k], b[k * n + j]);
    return c;
  };
  const Phasors matrix = derivative(network, volts, load);
  Phasors conjugate = matrix;
  for (Phasor& value : conjugate) value = std::conj(value);
  Phasors power = times(matrix, conjugate);
  double logarithm = 0;
  double exponent = 1;
  for (int doubling = 0; doubling <= 16; ++doubling) {
    const double size = largest(power);
    if (size == 0) return 0;
    if (!std::isfinite(size)) return size;
    logarithm += std::log(size) / exponent;
    for (Phasor& value : power) value /= size;
    power = times(power, power);
    exponent *= 2;
  }
  return std::exp(logarithm / 2);
}

/// Whether the map contracts around the volts. Mostly the largest row sum, which bounds the spectral radius,
/// says so already.
bool contracts(const PowerNetwork& network, const Phasors& volts, double load) {
  const std::size_t n = network.size();
  double most = 0;
  for (std::size_t i = 0; i < n; ++i) {
    double row = 0;
    for (std::size_t j = 0; j < n; ++j)
      row +=
          load * magnitude(network.voltAmps[j]) / square(volts[j]) * magnitude(network.impedance[i * n + j]);
    most = std::max(most, row);
  }
  return most < 1 || spectralRadius(network, volts, load) < 1;
}

/// The plain fixed point, as long as each round at least halves what is left; false where it does not end.
/// Where loads are far below what the network carries, each round takes away nine tenths and more.
bool iterate(const PowerNetwork& network, Phasors& volts) {
  constexpr int mostRounds = 60;
  const double enough = square(1e-14 * largest(network.openVolts));
  double before = HUGE_VAL;
  thread_local Phasors next;
  for (int round = 0; round < mostRounds; ++round) {
    map(network, volts, 1, next);
    double change = 0;
    for (std::size_t i = 0; i < volts.size(); ++i) change = std::max(change, square(next[i] - volts[i]));
    std::swap(volts, next);
    if (change <= enough) return true;
    if (!(change <= before / 4)) return false;
    before = change;
  }
  return false;
}

/// Newton from where the volts are, to where it ends if that is on the upper branch. Steps that do not get
/// shorter lead nowhere.
bool settle(const PowerNetwork& network, Phasors& volts, double load) {
  const double scale = largest(network.openVolts);
  double before = HUGE_VAL;
  for (int step = 0; step < 20; ++step) {
    const double size = newtonStep(network, volts, load);
    if (size < 0 || size > 10 * scale) return false;
    if (size <= 1e-10 * scale) return contracts(network, volts, load);
    if (step > 2 && size > 0.9 * before) return false;
    before = size;
  }
  return false;
}

/// target* M^-1 target over a Hermitian matrix (row by row; overwritten by its Cholesky factor, as is the
/// target); nothing where the matrix is not well positive definite.
std::optional<double> squareOver(Phasors& matrix, Phasors& target) {
  const std::size_t n = target.size();
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      Phasor entry = matrix[i * n + j];
      for (std::size_t k = 0; k < j; ++k) entry -= product(matrix[i * n + k], conjugate(matrix[j * n + k]));
      matrix[i * n + j] = entry / matrix[j * n + j].real();
      target[i] -= product(matrix[i * n + j], target[j]);
    }
    double left = matrix[i * n + i].real();
    for (std::size_t k = 0; k < i; ++k) left -= square(matrix[i * n + k]);
    if (!(left > 1e-7 * matrix[i * n + i].real())) return std::nullopt;
    matrix[i * n + i] = std::sqrt(left);
    target[i] /= matrix[i * n + i].real();
    sum += square(target[i]);
  }
  return sum;
}

/// Proves that there is no operating point. With weights w and c of size one
///   sum w Re(c S) = Re sum c w E I* - I* H I,  H the Hermitian part of c w Z,
/// which no currents make more than a quarter of the square of c w E over H, where that is positive definite.
/// Loads that want more together, so weighed, cannot be carried.
bool beyondReach(const PowerNetwork& network, const std::vector<double>& weight) {
  constexpr int directions = 7;
  constexpr double margin = 1e-6;
  const std::size_t n = network.size();
  Phasor wanted;
  for (std::size_t i = 0; i < n; ++i) wanted += weight[i] * network.voltAmps[i];
  Phasors matrix(n * n), target(n);
  for (int k = 0; k < directions; ++k) {
    const Phasor c = std::polar(1.0, (2 * k + 1 - directions) * std::acos(-1.0) / (2 * directions + 2));
    for (std::size_t i = 0; i < n; ++i) {
      target[i] = product(c, network.openVolts[i]) * weight[i];
      for (std::size_t j = 0; j < n; ++j) {
        const Phasor turned = product(c, network.impedance[i * n + j]);
        matrix[i * n + j] = (weight[i] * turned + weight[j] * conjugate(turned)) / 2.0;
      }
    }
    const double together = product(c, wanted).real();
    const auto reach = together > 0 ? squareOver(matrix, target) : std::nullopt;
    if (reach && together > *reach / 4 * (1 + margin)) return true;
  }
  return false;
}

/// Tries it for all loads together, for those that share something with one of them, and for one alone: the
/// others hardly weigh then. What is left undecided is followed up.
bool beyondReach(const PowerNetwork& network) {
  constexpr double hardly = 1e-3;
  const std::size_t n = network.size();
  std::vector<double> weight(n, 1);
  if (beyondReach(network, weight)) return true;
  for (std::size_t i = 0; i < n; ++i) {
    const auto shares = [&](std::size_t j) {
      return square(network.impedance[i * n + j]) > 1e-12 * square(network.impedance[i * n + i]);
    };
    std::size_t together = 0;
    for (std::size_t j = 0; j < n; ++j) {
      weight[j] = shares(j) ? 1 : hardly;
      together += shares(j);
    }
    if (together > 1 && together < n && beyondReach(network, weight)) return true;
    std::fill(weight.begin(), weight.end(), hardly);
    weight[i] = 1;
    if (beyondReach(network, weight)) return true;
  }
  return false;
}

/// Follows the operating point while the load grows from nothing to its full size.
std::optional<Phasors> followLoad(const PowerNetwork& network) {
  Phasors volts = network.openVolts;
  double load = 0;
  double step = 0.25;
  while (load < 1) {
    if (step < 1e-9) return std::nullopt;
    const double next = std::min(1.0, load + step);
    Phasors trial = volts;
    if (settle(network, trial, next)) {
      volts = std::move(trial);
      load = next;
      step *= 2;
    } else {
      step /= 2;
    }
  }
  return volts;
}

}  // namespace

std::optional<double> operatingVolts(Phasor openVolts, Phasor impedance, Phasor voltAmps) {
  const Phasor drop = impedance * std::conj(voltAmps);
  const double half = std::norm(openVolts) / 2 - drop.real();
  const double under = half * half - std::norm(drop);
  if (!(under >= 0) || !(half > 0)) return std::nullopt;
  return std::sqrt(half + std::sqrt(under));
}

bool operatingVolts(const PowerNetwork& network, std::vector<Phasor>& volts) {
  for (const Phasor& open : network.openVolts)
    if (!(square(open) > 0)) return false;
  volts = network.openVolts;
  if (iterate(network, volts) && contracts(network, volts, 1)) return true;
  if (settle(network, volts, 1)) return true;
  if (beyondReach(network)) return false;
  auto followed = followLoad(network);
  if (followed) volts = std::move(*followed);
  return followed.has_value();
}

std::optional<std::vector<Phasor>> operatingVolts(const PowerNetwork& network) {
  Phasors volts;
  return operatingVolts(network, volts) ? std::optional(std::move(volts)) : std::nullopt;
}

double expansion(const PowerNetwork& network, const std::vector<Phasor>& volts) {
  return spectralRadius(network, volts, 1);
}

}  // namespace ww::circuit
