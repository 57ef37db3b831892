// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/priors.h"

#include <nlohmann/json.hpp>

#include "quantity/json.h"

namespace ww::checklist {

quantity::Loaded<Priors> readPriors(std::string_view text) {
  auto json = quantity::parseJson(text);
  if (!json) return quantity::Loaded<Priors>::failed(std::move(json.problems));
  quantity::Problems problems;
  quantity::Fields top(*json.value, "", problems);
  top.word<int>("format", {{"wirewright-priors", 0}});
  top.whole("version", 1, 1);
  top.text("source");
  Priors priors;
  priors.grossError = top.number("grossError", 0, 0.5);
  if (const nlohmann::json* sigma = top.value("sigma", true)) {
    quantity::Fields fields(*sigma, "/sigma", problems);
    const auto share = [&](const char* name) { return fields.number(name, 1e-6, 2); };
    priors.line = share("line");
    priors.regulation = share("regulation");
    priors.coilVoltAmps = share("coilVoltAmps");
    priors.coilOhms = share("coilOhms");
    priors.supplyVoltAmps = share("supplyVoltAmps");
    priors.supplyOhms = share("supplyOhms");
    priors.inputOhms = share("inputOhms");
    priors.contactOhms = share("contactOhms");
    priors.cableLength = share("cableLength");
    priors.meterGain = share("meterGain");
    priors.temperatureKelvin = fields.number("temperatureKelvin", 0.1, 60);
    priors.volts = fields.number("volts", 0.001, 10);
    priors.voltsNearZero = fields.number("voltsNearZero", 0.001, 10);
    priors.pileVolts = share("pileVolts");
    priors.millivolts = fields.number("millivolts", 0.1, 1000);
    priors.ohms = fields.number("ohms", 0.001, 10);
    fields.finish();
  }
  top.finish();
  if (!problems.empty()) return quantity::Loaded<Priors>::failed(std::move(problems));
  return quantity::Loaded<Priors>::ok(priors);
}

const Priors& standardPriors() {
  static const Priors priors = readPriors(shippedPriors().front().text).value.value();
  return priors;
}

}  // namespace ww::checklist
