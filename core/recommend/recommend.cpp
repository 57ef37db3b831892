// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/recommend.h"

#include <algorithm>
#include <cmath>

#include "asbuilt/as_built.h"
#include "quantity/text.h"
#include "recommend/conflicts.h"
#include "recommend/installation.h"

namespace ww::recommend {

namespace {

using quantity::printNumber;

// Customary starts an hour at half load; common practice, no source.
constexpr double kCompressorStarts = 3, kForcedAirStarts = 5, kCondensingStarts = 3, kElectricStarts = 9,
                 kWaterStarts = 3, kGravityStarts = 1;
constexpr double kMinimumOff = 300;  // s, common practice, no source
// From memory, to be confirmed at every site.
constexpr double kAuxiliaryAbove = fromFahrenheit(40), kCompressorBelow = fromFahrenheit(5),
                 kBalanceOfTwoFuels = fromFahrenheit(35);
constexpr double kHeatMost = fromFahrenheit(74), kCoolLeast = fromFahrenheit(70);
constexpr double kDeadBand = fromFahrenheitSteps(3);  // common practice, no source
constexpr double kFilterDays = 90, kServiceMonths = 12;

bool isWater(const std::string& duty, const Installation& found) {
  return duty == "boiler" || duty == "zoneValve1" || (duty.starts_with("burner") && found.burners == 0);
}

double startsFor(const std::string& duty, const Installation& found) {
  if (duty.starts_with("compressor")) return kCompressorStarts;
  if (duty.starts_with("electricHeat")) return kElectricStarts;
  if (isWater(duty, found)) return kWaterStarts;
  if (found.condensing) return kCondensingStarts;
  return found.gravity ? kGravityStarts : kForcedAirStarts;
}

std::string cycleReason(const std::string& duty, const Installation& found) {
  if (duty.starts_with("compressor")) return "cycles.compressor";
  if (duty.starts_with("electricHeat")) return "cycles.electric";
  if (isWater(duty, found)) return "cycles.water";
  if (found.condensing) return "cycles.condensing";
  return found.gravity ? "cycles.gravity" : "cycles.air";
}

class Derivation {
 public:
  Derivation(const sheet::Sheet& sheet, const equipment::Library& library, const Control& control)
      : sheet_(sheet),
        library_(library),
        control_(control),
        found_(installationOf(sheet, library, control.wishes.scale != "celsius")) {}

  Sheet derive() {
    if (!found_.any) return {};
    kinds();
    wired();
    power();
    if (found_.compressors > 0) minimumOff();
    for (const std::string& duty : found_.stages) cycles(duty);
    if (found_.heatPump) lockOuts();
    reminders();
    comfort();
    access();
    Sheet result{std::move(settings_), {}};
    result.conflicts = conflictsOf(result, control_.wishes, found_);
    return result;
  }

 private:
  void add(const std::string& key, const std::string& value, std::string reason, std::string source,
           std::vector<Term> terms = {}, bool certain = true) {
    Setting setting{key, value, value, std::move(reason), std::move(terms), std::move(source), {},
                    {},  {},    false};
    if (!certain) setting.origin = Origin::toConfirm;
    if (const Choice* choice = control_.find(key)) {
      setting.value = choice->value;
      setting.note = choice->note;
      setting.by = choice->by;
      setting.origin = choice->value == setting.derived ? Origin::confirmed : Origin::overridden;
    }
    settings_.push_back(std::move(setting));
  }

  /// A wish goes before custom; what custom gives has to be looked at where it `matters`.
  void wished(const char* key, const std::string& wish, const std::string& custom, bool matters = false) {
    if (!wish.empty())
      add(key, wish, "wish", "wish");
    else
      add(key, custom, key, "custom", {}, !matters);
  }
  void wished(const char* key, const std::optional<double>& wish, double custom, bool matters = false) {
    wished(key, wish ? printNumber(*wish) : std::string(), printNumber(custom), matters);
  }

