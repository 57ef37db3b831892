// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/systems.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

#include "quantity/json.h"
#include "quantity/text.h"
#include "sheet/landing_check.h"

namespace ww::sheet {

namespace {

using quantity::Fields;
using quantity::JsonItem;

constexpr size_t kMostKinds = 100;
constexpr int kMostConductors = 12;

/// `wanted`, or with the first number that makes it free.
std::string free(const std::string& wanted, const std::function<bool(const std::string&)>& taken) {
  if (!taken(wanted)) return wanted;
  int n = 2;
  while (taken(wanted + std::to_string(n))) ++n;
  return wanted + std::to_string(n);
}

std::string freeUnitTag(const Sheet& sheet, const std::string& wanted) {
  return free(wanted, [&](const std::string& tag) { return sheet.unitByTag(tag) != nullptr; });
}

/// The units of a kind, fitted as it says; by their tags in the kind.
std::map<std::string, UnitId> place(Sheet& sheet, const SystemKind& kind) {
  std::map<std::string, UnitId> placed;
  for (const auto& wanted : kind.units) {
    Unit unit;
    unit.tag = freeUnitTag(sheet, wanted.tag);
    unit.profile = wanted.profile;
    placed[wanted.tag] = sheet.addUnit(unit);
    for (const auto& [key, value] : kind.settings)
      if (key.starts_with(wanted.tag + "."))
        sheet.settings.set(unit.tag + key.substr(wanted.tag.size()), value);
  }
  return placed;
}

class KindReader {
 public:
  KindReader(const equipment::Library& library, quantity::Problems& problems)
      : library_(library), problems_(problems) {}

  SystemKind read(const JsonItem& item) {
    Fields fields(item.value, item.where, problems_);
    SystemKind kind;
    kind.id = fields.text("id", 3);
    if (!ids_.insert(kind.id).second) fields.complain("id", "id-doubled", {{"id", kind.id}});
    kind.title = fields.textMap("title", 10);
    for (const char* language : {"en", "es"})
      if (!kind.title.contains(language))
        fields.complain("title", "missing-language", {{"language", language}});
    LandingCheck check(library_, problems_);
    for (const JsonItem& unit : fields.list("units", kMostKinds)) kind.units.push_back(placed(unit, check));
    for (const JsonItem& cable : fields.list("cables", kMostKinds))
      kind.cables.push_back(run(cable, kind, check));
    kind.settings = fields.textMapIfAny("settings", kMostKinds);
    Sheet units;
    place(units, kind);
    for (const auto& [key, value] : kind.settings) units.settings.set(key, value);
    check.settings(units, [&](const std::string& key) { return fields.whereOf("settings") + "/" + key; });
    fields.finish();
    return kind;
  }

 private:
  SystemKind::Placed placed(const JsonItem& item, LandingCheck& check) {
    Fields fields(item.value, item.where, problems_);
    SystemKind::Placed placed{fields.text("tag", 24), fields.text("profile")};
    Unit unit;
    unit.tag = placed.tag;
    unit.profile = placed.profile;
    check.unit(unit, fields.whereOf("tag"), fields.whereOf("profile"));
    fields.finish();
    return placed;
  }

  SystemKind::Run run(const JsonItem& item, const SystemKind& kind, LandingCheck& check) {
    Fields fields(item.value, item.where, problems_);
    SystemKind::Run run;
    run.from = end(fields, "from", kind);
    run.to = end(fields, "to", kind);
    if (!run.from.empty() && run.from == run.to) {
      Unit unit;
      unit.id = UnitId{1};
      unit.tag = run.from;
      check.cableEnds(run.from, unit, unit, fields.whereOf("to"));
    }
    const std::string gauge = fields.text("gauge", 24);
    if (const auto parsed = quantity::parseGauge(gauge))
      run.gauge = *parsed;
    else if (!gauge.empty())
      fields.complain("gauge", "bad-gauge", {{"gauge", quantity::cited(gauge)}});
    run.conductors = int(fields.whole("conductors", 1, kMostConductors));
    run.length = quantity::Metres(fields.number("metres", 0, kMostMetres));
    check.length(run.length, fields.whereOf("metres"));
    fields.finish();
    return run;
  }

  std::string end(Fields& fields, const char* member, const SystemKind& kind) {
    std::string tag = fields.text(member, 24);
    std::vector<std::string> known;
    known.reserve(kind.units.size());
    for (const auto& unit : kind.units) known.push_back(unit.tag);
    if (!tag.empty() && std::ranges::find(known, tag) == known.end())
      fields.complain(member, "unit-not-there",
                      {{"unit", quantity::cited(tag)}, {"known", quantity::joined(known)}});
    return tag;
  }

