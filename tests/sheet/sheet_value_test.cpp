// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "support/reference_sheets.h"

namespace ww::sheet {
namespace {

using ww::testing::rowA;
using ww::testing::rowG;

TEST(SheetValue, aCopySharesItsRowsUntilOneChanges) {
  const Sheet original = rowA();
  Sheet copy = original;
  EXPECT_EQ(&copy.conductors.rows(), &original.conductors.rows());
  Conductor wire = copy.conductors.rows().front();
  wire.endB = Loose{};
  copy.conductors.put(wire);
  EXPECT_NE(copy, original);
  EXPECT_EQ(&copy.cables.rows(), &original.cables.rows());
  EXPECT_EQ(original, rowA());
  copy.conductors.put(original.conductors.rows().front());
  EXPECT_EQ(copy, original);
}

TEST(SheetValue, idsAreNeverUsedAgain) {
  Sheet sheet = rowA();
  const ConductorId last = sheet.conductors.rows().back().id;
  sheet.conductors.erase(last);
  EXPECT_EQ(sheet.conductors.find(last), nullptr);
  EXPECT_GT(number(sheet.addConductor({})), number(last));
}

TEST(SheetValue, tablesStayInIdOrder) {
  Table<Unit> table;
  for (const int id : {5, 1, 3}) {
    Unit unit;
    unit.id = UnitId{id};
    table.put(unit);
  }
  std::vector<int> ids;
  for (const Unit& unit : table) ids.push_back(number(unit.id));
  EXPECT_EQ(ids, (std::vector<int>{1, 3, 5}));
}

TEST(SheetValue, rowsAreFoundByTagAndName) {
  const Sheet sheet = rowA();
  ASSERT_NE(sheet.unitByTag("F"), nullptr);
  EXPECT_EQ(sheet.unitByTag("F")->profile, "furnace-1");
  EXPECT_EQ(sheet.unitByTag("f"), nullptr);
  ASSERT_NE(sheet.cableByName("2"), nullptr);
  EXPECT_EQ(sheet.cableByName("3"), nullptr);
  EXPECT_EQ(conductorsOf(sheet, sheet.cableByName("1")->id).size(), 5u);
  EXPECT_EQ(conductorsOf(sheet, sheet.cableByName("2")->id).size(), 2u);
}

TEST(SheetValue, anEndLiesInItsTerminalsUnitElseInTheCables) {
  Sheet sheet = rowG();
  const UnitId control = sheet.unitByTag("T")->id, handler = sheet.unitByTag("A")->id;
  for (const Conductor& wire : sheet.conductors)
    if (wire.cable == sheet.cableByName("1")->id) {  // the capped spare among them
      EXPECT_EQ(unitOfEnd(sheet, wire, true), control);
      EXPECT_EQ(unitOfEnd(sheet, wire, false), handler);
    }
  EXPECT_EQ(unitOfEnd(sheet, Conductor{}, true), std::nullopt);
}

TEST(SheetValue, endsPrintAsAPersonWritesThem) {
  const Sheet sheet = rowA();
  const UnitId furnace = sheet.unitByTag("F")->id;
  EXPECT_EQ(print(sheet, TerminalRef{furnace, "W"}), "F.W");
  EXPECT_EQ(print(sheet, Splice{furnace, "S1"}), "F/S1");
  EXPECT_EQ(print(sheet, Loose{}), "");
  EXPECT_EQ(print(sheet, Capped{}), "*");
}

TEST(SheetValue, aUnitsOwnSettingGoesBeforeTheCommonOne) {
  settings::Values values;
  values.set("rvSense", "cooling");
  values.set("T2.rvSense", "heating");
  EXPECT_EQ(values.find("T1", "rvSense"), "cooling");
  EXPECT_EQ(values.find("T2", "rvSense"), "heating");
  EXPECT_EQ(values.find("T1", "tap"), std::nullopt);
}

}  // namespace
}  // namespace ww::sheet
