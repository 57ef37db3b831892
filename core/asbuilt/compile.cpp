// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "asbuilt/as_built.h"
#include "circuit/joints.h"
#include "quantity/text.h"

namespace ww::asbuilt {

namespace {

using equipment::Element;
using equipment::Profile;
using equipment::Role;
using sheet::Conductor;
using sheet::Sheet;
using sheet::TerminalRef;

constexpr double kCustomaryLineVolts = 120;

/// Places that jumpers and splices join become one node.
class Places {
 public:
  int at(const std::string& name) {
    const auto [where, fresh] = index_.try_emplace(name, static_cast<int>(names_.size()));
    if (fresh) {
      names_.push_back(name);
      joints_.add();
    }
    return where->second;
  }
  void join(int a, int b) { joints_.join(a, b); }
  /// Numbers the roots 0.. in order of first mention; the result is by place.
  std::vector<int> numbered() const {
    std::vector<int> node(names_.size(), -1);
    int next = 0;
    for (size_t place = 0; place < names_.size(); ++place) {
      int& ofRoot = node[size_t(joints_.root(int(place)))];
      if (ofRoot < 0) ofRoot = next++;
      node[place] = ofRoot;
    }
    return node;
  }
  const std::vector<std::string>& names() const { return names_; }

 private:
  std::map<std::string, int> index_;
  std::vector<std::string> names_;
  circuit::Joints joints_;
};

class Compiler {
 public:
  Compiler(const Sheet& sheet, const equipment::Library& library) : sheet_(sheet), library_(library) {}

  AsBuilt run() {
    readSite();
    for (const sheet::Unit& unit : sheet_.units) placeUnit(unit);
    for (const Conductor& wire : sheet_.conductors) placeConductor(wire);
    bondCommons();
    numberNodes();
    result_.plan = circuit::makePlan(std::move(pattern_));
    return std::move(result_);
  }

 private:
  void readSite() {
    result_.frequency = siteFigure(settings::kLineFrequency, 60);
    lineVolts_ = siteFigure(settings::kLineVolts, kCustomaryLineVolts);
    result_.cables = sheet_.cables.size();
  }

  double siteFigure(std::string_view key, double customary) const {
    const auto text = sheet_.settings.find("", key);
    const auto value = text ? quantity::parseNumber(*text) : std::nullopt;
    return value && *value > 0 ? *value : customary;
  }

  void placeUnit(const sheet::Unit& unit) {
    const auto found = library_.profiles.find(unit.profile);
    if (found == library_.profiles.end()) return;
    const Profile& profile = *found->second;
    PlacedUnit placed{unit.id, unit.tag, found->second, {}, 1, phaseOf(unit)};
    for (const auto& setting : profile.settings)
      placed.settings[setting.key] = settingOf(sheet_, unit, profile, setting.key);
    const auto tap = sheet_.settings.find(unit.tag, "tap");
    const auto tapVolts = tap ? quantity::parseNumber(*tap) : std::nullopt;
    // A primary without a stated tap is taken to be connected to the tap that suits its line.
    placed.tapRatio =
        tapVolts && *tapVolts > 0 ? lineVolts_ / *tapVolts : lineVolts_ / customaryTap(lineVolts_);
    const int index = int(result_.units.size());
    for (const auto& terminal : profile.terminals) terminalPlace(unit.id, terminal.id);
    for (const auto& nodes : profile.joined)
      for (const std::string& node : nodes)
        places_.join(terminalPlace(unit.id, nodes.front()), terminalPlace(unit.id, node));
    for (size_t i = 0; i < profile.elements.size(); ++i) placeElement(index, unit, placed, int(i));
    result_.units.push_back(std::move(placed));
  }

  double phaseOf(const sheet::Unit& unit) const {
    const auto text = sheet_.settings.find(unit.tag, "phase");
    const auto degrees = text ? quantity::parseNumber(*text) : std::nullopt;
    return degrees && std::isfinite(*degrees) ? std::remainder(*degrees, 360) : 0;
  }

