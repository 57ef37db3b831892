// SPDX-License-Identifier: GPL-3.0-or-later
// Room checklist: the dead and live checks of a sheet in walking order, with
// bands computed from the solved circuit, and the verdict on a reading. Must
// not know jobs, files, people or the screen.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/ids.h"

namespace ww::checklist {

enum class Phase { dead, rest, call };

/// What is measured or done. `look` is an observation without a number; `act` a precaution or switching step.
enum class Measure { act, ohms, acVolts, dcMillivolts, look };

/// Lowest and highest reading a healthy circuit can give, 2 sigma of the shared-parameter model; SI units.
/// Open circuit ("OL") is told by `open`.
struct Band {
  double low = 0, high = 0;  ///< in the unit of the step
  double mean = 0, sigma = 0;
  bool open = false;  ///< no connection is right: OL expected, `low` is the least ohms that count as open
  friend bool operator==(const Band&, const Band&) = default;
};

/// The half waves that stand on a conductor which two calls share: rms volts of the alternating source behind
/// each, 0 where that half does not come. Told as what to expect, never judged.
struct HalfWaveVolts {
  double positive = 0, negative = 0;
  friend bool operator==(const HalfWaveVolts&, const HalfWaveVolts&) = default;
};

/// One line of the checklist.
struct Step {
  std::string key;  ///< stable: phase, call and terminals by id
  Phase phase = Phase::dead;
  std::string call;  ///< call that is on; "rest" at rest; empty for dead checks
  Measure measure = Measure::act;
  sheet::UnitId standAt{};
  sheet::TerminalRef probe1, probe2;  ///< empty units when nothing is probed
  sheet::ConductorId conductor{};     ///< the conductor that a continuity step proves; 0: none
  std::string instruction;            ///< wording key of what to do ("isolate-and-lock", "continuity", ...)
  std::vector<std::string> cautions;  ///< wording keys, shown before the step
  std::vector<std::string> mustRun, mustNotRun;  ///< duties to confirm by sight and sound
  std::optional<Band> band;                      ///< nothing: recorded, not judged
  std::optional<HalfWaveVolts> halfWave;         ///< what is measured is no sine; there is no band then
};

enum class Verdict { notMeasured, good, again, fault, notJudged };

/// A step that gives a reading of a meter.
bool isMeasured(const Step& step);
/// What its reading and its band are in: "ohm", "V", "mV"; empty where nothing is measured.
std::string_view unitOf(const Step& step);

/// Inside 2 sigma good, to 3.5 sigma measure again, beyond it fault. A reading of nothing is "not measured".
/// `openLine`: the meter showed OL.
Verdict judge(const Step& step, std::optional<double> value, bool openLine);

}  // namespace ww::checklist
