// SPDX-License-Identifier: GPL-3.0-or-later
// Circuits that contradict themselves, and sheets of any size: a typed outcome, never a number that is none.
#include <gtest/gtest.h>

#include <cmath>

#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "support/sheet_edits.h"
#include "support/small_units.h"

namespace ww::operation {
namespace {

using ww::testing::addJumper;
using ww::testing::element;
using ww::testing::joinedJson;
using ww::testing::resistor;
using ww::testing::SmallUnit;

bool finite(const std::complex<double>& value) {
  return std::isfinite(value.real()) && std::isfinite(value.imag());
}

void expectNumbers(const Solution& solution) {
  ASSERT_FALSE(solution.calls.empty());
  for (const SolvedCall& call : solution.calls) {
    for (const auto& terminal : call.result.terminals) EXPECT_TRUE(finite(terminal.volts));
    for (const auto& wire : call.result.wires) EXPECT_TRUE(finite(wire.amps) && finite(wire.volts));
    for (const auto& coil : call.result.coils)
      for (const double value :
           {coil.pullIn.si(), coil.sealed.si(), coil.pullInLow.si(), coil.sealedLow.si(), coil.amps.si()})
        EXPECT_TRUE(std::isfinite(value)) << coil.part;
    for (const auto& source : call.result.sources)
      EXPECT_TRUE(std::isfinite(source.amps.si()) && std::isfinite(source.loadPercent));
    for (const auto& melted : call.result.melted)
      EXPECT_TRUE(std::isfinite(melted.amps.si()) && std::isfinite(melted.after.si()));
    for (const auto& variant : call.variants)
      for (const auto& load : variant.loads) EXPECT_TRUE(std::isfinite(load.volts.si()));
  }
}

Solution across(const sheet::Sheet& sheet, const equipment::Library& library) {
  return solveSheet(sheet, library, {}, Depth::across);
}

TEST(OddSheets, ASourceShortedWithoutAnyOhms) {
  SmallUnit unit;
  unit.terminals = {"R:hot", "C:common"};
  unit.elements = joinedJson({element("XF", "R", "C", "XF40"), element("K", "R", "C", "K4"),
                              R"({"id": "B", "a": "R", "b": "C", "part": "B3"})"});
  auto sheet = ww::testing::sheetOf({unit});
  addJumper(sheet, sheet.unitByTag("U1")->id, "R", "C");
  const auto solution = across(sheet, ww::testing::libraryOf({unit}));
  expectNumbers(solution);
  EXPECT_NEAR(solution.calls[0].result.sources[0].amps.si(), 27.6 / 2.16, 0.01);
  EXPECT_EQ(solution.calls[0].result.coils[0].state, CoilState::out);
}

TEST(OddSheets, AJumperBesideTheFuseIsToldAsAShort) {
  auto sheet = ww::testing::rowA();
  addJumper(sheet, sheet.unitByTag("F")->id, "R", "C");
  const auto solution = across(sheet, equipment::standardLibrary());
  expectNumbers(solution);
  ASSERT_EQ(solution.call("rest")->result.melted.size(), 1u);
  EXPECT_EQ(solution.call("rest")->result.melted[0].cause, MeltCause::shortCircuit);
  EXPECT_EQ(solution.call("rest")->result.state, CallState::fuseOpen);
}

TEST(OddSheets, LoopsOfJumpers) {
  auto sheet = ww::testing::rowA();
  const auto furnace = sheet.unitByTag("F")->id;
  const char* ring[] = {"W", "Y", "G", "HUM"};
  for (size_t i = 0; i < 4; ++i)
    for (int twice = 0; twice < 2; ++twice) addJumper(sheet, furnace, ring[i], ring[(i + 1) % 4]);
  addJumper(sheet, furnace, "W", "W");
  const auto solution = across(sheet, equipment::standardLibrary());
  expectNumbers(solution);
  EXPECT_TRUE(solution.call("rest")->result.melted.empty());
}

TEST(OddSheets, EveryEndLoose) {
  auto sheet = ww::testing::rowG();
  const std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  for (sheet::Conductor wire : rows) {
    wire.endA = wire.endB = sheet::Loose{};
    sheet.conductors.put(wire);
  }
  const auto solution = across(sheet, equipment::standardLibrary());
  expectNumbers(solution);
  for (const auto& call : solution.calls)
    for (const auto& wire : call.result.wires) EXPECT_EQ(std::abs(wire.amps), 0);
}

TEST(OddSheets, NoUnitsAndNoWires) {
  expectNumbers(across(sheet::Sheet(), equipment::standardLibrary()));
  sheet::Sheet lone;
  ww::testing::addUnit(lone, "T", "rc-1h1c-common", "hall");
  expectNumbers(across(lone, equipment::standardLibrary()));
}

TEST(OddSheets, IslandsHaveNoVoltsBetweenThem) {
  sheet::Sheet sheet = ww::testing::rowA();
  const auto alone = ww::testing::addUnit(sheet, "F2", "furnace-1", "cellar");
  const auto other = ww::testing::addUnit(sheet, "V", "od-cool-1", "yard");
  ww::testing::addCable(sheet, "9", 5, alone, other, {{"YE", "Y", "Y"}});
  const auto solution = across(sheet, equipment::standardLibrary());
  expectNumbers(solution);
  for (const auto& terminal : solution.calls[0].result.terminals)
    if (terminal.terminal.unit == other && terminal.terminal.terminal == "C") {
      EXPECT_NE(terminal.quality, circuit::Quality::ghost);
    }
}

TEST(OddSheets, AbsurdRatings) {
  // The ends of what a profile may say, against each other.
  SmallUnit unit;
  unit.terminals = {"R:hot", "C:common", "T:tie"};
  unit.elements = joinedJson(
      {R"({"id": "XF", "a": "x", "b": "C", "part": {"kind": "transformer", "va": 1, "volts": 60,
          "regulation": 0.5}})",
       R"({"id": "X2", "a": "R", "b": "C", "part": {"kind": "transformer", "va": 500, "volts": 1,
          "regulation": 0.01}})",
       R"({"id": "F", "a": "x", "b": "R", "part": {"kind": "fuse", "amps": 0.1, "ohms": 0.0001,
          "meltingAmpSquaredSeconds": 0.01}})",
       R"({"id": "F2", "a": "x", "b": "T", "part": {"kind": "fuse", "amps": 100, "ohms": 10000000,
          "meltingAmpSquaredSeconds": 1000000}})",
       R"({"id": "B", "a": "R", "b": "C", "part": {"kind": "supply", "va": 500, "powerFactor": 0.01}})",
       R"({"id": "B2", "a": "T", "b": "C", "part": {"kind": "supply", "va": 0.01, "powerFactor": 1,
          "outBelowVolts": 0, "backAtVolts": 0.001}})",
       R"({"id": "O", "a": "R", "b": "T", "part": {"kind": "solidState", "dropVolts": 10}, "closedBy": "true"})",
       resistor("L", "T", "C", 1e-4)});
  auto sheet = ww::testing::sheetOf({unit});
  sheet.settings.set("lineVolts", "600");
  const auto solution = across(sheet, ww::testing::libraryOf({unit}));
  expectNumbers(solution);
}