  const equipment::Library& library_;
  quantity::Problems& problems_;
  std::set<std::string> ids_;
};

/// What makes a unit of a system: its kind and what it does, and a heat pump's valve by its first letter. Its
/// make-up within (a timer, a battery) does not.
struct UnitNature {
  equipment::Kind kind;
  std::set<std::string> duties;
  friend auto operator<=>(const UnitNature&, const UnitNature&) = default;
};

/// Nothing when a profile is not in the library.
std::optional<std::multiset<UnitNature>> naturesOf(const std::vector<std::string>& profiles,
                                                   const equipment::Library& library) {
  std::multiset<UnitNature> natures;
  for (const std::string& id : profiles) {
    const equipment::Profile* profile = library.find(id);
    if (profile == nullptr) return std::nullopt;
    if (profile->kind == equipment::Kind::accessory) continue;
    UnitNature nature{profile->kind, {}};
    for (const auto& duty : profile->duties) nature.duties.insert(duty.name);
    if (profile->kind == equipment::Kind::outdoorUnit)
      for (const char* letter : {"B", "O"})
        if (profile->terminal(letter) != nullptr) {
          nature.duties.insert(std::string("valve ") + letter);
          break;
        }
    natures.insert(std::move(nature));
  }
  return natures;
}

std::string freeCableName(const Sheet& sheet) {
  int n = 1;
  while (sheet.cableByName(std::to_string(n)) != nullptr) ++n;
  return std::to_string(n);
}

}  // namespace

quantity::Loaded<std::vector<SystemKind>> readSystems(std::string_view text,
                                                      const equipment::Library& library) {
  using Result = quantity::Loaded<std::vector<SystemKind>>;
  auto json = quantity::parseJson(text);
  if (!json) return Result::failed(std::move(json.problems));
  quantity::Problems problems;
  Fields top(*json.value, "", problems);
  top.word<int>("format", {{"wirewright-systems", 0}});
  top.whole("version", 1, 1);
  top.text("source");
  std::vector<SystemKind> kinds;
  KindReader reader(library, problems);
  for (const JsonItem& item : top.list("systems", kMostKinds)) kinds.push_back(reader.read(item));
  top.finish();
  if (!problems.empty()) return Result::failed(std::move(problems));
  return Result::ok(std::move(kinds));
}

const std::vector<SystemKind>& standardSystems() {
  static const std::vector<SystemKind> kinds =
      readSystems(shippedSystems().front().text, equipment::standardLibrary()).value.value();
  return kinds;
}

Sheet withSystem(Sheet sheet, const SystemKind& kind) {
  const auto placed = place(sheet, kind);
  for (const auto& run : kind.cables) {
    Cable cable;
    cable.name = freeCableName(sheet);
    cable.gauge = run.gauge;
    cable.length = run.length;
    cable.endA = placed.at(run.from);
    cable.endB = placed.at(run.to);
    const CableId id = sheet.addCable(cable);
    std::vector<Colour> colours = customaryColours(run.conductors);
    colours.resize(size_t(run.conductors));
    for (const Colour& colour : colours) {
      Conductor wire;
      wire.cable = id;
      wire.colour = colour;
      sheet.addConductor(wire);
    }
  }
  return sheet;
}

std::string systemOf(const Sheet& sheet, const std::vector<SystemKind>& kinds,
                     const equipment::Library& library) {
  std::vector<std::string> profiles;
  for (const Unit& unit : sheet.units) profiles.push_back(unit.profile);
  const auto natures = naturesOf(profiles, library);
  if (!natures || natures->empty()) return {};
  for (const SystemKind& kind : kinds) {
    profiles.clear();
    for (const auto& placed : kind.units) profiles.push_back(placed.profile);
    if (naturesOf(profiles, library) == natures) return kind.id;
  }
  return {};
}

std::string freeTag(const Sheet& sheet, const equipment::Profile& profile) {
  const auto letter = [&]() -> std::string {
    switch (profile.kind) {
      case equipment::Kind::roomControl: return "T";
      case equipment::Kind::furnace: return "F";
      case equipment::Kind::airHandler:
      case equipment::Kind::coolingCoil: return "A";
      case equipment::Kind::outdoorUnit: return "O";
      case equipment::Kind::boiler: return "B";
      case equipment::Kind::zoneValve: return "Z";
      case equipment::Kind::accessory:
      case equipment::Kind::refused: break;
    }
    return "X";
  };
  return freeUnitTag(sheet, letter());
}

}  // namespace ww::sheet