  void kinds() {
    const bool cools = found_.cools(), heats = found_.heats();
    const char* system = found_.dualFuel() ? "dualFuel"
                         : found_.heatPump ? "heatPump"
                         : cools && heats  ? "heatCool"
                         : cools           ? "cooling"
                         : heats           ? "heating"
                                           : "none";
    add("system", system, found_.twoPipe ? "system.twoPipe" : "system", "profile");
    if (found_.twoPipe) return twoPipe();
    if (cools) stages("coolStages", std::to_string(found_.compressors), "coolStages", {});
    const int placed = found_.burners + found_.elements + std::min(found_.boilers, 1);
    const int fuel = found_.heatScrews > 0 ? std::min(placed, found_.heatScrews) : placed;
    const int heatStages = fuel + (found_.heatPump ? found_.compressors : 0);
    if (!heats) return;
    stages("heatStages", std::to_string(heatStages),
           found_.heatPump ? "heatStages.pump"
           : fuel < placed ? "heatStages.screws"
                           : "heatStages",
           {{"own", "heatStages", std::to_string(found_.compressors)},
            {"more", "heatStages", std::to_string(fuel)}});
    const char* kind = found_.gravity        ? "gravity"
                       : found_.burners > 0  ? "gas"
                       : found_.elements > 0 ? "electric"
                       : found_.boilers > 0  ? "water"
                                             : "pump";
    add("heatKind", kind, found_.heatPump ? "heatKind.auxiliary" : "heatKind", "profile");
  }

  /// One valve for both: what the pipe carries makes it heating or cooling.
  void twoPipe() {
    for (const char* key : {"coolStages", "heatStages"}) stages(key, "1", std::string(key) + ".twoPipe", {});
    add("heatKind", "water", "heatKind", "profile");
  }

  /// Where the control can be told how many stages there are, the circuit reads it.
  void stages(const char* key, const std::string& derived, std::string reason, std::vector<Term> terms) {
    const size_t before = settings_.size();
    onSheet(key, derived, reason, "profile");
    if (settings_.size() == before) return add(key, derived, std::move(reason), "profile", std::move(terms));
    settings_.back().terms = std::move(terms);
  }

  /// A setting that the circuit reads: in force is what the sheet says, or what holds while nobody says.
  void onSheet(const char* key, const std::string& derived, std::string reason, std::string source,
               bool certain = true) {
    for (const auto& unit : sheet_.units) {
      const equipment::Profile* profile = library_.find(unit.profile);
      const equipment::Setting* known = profile != nullptr ? profile->setting(key) : nullptr;
      if (known == nullptr) continue;
      const bool fits =
          std::find(known->choices.begin(), known->choices.end(), derived) != known->choices.end();
      const std::string wanted = fits ? derived : known->standard;
      const std::string value = asbuilt::settingOf(sheet_, unit, *profile, key);
      add(key, wanted, std::move(reason), std::move(source), {}, certain);
      Setting& setting = settings_.back();
      setting.value = value;
      setting.wired = true;
      const Choice* choice = control_.find(key);
      const bool said = choice != nullptr && choice->value == value;
      if (!said) setting.note.clear(), setting.by.clear();
      if (value != wanted)
        setting.origin = said ? Origin::overridden : Origin::differs;
      else
        setting.origin = said ? Origin::confirmed : certain ? Origin::derived : Origin::toConfirm;
      return;  // one control decides; others are told of by the findings
    }
  }

  /// A number that the circuit reads, added just before: what the sheet says goes before what was chosen.
  void keptOnSheet() {
    Setting& setting = settings_.back();
    for (const auto& unit : sheet_.units) {
      const equipment::Profile* profile = library_.find(unit.profile);
      if (profile == nullptr || profile->setting(setting.key) == nullptr) continue;
      setting.wired = true;
      const auto value = sheet_.settings.find(unit.tag, setting.key);
      if (!value) return;
      const bool said = setting.value == *value && control_.find(setting.key) != nullptr;
      setting.value = *value;
      if (said) return;
      setting.note.clear(), setting.by.clear();
      if (*value != setting.derived) setting.origin = Origin::differs;
      return;
    }
  }

