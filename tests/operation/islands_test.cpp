// SPDX-License-Identifier: GPL-3.0-or-later
// Units that no conductor joins are solved apart; the answer is that of the whole.
#include "operation/islands.h"

#include <gtest/gtest.h>

#include "support/reference_sheets.h"

namespace ww::operation {
namespace {

std::vector<sheet::Sheet> islandsOf(const sheet::Sheet& sheet) {
  return operation::islandsOf(sheet, asbuilt::compile(sheet, equipment::standardLibrary()));
}

/// Houses of row A and an outdoor unit that nobody landed. `link`: from the one furnace to the next.
sheet::Sheet street(int houses = 3, const std::vector<testing::Strand>& link = {}) {
  sheet::Sheet sheet;
  sheet::UnitId before{};
  for (int house = 1; house <= houses; ++house) {
    const std::string n = std::to_string(house);
    const auto tag = [&](const char* letter) { return letter + n; };
    const auto t = testing::addUnit(sheet, tag("T").c_str(), "rc-1h1c-common", "hall");
    const auto f = testing::addUnit(sheet, tag("F").c_str(), "furnace-1", "closet");
    const auto o = testing::addUnit(sheet, tag("O").c_str(), "od-cool-1", "yard");
    testing::addCable(
        sheet, tag("a").c_str(), 15, t, f,
        {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
    testing::addCable(sheet, tag("b").c_str(), 12, f, o, {{"YE", "Y", "Y"}, {"BU", "C", "C"}});
    if (house > 1 && !link.empty()) testing::addCable(sheet, tag("c").c_str(), 12, before, f, link);
    before = f;
  }
  testing::addUnit(sheet, "X", "od-cool-1", "yard");
  return sheet;
}

TEST(Islands, AreWhatConductorsJoin) {
  const auto islands = islandsOf(street());
  ASSERT_EQ(islands.size(), 4u);
  for (size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(islands[i].units.size(), 3u);
    EXPECT_EQ(islands[i].cables.size(), 2u);
    EXPECT_EQ(islands[i].conductors.size(), 7u);
  }
  EXPECT_EQ(islands[3].units.size(), 1u);
  EXPECT_EQ(islandsOf(testing::rowG()).size(), 1u);
}

void expectSameAnswer(const sheet::Sheet& sheet) {
  const auto& library = equipment::standardLibrary();
  const auto apart = solveSheet(sheet, library, {}, Depth::across);
  const auto whole = solveCircuit(std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(sheet, library)),
                                  {}, {}, Depth::across);
  ASSERT_EQ(apart.calls.size(), whole.calls.size());
  for (size_t i = 0; i < apart.calls.size(); ++i) {
    const SolvedCall &one = apart.calls[i], &other = whole.calls[i];
    const std::string& call = other.result.call;
    EXPECT_EQ(one.result.call, call);
    EXPECT_EQ(one.result.state, other.result.state) << call;
    EXPECT_EQ(one.result.duties, other.result.duties) << call;
    EXPECT_EQ(one.positions, other.positions) << call;
    ASSERT_EQ(one.result.coils.size(), other.result.coils.size());
    for (size_t k = 0; k < one.result.coils.size(); ++k) {
      EXPECT_EQ(one.result.coils[k].unit, other.result.coils[k].unit);
      EXPECT_EQ(one.result.coils[k].state, other.result.coils[k].state);
      EXPECT_NEAR(one.result.coils[k].sealed.si(), other.result.coils[k].sealed.si(), 1e-9);
    }
    ASSERT_EQ(one.result.terminals.size(), other.result.terminals.size());
    for (size_t k = 0; k < one.result.terminals.size(); ++k) {
      EXPECT_EQ(one.result.terminals[k].terminal, other.result.terminals[k].terminal);
      EXPECT_NEAR(std::abs(one.result.terminals[k].volts), std::abs(other.result.terminals[k].volts), 1e-6);
    }
    ASSERT_EQ(one.result.wires.size(), other.result.wires.size());
    for (size_t k = 0; k < one.result.wires.size(); ++k) {
      EXPECT_EQ(one.result.wires[k].conductor, other.result.wires[k].conductor);
      EXPECT_NEAR(std::abs(one.result.wires[k].amps), std::abs(other.result.wires[k].amps), 1e-9);
    }
    ASSERT_EQ(one.result.sources.size(), other.result.sources.size());
    for (size_t k = 0; k < one.result.sources.size(); ++k)
      EXPECT_NEAR(one.result.sources[k].amps.si(), other.result.sources[k].amps.si(), 1e-9);
    EXPECT_EQ(one.at(0.92) != nullptr, other.at(0.92) != nullptr);
  }
}

TEST(Islands, TheAnswerIsThatOfTheWhole) {
  ASSERT_EQ(solveSheet(street(), equipment::standardLibrary()).calls.size(), 10u);
  expectSameAnswer(street());
}

TEST(Islands, WhatHangsOnOneCommonIsApart) {
  const auto joined = street(3, {{"BU", "C", "C"}});
  const auto islands = islandsOf(joined);
  ASSERT_EQ(islands.size(), 4u);
  EXPECT_EQ(islands[1].conductors.size(), 7u) << "without the link";
  expectSameAnswer(joined);
}

TEST(Islands, TwoCommonsInParallelAreStillOnePlace) {
  const auto joined = street(2, {{"BU", "C", "C"}, {"BK", "C", "C"}});
  EXPECT_EQ(islandsOf(joined).size(), 3u);
  expectSameAnswer(joined);
}

TEST(Islands, AnythingBesidesTheCommonKeepsThemTogether) {
  EXPECT_EQ(islandsOf(street(2, {{"BU", "C", "C"}, {"YE", "Y", "Y"}})).size(), 2u);
  EXPECT_EQ(islandsOf(street(2, {{"RD", "R", "R"}})).size(), 2u) << "hot to hot";
  EXPECT_EQ(islandsOf(street(2, {{"RD", "R", "C"}})).size(), 2u);
}

/// An outdoor unit whose common is landed at two houses' commons closes a ring through its own conductors.
TEST(Islands, ARingThroughAUnitKeepsThemTogether) {
  auto joined = street(2, {{"BU", "C", "C"}});
  const auto unit = [&](const char* tag) { return joined.unitByTag(tag)->id; };
  testing::addCable(joined, "ring", 12, unit("O1"), unit("F2"), {{"BU", "C", "C"}});
  EXPECT_EQ(islandsOf(joined).size(), 2u);
  expectSameAnswer(joined);
}

/// A second furnace of the first house has a transformer and a way out of its own: what its input draws comes
/// back through the other house.
TEST(Islands, TwoCommonsOfOneHouseKeepTheNextWithIt) {
  auto joined = street(2, {{"BU", "C", "C"}});
  const auto unit = [&](const char* tag) { return joined.unitByTag(tag)->id; };
  const auto second = testing::addUnit(joined, "G1", "furnace-1", "attic");
  testing::addCable(joined, "d", 12, unit("F1"), second, {{"YE", "Y", "Y"}});
  testing::addCable(joined, "e", 12, second, unit("F2"), {{"BU", "C", "C"}});
  EXPECT_EQ(islandsOf(joined).size(), 2u);
  expectSameAnswer(joined);
}

/// More than 40 units that cannot be told apart: only what a call moves is carried on.
TEST(Islands, ManyUnitsOnOneHotCarryOnWhatACallMoves) {
  const auto solution = solveSheet(street(14, {{"RD", "R", "R"}}), equipment::standardLibrary());
  const SolvedCall* call = solution.call("zone2.heat1");
  ASSERT_NE(call, nullptr);
  EXPECT_EQ(call->at(0.92), nullptr);
  ASSERT_FALSE(call->variants.empty());
  for (const Variant& variant : call->variants) {
    const auto& device = solution.circuit->devices[size_t(variant.safety)];
    EXPECT_EQ(solution.circuit->units[size_t(device.unit)].tag, "F2");
  }
}

/// Work is near-linear: of twice the units it takes hardly more than twice.
void expectNearLinear(const std::vector<testing::Strand>& link) {
  const auto work = [&](int houses) {
    return solveSheet(street(houses, link), equipment::standardLibrary(), {}, Depth::across).work;
  };
  const Work hundred = work(33), twoHundred = work(67);  // 100 and 202 units
  EXPECT_GT(hundred.solves, 1000);
  EXPECT_GT(hundred.statements, 10000);
  EXPECT_LE(double(twoHundred.total()), 2.4 * double(hundred.total()));
  EXPECT_LE(double(twoHundred.solves), 2.4 * double(hundred.solves));
}

TEST(Islands, TheWorkForSeparateHousesIsNearLinear) { expectNearLinear({}); }

TEST(Islands, TheWorkForAllHousesOnOneCommonIsNearLinear) { expectNearLinear({{"BU", "C", "C"}}); }

}  // namespace
}  // namespace ww::operation
