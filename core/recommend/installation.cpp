// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/installation.h"

#include <algorithm>
#include <set>

#include "operation/solution.h"
#include "quantity/text.h"
#include "recommend/form.h"
#include "verify/forbidden.h"
#include "verify/metal.h"

namespace ww::recommend {

namespace {

using equipment::Kind;
using equipment::Profile;

bool isStageOf(const std::string& duty, std::string_view name) {
  return duty.size() == name.size() + 1 && duty.starts_with(name) && duty.back() >= '1' && duty.back() <= '9';
}

const equipment::Terminal* terminalFor(const Profile& profile, std::string_view purpose,
                                       equipment::Role role) {
  for (const auto& terminal : profile.terminals)
    if (terminal.purpose == purpose && terminal.role == role) return &terminal;
  return nullptr;
}

/// "35 F", "2 C", "35": degrees Celsius.
std::optional<double> temperatureOf(std::string_view typed, bool fahrenheit) {
  std::string text;
  for (const char c : quantity::trimmed(typed)) text += c == ',' ? '.' : c;
  const size_t end = text.find_first_not_of("+-.0123456789");
  const auto number = quantity::parseNumber(text.substr(0, end));
  if (!number) return std::nullopt;
  const std::string unit = end == std::string::npos ? "" : text.substr(end);
  const bool f = unit.find('F') != std::string::npos || unit.find('f') != std::string::npos;
  const bool c = unit.find('C') != std::string::npos || unit.find('c') != std::string::npos;
  const double celsius = f || (!c && fahrenheit) ? fromFahrenheit(*number) : *number;
  if (celsius < kLeastTemperature || celsius > kMostTemperature) return std::nullopt;
  return celsius;
}

/// The unit on the bench: no conductor lands on it but a jumper from its supply to its heating input, and a
/// room control lies beside it that nothing joins, because calls are made by controls.
std::optional<sheet::Sheet> bench(const sheet::Sheet& whole, const sheet::Unit& unit, const Profile& profile,
                                  const std::string& control) {
  const auto* hot = terminalFor(profile, "hot", equipment::Role::hot);
  const auto* heat = terminalFor(profile, "heat1", equipment::Role::callIn);
  if (hot == nullptr || heat == nullptr) return std::nullopt;
  sheet::Sheet bench;
  for (const auto& [key, value] : whole.settings.all())
    if (key.find('.') == std::string::npos || key.starts_with(unit.tag + ".")) bench.settings.set(key, value);
  sheet::Unit copy = unit;
  copy.id = {};
  const sheet::UnitId placed = bench.addUnit(copy);
  sheet::Unit beside;
  beside.tag = unit.tag + "-control";
  beside.profile = control;
  bench.addUnit(beside);
  sheet::Conductor jumper;
  jumper.endA = sheet::TerminalRef{placed, hot->id};
  jumper.endB = sheet::TerminalRef{placed, heat->id};
  bench.addConductor(jumper);
  return bench;
}

std::string controlFor(const equipment::Library& library, const Profile* placed) {
  if (placed != nullptr) return placed->id;
  for (const auto& [id, profile] : library.profiles)
    if (profile->kind == Kind::roomControl) return id;
  return {};
}

/// Which of the first control's screws for auxiliary and emergency heat are one piece of metal with a heating
/// input, factory jumpers included: "W2", "E", "W2+E", or nothing.
std::string emergencyScrews(const sheet::Sheet& sheet, const equipment::Library& library) {
  const asbuilt::AsBuilt circuit = asbuilt::compile(sheet, library);
  const std::vector<char> jumpers = verify::jumpersIn(circuit);
  const verify::Metal metal(circuit, &jumpers);
  const auto heats = [&](int screw) {
    return std::any_of(circuit.nodeOfTerminal.begin(), circuit.nodeOfTerminal.end(), [&](const auto& entry) {
      const auto& unit = circuit.units[size_t(circuit.unitIndex(entry.first.unit))];
      const auto* terminal = unit.profile->terminal(entry.first.terminal);
      const bool input = terminal->role == equipment::Role::callIn &&
                         (terminal->purpose == "heat1" || terminal->purpose == "heat2");
      return input && unit.profile->kind != Kind::outdoorUnit && metal.joined(screw, entry.second);
    });
  };
  std::string screws;
  for (const auto& unit : circuit.units) {
    if (unit.profile->kind != Kind::roomControl) continue;
    for (const char* purpose : {"heat2", "emergency"})
      if (const auto* out = terminalFor(*unit.profile, purpose, equipment::Role::callOut);
          out != nullptr && heats(circuit.node({unit.id, out->id})))
        screws += (screws.empty() ? "" : "+") + out->id;
    break;
  }
  return screws;
}

/// Whether the first control's sensor screw is one piece of metal with another unit's.
bool sensorLanded(const sheet::Sheet& sheet, const equipment::Library& library) {
  const asbuilt::AsBuilt circuit = asbuilt::compile(sheet, library);
  const verify::Metal metal(circuit);
  std::optional<int> control;
  std::vector<int> others;
  for (const auto& [screw, node] : circuit.nodeOfTerminal) {
    const auto& profile = *circuit.units[size_t(circuit.unitIndex(screw.unit))].profile;
    if (profile.terminal(screw.terminal)->purpose != "sensorA") continue;
    if (profile.kind != Kind::roomControl)
      others.push_back(node);
    else if (!control)
      control = node;
  }
  return control &&
         std::any_of(others.begin(), others.end(), [&](int other) { return metal.joined(*control, other); });
}

class Look {
 public:
  Look(const sheet::Sheet& sheet, const equipment::Library& library, bool fahrenheit)
      : sheet_(sheet), library_(library), fahrenheit_(fahrenheit) {}