  void wired() {
    if (found_.heatPump) onSheet("rvSense", found_.valveEnergised, "rvSense", "profile");
    if (found_.compressors > 0)
      onSheet("compressorStages", std::to_string(std::min(found_.compressors, 2)), "compressorStages",
              "profile");
    if (found_.fan == FanStarter::control)
      onSheet("fanWithHeat", "control", "fanWithHeat.control", "circuit");
    else if (found_.fan == FanStarter::equipment)
      onSheet("fanWithHeat", "equipment", "fanWithHeat.equipment", "circuit");
    else if (found_.fan == FanStarter::unseen)
      onSheet("fanWithHeat", "equipment", "fanWithHeat.unseen", "custom", false);
    if (found_.heatPump)
      onSheet("dualFuel", found_.dualFuel() && !found_.fuelKit ? "outdoor" : "off",
              found_.fuelKit      ? "dualFuel.kit"
              : found_.dualFuel() ? "dualFuel"
                                  : "dualFuel.off",
              "profile");
    if (found_.auxiliary()) {
      const bool landed = !found_.emergencyBy.empty();
      onSheet("emergencyBy", landed ? found_.emergencyBy : "W2",
              landed ? "emergencyBy" : "emergencyBy.unlanded", landed ? "circuit" : "custom");
    }
    if (found_.burners > 1)
      onSheet("stagedBy", found_.controlHasHeat2 ? "control" : "board",
              found_.controlHasHeat2 ? "stagedBy.control" : "stagedBy.board", "profile");
  }

  void power() {
    if (found_.control == nullptr) return;
    bool millivolt = false, feeding = false, supply = false;
    for (const auto& terminal : found_.control->terminals)
      millivolt = millivolt || terminal.role == equipment::Role::millivolt;
    for (const auto& element : found_.control->elements) {
      supply = supply || std::holds_alternative<equipment::SupplyPart>(element.part);
      if (const auto* solid = std::get_if<equipment::SolidStatePart>(&element.part))
        feeding = feeding || solid->feeds;
    }
    const char* fed = millivolt ? "thermopile" : feeding ? "series" : supply ? "common" : "battery";
    add("power", fed, std::string("power.") + fed, "profile");
  }

  void minimumOff() {
    if (found_.ownOffSeconds)
      add("minimumOff", printNumber(std::max(kMinimumOff, *found_.ownOffSeconds)), "minimumOff.own", "custom",
          {{"own", "minimumOff", printNumber(*found_.ownOffSeconds)}});
    else
      add("minimumOff", printNumber(kMinimumOff), "minimumOff", "custom");
  }

  void cycles(const std::string& duty) {
    const double starts = startsFor(duty, found_);
    add("cycles." + duty, printNumber(starts), cycleReason(duty, found_), "cycling",
        {{"half", "minimumOff", printNumber(900 / starts)}});
  }

  /// The compressor alone is kept in by the balance point; auxiliary heat is kept out only where the
  /// compressor carries the house.
  void lockOuts() {
    const auto& balance = found_.balancePoint;
    double below = kCompressorBelow;
    if (found_.dualFuel()) below = balance.value_or(kBalanceOfTwoFuels);
    std::vector<Term> terms;
    if (balance) terms.push_back({"balance", "auxiliaryAbove", printNumber(*balance)});
    if (found_.auxiliary())
      add("compressorBelow", printNumber(below),
          !found_.dualFuel() ? "compressorBelow"
          : balance          ? "compressorBelow.balance"
                             : "compressorBelow.fuel",
          found_.dualFuel() && balance ? "nameplate" : "memory", terms, found_.dualFuel() && balance);
    else
      add("compressorBelow", "never", "compressorBelow.alone", "profile");
    keptOnSheet();
    if (!found_.auxiliary()) return;
    auxiliary(below, terms);
    keptOnSheet();
  }

