// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// An independent circuit simulator (ngspice, as a library) to hold our own against.

namespace ww::spice {

/// A process has one simulator, and the simulator one circuit at a time. Not for use from two threads.
class Simulator {
 public:
  static Simulator& instance();

  /// Reads a netlist (first line the title, node names in lower case) in place of the one before; a closing
  /// ".end" is added when missing. ".options noopac" in it skips the DC solution before an AC one. False when
  /// ngspice refuses it: see messages().
  bool load(std::string_view netlist);

  /// One AC solution at one frequency, or one DC solution. Results of the run before are gone.
  bool runAc(double hertz);
  bool runOp();

  /// RMS or peak, as the sources were written; the imaginary part of a DC solution is zero. Nothing when the
  /// last run left no such node, as happens with an island that nothing ties down.
  std::optional<std::complex<double>> volts(const std::string& node) const;
  /// Amps through a voltage source, from its first node to its second inside the source.
  std::optional<std::complex<double>> amps(const std::string& voltageSource) const;

  /// A transient run of this length with steps no longer than said, from the state the netlist gives (uic).
  bool runTransient(double step, double seconds);
  /// Amps through a voltage source at every moment of a transient run, with the moments.
  struct Series {
    std::vector<double> seconds, amps;
  };
  Series ampsOverTime(const std::string& voltageSource) const;

  /// Any other command ("alter r1 = 5"); false when ngspice reports an error in doing it.
  bool command(const std::string& line);

  /// What ngspice has said since the last load().
  const std::string& messages() const { return messages_; }

  Simulator(const Simulator&) = delete;
  Simulator& operator=(const Simulator&) = delete;

 private:
  Simulator();
  std::optional<std::complex<double>> value(const std::string& name) const;

  std::string messages_;
  bool loaded_ = false;
  bool failed_ = false;
};

/// A number as a netlist wants it: seventeen digits, so that it is the same double on the other side.
std::string number(double value);

}  // namespace ww::spice
