// SPDX-License-Identifier: GPL-3.0-or-later
// Beside each valve and damper the picture says what that one does, not what the first of its kind does;
// jumpers show what they carry.
#include <gtest/gtest.h>

#include "drawing/diagram.h"
#include "drawing/overlay.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/font_advances.h"
#include "support/reference_rows_water.h"
#include "support/shared_conductor.h"

namespace ww::drawing {
namespace {

TEST(OverlayOfZones, EveryValveHasItsOwnRow) {
  const auto& library = equipment::standardLibrary();
  const sheet::Sheet sheet = *sheet::readCsv(testing::kRowE, library).value;
  const Diagram diagram = layout(sheet, library, testing::tableMeasure, {});
  const auto solution = operation::solveSheet(sheet, library);
  const auto* call = solution.call("zone2.heat1");
  ASSERT_NE(call, nullptr);
  const operation::CallDemand* demand = nullptr;
  for (const auto& entry : solution.table)
    if (entry.call == "zone2.heat1") demand = &entry;
  const Overlay shown =
      overlay(diagram, sheet, library, call->result, demand, testing::tableMeasure, [](const Row& row) {
        return RowWords{row.duty, row.speed};
      });
  int valves = 0;
  for (const Row& row : shown.rows) {
    if (!row.duty.starts_with("zoneValve")) continue;
    ++valves;
    const std::string tag = sheet.units.find(row.unit)->tag;
    EXPECT_EQ(row.duty, "zoneValve" + tag.substr(1));
    EXPECT_EQ(row.state, tag == "V2" ? DutyState::runs : DutyState::off) << tag;
  }
  EXPECT_EQ(valves, 3);
}

/// The look of the sheet's only jumper in a call.
WireLook jumperIn(const std::string& csv, const char* call) {
  const auto& library = equipment::standardLibrary();
  const sheet::Sheet sheet = *sheet::readCsv(csv, library).value;
  const Diagram diagram = layout(sheet, library, testing::tableMeasure, {});
  const auto solution = operation::solveSheet(sheet, library);
  const Overlay shown = overlay(diagram, sheet, library, solution.call(call)->result, nullptr,
                                testing::tableMeasure, [](const Row&) { return RowWords{}; });
  for (const sheet::Conductor& wire : sheet.conductors)
    if (wire.isJumper()) return *shown.look(wire.id);
  ADD_FAILURE() << "no jumper";
  return {};
}

TEST(OverlayOfJumpers, AreLiveWithTheirScrewAndCarryWhatMeetsAtTheirSplice) {
  const WireLook pigtail = jumperIn(testing::kRowShared, "rest");
  EXPECT_EQ(pigtail.state, WireState::carriesCurrent) << "what control and receiver draw";
  EXPECT_FALSE(pigtail.aToB) << "from the splice back to the common screw";
  const std::string hots = testing::kRowK + ",,,,,RD,T,RC,T,RH,\n";
  EXPECT_EQ(jumperIn(hots, "rest").state, WireState::liveNoCurrent);
  const std::string commons = testing::kRowP + ",,,,,BU,A,C,A,/N,\n";
  EXPECT_EQ(jumperIn(commons, "rest").state, WireState::atRest);
}

}  // namespace
}  // namespace ww::drawing
