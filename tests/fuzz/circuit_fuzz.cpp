// SPDX-License-Identifier: GPL-3.0-or-later

// Bytes become a pattern, admittances and EMFs, sane and absurd. Whatever they are, no reading may be
// something that is not a number, and what floats must have none.

#include "circuit/power_port.h"
#include "circuit/solver.h"

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>

#include "support/fuzz_bytes.h"

using namespace ww::circuit;

namespace {

class Bytes : public ww::testing::FuzzBytes {
 public:
  using FuzzBytes::FuzzBytes;
  /// Half of all numbers are powers of ten and round values, the rest any double at all.
  double number() {
    const int kind = byte();
    if (kind % 4 == 0) return 0;
    if (kind % 4 != 1) return (kind % 8 < 4 ? 1 : -1) * std::pow(10.0, byte() % 45 - 26);
    std::uint64_t bits = 0;
    for (int i = 0; i < 8; ++i) bits = bits << 8 | static_cast<std::uint64_t>(byte());
    double value;
    std::memcpy(&value, &bits, sizeof value);
    return value;
  }
  void read(double& value) { value = number(); }
  void read(Phasor& value) {
    const double real = number();
    value = {real, number()};
  }
};

void require(bool kept) {
  if (!kept) std::abort();
}

bool finite(double value) { return std::isfinite(value); }
bool finite(const Phasor& value) { return std::isfinite(value.real()) && std::isfinite(value.imag()); }

template <class Scalar>
void check(Solver<Scalar>& solver) {
  const int nodes = solver.plan().nodes();
  for (int a = 0; a < nodes; ++a) {
    require(finite(solver.voltage(a)));
    const int b = (a * 7 + 3) % nodes;
    const auto reading = solver.read(a, b);
    require(reading.quality != Quality::floating || !reading.value);
    require(!reading.value || finite(*reading.value));
    const auto port = solver.thevenin(a, b);
    require(finite(port.openVolts) && finite(port.impedance));
    const auto shown = solver.readThrough(a, b, Scalar{3000});
    require(!shown.value || finite(*shown.value));
  }
  const Certificate certificate = solver.certificate();
  require(!std::isnan(certificate.kcl) && !std::isnan(certificate.power));
}

template <class Scalar>
void run(Bytes bytes) {
  Pattern pattern{1 + bytes.byte() % 12, {}};
  for (int count = bytes.byte() % 30; count > 0; --count) {
    const int ends = bytes.byte();
    pattern.branches.push_back({ends % pattern.nodes, ends / 16 % pattern.nodes, bytes.byte() % 4 == 0});
  }
  Solver<Scalar> solver(makePlan(std::move(pattern)));
  do {
    for (int branch = 0; branch < solver.plan().branches(); ++branch) {
      Scalar admittance, emf;
      bytes.read(admittance);
      bytes.read(emf);
      solver.setBranch(branch, admittance, emf);
    }
    solver.solve();
    check(solver);
  } while (!bytes.empty() && solver.plan().branches() > 0);
  if constexpr (std::is_same_v<Scalar, Phasor>) {
    if (solver.plan().branches() < 3) return;
    const PowerPort ports[] = {{0, {3, 1}, 0}, {1, {1, 0}, 0}};
    solveWithConstantPower(solver, std::span(ports, 1));
    check(solver);
    solveWithConstantPower(solver, ports);
    check(solver);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  run<double>(Bytes(data, size));
  run<Phasor>(Bytes(data, size));
  return 0;
}