  static double customaryTap(double volts) {
    double nearest = kCustomaryLineVolts;
    for (const double tap : {208.0, 240.0, 460.0})
      if (std::abs(std::log(volts / tap)) < std::abs(std::log(volts / nearest))) nearest = tap;
    return nearest;
  }

  void placeElement(int unitIndex, const sheet::Unit& unit, const PlacedUnit& placed, int elementIndex) {
    const Element& element = placed.profile->elements[size_t(elementIndex)];
    Device device{unitIndex, elementIndex, chosenPart(element, placed), -1, 0, 0};
    device.a = nodePlace(unit, *placed.profile, element.a);
    device.b = nodePlace(unit, *placed.profile, element.b);
    result_.devices.push_back(std::move(device));
  }

  equipment::Part chosenPart(const Element& element, const PlacedUnit& placed) const {
    if (!element.celsiusSetting.empty()) return warmed(element, placed);
    if (element.partSetting.empty()) return element.part;
    const auto value = placed.settings.find(element.partSetting);
    if (value == placed.settings.end()) return element.part;
    const auto part = library_.parts.find(value->second);
    return part == library_.parts.end() ? element.part : part->second;
  }

  static equipment::Part warmed(const Element& element, const PlacedUnit& placed) {
    const auto* sensor = std::get_if<equipment::ResistorPart>(&element.part);
    const auto celsius = quantity::parseNumber(placed.settings.at(element.celsiusSetting));
    if (sensor == nullptr || !celsius) return element.part;
    return equipment::ResistorPart{resistanceAt(*sensor, *celsius), 0};
  }

  int nodePlace(const sheet::Unit& unit, const Profile& profile, const std::string& name) {
    if (profile.terminal(name) != nullptr) return terminalPlace(unit.id, name);
    return places_.at(unit.tag + "." + name);
  }

  int terminalPlace(sheet::UnitId unit, const std::string& terminal) {
    const sheet::Unit* row = sheet_.units.find(unit);
    const int place = places_.at((row != nullptr ? row->tag : "?") + "." + terminal);
    result_.nodeOfTerminal.try_emplace(TerminalRef{unit, terminal}, place);
    return place;
  }

  void placeConductor(const Conductor& wire) {
    const int a = landingPlace(wire, wire.endA, 'A');
    const int b = landingPlace(wire, wire.endB, 'B');
    if (a < 0 || b < 0) return;
    if (wire.isJumper()) {
      places_.join(a, b);
      return;
    }
    const auto& cables = sheet_.cables.rows();
    const auto cable =
        std::find_if(cables.begin(), cables.end(), [&](const auto& c) { return c.id == *wire.cable; });
    if (cable == cables.end()) return;
    result_.wires.push_back({wire.id, int(cable - cables.begin()), cable->gauge, cable->length, -1, a, b});
  }

  int landingPlace(const Conductor& wire, const sheet::Landing& landing, char end) {
    if (const auto* terminal = std::get_if<TerminalRef>(&landing)) {
      const auto known = result_.nodeOfTerminal.find(*terminal);
      return known == result_.nodeOfTerminal.end() ? -1 : known->second;
    }
    if (const auto* splice = std::get_if<sheet::Splice>(&landing)) {
      const sheet::Unit* unit = sheet_.units.find(splice->unit);
      return places_.at((unit != nullptr ? unit->tag : "?") + "/" + splice->name);
    }
    return places_.at("#" + std::to_string(number(wire.id)) + "." + end);  // no unit's tag has a "#"
  }

  void bondCommons() {
    for (size_t i = 0; i < result_.units.size(); ++i) {
      const Profile& profile = *result_.units[i].profile;
      if (profile.bond == equipment::Bond::floating) continue;
      const int common = commonPlace(int(i));
      const bool known = profile.bond == equipment::Bond::bonded;
      if (common >= 0) result_.bondings.push_back({int(i), -1, common, places_.at("earth"), known});
    }
  }

