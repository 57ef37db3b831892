// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "checklist/checklist.h"

namespace ww::checklist {

/// What a step will read: y = mean + slope . theta + noise, with theta ~ N(0, 1) shared by the whole job.
struct Prediction {
  bool open = false;  ///< no connection
  bool ohms = false;
  double mean = 0;
  std::vector<double> slope;  ///< by shared parameter, per sigma
  double noise = 0;           ///< of a single reading, one sigma
};

/// Predictions for steps, by linearising the solved circuit around its typical figures. The parameters that a
/// job shares: line voltage, regulation, coil family, supplies, inputs, contacts, temperature, meter gain,
/// and each cable's length.
class BandModel {
 public:
  BandModel(const operation::Solution& solution, const MeterFigures& meter, const Priors& priors);

  /// By step; nothing for steps that measure nothing, or read something no band can be given for.
  std::vector<std::optional<Prediction>> predict(const std::vector<Step>& steps) const;

 private:
  struct Shared {
    asbuilt::Conditions ac, dc;
    double gain = 1;
  };
  size_t parameters() const;
  double noiseOf(const Step& step, double mean) const;
  Shared shared(size_t parameter, double sigmas) const;
  /// Where a step measures, looked up once.
  struct Probing {
    size_t step;
    int a, b;  ///< nodes
    bool millivolts = false;
    const operation::SolvedCall* call = nullptr;  ///< none: a dead check
  };
  /// What all readings of one list of steps share.
  struct Bench {
    std::vector<Probing> live, dead;
    asbuilt::Positions unpowered;
    std::vector<char> lifted;
  };
  Bench benchFor(const std::vector<Step>& steps) const;
  bool touches(size_t parameter) const;
  std::vector<std::optional<double>> read(size_t steps, const Bench& bench, const Shared& shared) const;

  const operation::Solution& solution_;
  const MeterFigures meter_;
  const Priors priors_;
};

/// What is taken out of the circuit for the dead checks, by device index: fuses open, hot lifted at the
/// transformer, room controls off their bases.
std::vector<char> liftedForDeadChecks(const asbuilt::AsBuilt& circuit);

/// The band of a prediction without any reading taken: mean +- 2 sigma, not below zero.
Band priorBand(const Prediction& prediction);

/// Learns theta from readings, one scalar update each; a reading that fits nothing weighs little.
class Posterior {
 public:
  Posterior(size_t parameters, const Priors& priors);
  ~Posterior();
  Posterior(const Posterior&) = delete;
  Posterior& operator=(const Posterior&) = delete;
  void learn(const Prediction& prediction, double value);
  Band band(const Prediction& prediction) const;

 private:
  struct State;
  std::unique_ptr<State> state_;
  Priors priors_;
};

}  // namespace ww::checklist
