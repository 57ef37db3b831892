// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/band_model.h"

#include <algorithm>
#include <cmath>

#include "operation/machine.h"

namespace ww::checklist {

namespace {

/// The shared parameters, in order; each cable's length follows.
enum Parameter : size_t {
  line,
  regulation,
  coil,
  supply,
  input,
  contact,
  temperature,
  gain,
  pile,
  firstCable
};

}  // namespace

BandModel::BandModel(const operation::Solution& solution, const MeterFigures& meter, const Priors& priors)
    : solution_(solution), meter_(meter), priors_(priors) {}

size_t BandModel::parameters() const { return firstCable + solution_.circuit->cables; }

/// Typical circumstances with one shared parameter moved by so many sigmas.
BandModel::Shared BandModel::shared(size_t parameter, double sigmas) const {
  Shared s;
  s.ac.cableScale.assign(solution_.circuit->cables, 1.0);
  switch (parameter) {
    case line: s.ac.line += sigmas * priors_.line; break;
    case regulation: s.ac.regulationShift += sigmas * priors_.regulation; break;
    case coil: s.ac.coilScale += sigmas * priors_.coilVoltAmps; break;
    case supply: s.ac.supplyScale += sigmas * priors_.supplyVoltAmps; break;
    case input: s.ac.inputScale += sigmas * priors_.inputOhms; break;
    case contact: s.ac.contactScale += sigmas * priors_.contactOhms; break;
    case temperature: s.ac.temperature += sigmas * priors_.temperatureKelvin; break;
    case pile: s.ac.pileScale += sigmas * priors_.pileVolts; break;
    case gain: s.gain += sigmas * priors_.meterGain * meter_.accuracyPercent; break;
    default:
      if (parameter >= firstCable && parameter < parameters())
        s.ac.cableScale[parameter - firstCable] += sigmas * priors_.cableLength;
  }
  s.dc = s.ac;
  if (parameter == coil) s.dc.coilScale = 1 + sigmas * priors_.coilOhms;
  if (parameter == supply) s.dc.supplyScale = 1 + sigmas * priors_.supplyOhms;
  return s;
}

double BandModel::noiseOf(const Step& step, double mean) const {
  if (step.measure == Measure::ohms) return priors_.ohms;
  if (step.measure == Measure::dcMillivolts) return priors_.millivolts;
  return mean < 1 ? priors_.voltsNearZero : priors_.volts;
}

std::vector<std::optional<double>> BandModel::read(const std::vector<Step>& steps,
                                                   const Shared& shared) const {
  std::vector<std::optional<double>> values = readDead(steps, shared);
  const auto& circuit = *solution_.circuit;
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  std::string stamped;
  for (size_t i = 0; i < steps.size(); ++i) {
    const bool millivolts = steps[i].measure == Measure::dcMillivolts;
    if (!millivolts && steps[i].measure != Measure::acVolts) continue;
    const operation::SolvedCall* call = solution_.call(steps[i].call);
    const int a = circuit.node(steps[i].probe1);
    const int b = circuit.node(steps[i].probe2);
    if (call == nullptr || a < 0 || b < 0) continue;
    if (stamped != steps[i].call) {
      asbuilt::solve(circuit, call->positions, shared.ac, solver);
      stamped = steps[i].call;
    }
    const auto reading = solver.readThrough(a, b, meter_.impedanceOhms);
    if (reading.value && reading.quality == circuit::Quality::solid)
      values[i] = std::abs(*reading.value) * shared.gain * (millivolts ? 1000 : 1);
  }
  return values;
}

std::vector<std::optional<double>> BandModel::readDead(const std::vector<Step>& steps,
                                                       const Shared& shared) const {
  std::vector<std::optional<double>> values(steps.size());
  const auto& circuit = *solution_.circuit;
  circuit::Solver<double> solver(circuit.plan);
  asbuilt::stampDead(circuit, operation::unpowered(circuit), shared.dc, liftedForDeadChecks(circuit), solver);
  for (size_t i = 0; i < steps.size(); ++i) {
    if (steps[i].measure != Measure::ohms) continue;
    const int a = circuit.node(steps[i].probe1);
    const int b = circuit.node(steps[i].probe2);
    if (a < 0 || b < 0) continue;
    const auto port = solver.thevenin(a, b);
    if (port.quality == circuit::Quality::solid) values[i] = port.impedance * shared.gain;
  }
  return values;
}

std::vector<std::optional<Prediction>> BandModel::predict(const std::vector<Step>& steps) const {
  const auto typical = read(steps, shared(parameters(), 0));
  std::vector<std::optional<Prediction>> predictions(steps.size());
  for (size_t i = 0; i < steps.size(); ++i) {
    const bool ohms = steps[i].measure == Measure::ohms;
    if (!isMeasured(steps[i]) || steps[i].halfWave) continue;
    if (!typical[i] && !ohms) continue;  // floating volts: recorded, not judged
    Prediction p;
    p.ohms = ohms;
    p.open = !typical[i];
    p.mean = typical[i].value_or(0);
    p.slope.assign(parameters(), 0);
    p.noise = noiseOf(steps[i], p.mean);
    predictions[i] = std::move(p);
  }
  for (size_t k = 0; k < parameters(); ++k) {
    const auto up = read(steps, shared(k, 1));
    const auto down = read(steps, shared(k, -1));
    for (size_t i = 0; i < steps.size(); ++i)
      if (predictions[i] && up[i] && down[i]) predictions[i]->slope[k] = (*up[i] - *down[i]) / 2;
  }
  return predictions;
}

}  // namespace ww::checklist