  /// The common terminal; where the strip has none, the common side of the unit's transformer. -1: neither.
  int commonPlace(int unit) const {
    const PlacedUnit& placed = result_.units[size_t(unit)];
    for (const auto& terminal : placed.profile->terminals)
      if (terminal.role == Role::common) return result_.nodeOfTerminal.at({placed.id, terminal.id});
    for (const Device& device : result_.devices)
      if (device.unit == unit && std::holds_alternative<equipment::TransformerPart>(device.part))
        return device.b;
    return -1;
  }

  void numberNodes() {
    const std::vector<int> node = places_.numbered();
    pattern_.nodes = node.empty() ? 0 : *std::max_element(node.begin(), node.end()) + 1;
    result_.nodeNames.assign(size_t(pattern_.nodes), {});
    result_.nodeTerminals.assign(size_t(pattern_.nodes), std::nullopt);
    for (size_t place = 0; place < node.size(); ++place)
      if (auto& name = result_.nodeNames[size_t(node[place])]; name.empty()) name = places_.names()[place];
    for (auto& [terminal, place] : result_.nodeOfTerminal) {
      place = node[size_t(place)];
      if (auto& smallest = result_.nodeTerminals[size_t(place)]; !smallest) smallest = terminal;
    }
    for (auto& device : result_.devices) connect(device, node);
    for (auto& wire : result_.wires) connect(wire, node);
    for (auto& bonding : result_.bondings) connect(bonding, node);
    lateNodes();
  }

  /// What hangs on the volts themselves is solved again and again while all else stands.
  void lateNodes() {
    for (const auto& device : result_.devices)
      if (equipment::isSupply(device.part) && device.a != device.b)
        pattern_.late.insert(pattern_.late.end(), {device.a, device.b});
    std::sort(pattern_.late.begin(), pattern_.late.end());
    pattern_.late.erase(std::unique(pattern_.late.begin(), pattern_.late.end()), pattern_.late.end());
  }

  template <class Joint>
  void connect(Joint& joint, const std::vector<int>& node) {
    joint.a = node[size_t(joint.a)];
    joint.b = node[size_t(joint.b)];
    joint.branch = int(pattern_.branches.size());
    pattern_.branches.push_back({joint.a, joint.b, false});
  }

  const Sheet& sheet_;
  const equipment::Library& library_;
  double lineVolts_ = kCustomaryLineVolts;
  Places places_;
  circuit::Pattern pattern_;
  AsBuilt result_;
};

}  // namespace

AsBuilt compile(const Sheet& sheet, const equipment::Library& library) {
  return Compiler(sheet, library).run();
}

std::string settingOf(const Sheet& sheet, const sheet::Unit& unit, const Profile& profile,
                      std::string_view key) {
  if (auto value = sheet.settings.find(unit.tag, key)) return *value;
  const equipment::Setting* setting = profile.setting(key);
  return setting != nullptr ? setting->standard : std::string();
}

int AsBuilt::node(const TerminalRef& terminal) const {
  const auto found = nodeOfTerminal.find(terminal);
  return found == nodeOfTerminal.end() ? -1 : found->second;
}

int AsBuilt::unitIndex(sheet::UnitId id) const {
  for (size_t i = 0; i < units.size(); ++i)
    if (units[i].id == id) return int(i);
  return -1;
}

const Device* AsBuilt::device(sheet::UnitId unit, std::string_view elementId) const {
  const int index = unitIndex(unit);
  for (const Device& candidate : devices)
    if (candidate.unit == index && element(candidate).id == elementId) return &candidate;
  return nullptr;
}

const Element& AsBuilt::element(const Device& device) const {
  return units[size_t(device.unit)].profile->elements[size_t(device.element)];
}

int AsBuilt::commonNode(int unit) const {
  const PlacedUnit& placed = units[size_t(unit)];
  for (const auto& terminal : placed.profile->terminals)
    if (terminal.role == Role::common) return node({placed.id, terminal.id});
  return -1;
}

}  // namespace ww::asbuilt
