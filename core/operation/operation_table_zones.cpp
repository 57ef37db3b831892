// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/operation_table_zones.h"

#include <algorithm>

#include "operation/duty_numbers.h"

namespace ww::operation {

namespace {

using Duties = std::vector<std::string>;

bool contains(const Duties& duties, std::string_view duty) {
  return std::any_of(duties.begin(), duties.end(), [&](const auto& d) { return dutyName(d) == duty; });
}

class WaterAndZones {
 public:
  WaterAndZones(const asbuilt::AsBuilt& circuit, int zone, CallDemand& demand)
      : circuit_(circuit), zone_(zone), demand_(demand) {
    for (size_t unit = 0; unit < circuit.units.size(); ++unit) {
      const auto& profile = *circuit.units[unit].profile;
      for (const auto& duty : profile.duties) {
        const std::string name = numberedDuty(circuit, int(unit), duty.name);
        Duties& list = name.starts_with("zoneValve") ? valves_
                       : name.starts_with("damper")  ? dampers_
                                                     : others_;
        if (!contains(list, name)) list.push_back(name);
      }
      panel_ |= profile.kind != equipment::Kind::roomControl &&
                std::any_of(profile.terminals.begin(), profile.terminals.end(), [](const auto& terminal) {
                  return terminal.role == equipment::Role::callOut && terminal.purpose == "damper";
                });
      waterCoil_ |= profile.offers("pump") && profile.offers("blower");
      valvedCoil_ |= profile.offers("zoneValve1") && profile.offers("blower");
    }
  }

  void add() {
    const std::string& call = demand_.call;
    if (call == "heat1") heat();
    if (call == "cool1") cool();
    dampers();
    if (!contains(demand_.must, "blower")) return;
    for (const char* duty : {"humidify", "ventilate"})
      if (contains(others_, duty)) demand_.may.emplace_back(duty);
  }

 private:
  void must(const std::string& duty) {
    if (!contains(demand_.must, duty)) demand_.must.push_back(duty);
  }
  void mustIfAny(const char* duty) {
    if (contains(others_, duty)) must(duty);
  }
  /// The zone's own of a counted kind, or all of them.
  void mustOf(const Duties& counted) {
    for (size_t i = 0; i < counted.size(); ++i)
      if (zone_ == 0 || zone_ == int(i) + 1) must(counted[i]);
  }

  /// Water flows where a valve lets it; the boiler has its pump, a coil with a pump its blower besides.
  void heat() {
    mustOf(valves_);
    mustIfAny("boiler");
    mustIfAny("pump");
    if (waterCoil_ || valvedCoil_) mustIfAny("blower");
  }
  /// Chilled water: no compressor of this installation runs for it.
  void cool() {
    if (!valvedCoil_ || contains(others_, "compressor1")) return;
    mustOf(valves_);
    must("blower");
  }
  /// Air goes to who asked for it. At rest a panel leaves all open, so that air has somewhere to go when it
  /// starts; without one the spring decides.
  void dampers() {
    const bool resting = demand_.call == "rest";
    if ((resting && !panel_) || demand_.call == "defrost")
      demand_.may.insert(demand_.may.end(), dampers_.begin(), dampers_.end());
    else if (resting || contains(demand_.must, "blower"))
      mustOf(dampers_);
  }

  const asbuilt::AsBuilt& circuit_;
  int zone_;
  CallDemand& demand_;
  Duties valves_, dampers_, others_;
  bool waterCoil_ = false, valvedCoil_ = false, panel_ = false;
};

}  // namespace

void addWaterAndZones(const asbuilt::AsBuilt& circuit, int zone, CallDemand& demand) {
  WaterAndZones(circuit, zone, demand).add();
}

bool hasZones(const asbuilt::AsBuilt& circuit) {
  const auto several = [&](const std::string& stem) {
    const std::string next = numberedDuty(circuit, int(circuit.units.size()), stem + "1");
    return next != stem + "1" && next != stem + "2";
  };
  return several("zoneValve") || several("damper");
}

}  // namespace ww::operation
