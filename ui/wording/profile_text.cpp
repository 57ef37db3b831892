// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/profile_text.h"

#include <cmath>

#include "wording/names.h"

namespace ww::wording {

namespace {

using equipment::Part;

/// Watts, volts, ohms with the decimals a person reads.
QString figure(const Language& language, double si, const char* unit) {
  const double size = std::abs(si);
  return language.quantity(si, unit, size >= 100 || size == std::floor(size) ? 0 : size >= 1 ? 1 : 3);
}

const char* kindId(const Part& part) {
  struct Visitor {
    const char* operator()(const equipment::TransformerPart&) const { return "transformer"; }
    const char* operator()(const equipment::FusePart&) const { return "fuse"; }
    const char* operator()(const equipment::CoilPart&) const { return "coil"; }
    const char* operator()(const equipment::ThermalPart&) const { return "thermal"; }
    const char* operator()(const equipment::InputPart&) const { return "input"; }
    const char* operator()(const equipment::ContactPart& contact) const {
      return contact.handReset ? "handReset" : contact.safety ? "safety" : "contact";
    }
    const char* operator()(const equipment::SupplyPart&) const { return "supply"; }
    const char* operator()(const equipment::ResistorPart& resistor) const {
      return resistor.beta > 0 ? "sensor" : "resistor";
    }
    const char* operator()(const equipment::SolidStatePart&) const { return "solidState"; }
    const char* operator()(const equipment::PilePart&) const { return "pile"; }
    const char* operator()(const equipment::DiodePart&) const { return "diode"; }
    const char* operator()(const equipment::HalfWaveRelayPart&) const { return "halfWaveRelay"; }
  };
  return std::visit(Visitor{}, part);
}

/// The arguments of a part's line of figures.
struct Figures {
  const Language& language;
  QString of(double si, const char* unit) const { return figure(language, si, unit); }
  QString factor(double value) const { return language.number(value, 2); }

  Args operator()(const equipment::TransformerPart& part) const {
    return {{"va", of(part.rating.si(), "VA")},
            {"volts", of(part.rated.si(), "V")},
            {"regulation", language.quantity(100 * part.regulation, "%", 0)}};
  }
  Args operator()(const equipment::FusePart& part) const {
    return {{"amps", of(part.rating.si(), "A")}, {"ohms", of(part.resistance.si(), "ohm")}};
  }
  Args operator()(const equipment::CoilPart& part) const {
    return {{"va", of(part.sealed.power.si(), "VA")},
            {"factor", factor(part.sealed.powerFactor)},
            {"inrush", of(part.inrush.power.si(), "VA")},
            {"inrushFactor", factor(part.inrush.powerFactor)},
            {"ohms", of(part.dc.si(), "ohm")},
            {"typical", of(part.pullInTypical.si(), "V")},
            {"guaranteed", of(part.pullInGuaranteed.si(), "V")},
            {"dropOut", of(part.dropOut.si(), "V")}};
  }
  Args operator()(const equipment::ThermalPart& part) const {
    return {{"ohms", of(part.resistance.si(), "ohm")},
            {"closing", of(part.closing.si(), "s")},
            {"opening", of(part.opening.si(), "s")},
            {"marginal", of(part.marginal.si(), "V")},
            {"never", of(part.never.si(), "V")}};
  }
  Args operator()(const equipment::InputPart& part) const {
    return {{"ohms", of(part.resistance.si(), "ohm")},
            {"seen", of(part.seenFrom.si(), "V")},
            {"gone", of(part.goneBelow.si(), "V")}};
  }
  Args operator()(const equipment::ContactPart& part) const {
    return {{"ohms", of(part.closed.si(), "ohm")}};
  }
  Args operator()(const equipment::SupplyPart& part) const {
    return {{"va", of(part.power.si(), "VA")},
            {"out", of(part.outBelow.si(), "V")},
            {"back", of(part.backAt.si(), "V")}};
  }
  Args operator()(const equipment::ResistorPart& part) const {
    return {{"ohms", of(part.resistance.si(), "ohm")}};
  }
  Args operator()(const equipment::SolidStatePart& part) const {
    return {{"ohms", of(part.open.si(), "ohm")}, {"volts", of(part.drop.si(), "V")}};
  }
  Args operator()(const equipment::PilePart& part) const {
    return {{"volts", of(part.open.si(), "V")}, {"ohms", of(part.resistance.si(), "ohm")}};
  }
  Args operator()(const equipment::DiodePart& part) const { return {{"volts", of(part.drop.si(), "V")}}; }
  Args operator()(const equipment::HalfWaveRelayPart& part) const {
    return {{"volts", of(part.rated.si(), "V")},
            {"drop", of(part.drop.si(), "V")},
            {"share", language.quantity(100 * part.pullsFrom, "%", 0)}};
  }
};

}  // namespace

QString partKind(const Language& language, const Part& part) {
  return word(language, "partKind", kindId(part));
}

QString partFigure(const Language& language, const Part& part) {
  const Args args = std::visit(Figures{language}, part);
  if (std::holds_alternative<equipment::ContactPart>(part) || args.empty()) return {};
  return args.front().second;
}

QString partFigures(const Language& language, const Part& part) {
  return language.sentence(QStringLiteral("part-figures.") + QLatin1String(kindId(part)),
                           std::visit(Figures{language}, part));
}

QString roleName(const Language& language, equipment::Role role) {
  static constexpr const char* kIds[] = {"hot",       "hotCool", "hotHeat", "common", "callIn",
                                         "callOut",   "auxOut",  "tie",     "dry",    "sense",
                                         "millivolt", "line",    "data"};
  return word(language, "terminalRole", kIds[static_cast<size_t>(role)]);
}

QString kindName(const Language& language, equipment::Kind kind) {
  static constexpr const char* kIds[] = {"roomControl", "furnace",     "airHandler",
                                         "coolingCoil", "outdoorUnit", "boiler",
                                         "zoneValve",   "accessory",   "refused"};
  return word(language, "unitKind", kIds[static_cast<size_t>(kind)]);
}

QString bondName(const Language& language, equipment::Bond bond) {
  static constexpr const char* kIds[] = {"bonded", "floating", "unknown"};
  return word(language, "bond", kIds[static_cast<size_t>(bond)]);
}

}  // namespace ww::wording
