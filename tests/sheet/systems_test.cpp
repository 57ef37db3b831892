// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/systems.h"

#include <gtest/gtest.h>

#include "equipment/schema.h"
#include "sheet/removal.h"
#include "support/told.h"

namespace ww::sheet {
namespace {

const equipment::Library& library() { return equipment::standardLibrary(); }

std::string withUnits(const std::string& units, const std::string& cables) {
  return R"({"format": "wirewright-systems", "version": 1, "source": "a test", "systems": [{"id": "Q",
    "title": {"en": "x", "es": "y"}, "units": [)" +
         units + R"(], "cables": [)" + cables + "]}]}";
}

const std::string kTwo = R"({"tag": "T", "profile": "rc-1h1c-common"}, {"tag": "F", "profile": "furnace-1"})";

TEST(Systems, EveryShippedKindCanBePlacedAndIsLoose) {
  ASSERT_GE(standardSystems().size(), 3u);
  for (const SystemKind& kind : standardSystems()) {
    const Sheet sheet = withSystem({}, kind);
    EXPECT_EQ(sheet.units.size(), kind.units.size()) << kind.id;
    EXPECT_EQ(sheet.cables.size(), kind.cables.size()) << kind.id;
    size_t wires = 0;
    for (const auto& run : kind.cables) wires += size_t(run.conductors);
    EXPECT_EQ(sheet.conductors.size(), wires) << kind.id;
    for (const Conductor& wire : sheet.conductors) {
      EXPECT_TRUE(std::holds_alternative<Loose>(wire.endA)) << kind.id;
      EXPECT_TRUE(std::holds_alternative<Loose>(wire.endB)) << kind.id;
      EXPECT_NE(wire.colour.body, Insulation::unknown) << kind.id;
    }
    EXPECT_EQ(sheet.settings.all(), kind.settings) << kind.id;
  }
}

TEST(Systems, EveryShippedKindIsKnownAsItself) {
  for (const SystemKind& kind : standardSystems())
    EXPECT_EQ(systemOf(withSystem({}, kind), standardSystems(), library()), kind.id);
}

TEST(Systems, TakenTagsAndNamesGetANumber) {
  const SystemKind& kind = standardSystems().front();
  const Sheet twice = withSystem(withSystem({}, kind), kind);
  EXPECT_NE(twice.unitByTag("T"), nullptr);
  EXPECT_NE(twice.unitByTag("T2"), nullptr);
  EXPECT_NE(twice.cableByName("4"), nullptr);
  EXPECT_EQ(freeTag(twice, *library().find("furnace-1")), "F3");
}

TEST(Systems, AUnitGoesWithItsCablesAndSettings) {
  Sheet sheet = withSystem({}, standardSystems().front());
  sheet.settings.set("F.fuse", "fuse5");
  sheet.settings.set("fanWithHeat", "control");
  const Sheet left = withoutUnit(sheet, sheet.unitByTag("F")->id);
  EXPECT_EQ(left.units.size(), 2u);
  EXPECT_TRUE(left.cables.empty());
  EXPECT_TRUE(left.conductors.empty());
  EXPECT_EQ(left.settings.all(), (std::map<std::string, std::string>{{"fanWithHeat", "control"}}));
  const Sheet ends = withoutUnit(sheet, sheet.unitByTag("O")->id);
  EXPECT_EQ(ends.cables.size(), 1u);
  EXPECT_EQ(ends.conductors.size(), 5u);
  EXPECT_EQ(withoutUnit(sheet, UnitId{999}), sheet);
}

TEST(Systems, BadFilesAreToldWithTheirPlace) {
  const auto problems = [](const std::string& text) {
    return testing::told(readSystems(text, library()).problems);
  };
  EXPECT_TRUE(readSystems(withUnits(kTwo, ""), library()));
  EXPECT_EQ(problems(withUnits(R"({"tag": "T", "profile": "nothing-such"})", "")),
            std::vector<std::string>{"/systems/0/units/0/profile unknown-profile"});
  EXPECT_EQ(problems(withUnits(
                R"({"tag": "T", "profile": "furnace-1"}, {"tag": "T", "profile": "furnace-1"})", "")),
            std::vector<std::string>{"/systems/0/units/1/tag tag-doubled"});
  EXPECT_EQ(
      problems(withUnits(kTwo, R"({"from": "T", "to": "K", "gauge": "18", "conductors": 5, "metres": 15})")),
      std::vector<std::string>{"/systems/0/cables/0/to unit-not-there"});
  EXPECT_EQ(
      problems(withUnits(kTwo, R"({"from": "T", "to": "T", "gauge": "18", "conductors": 5, "metres": 15})")),
      std::vector<std::string>{"/systems/0/cables/0/to cable-one-unit"});
  EXPECT_EQ(
      problems(withUnits(kTwo, R"({"from": "T", "to": "F", "gauge": "fat", "conductors": 0, "metres": 0})")),
      (std::vector<std::string>{"/systems/0/cables/0/gauge bad-gauge",
                                "/systems/0/cables/0/conductors out-of-range",
                                "/systems/0/cables/0/metres length-out-of-range"}));
  EXPECT_FALSE(problems("[]").empty());
  EXPECT_FALSE(problems("").empty());
}

TEST(Systems, TheShippedFileMeetsItsSchema) {
  EXPECT_EQ(testing::told(equipment::schemaProblems(shippedSystems().front().text, "systems.schema")),
            std::vector<std::string>{});
}

}  // namespace
}  // namespace ww::sheet
