// SPDX-License-Identifier: GPL-3.0-or-later
// What equipment and control cannot do together, on units written for the test: each rule is provoked once
// and once not.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/reference_sheets.h"
#include "support/small_units.h"
#include "verify/check.h"

namespace ww::verify {
namespace {

using testing::contact;
using testing::element;
using testing::joinedJson;
using testing::SmallUnit;

using Wires = std::vector<testing::Strand>;

struct Pair {
  SmallUnit control, equipment;
  Wires wires;
};

/// A control with screws R, C and one per call; equipment with a transformer and these inputs.
Pair pairOf(const std::vector<std::pair<std::string, std::string>>& callsByScrew,
            const std::vector<std::string>& inputs) {
  Pair pair;
  pair.control.id = "control";
  pair.control.kind = "roomControl";
  pair.control.terminals = {"R:hot", "C:common"};
  std::vector<std::string> contacts;
  for (const auto& [screw, call] : callsByScrew) {
    const std::string id = screw.substr(0, screw.find(':'));
    pair.control.terminals.push_back(screw);
    if (call.empty()) continue;
    contacts.push_back(contact(("K" + id).c_str(), "R", id.c_str(), ("call." + call).c_str()));
    pair.control.calls.push_back(call);
  }
  pair.control.elements = joinedJson(contacts);
  pair.equipment.id = "equipment";
  pair.equipment.kind = "furnace";
  pair.equipment.terminals = {"R:hot", "C:common"};
  std::vector<std::string> elements{element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3")};
  for (const std::string& input : inputs) {
    pair.equipment.terminals.push_back(input + ":callIn");
    elements.push_back(element(input.c_str(), input.c_str(), "C", "IN5"));
  }
  pair.equipment.elements = joinedJson(elements);
  pair.wires = {{"RD", "R", "R"}, {"BU", "C", "C"}};
  return pair;
}

std::vector<std::string> rulesOf(const Pair& pair) {
  auto sheet = testing::sheetOf({pair.control, pair.equipment});
  testing::addCable(sheet, "1", 10, sheet.unitByTag("U1")->id, sheet.unitByTag("U2")->id, pair.wires);
  const auto library = testing::libraryOf({pair.control, pair.equipment});
  std::vector<std::string> rules;
  for (const auto& finding : check(sheet, operation::solveSheet(sheet, library)).findings)
    rules.push_back(finding.rule);
  return rules;
}

using ::testing::Contains;
using ::testing::Not;

TEST(FitRules, HeatIsCalledAndNothingHeats) {
  Pair pair = pairOf({{"W:callOut:heat1", "heat1"}}, {"W", "G"});
  pair.equipment.duties = {{"blower", "seen(G)"}};
  EXPECT_THAT(rulesOf(pair), Not(Contains("heat-impossible"))) << "not landed";
  pair.wires.push_back({"WH", "W", "W"});
  EXPECT_THAT(rulesOf(pair), Contains("heat-impossible"));
  pair.equipment.duties.emplace_back("burner1", "seen(W)");
  EXPECT_THAT(rulesOf(pair), Not(Contains("heat-impossible")));
}

TEST(FitRules, ASecondStageIsCalledWithoutTheFirst) {
  Pair pair = pairOf({{"W1:callOut:heat1", "heat1"}, {"W2:callOut:heat2", "heat2"}}, {"W1", "W2"});
  pair.equipment.duties = {{"burner1", "seen(W1)"}, {"burner2", "seen(W1) & seen(W2)"}};
  pair.control.elements = joinedJson(
      {contact("KW1", "R", "W1", "call.heat1 | call.heat2"), contact("KW2", "R", "W2", "call.heat2")});
  Pair right = pair;
  right.wires.push_back({"WH", "W1", "W1"});
  right.wires.push_back({"BN", "W2", "W2"});
  EXPECT_THAT(rulesOf(right), Not(Contains("stage-orphan")));
  Pair swapped = pair;
  swapped.wires.push_back({"WH", "W1", "W2"});
  swapped.wires.push_back({"BN", "W2", "W1"});
  EXPECT_THAT(rulesOf(swapped), Contains("stage-orphan"));
}

TEST(FitRules, ASecondStageThatNoCallReaches) {
  Pair pair = pairOf({{"W1:callOut:heat1", "heat1"}}, {"W1", "W2"});
  pair.equipment.duties = {{"burner1", "seen(W1)"}, {"burner2", "seen(W1) & seen(W2)"}};
  pair.wires.push_back({"WH", "W1", "W1"});
  EXPECT_THAT(rulesOf(pair), Contains("stage-orphan"));
  pair.equipment.duties[1].second = "seen(W1) & (seen(W1) on 600)";
  EXPECT_THAT(rulesOf(pair), Not(Contains("stage-orphan"))) << "the board brings it on by itself";
}

TEST(FitRules, TheBlowerRunsAgainstShutDampers) {
  Pair pair = pairOf({{"G:callOut:blower", "fan"}}, {"G", "D"});
  pair.equipment.duties = {{"blower", "seen(G)"}, {"damper1", "seen(D)"}};
  pair.wires.push_back({"GN", "G", "G"});
  EXPECT_THAT(rulesOf(pair), Contains("dampers-shut"));
  pair.equipment.duties[1].second = "seen(G)";
  EXPECT_THAT(rulesOf(pair), Not(Contains("dampers-shut")));
}

TEST(FitRules, WaterInTheDuctWithoutBlower) {
  Pair pair = pairOf({{"H:callOut:humidify", "fan"}}, {"H"});
  pair.equipment.duties = {{"humidify", "seen(H)"}, {"blower", "!seen(H)"}};
  pair.wires.push_back({"VT", "H", "H"});
  EXPECT_THAT(rulesOf(pair), Contains("humidifier-without-blower"));
  pair.equipment.duties[1].second = "seen(H)";
  EXPECT_THAT(rulesOf(pair), Not(Contains("humidifier-without-blower")));
}

/// A valve that takes 15 s; its end switch starts the boiler, or a pair of the control does.
TEST(FitRules, ABoilerAheadOfItsValve) {
  SmallUnit source, valve, boiler;
  source.id = "source";
  source.kind = "roomControl";
  source.terminals = {"M:callOut", "N:common", "D1:dry", "D2:dry"};
  source.elements = joinedJson({element("XF", "x0", "N", "XF40"), contact("K", "x0", "M", "call.heat1"),
                                contact("KD", "D1", "D2", "call.heat1")});
  source.calls = {"heat1"};
  valve.id = "valve";
  valve.kind = "zoneValve";
  valve.terminals = {"M:callIn", "N:common", "E1:dry", "E2:dry"};
  valve.elements = joinedJson({element("ZM", "M", "N", "ZM6"), contact("ES", "E1", "E2", "open")});
  valve.logic = {"open := in(ZM) on 15"};
  valve.duties = {{"zoneValve1", "open"}};
  boiler.id = "boiler";
  boiler.kind = "boiler";
  boiler.terminals = {"T1:dry", "T2:dry"};
  boiler.elements = joinedJson({element("XF", "T1", "b", "XF40"), element("KR", "T2", "b", "K4")});
  boiler.duties = {{"boiler", "in(KR)"}};
  const auto library = testing::libraryOf({source, valve, boiler});
  const auto rules = [&](const char* from, const std::vector<testing::Strand>& strands) {
    auto sheet = testing::sheetOf({source, valve, boiler});
    const auto id = [&](const char* tag) { return sheet.unitByTag(tag)->id; };
    testing::addCable(sheet, "1", 5, id("U1"), id("U2"), {{"RD", "M", "M"}, {"WH", "N", "N"}});
    testing::addCable(sheet, "2", 5, id(from), id("U3"), strands);
    std::vector<std::string> found;
    for (const auto& finding : check(sheet, operation::solveSheet(sheet, library)).findings)
      found.push_back(finding.rule);
    return found;
  };
  EXPECT_THAT(rules("U2", {{"YE", "E1", "T1"}, {"GN", "E2", "T2"}}), Not(Contains("duty-early")));
  EXPECT_THAT(rules("U1", {{"YE", "D1", "T1"}, {"GN", "D2", "T2"}}), Contains("duty-early"));
}

/// Where nobody knows whether commons are bonded, what would go wrong if they were is told, and said so.
TEST(FitRules, WhatAnUnknownBondWouldDoIsTold) {
  SmallUnit source, load;
  source.id = "source";
  source.bond = "bonded";
  source.terminals = {"R:hot", "C:common"};
  source.elements = joinedJson({element("XF", "R", "C", "XF40")});
  load.id = "load";
  load.bond = "unknown";
  load.terminals = {"R:hot", "C:common"};
  load.elements = joinedJson({element("K", "R", "C", "K4")});
  load.duties = {{"pump", "in(K)"}};
  auto sheet = testing::sheetOf({source, load});
  testing::addCable(sheet, "1", 10, sheet.unitByTag("U1")->id, sheet.unitByTag("U2")->id, {{"RD", "R", "R"}});
  const auto findings =
      check(sheet, operation::solveSheet(sheet, testing::libraryOf({source, load}))).findings;
  const auto atRest = std::find_if(findings.begin(), findings.end(),
                                   [](const auto& finding) { return finding.rule == "load-at-rest"; });
  ASSERT_NE(atRest, findings.end());
  EXPECT_TRUE(std::any_of(atRest->arguments.begin(), atRest->arguments.end(),
                          [](const auto& argument) { return argument.name == "bond"; }));
  load.bond = "floating";
  for (const auto& finding :
       check(sheet, operation::solveSheet(sheet, testing::libraryOf({source, load}))).findings)
    EXPECT_NE(finding.rule, "load-at-rest");
}

}  // namespace
}  // namespace ww::verify