TEST(OddSheets, TenThousandConductorsSideBySide) {
  auto sheet = ww::testing::rowA();
  const auto t = sheet.unitByTag("T")->id, f = sheet.unitByTag("F")->id;
  for (int k = 0; k < 2000; ++k)
    ww::testing::addCable(
        sheet, ("c" + std::to_string(k)).c_str(), 15, t, f,
        {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
  const auto solution = solveSheet(sheet, equipment::standardLibrary());
  EXPECT_EQ(solution.circuit->wires.size(), 10007u);
  expectNumbers(solution);
  EXPECT_EQ(solution.call("cool1")->result.state, CallState::ok);
}

TEST(OddSheets, TenThousandConductorsEndToEnd) {
  sheet::Sheet sheet = ww::testing::rowA();
  const auto t = sheet.unitByTag("T")->id, f = sheet.unitByTag("F")->id;
  sheet::Cable cable;
  cable.name = "long";
  cable.length = quantity::Metres(0.01);
  cable.endA = t;
  cable.endB = f;
  const auto id = sheet.addCable(cable);
  sheet::Landing from = sheet::TerminalRef{t, "R"};
  for (int k = 0; k < 10000; ++k) {
    sheet::Conductor wire;
    wire.cable = id;
    wire.endA = from;
    from = k == 9999 ? sheet::Landing(sheet::TerminalRef{f, "HUM"})
                     : sheet::Landing(sheet::Splice{f, "s" + std::to_string(k)});
    wire.endB = from;
    sheet.addConductor(wire);
  }
  const auto solution = solveSheet(sheet, equipment::standardLibrary());
  EXPECT_GT(solution.circuit->plan->nodes(), 10000);
  expectNumbers(solution);
}

TEST(OddSheets, ShuffledRowsGiveTheSameAnswer) {
  const auto sheet = ww::testing::rowG();
  const auto solution = across(sheet, equipment::standardLibrary());
  sheet::Sheet shuffled = sheet;
  const std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  shuffled.conductors = {};
  for (size_t i = 0; i < rows.size(); ++i) shuffled.conductors.put(rows[(i * 5 + 3) % rows.size()]);
  ASSERT_EQ(shuffled.conductors.size(), rows.size());
  const auto again = across(shuffled, equipment::standardLibrary());
  ASSERT_EQ(again.calls.size(), solution.calls.size());
  for (size_t i = 0; i < solution.calls.size(); ++i) {
    const CallResult &one = solution.calls[i].result, &other = again.calls[i].result;
    EXPECT_EQ(one.duties, other.duties);
    EXPECT_EQ(one.state, other.state);
    ASSERT_EQ(one.coils.size(), other.coils.size());
    for (size_t k = 0; k < one.coils.size(); ++k)
      EXPECT_NEAR(one.coils[k].sealed.si(), other.coils[k].sealed.si(), 1e-9);
  }
}

}  // namespace
}  // namespace ww::operation
