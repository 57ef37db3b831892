// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/recommend.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "quantity/text.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_pumps.h"
#include "support/reference_rows_water.h"
#include "support/reference_sheets.h"

namespace ww::recommend {
namespace {

using testing::addUnit;
using verify::Severity;

const equipment::Library& library() { return equipment::standardLibrary(); }

sheet::Sheet placed(std::initializer_list<std::pair<const char*, const char*>> units) {
  sheet::Sheet sheet;
  for (const auto& [tag, profile] : units) addUnit(sheet, tag, profile, "");
  return sheet;
}

Sheet derived(const sheet::Sheet& sheet, const Control& control = {}) {
  return recommend(sheet, library(), control);
}

std::string valueOf(const Sheet& settings, const char* key) {
  const Setting* setting = settings.find(key);
  return setting != nullptr ? setting->value : "(none)";
}

const Conflict* conflict(const Sheet& settings, const char* rule) {
  for (const auto& each : settings.conflicts)
    if (each.rule == rule) return &each;
  return nullptr;
}

Control choosing(std::initializer_list<std::pair<const char*, const char*>> values) {
  Control control;
  for (const auto& [key, value] : values) control.put({key, value, "asked for", "M. Ode", "2026-03-02"});
  return control;
}

std::string degrees(double f) { return quantity::printNumber(fromFahrenheit(f)); }

sheet::Sheet heatPumpSheet() {
  return placed({{"T", "rc-heatpump-2"}, {"A", "ah-board"}, {"O", "od-heatpump-1-o"}});
}

TEST(Recommend, NothingPlacedNothingDerived) {
  EXPECT_TRUE(derived({}).settings.empty());
  EXPECT_TRUE(derived({}).conflicts.empty());
}

TEST(Recommend, FurnaceWithCooling) {
  const Sheet got = derived(testing::rowA());
  EXPECT_EQ(valueOf(got, "system"), "heatCool");
  EXPECT_EQ(valueOf(got, "coolStages"), "1");
  EXPECT_EQ(valueOf(got, "heatStages"), "1");
  EXPECT_EQ(valueOf(got, "heatKind"), "gas");
  EXPECT_EQ(valueOf(got, "fanWithHeat"), "equipment");
  EXPECT_EQ(got.find("fanWithHeat")->source, "circuit");
  EXPECT_EQ(valueOf(got, "power"), "common");
  EXPECT_EQ(valueOf(got, "minimumOff"), "300");
  EXPECT_EQ(valueOf(got, "cycles.compressor1"), "3");
  EXPECT_EQ(valueOf(got, "cycles.burner1"), "5");
  EXPECT_EQ(valueOf(got, "rvSense"), "(none)");
  EXPECT_EQ(valueOf(got, "auxiliaryAbove"), "(none)");
  EXPECT_TRUE(got.conflicts.empty());
}

TEST(Recommend, TwoStagesAreSetAtTheControlThatCanBeTold) {
  const auto sheet = placed({{"T", "rc-2h2c"}, {"F", "furnace-2"}, {"O", "od-cool-1"}});
  const Sheet got = derived(sheet);
  EXPECT_EQ(got.find("coolStages")->derived, "1");
  EXPECT_EQ(got.find("coolStages")->origin, Origin::differs) << "the control's standard is two";
  EXPECT_EQ(valueOf(got, "heatStages"), "2");
  EXPECT_EQ(valueOf(got, "stagedBy"), "control");
  EXPECT_EQ(valueOf(got, "cycles.burner2"), "5");
  EXPECT_EQ(withDerived(sheet, library()).settings.find("T", "coolStages"), "1");
}

TEST(Recommend, ACondensingFurnaceStartsLessOften) {
  for (const char* furnace : {"furnace-1-condensing", "furnace-2-condensing"}) {
    const Sheet got = derived(placed({{"T", "rc-2h2c"}, {"F", furnace}, {"O", "od-cool-2"}}));
    EXPECT_EQ(valueOf(got, "cycles.burner1"), "3") << furnace;
    EXPECT_EQ(got.find("cycles.burner1")->reason, "cycles.condensing") << furnace;
    EXPECT_EQ(valueOf(got, "heatKind"), "gas") << furnace;
  }
}

TEST(Recommend, ABoardStagesWhereTheControlCannot) {
  const auto sheet = placed({{"T", "rc-1h1c-common"}, {"F", "furnace-2"}, {"O", "od-cool-1"}});
  EXPECT_EQ(derived(sheet).find("stagedBy")->derived, "board");
  EXPECT_EQ(withDerived(sheet, library()).settings.find("F", "stagedBy"), "board");
}

TEST(Recommend, ARooftopUnitStartsItsBlowerItself) {
  const Sheet got = derived(placed({{"T", "rc-2h2c-occupied"}, {"U", "rooftop-2h2c"}}));
  EXPECT_EQ(valueOf(got, "system"), "heatCool");
  EXPECT_EQ(valueOf(got, "coolStages"), "2");
  EXPECT_EQ(valueOf(got, "heatStages"), "2");
  EXPECT_EQ(valueOf(got, "fanWithHeat"), "equipment");
  EXPECT_EQ(got.find("minimumOff")->reason, "minimumOff.own");
}

TEST(Recommend, ATwoPipeCoilHeatsAndCoolsByTheSeason) {
  const sheet::Sheet sheet = *sheet::readCsv(testing::kRowQ, library()).value;
  const Sheet got = derived(sheet);
  EXPECT_EQ(valueOf(got, "system"), "heatCool");
  EXPECT_EQ(got.find("system")->reason, "system.twoPipe");
  EXPECT_EQ(valueOf(got, "coolStages"), "1");
  EXPECT_EQ(valueOf(got, "heatStages"), "1");
  EXPECT_EQ(valueOf(got, "heatKind"), "water");
  EXPECT_EQ(valueOf(got, "cycles.zoneValve1"), "3");
  EXPECT_EQ(valueOf(got, "minimumOff"), "(none)") << "no compressor to protect";
  EXPECT_EQ(valueOf(got, "changeover"), "automatic");
  EXPECT_EQ(got.find("changeover")->source, "circuit") << "the sensor is landed";
  EXPECT_NE(valueOf(got, "heatMost"), "(none)");
  EXPECT_NE(valueOf(got, "coolLeast"), "(none)");
  EXPECT_TRUE(got.conflicts.empty());
}

TEST(Recommend, ATwoPipeCoilWithoutItsSensorIsSwitchedBySomebody) {
  const std::string blind = testing::edited(testing::kRowQ, "RD,T,S1,A,S1", "RD,T,*,A,*");
  const Sheet got = derived(*sheet::readCsv(blind, library()).value);
  EXPECT_EQ(valueOf(got, "changeover"), "occupant");
  EXPECT_EQ(got.find("changeover")->reason, "changeover.season");
  EXPECT_EQ(got.find("changeover")->origin, Origin::toConfirm);
}

TEST(Recommend, EverySettingHasAFormAValueOfItAReasonAndASource) {
  for (const auto& sheet : {testing::rowA(), testing::rowB(), testing::rowG(),
                            placed({{"T", "rc-2h2c"}, {"F", "furnace-2-condensing"}, {"O", "od-cool-2"}}),
                            placed({{"T", "rc-2pipe"}, {"A", "coil-2pipe"}}),
                            placed({{"T", "rc-millivolt"}, {"F", "heater-millivolt"}})}) {
    std::set<std::string> keys;
    for (const Setting& setting : derived(sheet).settings) {
      ASSERT_NE(formOf(setting.key), nullptr) << setting.key;
      EXPECT_EQ(valueFor(setting.key, setting.value), setting.value) << setting.key;
      EXPECT_FALSE(setting.reason.empty()) << setting.key;
      EXPECT_FALSE(setting.source.empty()) << setting.key;
      EXPECT_TRUE(keys.insert(setting.key).second) << setting.key;
      for (const Term& term : setting.terms) EXPECT_NE(formOf(term.key), nullptr) << term.key;
    }
    EXPECT_GE(keys.size(), 9U);
  }
}

TEST(Recommend, WhoStartsTheFanIsSeenAtTheAirHandlerItself) {
  sheet::Sheet sheet = testing::rowB();
  EXPECT_EQ(valueOf(derived(sheet), "fanWithHeat"), "equipment");
  // Without the interlock the sequencer heats and no blower runs: the control has to start it.
  sheet.settings.set("A.interlock", "off");
  const Sheet got = derived(sheet);
  EXPECT_EQ(got.find("fanWithHeat")->derived, "control");
  ASSERT_NE(conflict(got, "fan-starter-element"), nullptr);
  EXPECT_EQ(conflict(got, "fan-starter-element")->severity, Severity::stop);
  EXPECT_EQ(got.find("fanWithHeat")->origin, Origin::differs);
  const Sheet mended = derived(withValue(sheet, library(), "fanWithHeat", "control"));
  EXPECT_EQ(conflict(mended, "fan-starter-element"), nullptr);
  EXPECT_EQ(mended.find("fanWithHeat")->origin, Origin::derived);
}

TEST(Recommend, ValveSenseFollowsTheOutdoorUnit) {
  const sheet::Sheet o = heatPumpSheet();
  const sheet::Sheet b = placed({{"T", "rc-heatpump-2"}, {"A", "ah-board"}, {"O", "od-heatpump-1-b"}});
  EXPECT_EQ(derived(o).find("rvSense")->derived, "cooling");
  EXPECT_EQ(derived(b).find("rvSense")->derived, "heating");
  ASSERT_NE(conflict(derived(b), "valve-sense"), nullptr)
      << "while nobody sets it the control energises in cooling";
  EXPECT_EQ(withDerived(b, library()).settings.find("T", "rvSense"), "heating");
  EXPECT_EQ(conflict(derived(withDerived(b, library())), "valve-sense"), nullptr);
  sheet::Sheet set = b;
  set.settings.set("T.rvSense", "cooling");
  EXPECT_EQ(withDerived(set, library()).settings.find("T", "rvSense"), "cooling")
      << "what somebody set stays";
  EXPECT_EQ(withValue(set, library(), "rvSense", "heating").settings.find("T", "rvSense"), "heating");
}

TEST(Recommend, DualFuel) {
  sheet::Sheet sheet = placed({{"T", "rc-heatpump-2"}, {"F", "furnace-1"}, {"O", "od-heatpump-1-o"}});
  const Sheet got = derived(sheet);
  EXPECT_EQ(valueOf(got, "system"), "dualFuel");
  EXPECT_EQ(got.find("dualFuel")->derived, "outdoor");
  EXPECT_EQ(got.find("dualFuel")->value, "off");
  EXPECT_EQ(valueOf(got, "heatStages"), "2");
  EXPECT_EQ(valueOf(got, "compressorBelow"), degrees(35));
  EXPECT_EQ(got.find("compressorBelow")->origin, Origin::toConfirm);
  EXPECT_EQ(conflict(got, "lock-out-gap"), nullptr);
  sheet::Unit outdoor = *sheet.unitByTag("O");
  outdoor.nameplate["balancePoint"] = "44 F";
  sheet.units.put(outdoor);
  const Sheet rated = derived(sheet);
  EXPECT_EQ(valueOf(rated, "compressorBelow"), degrees(44));
  EXPECT_EQ(rated.find("compressorBelow")->source, "nameplate");
  EXPECT_EQ(valueOf(rated, "auxiliaryAbove"), degrees(44))
      << "auxiliary heat has to be there up to the balance point";
  outdoor.nameplate["balancePoint"] = "5 C";
  sheet.units.put(outdoor);
  EXPECT_EQ(valueOf(derived(sheet), "compressorBelow"), "5");
}

sheet::Sheet row(const std::string& csv) { return *sheet::readCsv(csv, library()).value; }

TEST(Recommend, CompressorStagesFollowTheOutdoorUnit) {
  const auto stages = [](const char* outdoor) {
    const auto sheet = placed({{"T", "rc-heatpump-2"}, {"A", "ah-board"}, {"O", outdoor}});
    return valueOf(derived(withDerived(sheet, library())), "compressorStages");
  };
  EXPECT_EQ(stages("od-heatpump-1-o"), "1");
  for (const char* two : {"od-heatpump-2-o", "od-heatpump-2-b", "od-inverter-24v"})
    EXPECT_EQ(stages(two), "2") << two;
  EXPECT_EQ(derived(row(testing::kRowI)).find("compressorStages")->origin, Origin::derived);
  EXPECT_EQ(valueOf(derived(testing::rowA()), "compressorStages"), "(none)")
      << "its control has no such setting";
}

TEST(Recommend, AUnitWhoseBIsItsCommonHasItsValveOnO) {
  sheet::Sheet sheet = row(testing::kRowH);
  EXPECT_EQ(derived(sheet).find("rvSense")->derived, "heating");
  sheet.settings.set("O.bIsCommon", "on");
  EXPECT_EQ(derived(sheet).find("rvSense")->derived, "cooling");
}

TEST(Recommend, EmergencyHeatIsCalledOnWhatReachesHeat) {
  const auto by = [](const std::string& csv) { return derived(row(csv)).find("emergencyBy")->derived; };
  using testing::edited;
  const std::string& both = testing::kRowI;
  const std::string tie = edited(both, "BN,T,E,A,W2", "BN,T,E,A,E");
  EXPECT_EQ(by(both), "W2+E");
  EXPECT_EQ(by(tie), "W2");
  EXPECT_EQ(by(edited(tie, "#set,A.transformer", "#set,A.jumperEW2,in\n#set,A.transformer")), "W2+E");
  EXPECT_EQ(by(edited(both, "WH,T,W2,A,W1", "WH,T,*,A,*")), "E");
  EXPECT_EQ(derived(heatPumpSheet()).find("emergencyBy")->reason, "emergencyBy.unlanded");
}

TEST(Recommend, WhereABoardChangesOverTheControlDoesNot) {
  EXPECT_EQ(derived(row(testing::kRowJ)).find("dualFuel")->derived, "outdoor");
  const Sheet kit = derived(row(testing::kRowJWithKit));
  EXPECT_EQ(valueOf(kit, "system"), "dualFuel");
  EXPECT_EQ(kit.find("dualFuel")->derived, "off");
  EXPECT_EQ(kit.find("dualFuel")->reason, "dualFuel.kit");
  EXPECT_EQ(valueOf(kit, "emergencyBy"), "W2") << "through the board";
}

TEST(Recommend, LockOutsMayNotLeaveAGap) {
  const sheet::Sheet sheet = heatPumpSheet();
  const auto gap = [&](double above, double below) {
    const auto got = derived(sheet, choosing({{"auxiliaryAbove", degrees(above).c_str()},
                                              {"compressorBelow", degrees(below).c_str()}}));
    const Conflict* found = conflict(got, "lock-out-gap");
    if (found != nullptr) {
      EXPECT_EQ(found->severity, Severity::stop);
      EXPECT_EQ(&got.conflicts.front(), found) << "the worst stands first";
    }
    return found != nullptr;
  };
  EXPECT_TRUE(gap(30, 35));
  EXPECT_FALSE(gap(35, 35));
  EXPECT_FALSE(gap(40, 5));
  EXPECT_EQ(conflict(derived(sheet, choosing({{"auxiliaryAbove", "never"}, {"compressorBelow", "20"}})),
                     "lock-out-gap"),
            nullptr);
}

TEST(Recommend, LockOutsStandOnTheSheetWhereTheCheckReadsThem) {
  const sheet::Sheet set = withValue(heatPumpSheet(), library(), "auxiliaryAbove", "-5");
  const Sheet unsaid = derived(set);
  EXPECT_EQ(valueOf(unsaid, "auxiliaryAbove"), "-5");
  EXPECT_TRUE(unsaid.find("auxiliaryAbove")->wired);
  EXPECT_EQ(unsaid.find("auxiliaryAbove")->origin, Origin::differs);
  const Sheet said = derived(set, choosing({{"auxiliaryAbove", "-5"}}));
  EXPECT_EQ(said.find("auxiliaryAbove")->origin, Origin::overridden);
  EXPECT_EQ(said.find("auxiliaryAbove")->note, "asked for");
  const Sheet other = derived(set, choosing({{"auxiliaryAbove", "3"}}));
  EXPECT_EQ(valueOf(other, "auxiliaryAbove"), "-5") << "what the circuit reads goes before";
  EXPECT_EQ(other.find("auxiliaryAbove")->note, "");
  EXPECT_TRUE(derived(heatPumpSheet()).find("compressorBelow")->wired);
  EXPECT_EQ(withDerived(heatPumpSheet(), library()).settings.all().count("auxiliaryAbove"), 0u);
}

TEST(Recommend, AuxiliaryOutBelowTheBalancePointIsTooLittleHeat) {
  sheet::Sheet sheet = heatPumpSheet();
  sheet::Unit outdoor = *sheet.unitByTag("O");
  outdoor.nameplate["balancePoint"] = "35";
  sheet.units.put(outdoor);
  EXPECT_EQ(valueOf(derived(sheet), "auxiliaryAbove"), degrees(40));
  const auto low = degrees(33);
  EXPECT_NE(conflict(derived(sheet, choosing({{"auxiliaryAbove", low.c_str()}})), "lock-out-short"), nullptr);
  Control celsius = choosing({{"auxiliaryAbove", "34"}});
  celsius.wishes.scale = "celsius";
  EXPECT_NE(conflict(derived(sheet, celsius), "lock-out-short"), nullptr) << "35 typed where C is read";
}

TEST(Recommend, WishesGoBeforeCustom) {
  Control control;
  control.wishes.changeover = "automatic";
  control.wishes.heatMost = fromFahrenheit(78);
  control.wishes.scale = "celsius";
  control.wishes.keeper = "manager";
  control.wishes.auxiliaryWhenMild = true;
  const Sheet got = derived(heatPumpSheet(), control);
  EXPECT_EQ(valueOf(got, "changeover"), "automatic");
  EXPECT_EQ(got.find("changeover")->source, "wish");
  EXPECT_EQ(valueOf(got, "heatMost"), degrees(78));
  EXPECT_EQ(got.find("heatMost")->origin, Origin::derived);
  EXPECT_EQ(got.find("coolLeast")->origin, Origin::toConfirm) << "custom alone: a person looks";
  EXPECT_EQ(valueOf(got, "scale"), "celsius");
  EXPECT_EQ(valueOf(got, "keeper"), "manager");
  EXPECT_EQ(valueOf(got, "auxiliaryAbove"), "never");
}

TEST(Recommend, WishesThatCannotBe) {
  Control control;
  control.wishes.changeover = "automatic";
  control.wishes.heatAt = 21;
  const Sheet cooling = derived(placed({{"T", "rc-1h1c-common"}, {"O", "od-cool-1"}}), control);
  EXPECT_EQ(valueOf(cooling, "system"), "cooling");
  EXPECT_EQ(std::count_if(cooling.conflicts.begin(), cooling.conflicts.end(),
                          [](const auto& c) { return c.rule == "wish-unfit"; }),
            2);
  control.wishes.coolAt = 21 + fromFahrenheitSteps(2);
  const Sheet both = derived(testing::rowA(), control);
  ASSERT_NE(conflict(both, "set-points-cross"), nullptr);
  control.wishes.coolAt = 21 + fromFahrenheitSteps(3);
  EXPECT_EQ(conflict(derived(testing::rowA(), control), "set-points-cross"), nullptr)
      << "exactly apart is enough";
  control.wishes.heatAt = 30;
  EXPECT_NE(conflict(derived(testing::rowA(), control), "set-point-outside"), nullptr);
}

TEST(Recommend, RatesUnderTheProtection) {
  const Sheet fast = derived(testing::rowA(), choosing({{"cycles.compressor1", "5"}}));
  const Conflict* held = conflict(fast, "rate-held");
  ASSERT_NE(held, nullptr);
  EXPECT_EQ(held->terms[1].value, "0.6");
  EXPECT_EQ(fast.find("cycles.compressor1")->origin, Origin::overridden);
  EXPECT_EQ(fast.find("cycles.compressor1")->derived, "3");
  EXPECT_EQ(fast.find("cycles.compressor1")->note, "asked for");
  EXPECT_EQ(conflict(derived(testing::rowA(), choosing({{"cycles.burner1", "9"}})), "rate-held"), nullptr)
      << "only compressors are protected";
  EXPECT_NE(conflict(derived(testing::rowA(), choosing({{"minimumOff", "120"}})), "off-time-short"), nullptr);
  // An outdoor unit with its own timer keeps its three minutes whatever the control does.
  const auto timed = placed({{"T", "rc-1h1c-common"}, {"F", "furnace-1"}, {"O", "od-cool-1-timer"}});
  const Sheet own = derived(timed, choosing({{"minimumOff", "0"}, {"cycles.compressor1", "6"}}));
  ASSERT_NE(conflict(own, "rate-held"), nullptr);
  EXPECT_EQ(conflict(own, "rate-held")->terms[3].value, "180");
}

TEST(Recommend, ABurnerInABoilerHeatsWater) {
  equipment::Library own = library();
  auto boiler = std::make_shared<equipment::Profile>(*own.find("furnace-1"));
  boiler->kind = equipment::Kind::boiler;
  own.profiles["furnace-1"] = boiler;
  const Sheet got = recommend(placed({{"T", "rc-1h1c-common"}, {"B", "furnace-1"}}), own, {});
  EXPECT_EQ(valueOf(got, "heatKind"), "water");
  EXPECT_EQ(valueOf(got, "cycles.burner1"), "3");
  EXPECT_EQ(got.find("cycles.burner1")->reason, "cycles.water");
}

TEST(Recommend, PowerOfTheControl) {
  const std::pair<const char*, const char*> kPower[] = {{"rc-1h1c-common", "common"},
                                                        {"rc-1h1c-battery", "battery"},
                                                        {"rc-series-fed", "series"},
                                                        {"rc-millivolt", "thermopile"}};
  for (const auto& [profile, power] : kPower)
    EXPECT_EQ(valueOf(derived(placed({{"T", profile}})), "power"), power) << profile;
}

TEST(Recommend, ConfirmedStaysConfirmedOnlyWhileItIsWhatIsDerived) {
  sheet::Sheet sheet = heatPumpSheet();
  const Control control = choosing({{"compressorBelow", degrees(5).c_str()}});
  EXPECT_EQ(derived(sheet, control).find("compressorBelow")->origin, Origin::confirmed);
  EXPECT_EQ(derived(sheet).open(), 4U) << "both lock-outs, both limits";
  EXPECT_EQ(derived(sheet, control).open(), 3U);
}

TEST(Recommend, ControlIsReadBackAsItWasWritten) {
  Control control = choosing({{"minimumOff", "240"}, {"cycles.compressor1", "4"}, {"rvSense", "heating"}});
  control.wishes = {"switchable", "celsius", "nothing", "manager", 20.5, 25.25, 24, 21, false, 60.0, 6.0};
  quantity::Problems problems;
  EXPECT_EQ(readControl(writeControl(control), "/control", problems), control);
  EXPECT_EQ(readControl(writeControl({}), "/control", problems), Control{});
  EXPECT_TRUE(problems.empty());
}

TEST(Recommend, EveryProblemOfAControlIsTold) {
  const auto bad =
      nlohmann::json::parse(R"({"wishes": {"changeover": "maybe", "heatAt": 400, "colour": "red"},
    "choices": [{"key": "minimumOff", "value": "long"}, {"key": "nonsense", "value": "1"},
                {"key": "scale", "value": "celsius"}, {"key": "scale", "value": "celsius"}]})");
  quantity::Problems problems;
  readControl(bad, "/control", problems);
  std::set<std::string> keys;
  for (const auto& problem : problems) keys.insert(problem.key + " " + problem.where);
  EXPECT_EQ(keys, (std::set<std::string>{
                      "unknown-word /control/wishes/changeover", "out-of-range /control/wishes/heatAt",
                      "unknown-member /control/wishes/colour", "setting-value /control/choices/0/value",
                      "unknown-word /control/choices/1/key", "id-doubled /control/choices/3/key"}));
}

}  // namespace
}  // namespace ww::recommend
