// SPDX-License-Identifier: GPL-3.0-or-later
// Accessories beside the reference wirings, units that are refused, and sensors. What each does: common
// practice, no source.
#include <gmock/gmock.h>

#include "support/installation.h"
#include "support/reference_rows_water.h"

namespace ww::operation {
namespace {

using testing::edited;
using testing::Installation;
using ::testing::IsEmpty;
using testing::kRowO;
using testing::sheetOf;
using ::testing::UnorderedElementsAre;
using testing::with;

const equipment::Library& library() { return equipment::standardLibrary(); }

const std::string kHumidifier = "9,18,2,1,m,BN,F,HUM,H,H1,\n9,18,2,1,m,BU,F,C,H,H2,\n";

TEST(Accessories, AHumidifierRunsWithTheBlowerOnly) {
  const std::string unit = "#unit,H,humidifier-relay\n";
  const Solution solution = solveSheet(sheetOf(with(testing::kRowA, unit, kHumidifier)), library());
  for (const SolvedCall& call : solution.calls) {
    std::vector<std::string> runs;
    for (const auto& duty : call.result.duties) runs.push_back(dutyName(duty.duty));
    const bool humid = std::count(runs.begin(), runs.end(), "humidify") > 0;
    EXPECT_EQ(humid, call.result.call == "heat1") << call.result.call;
  }
  for (const CallDemand& demand : solution.table)
    EXPECT_EQ(std::count(demand.may.begin(), demand.may.end(), "humidify"), demand.call != "rest")
        << demand.call;
}

TEST(Accessories, FedFromTheHotItWaitsForAir) {
  const std::string row =
      with(testing::kRowA, "#unit,H,humidifier-relay\n", edited(kHumidifier, "F,HUM", "F,R"));
  Installation house(row);
  house.call("rest");
  EXPECT_THAT(house.runs(), IsEmpty());
  house.call("fan");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("blower", "humidify"));
  house.world("H", "noAir", true);
  house.call("fan");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("blower"));
}

TEST(Accessories, VentilationCallsTheBlowerByItsEndSwitch) {
  // The damper hangs on the fan call of a wall switch: here straight on R.
  const std::string row = with(testing::kRowA, "#unit,V,vent-damper\n",
                               "9,18,4,2,m,RD,F,R,V,V1,\n9,18,4,2,m,BU,F,C,V,V2,\n"
                               "9,18,4,2,m,BN,F,R,V,E1,\n9,18,4,2,m,GN,F,G,V,E2,\n");
  Installation house(row);
  house.call("rest");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("ventilate", "blower"));
  EXPECT_NEAR(house.when("V", "ventOpen"), 30, 0.1);
}

/// A three-wire valve, which may not touch T-T, with the isolation relay it needs.
const std::string kIsolated = R"(#unit,T,rc-heat-only-2wire
#unit,B,boiler-tt
#unit,V,zonevalve-3wire
#unit,Z,transformer-addon
#unit,K,isolation-relay
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,1,5,m,RD,T,R,Z,R,
2,18,1,5,m,WH,T,W,V,M,
3,18,1,5,m,BU,V,C,Z,C,
4,18,1,5,m,WH,V,ES,K,A1,
5,18,1,5,m,BU,Z,C,K,A2,
6,18,2,5,m,RD,K,COM,B,T1,
6,18,2,5,m,WH,K,NO,B,T2,
)";

TEST(Accessories, AnIsolationRelayKeepsTheCircuitsApart) {
  Installation house(kIsolated);
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("zoneValve1", "boiler", "pump"));
  const auto& circuit = house.circuit();
  const auto relay = house.unit("K");
  for (const char* coil : {"A1", "A2"})
    for (const char* contact : {"NO", "COM", "NC"})
      EXPECT_EQ(house.machine().solver().quality(circuit.node({relay, coil}), circuit.node({relay, contact})),
                circuit::Quality::floating)
          << coil << " " << contact;
}

