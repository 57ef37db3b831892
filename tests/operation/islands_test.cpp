// SPDX-License-Identifier: GPL-3.0-or-later
// Units that no conductor joins are solved apart; the answer is that of the whole.
#include "operation/islands.h"

#include <gtest/gtest.h>

#include "support/reference_sheets.h"

namespace ww::operation {
namespace {

/// Three houses of row A and an outdoor unit that nobody landed.
sheet::Sheet street() {
  sheet::Sheet sheet;
  for (const char* n : {"1", "2", "3"}) {
    const auto tag = [&](const char* letter) { return std::string(letter) + n; };
    const auto t = testing::addUnit(sheet, tag("T").c_str(), "rc-1h1c-common", "hall");
    const auto f = testing::addUnit(sheet, tag("F").c_str(), "furnace-1", "closet");
    const auto o = testing::addUnit(sheet, tag("O").c_str(), "od-cool-1", "yard");
    testing::addCable(
        sheet, tag("a").c_str(), 15, t, f,
        {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
    testing::addCable(sheet, tag("b").c_str(), 12, f, o, {{"YE", "Y", "Y"}, {"BU", "C", "C"}});
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

TEST(Islands, TheAnswerIsThatOfTheWhole) {
  const auto sheet = street();
  const auto& library = equipment::standardLibrary();
  const auto apart = solveSheet(sheet, library, {}, Depth::across);
  const auto whole = solveCircuit(std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(sheet, library)),
                                  {}, {}, Depth::across);
  ASSERT_EQ(apart.calls.size(), whole.calls.size());
  ASSERT_EQ(apart.calls.size(), 10u);
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

}  // namespace
}  // namespace ww::operation
