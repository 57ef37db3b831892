// SPDX-License-Identifier: GPL-3.0-or-later
// End states at low and high line and with each safety open, and circuits whose bonds nobody knows.
#include <gtest/gtest.h>

#include <algorithm>

#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "support/sheet_edits.h"
#include "support/small_units.h"

namespace ww::operation {
namespace {

using ww::testing::contact;
using ww::testing::element;
using ww::testing::joinedJson;

Solution across(const sheet::Sheet& sheet) {
  return solveSheet(sheet, equipment::standardLibrary(), {}, Depth::across);
}

int deviceOf(const asbuilt::AsBuilt& circuit, const std::string& name) {
  for (size_t i = 0; i < circuit.devices.size(); ++i)
    if (circuit.element(circuit.devices[i]).id == name) return int(i);
  throw std::invalid_argument(name);
}

bool runs(const std::vector<RunningDuty>& duties, const std::string& duty) {
  return std::any_of(duties.begin(), duties.end(), [&](const auto& d) { return d.duty == duty; });
}

class Rows : public ::testing::TestWithParam<sheet::Sheet (*)()> {};

TEST_P(Rows, AHealthySheetRunsTheSameAtEveryLineWithVoltsInProportion) {
  const Solution solution = across(GetParam()());
  for (const SolvedCall& call : solution.calls)
    for (const double line : {solution.lines.low, solution.lines.high}) {
      const Variant* variant = call.at(line);
      ASSERT_NE(variant, nullptr);
      EXPECT_EQ(variant->duties, call.result.duties) << call.result.call << " at " << line;
      EXPECT_EQ(variant->state, CallState::ok);
      ASSERT_EQ(variant->sources.size(), call.result.sources.size());
      // Supplies draw constant power, the rest in proportion.
      for (size_t i = 0; i < variant->sources.size(); ++i)
        EXPECT_NEAR(variant->sources[i].volts / call.result.sources[i].volts, line, 0.01);
      for (const LoadState& load : variant->loads) {
        const auto& circuit = *solution.circuit;
        const auto& device = circuit.devices[size_t(load.device)];
        const auto same =
            std::find_if(call.result.coils.begin(), call.result.coils.end(), [&](const CoilResult& coil) {
              return coil.part == circuit.element(device).id &&
                     coil.unit == circuit.units[size_t(device.unit)].id;
            });
        ASSERT_NE(same, call.result.coils.end());
        if (line == solution.lines.low) {
          EXPECT_NEAR(load.volts.si(), same->sealedLow.si(), 1e-9);
        }
      }
    }
}
INSTANTIATE_TEST_SUITE_P(Reference, Rows,
                         ::testing::Values(&ww::testing::rowA, &ww::testing::rowB, &ww::testing::rowG));

TEST(Variants, AnOpenSafetyStopsItsDutyAndNoOther) {
  const Solution solution = across(ww::testing::rowA());
  const auto& circuit = *solution.circuit;
  const SolvedCall& cool = *solution.call("cool1");
  ASSERT_TRUE(runs(cool.result.duties, "compressor1"));
  const Variant* pressure = cool.without(deviceOf(circuit, "HP"));
  ASSERT_NE(pressure, nullptr);
  EXPECT_FALSE(runs(pressure->duties, "compressor1"));
  EXPECT_TRUE(runs(pressure->duties, "blower:cool1")) << "the board does not know";
  const SolvedCall& heat = *solution.call("heat1");
  EXPECT_EQ(heat.without(deviceOf(circuit, "HP")), nullptr) << "carries nothing in heating";
  for (const char* name : {"LIM", "RO", "DS"}) {
    const Variant* open = heat.without(deviceOf(circuit, name));
    ASSERT_NE(open, nullptr) << name;
    EXPECT_FALSE(runs(open->duties, "burner1")) << name;
  }
}

TEST(Variants, ASafetyThatIsBypassedStopsNothing) {
  auto sheet = ww::testing::rowA();
  // The outdoor unit's pressure switches are inside; from Y a jumper cannot pass them. Bypassed is what the
  // wiring lets: the coil fed past the switch of a unit of its own.
  ww::testing::SmallUnit unit;
  unit.id = "bypassed";
  unit.terminals = {"R:hot", "C:common", "T:tie", "Q:tie"};
  unit.elements = joinedJson({element("XF", "R", "C", "XF40"), R"({"id": "LIM", "a": "R", "b": "T",
    "part": "safety", "closedBy": "!world.a"})",
                              element("K", "T", "C", "K4"), ww::testing::resistor("Z", "T", "Q", 1)});
  unit.facts = {{"a", false}};
  unit.duties = {{"pump", "in(K)"}};
  auto small = ww::testing::sheetOf({unit});
  const auto library = ww::testing::libraryOf({unit});
  const auto open = [&](const sheet::Sheet& which) {
    const auto solution = solveSheet(which, library, {}, Depth::across);
    const Variant* variant = solution.calls[0].without(deviceOf(*solution.circuit, "LIM"));
    return variant == nullptr ? false : runs(variant->duties, "pump");
  };
  EXPECT_FALSE(open(small));
  ww::testing::addJumper(small, small.unitByTag("U1")->id, "R", "Q");
  EXPECT_TRUE(open(small));
}