  Installation installation() {
    for (const auto& unit : sheet_.units)
      if (const Profile* profile = library_.find(unit.profile)) {
        found_.any = true;
        control(*profile);
        duties(*profile);
        outdoor(unit, *profile);
        found_.fuelKit |= profile->kind != Kind::roomControl &&
                          profile->world.contains(std::string(operation::kChangeoverFact));
      }
    found_.twoPipe = valvedCoil_ && found_.compressors == 0;
    if (found_.twoPipe) found_.pipeSensed = sensorLanded(sheet_, library_);
    stages();
    if (found_.heatPump) found_.emergencyBy = emergencyScrews(sheet_, library_);
    for (const auto& unit : sheet_.units)
      if (const Profile* profile = library_.find(unit.profile)) fan(unit, *profile);
    return std::move(found_);
  }

 private:
  void control(const Profile& profile) {
    if (profile.kind != Kind::roomControl) return;
    if (found_.control == nullptr) {
      found_.control = &profile;
      for (const char* purpose : {"heat1", "heat2"})
        found_.heatScrews += terminalFor(profile, purpose, equipment::Role::callOut) != nullptr;
    }
    if (terminalFor(profile, "heat2", equipment::Role::callOut) != nullptr) found_.controlHasHeat2 = true;
  }

  void duties(const Profile& profile) {
    for (const auto& duty : profile.duties) {
      if (!names_.insert(duty.name).second) continue;
      if (isStageOf(duty.name, "compressor")) ++found_.compressors;
      // A burner in a boiler heats water; the air never meets it.
      if (isStageOf(duty.name, "burner")) ++(profile.kind == Kind::boiler ? found_.boilers : found_.burners);
      if (isStageOf(duty.name, "electricHeat")) ++found_.elements;
      if (duty.name == "boiler") ++found_.boilers;
    }
    valvedCoil_ |= profile.offers("zoneValve1") && profile.offers("blower");
    const bool millivolt = std::any_of(profile.terminals.begin(), profile.terminals.end(),
                                       [](const auto& t) { return t.role == equipment::Role::millivolt; });
    if (millivolt && profile.kind != Kind::roomControl) found_.gravity = true;
    // What condenses its flue gas has a drain to watch.
    for (const auto& point : profile.insertPoints)
      if (point.name == "DRAIN") found_.condensing = true;
  }

  void outdoor(const sheet::Unit& unit, const Profile& profile) {
    if (profile.kind != Kind::outdoorUnit) return;
    for (const auto& terminal : profile.terminals)
      if (terminal.purpose == "reversingValve") {
        found_.heatPump = true;  // the letter tells the sense
        const bool tied = profile.setting("bIsCommon") != nullptr &&
                          asbuilt::settingOf(sheet_, unit, profile, "bIsCommon") == "on";
        found_.valveEnergised = profile.terminal("B") != nullptr && !tied ? "heating" : "cooling";
      }
    for (const auto& node : profile.logic.nodes)
      if (node.op == equipment::Op::minOff) found_.ownOffSeconds = node.number;
    if (const auto typed = unit.nameplate.find("balancePoint"); typed != unit.nameplate.end())
      found_.balancePoint = temperatureOf(typed->second, fahrenheit_);
  }

  void stages() {
    if (found_.boilers == 0 && names_.contains("pump")) found_.boilers = 1;  // hot water from elsewhere
    for (const char* name : {"compressor", "burner", "electricHeat"})
      for (char n = '1'; n <= '9'; ++n)
        if (const std::string duty = std::string(name) + n; names_.contains(duty))
          found_.stages.push_back(duty);
    if (names_.contains("boiler")) found_.stages.emplace_back("boiler");
    if (found_.twoPipe) found_.stages.emplace_back("zoneValve1");
  }

  void fan(const sheet::Unit& unit, const Profile& profile) {
    const auto has = [&](auto test) {
      return std::any_of(profile.duties.begin(), profile.duties.end(), test);
    };
    const auto heat = [](const std::string& name) {
      return isStageOf(name, "burner") || isStageOf(name, "electricHeat");
    };
    if (!has([&](const auto& d) { return heat(d.name); }) ||
        !has([](const auto& d) { return d.name == "blower"; }))
      return;
    const auto alone = bench(sheet_, unit, profile, controlFor(library_, found_.control));
    const auto solved =
        alone ? operation::solveSheet(*alone, library_, {}, operation::Depth::calls) : operation::Solution{};
    const operation::SolvedCall* rest = solved.call("rest");
    bool warm = false, air = false, glows = false;
    if (rest != nullptr)
      for (const auto& duty : rest->result.duties) {
        const std::string name = operation::dutyName(duty.duty);
        warm = warm || heat(name);
        glows = glows || isStageOf(name, "electricHeat");
        air = air || name == "blower";
      }
    // A board that heats only when it sees the blower called for as well needs the control to call for it.
    if (!warm) {
      if (found_.fan == FanStarter::none) found_.fan = FanStarter::unseen;
    } else if (!air) {
      found_.fan = FanStarter::control;
      found_.glows = found_.glows || glows;
    } else if (found_.fan != FanStarter::control) {
      found_.fan = FanStarter::equipment;
    }
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  bool fahrenheit_, valvedCoil_ = false;
  std::set<std::string> names_;
  Installation found_;
};

}  // namespace

Installation installationOf(const sheet::Sheet& sheet, const equipment::Library& library, bool fahrenheit) {
  return Look(sheet, library, fahrenheit).installation();
}

}  // namespace ww::recommend