  void auxiliary(double compressorBelow, const std::vector<Term>& terms) {
    const auto& wish = control_.wishes.auxiliaryWhenMild;
    if (wish && *wish) return add("auxiliaryAbove", "never", "wish", "wish");
    const auto& balance = found_.balancePoint;
    double above = std::max(kAuxiliaryAbove, balance.value_or(kAuxiliaryAbove));
    if (found_.dualFuel()) above = std::max(above, compressorBelow);
    add("auxiliaryAbove", printNumber(above), balance ? "auxiliaryAbove.balance" : "auxiliaryAbove",
        balance ? "nameplate" : "memory", terms, balance.has_value());
  }

  void reminders() {
    const auto& wishes = control_.wishes;
    wished("filterDays", wishes.filterDays, kFilterDays);
    wished("serviceMonths", wishes.serviceMonths, kServiceMonths);
  }

  void comfort() {
    const auto& wishes = control_.wishes;
    const bool both = found_.cools() && found_.heats();
    if (found_.twoPipe && wishes.changeover.empty())
      add("changeover", found_.pipeSensed ? "automatic" : "occupant",
          found_.pipeSensed ? "changeover.pipe" : "changeover.season",
          found_.pipeSensed ? "circuit" : "custom", {}, found_.pipeSensed);
    else if (both)
      wished("changeover", wishes.changeover, "occupant");
    if (found_.heats()) wished("heatMost", wishes.heatMost, kHeatMost, true);
    if (found_.cools()) wished("coolLeast", wishes.coolLeast, kCoolLeast, true);
    if (both) add("deadBand", printNumber(kDeadBand), "deadBand", "custom");
    wished("scale", wishes.scale, "fahrenheit");
  }

  void access() {
    wished("access", control_.wishes.access, "temperature");
    wished("keeper", control_.wishes.keeper, "owner");
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  const Control& control_;
  Installation found_;
  std::vector<Setting> settings_;
};

}  // namespace

const Setting* Sheet::find(std::string_view key) const {
  const auto found =
      std::find_if(settings.begin(), settings.end(), [&](const auto& s) { return s.key == key; });
  return found == settings.end() ? nullptr : &*found;
}

size_t Sheet::open() const {
  return size_t(std::count_if(settings.begin(), settings.end(), [](const auto& s) {
    return s.origin == Origin::toConfirm || s.origin == Origin::differs;
  }));
}

Sheet recommend(const sheet::Sheet& sheet, const equipment::Library& library, const Control& control) {
  return Derivation(sheet, library, control).derive();
}

quantity::Seconds offTimeOf(const Sheet& sheet, const Setting& rate) {
  const Setting* off = rate.key.starts_with("cycles.compressor") ? sheet.find("minimumOff") : nullptr;
  return quantity::Seconds(off != nullptr ? quantity::parseNumber(off->value).value_or(0) : 0);
}

sheet::Sheet withDerived(sheet::Sheet sheet, const equipment::Library& library) {
  for (const Setting& setting : recommend(sheet, library, {}).settings) {
    if (!setting.wired || setting.origin == Origin::toConfirm || setting.value == setting.derived) continue;
    const bool said =
        std::any_of(sheet.settings.all().begin(), sheet.settings.all().end(), [&](const auto& pair) {
          return pair.first == setting.key || pair.first.ends_with("." + setting.key);
        });
    if (!said) sheet.settings.set(setting.key, setting.derived);
  }
  return sheet;
}

sheet::Sheet withValue(sheet::Sheet sheet, const equipment::Library& library, const std::string& key,
                       const std::string& value) {
  for (const auto& unit : sheet.units) {
    const equipment::Profile* profile = library.find(unit.profile);
    if (profile != nullptr && profile->setting(key) != nullptr) sheet.settings.unset(unit.tag + "." + key);
  }
  sheet.settings.set(key, value);
  return sheet;
}

}  // namespace ww::recommend
