// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/part_reader.h"

#include <nlohmann/json.hpp>

#include "equipment/words.h"

namespace ww::equipment {

namespace {

using quantity::Fields;
using quantity::Problems;

// Bounds against slips of the pen, far outside anything the trade uses.
constexpr double kMostVoltAmps = 500, kMostVolts = 60, kMostOhms = 1e7, kLeastOhms = 1e-4,
                 kMostSeconds = 3600;

enum class PartKind {
  transformer,
  fuse,
  coil,
  thermal,
  input,
  contact,
  supply,
  resistor,
  solidState,
  pile,
  diode,
  halfWaveRelay
};

const Fields::Words<PartKind> kPartWords{{"transformer", PartKind::transformer},
                                         {"fuse", PartKind::fuse},
                                         {"coil", PartKind::coil},
                                         {"thermal", PartKind::thermal},
                                         {"input", PartKind::input},
                                         {"contact", PartKind::contact},
                                         {"supply", PartKind::supply},
                                         {"resistor", PartKind::resistor},
                                         {"solidState", PartKind::solidState},
                                         {"pile", PartKind::pile},
                                         {"diode", PartKind::diode},
                                         {"halfWaveRelay", PartKind::halfWaveRelay}};

Volts volts(Fields& fields, std::string_view member) { return Volts(fields.number(member, 0, kMostVolts)); }
Ohms ohms(Fields& fields, std::string_view member) {
  return Ohms(fields.number(member, kLeastOhms, kMostOhms));
}

Load readLoad(Fields& fields, std::string_view member, Problems& problems) {
  const auto* value = fields.value(member, true);
  if (!value) return {};
  Fields load(*value, fields.whereOf(member), problems);
  const Load result{VoltAmps(load.number("va", 0.01, kMostVoltAmps)), load.number("powerFactor", 0.01, 1)};
  load.finish();
  return result;
}

CoilPart readCoil(Fields& fields, Problems& problems) {
  const size_t before = problems.size();
  CoilPart coil;
  coil.sealed = readLoad(fields, "sealed", problems);
  coil.inrush = readLoad(fields, "inrush", problems);
  coil.dc = ohms(fields, "dcOhms");
  coil.pullInTypical = volts(fields, "pullInTypicalVolts");
  coil.pullInGuaranteed = volts(fields, "pullInGuaranteedVolts");
  coil.dropOut = volts(fields, "dropOutVolts");
  coil.operating = Seconds(fields.numberOr("operatingSeconds", coil.operating.si(), 0, kMostSeconds));
  if (problems.size() == before)
    for (const std::string& key : contradictions(coil)) problems.push_back({fields.where(), key, {}});
  return coil;
}

ThermalPart readThermal(Fields& fields) {
  ThermalPart part;
  part.resistance = ohms(fields, "ohms");
  part.closing = Seconds(fields.number("closingSeconds", 0, kMostSeconds));
  part.opening = Seconds(fields.number("openingSeconds", 0, kMostSeconds));
  part.marginal = volts(fields, "marginalVolts");
  part.never = volts(fields, "neverVolts");
  if (part.marginal < part.never) fields.complain("neverVolts", "thermal-volts-order");
  return part;
}

TransformerPart readTransformer(Fields& fields) {
  TransformerPart part;
  part.rating = VoltAmps(fields.number("va", 1, kMostVoltAmps));
  part.rated = Volts(fields.numberOr("volts", part.rated.si(), 1, kMostVolts));
  part.regulation = fields.numberOr("regulation", part.regulation, 0.01, 0.5);
  part.inherentlyLimited = fields.truthOr("inherentlyLimited", false);
  part.angleDegrees = fields.numberOr("angleDegrees", part.inherentlyLimited ? 35 : 0, 0, 89);
  part.linkHoldsTo = fields.numberOr("linkHoldsToTimesRated", part.linkHoldsTo, 1, 100);
  part.linkOpensAfter = Seconds(fields.numberOr("linkSeconds", part.linkOpensAfter.si(), 0.01, kMostSeconds));
  return part;
}

FusePart readFuse(Fields& fields) {
  FusePart part;
  part.rating = Amps(fields.number("amps", 0.1, 100));
  part.resistance = ohms(fields, "ohms");
  part.meltingAmpSquaredSeconds = fields.number("meltingAmpSquaredSeconds", 0.01, 1e6);
  part.holdsTo = fields.numberOr("holdsToTimesRated", part.holdsTo, 1, 1.5);
  part.slowest = Seconds(fields.numberOr("slowestSeconds", part.slowest.si(), 0.01, kMostSeconds));
  part.quickFrom = fields.numberOr("quickFromTimesRated", part.quickFrom, 1.6, 20);
  return part;
}

InputPart readInput(Fields& fields) {
  InputPart part;
  part.resistance = ohms(fields, "ohms");
  part.seenFrom = Volts(fields.numberOr("seenFromVolts", part.seenFrom.si(), 0, kMostVolts));
  part.goneBelow = Volts(fields.numberOr("goneBelowVolts", part.goneBelow.si(), 0, kMostVolts));
  if (!(part.goneBelow < part.seenFrom)) fields.complain("goneBelowVolts", "input-threshold-order");
  return part;
}

ContactPart readContact(Fields& fields) {
  ContactPart part;
  part.closed = Ohms(fields.numberOr("closedOhms", part.closed.si(), kLeastOhms, 1000));
  part.operating = Seconds(fields.numberOr("operatingSeconds", part.operating.si(), 0, kMostSeconds));
  part.safety = fields.truthOr("safety", false);
  part.handReset = fields.truthOr("handReset", false);
  return part;
}

SupplyPart readSupply(Fields& fields) {
  SupplyPart part;
  part.power = VoltAmps(fields.number("va", 0.01, kMostVoltAmps));
  part.powerFactor = fields.numberOr("powerFactor", part.powerFactor, 0.01, 1);
  part.outBelow = Volts(fields.numberOr("outBelowVolts", part.outBelow.si(), 0, kMostVolts));
  part.backAt = Volts(fields.numberOr("backAtVolts", part.backAt.si(), 0, kMostVolts));
  part.dc = Ohms(fields.numberOr("dcOhms", part.dc.si(), kLeastOhms, kMostOhms));
  part.perRelay = VoltAmps(fields.numberOr("perRelayVa", part.perRelay.si(), 0, kMostVoltAmps));
  if (!(part.outBelow < part.backAt)) fields.complain("backAtVolts", "supply-lock-out-order");
  return part;
}

SolidStatePart readSolidState(Fields& fields) {
  SolidStatePart part;
  part.open = Ohms(fields.numberOr("openOhms", part.open.si(), 100, kMostOhms));
  part.drop = Volts(fields.numberOr("dropVolts", part.drop.si(), 0.1, 10));
  part.operating = Seconds(fields.numberOr("operatingSeconds", part.operating.si(), 0, kMostSeconds));
  part.feeds = fields.truthOr("feeds", false);
  if (!part.feeds) return part;
  part.outBelow = Volts(fields.numberOr("outBelowVolts", part.outBelow.si(), 0, kMostVolts));
  part.backAt = Volts(fields.numberOr("backAtVolts", part.backAt.si(), 0, kMostVolts));
  part.leastAmps = Amps(fields.numberOr("leastAmps", part.leastAmps.si(), 0, 1));
  if (!(part.outBelow < part.backAt)) fields.complain("backAtVolts", "supply-lock-out-order");
  return part;
}

HalfWaveRelayPart readHalfWaveRelay(Fields& fields) {
  HalfWaveRelayPart part;
  part.rated = Volts(fields.numberOr("ratedVolts", part.rated.si(), 1, kMostVolts));
  part.drop = Volts(fields.numberOr("dropVolts", part.drop.si(), 0.1, 10));
  part.pullsFrom = fields.numberOr("pullsFromShare", part.pullsFrom, 0.1, 1);
  return part;
}

Part readByKind(PartKind kind, Fields& fields, Problems& problems) {
  switch (kind) {
    case PartKind::transformer: return readTransformer(fields);
    case PartKind::fuse: return readFuse(fields);
    case PartKind::coil: return readCoil(fields, problems);
    case PartKind::thermal: return readThermal(fields);
    case PartKind::input: return readInput(fields);
    case PartKind::contact: return readContact(fields);
    case PartKind::supply: return readSupply(fields);
    case PartKind::solidState: return readSolidState(fields);
    case PartKind::pile: return PilePart{volts(fields, "volts"), ohms(fields, "ohms")};
    case PartKind::diode:
      return DiodePart{Volts(fields.numberOr("dropVolts", DiodePart{}.drop.si(), 0.1, 10))};
    case PartKind::halfWaveRelay: return readHalfWaveRelay(fields);
    case PartKind::resistor: break;
  }
  return ResistorPart{ohms(fields, "ohms"), fields.numberOr("betaKelvin", 0, 0, 10000)};
}

}  // namespace

std::optional<Part> readPart(const nlohmann::json& value, const std::string& where, Problems& problems,
                             bool withSource) {
  const size_t before = problems.size();
  Fields fields(value, where, problems);
  if (!fields.isObject()) return std::nullopt;
  const auto kind = fields.word("kind", kPartWords);
  if (problems.size() != before) return std::nullopt;  // without the kind nothing else can be judged
  if (withSource && fields.text("source").empty() && problems.size() == before)
    fields.complain("source", "empty-text");
  const Part part = readByKind(kind, fields, problems);
  fields.finish();
  if (problems.size() != before) return std::nullopt;
  return part;
}

std::string_view kindWord(const Part& part) { return kPartWords[part.index()].first; }

quantity::Loaded<PartLibrary> readParts(std::string_view json) {
  const auto parsed = quantity::parseJson(json);
  if (!parsed) return quantity::Loaded<PartLibrary>::failed(parsed.problems);
  Problems problems;
  PartLibrary library;
  Fields fields(*parsed.value, "", problems);
  readFormat(fields, "wirewright-parts", 1);
  for (const auto& item : fields.members("parts", 500)) {
    if (!isPartName(item.name))
      problems.push_back({item.where, "bad-name", {{"found", quantity::cited(item.name)}}});
    if (const auto part = readPart(item.value, item.where, problems, true)) library[item.name] = *part;
  }
  fields.finish();
  if (!problems.empty()) return quantity::Loaded<PartLibrary>::failed(std::move(problems));
  return quantity::Loaded<PartLibrary>::ok(std::move(library));
}

}  // namespace ww::equipment
