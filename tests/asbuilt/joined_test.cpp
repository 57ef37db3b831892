// SPDX-License-Identifier: GPL-3.0-or-later
// Screws that are one piece of metal inside a unit, and bonds of units that have no common screw.
#include <gtest/gtest.h>

#include "asbuilt/as_built.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows_water.h"

namespace ww::asbuilt {
namespace {

AsBuilt circuitOf(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  return compile(*sheet::readCsv(csv, library).value, library);
}

sheet::UnitId unitOf(const AsBuilt& circuit, const std::string& tag) {
  for (const auto& unit : circuit.units)
    if (unit.tag == tag) return unit.id;
  return {};
}

TEST(Joined, ScrewsOfAPanelAreOneNode) {
  const AsBuilt circuit = circuitOf(testing::kRowN);
  const auto panel = unitOf(circuit, "P");
  const auto at = [&](const char* terminal) { return circuit.node({panel, terminal}); };
  for (const char* hot : {"R1", "R2", "R3"}) EXPECT_EQ(at(hot), at("XR")) << hot;
  for (const char* common : {"C1", "C2", "C3", "DC1", "DC2", "DC3"})
    EXPECT_EQ(at(common), at("XC")) << common;
  EXPECT_NE(at("XR"), at("XC"));
  EXPECT_NE(at("ER"), at("XR")) << "the equipment's hot stays apart";
}

TEST(Joined, ABoilerWithoutACommonScrewIsBondedAtItsTransformer) {
  const AsBuilt circuit = circuitOf(testing::kRowK);
  const auto boiler = unitOf(circuit, "B");
  const auto* transformer = circuit.device(boiler, "XF");
  int bonds = 0;
  for (const Bonding& bonding : circuit.bondings)
    if (circuit.units[size_t(bonding.unit)].id == boiler) {
      ++bonds;
      EXPECT_EQ(bonding.a, transformer->b);
      EXPECT_TRUE(bonding.known);
    }
  EXPECT_EQ(bonds, 1);
}

}  // namespace
}  // namespace ww::asbuilt