TEST(Variants, NothingIsCarriedOnWhereCallsAreEnough) {
  const Solution solution = solveSheet(ww::testing::rowA(), equipment::standardLibrary(), {}, Depth::calls);
  for (const SolvedCall& call : solution.calls) EXPECT_TRUE(call.variants.empty());
  EXPECT_EQ(solution.calls[0].at(0.92), nullptr);
}

TEST(Variants, ALowLineLetsGoWhatHoldsByAHair) {
  ww::testing::SmallUnit unit;
  unit.terminals = {"R:hot", "C:common"};
  unit.elements = joinedJson({element("XF", "R", "C", "XF40"), R"({"id": "K", "a": "R", "b": "C",
    "part": {"kind": "coil", "sealed": {"va": 4, "powerFactor": 0.5}, "inrush": {"va": 8, "powerFactor": 0.7},
    "dcOhms": 38, "pullInTypicalVolts": 26, "pullInGuaranteedVolts": 26.2, "dropOutVolts": 25.5}})"});
  unit.duties = {{"pump", "in(K)"}};
  const auto solution =
      solveSheet(ww::testing::sheetOf({unit}), ww::testing::libraryOf({unit}), {}, Depth::across);
  EXPECT_TRUE(runs(solution.calls[0].result.duties, "pump"));
  EXPECT_FALSE(runs(solution.calls[0].at(0.92)->duties, "pump"));
  EXPECT_TRUE(runs(solution.calls[0].at(1.10)->duties, "pump"));
}

// --- bonds ---

/// A source whose common is bonded as said, and a load on its hot alone.
sheet::Sheet hotAlone(ww::testing::SmallUnit& source, ww::testing::SmallUnit& load) {
  source.id = "source";
  source.terminals = {"R:hot", "C:common"};
  source.elements = joinedJson({element("XF", "R", "C", "XF40")});
  load.id = "load";
  load.terminals = {"R:hot", "C:common"};
  load.elements = joinedJson({element("K", "R", "C", "K4")});
  load.duties = {{"pump", "in(K)"}};
  auto sheet = ww::testing::sheetOf({source, load});
  ww::testing::addCable(sheet, "1", 10, sheet.unitByTag("U1")->id, sheet.unitByTag("U2")->id,
                        {{"RD", "R", "R"}});
  return sheet;
}

TEST(Bonds, UnknownIsSolvedBothWaysAndToldWhereItDiffers) {
  ww::testing::SmallUnit source, load;
  source.bond = "bonded";
  load.bond = "unknown";
  const auto sheet = hotAlone(source, load);
  const auto solution = solveSheet(sheet, ww::testing::libraryOf({source, load}));
  ASSERT_EQ(solution.ifBonded.size(), solution.calls.size());
  EXPECT_FALSE(runs(solution.calls[0].result.duties, "pump")) << "no way back, as far as anybody knows";
  EXPECT_TRUE(runs(solution.ifBonded[0].result.duties, "pump")) << "back through metal";
  EXPECT_EQ(solution.callsThatBondingChanges(), std::vector<std::string>{"rest"});
}

TEST(Bonds, OneAloneCannotMatter) {
  ww::testing::SmallUnit source, load;
  source.bond = "floating";
  load.bond = "unknown";
  const auto sheet = hotAlone(source, load);
  const auto solution = solveSheet(sheet, ww::testing::libraryOf({source, load}));
  EXPECT_TRUE(solution.ifBonded.empty());
  EXPECT_TRUE(solution.callsThatBondingChanges().empty());
}

TEST(Bonds, HotOnMetalIsADeadShortWhenBondedAndNothingWhenFloating) {
  for (const char* bond : {"bonded", "floating"}) {
    ww::testing::SmallUnit source, load;
    source.bond = bond;
    load.bond = "bonded";
    auto sheet = hotAlone(source, load);
    source.elements = joinedJson({element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3")});
    const auto library = ww::testing::libraryOf({source, load});
    auto circuit = std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(sheet, library));
    asbuilt::Conditions conditions;
    const int hot = circuit->node({sheet.unitByTag("U1")->id, "R"});
    conditions.overrides = {asbuilt::bridgeOf(hot, circuit->bondings[0].b, 0.1)};
    const auto solution = solveCircuit(circuit, conditions);
    const bool bonded = bond == std::string("bonded");
    EXPECT_EQ(solution.calls[0].result.melted.size(), bonded ? 1u : 0u) << bond;
    if (bonded) {
      EXPECT_EQ(solution.calls[0].result.melted.at(0).cause, MeltCause::shortCircuit);
    }
  }
}

}  // namespace
}  // namespace ww::operation