TEST(Accessories, ATimeDelayRelayWaitsOrHolds) {
  const std::string units = "#unit,D,time-delay-relay\n#set,D.seconds,180\n#set,D.mode,";
  const std::string wires = "9,18,3,1,m,GN,F,G,D,A1,\n9,18,3,1,m,BU,F,C,D,A2,\n9,18,3,1,m,RD,F,R,D,COM,\n";
  Installation later(with(testing::kRowA, units + "onDelay\n", wires));
  later.call("rest");
  later.call("fan");
  EXPECT_NEAR(later.when("D", "later"), 180, 0.1);
  Installation longer(with(testing::kRowA, units + "offDelay\n", wires));
  longer.call("rest");
  longer.call("fan");
  longer.call("rest");
  EXPECT_NEAR(longer.when("D", "longer", false), 180, 0.1);
}

TEST(Accessories, AFanRelayIsABlower) {
  const std::string row =
      edited(kRowO, "cable,gauge",
             "#unit,Z,transformer-addon\n#unit,G,fan-relay\n#unit,C,rc-1h1c-common\ncable,gauge") +
      "2,18,2,5,m,RD,C,R,Z,R,\n2,18,2,5,m,BU,C,C,Z,C,\n3,18,1,5,m,GN,C,G,G,A1,\n"
      "4,18,1,5,m,BU,Z,C,G,A2,\n";
  Installation house(row);
  house.call("rest");
  house.call("zone2.fan");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("blower"));
}

TEST(Accessories, SafetiesStandInTheirCircuit) {
  for (const char* profile :
       {"float-switch", "pressure-switch-high", "pressure-switch-low", "limit-switch", "smoke-shutdown"}) {
    // In the outdoor unit's Y.
    const std::string row = edited(
        edited(testing::kRowA, "2,18,2,12,m,YE,F,Y,O,Y,", "3,18,1,9,m,YE,S,B,O,Y,\n4,18,1,1,m,YE,F,Y,S,A,"),
        "2,18,2,12,m,BU", "2,18,1,12,m,BU");
    Installation house(with(row, std::string("#unit,S,") + profile + "\n", ""));
    house.call("rest");
    house.call("cool1");
    EXPECT_THAT(house.runs(), UnorderedElementsAre("compressor1", "blower")) << profile;
    const auto& world = library().find(profile)->world;
    ASSERT_EQ(world.size(), 1U) << profile;
    house.world("S", world.begin()->first, true);
    house.call("cool1");
    EXPECT_THAT(house.runs(), UnorderedElementsAre("blower")) << profile;
  }
}

TEST(Refused, UnitsHaveAReasonAndNothingToSolve) {
  for (const auto& [id, reason] :
       {std::pair("refused-line-voltage", "lineVoltage"), std::pair("refused-data-bus", "dataBus"),
        std::pair("refused-unknown", "unknown"), std::pair("rc-refused-modulating", "modulating")}) {
    const auto* profile = library().find(id);
    ASSERT_NE(profile, nullptr) << id;
    EXPECT_EQ(profile->refusal, reason);
    EXPECT_EQ(profile->kind, equipment::Kind::refused);
    EXPECT_TRUE(profile->elements.empty());
    for (const auto& terminal : profile->terminals)
      EXPECT_TRUE(terminal.role == equipment::Role::line || terminal.role == equipment::Role::data) << id;
  }
}

TEST(Sensors, OhmsFollowTheTemperature) {
  // 10 kohm at 25 C, beta 3950 (from memory): 58 k at -10, 33.6 k at 0, 20.2 k at 10, 6.5 k at 35 C.
  for (const auto& [celsius, kilohms] :
       {std::pair("-20", 105.0), {"-10", 58.0}, {"0", 33.6}, {"10", 20.2}, {"25", 10.0}, {"35", 6.5}}) {
    const auto circuit = asbuilt::compile(
        sheetOf(std::string("#unit,S,sensor-outdoor-pair\n#set,S.outdoorCelsius,") + celsius +
                "\ncable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n"),
        library());
    const auto& sensor = std::get<equipment::ResistorPart>(circuit.devices.at(0).part);
    EXPECT_NEAR(sensor.resistance.si() / 1000, kilohms, 0.015 * kilohms) << celsius;
  }
}

}  // namespace
}  // namespace ww::operation
