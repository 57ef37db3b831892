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

BandModel::Bench BandModel::benchFor(const std::vector<Step>& steps) const {
  const auto& circuit = *solution_.circuit;
  Bench bench{{}, {}, operation::unpowered(circuit), liftedForDeadChecks(circuit)};
  for (size_t i = 0; i < steps.size(); ++i) {
    const Measure measure = steps[i].measure;
    const bool dead = measure == Measure::ohms;
    if (!dead && measure != Measure::dcMillivolts && measure != Measure::acVolts) continue;
    Probing probing{i, circuit.node(steps[i].probe1), circuit.node(steps[i].probe2)};
    probing.millivolts = measure == Measure::dcMillivolts;
    if (!dead) probing.call = solution_.call(steps[i].call);
    if (probing.a < 0 || probing.b < 0 || (!dead && probing.call == nullptr)) continue;
    (dead ? bench.dead : bench.live).push_back(probing);
  }
  return bench;
}

/// Whether a parameter is one of the circuit at all; the meter's gain is not.
bool BandModel::touches(size_t parameter) const {
  const auto any = [&](auto part) {
    return std::any_of(
        solution_.circuit->devices.begin(), solution_.circuit->devices.end(),
        [](const auto& device) { return std::holds_alternative<decltype(part)>(device.part); });
  };
  if (parameter == gain) return false;
  if (parameter == pile) return any(equipment::PilePart{});
  if (parameter == input) return any(equipment::InputPart{});
  if (parameter == supply) return any(equipment::SupplyPart{});
  return true;
}

std::vector<std::optional<double>> BandModel::read(size_t steps, const Bench& bench,
                                                   const Shared& shared) const {
  std::vector<std::optional<double>> values(steps);
  const auto& circuit = *solution_.circuit;
  circuit::Solver<double> dead(circuit.plan);
  asbuilt::stampDead(circuit, bench.unpowered, shared.dc, bench.lifted, dead);
  for (const Probing& probing : bench.dead) {
    const auto port = dead.thevenin(probing.a, probing.b);
    if (port.quality == circuit::Quality::solid) values[probing.step] = port.impedance * shared.gain;
  }
  const asbuilt::Stamp stamp(circuit, shared.ac);
  circuit::Solver<circuit::Phasor> live(circuit.plan);
  const operation::SolvedCall* solved = nullptr;
  for (const Probing& probing : bench.live) {
    if (solved != probing.call) stamp.solve(probing.call->positions, live);
    solved = probing.call;
    const auto reading = live.readThrough(probing.a, probing.b, meter_.impedanceOhms);
    if (reading.value && reading.quality == circuit::Quality::solid)
      values[probing.step] = std::abs(*reading.value) * shared.gain * (probing.millivolts ? 1000 : 1);
  }
  return values;
}

std::vector<std::optional<Prediction>> BandModel::predict(const std::vector<Step>& steps) const {
  const Bench bench = benchFor(steps);
  const auto typical = read(steps.size(), bench, shared(parameters(), 0));
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
    if (!touches(k)) continue;
    const auto up = read(steps.size(), bench, shared(k, 1));
    const auto down = read(steps.size(), bench, shared(k, -1));
    for (size_t i = 0; i < steps.size(); ++i)
      if (predictions[i] && up[i] && down[i]) predictions[i]->slope[k] = (*up[i] - *down[i]) / 2;
  }
  const double gainPerSigma = shared(gain, 1).gain - 1;
  for (size_t i = 0; i < steps.size(); ++i)
    if (predictions[i] && typical[i]) predictions[i]->slope[gain] = *typical[i] * gainPerSigma;
  return predictions;
}

}  // namespace ww::checklist
