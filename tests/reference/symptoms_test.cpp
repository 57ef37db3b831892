// SPDX-License-Identifier: GPL-3.0-or-later
// What a meter finds at a fault that systems A, B and G can have. The faults and what they read are common
// practice of fault finding, no source; the figures follow from the circuit.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "operation/machine.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"

namespace ww::operation {
namespace {

using sheet::TerminalRef;
using testing::edited;
using testing::kRowA;
using testing::kRowB;
using testing::kRowG;

/// A sheet in some state, with two probes and a clamp.
class Bench {
 public:
  explicit Bench(const std::string& csv, const std::string& call, Facts facts = {})
      : sheet_(*sheet::readCsv(csv, equipment::standardLibrary()).value),
        circuit_(asbuilt::compile(sheet_, equipment::standardLibrary())),
        machine_(circuit_),
        solver_(circuit_.plan) {
    machine_.powerUp(facts);
    facts.call = call;
    end_ = machine_.run(facts);
    positions_ = machine_.positions();
    solve();
  }
  Bench(const Bench&) = delete;

  sheet::UnitId unit(const std::string& tag) const { return sheet_.unitByTag(tag)->id; }
  RunEnd end() const { return end_; }
  const Machine& machine() const { return machine_; }
  const asbuilt::Device& device(const std::string& tag, const std::string& part) const {
    return *circuit_.device(unit(tag), part);
  }
  size_t index(const std::string& tag, const std::string& part) const {
    return size_t(&device(tag, part) - circuit_.devices.data());
  }
  bool pulledIn(const std::string& tag, const std::string& coil) const {
    return machine_.positions().pulledIn[index(tag, coil)] != 0;
  }

  /// Pulls a fuse or opens a contact and leaves everything else as it stands.
  void open(const std::string& tag, const std::string& part) {
    positions_.closed[index(tag, part)] = 0;
    solve();
  }
  /// Breaks an element inside; the rest stays as it stands.
  void breakInside(const std::string& tag, const std::string& part) {
    solver_.setBranch(device(tag, part).branch, {});
    solver_.solve();
  }

  double volts(const std::string& tagA, const std::string& a, const std::string& tagB,
               const std::string& b) const {
    return reading(circuit_.node({unit(tagA), a}), circuit_.node({unit(tagB), b}));
  }
  double across(const std::string& tag, const std::string& part) const {
    return reading(device(tag, part).a, device(tag, part).b);
  }
  /// Amps through every conductor of a cable, by colour code.
  double clamp(const std::string& cable, const std::string& colour) const {
    for (const auto& wire : circuit_.wires) {
      const auto* conductor = sheet_.conductors.find(wire.conductor);
      if (sheet_.cables.find(*conductor->cable)->name == cable && sheet::print(conductor->colour) == colour)
        return std::abs(solver_.current(wire.branch));
    }
    ADD_FAILURE() << "no such conductor";
    return -1;
  }
  std::vector<std::string> duties() const {
    std::vector<std::string> running;
    for (size_t u = 0; u < circuit_.units.size(); ++u)
      for (const auto& duty : circuit_.units[u].profile->duties)
        if (machine_.logic(int(u)).value(duty.running)) running.push_back(duty.name);
    return running;
  }

 private:
  void solve() { asbuilt::solve(circuit_, positions_, {}, solver_); }
  double reading(int a, int b) const {
    const auto read = solver_.read(a, b);
    EXPECT_NE(read.quality, circuit::Quality::floating);
    return read.value ? std::abs(*read.value) : -1;
  }

  sheet::Sheet sheet_;
  asbuilt::AsBuilt circuit_;
  Machine machine_;
  asbuilt::Positions positions_;
  circuit::Solver<circuit::Phasor> solver_;
  RunEnd end_ = RunEnd::settled;
};

TEST(Symptoms, CommonOpenOutdoorsPutsBothScrewsAtTheSupply) {
  const Bench bench(edited(kRowA, "BU,F,C,O,C", "BU,F,C,O,"), "cool1");
  const double supply = bench.volts("F", "R", "F", "C");
  EXPECT_GT(supply, 26);
  EXPECT_NEAR(bench.volts("O", "Y", "O", "C"), 0, 1e-6);
  EXPECT_NEAR(bench.volts("O", "Y", "F", "C"), supply, 0.5);
  EXPECT_NEAR(bench.volts("O", "C", "F", "C"), supply, 0.5);
  EXPECT_FALSE(bench.pulledIn("O", "CC"));
}

TEST(Symptoms, OpenContactorCoilHasTheSupplyAcrossItAndNoCurrent) {
  Bench bench(kRowA, "cool1");
  EXPECT_GT(bench.clamp("2", "YE"), 0.25);
  bench.breakInside("O", "CC");
  EXPECT_NEAR(bench.across("O", "CC"), bench.volts("F", "R", "F", "C"), 0.3);
  EXPECT_NEAR(bench.clamp("2", "YE"), 0, 1e-9);
}

TEST(Symptoms, OpenFuseHasTheSupplyBeforeItNothingAfterAndAllAcross) {
  Bench bench(kRowA, "cool1");
  bench.open("F", "F");
  const double supply = bench.across("F", "XF");
  EXPECT_NEAR(supply, 24 * 1.15, 0.01) << "nothing loads it any more";
  EXPECT_NEAR(bench.volts("F", "R", "F", "C"), 0, 1e-6);
  EXPECT_NEAR(bench.across("F", "F"), supply, 0.01);
}

TEST(Symptoms, AJointOfTenOhmsLooksFineAtRestAndFailsAtInrush) {
  // A conductor of its own that has ten ohms more than the fifteen metres need.
  const double more = 10 / quantity::copperResistance({}, quantity::Metres(1), quantity::Celsius(20)).si();
  std::string poor =
      edited(kRowA, "1,18,5,15,m,RD,T,R,F,R,", "3,18,1," + std::to_string(15 + more) + ",m,RD,T,R,F,R,");
  for (int k = 0; k < 4; ++k) poor = edited(poor, "1,18,5,", "1,18,4,");
  const Bench rest(poor, "rest");
  EXPECT_GT(rest.volts("T", "R", "T", "C"), 26);
  EXPECT_GT(Bench(kRowA, "rest").volts("T", "R", "T", "C") - rest.volts("T", "R", "T", "C"), 0.3);
  const auto sheet = sheet::readCsv(poor, equipment::standardLibrary());
  ASSERT_TRUE(sheet);
  const auto solution = solveSheet(*sheet.value, equipment::standardLibrary());
  const auto& result = solution.call("cool1")->result;
  EXPECT_TRUE(result.state == CallState::chatter || result.state == CallState::hum);
  for (const auto& coil : result.coils)
    if (coil.part == "CC") {
      EXPECT_TRUE(coil.state == CoilState::chatter || coil.state == CoilState::hum);
      EXPECT_LT(coil.pullIn.si(), 17.3);
    }
}

TEST(Symptoms, SwappedYAndGLookRightInCoolingAndRunTheCompressorOnFan) {
  const std::string swapped = edited(edited(kRowA, "YE,T,Y,F,Y", "YE,T,Y,F,G"), "GN,T,G,F,G", "GN,T,G,F,Y");
  EXPECT_THAT(Bench(swapped, "cool1").duties(), ::testing::UnorderedElementsAre("compressor1", "blower"));
  const Bench fan(swapped, "fan");
  EXPECT_THAT(fan.duties(), ::testing::UnorderedElementsAre("compressor1"));
  EXPECT_TRUE(fan.pulledIn("O", "CC"));
}

TEST(Symptoms, ValveOutputLandedOnCommonIsAShortOnlyWhenItIsEnergised) {
  // The control drives its valve screw in heating; that conductor lies on the common of the air handler.
  const auto sheet = sheet::readCsv(
      edited(edited(kRowG, "rvSense,cooling", "rvSense,heating"), "OG,T,RV,A,O", "OG,T,RV,A,C"),
      equipment::standardLibrary());
  ASSERT_TRUE(sheet);
  const auto solution = solveSheet(*sheet.value, equipment::standardLibrary());
  for (const auto& call : solution.calls) {
    const bool heating =
        call.result.call == "heat1" || call.result.call == "heat2" || call.result.call == "defrost";
    EXPECT_EQ(!call.result.melted.empty(), heating) << call.result.call;
    EXPECT_EQ(call.result.state == CallState::fuseOpen, heating) << call.result.call;
  }
}

TEST(Symptoms, OpenHighPressureSwitchHasTheSupplyAcrossIt) {
  for (const auto* row : {&kRowA, &kRowB, &kRowG}) {
    const bool heatPump = row == &kRowG;
    const std::string terminal = heatPump ? "Y1" : "Y";
    const auto outdoor = sheet::readCsv(*row, equipment::standardLibrary()).value->unitByTag("O")->id;
    Facts facts;
    facts.world[{outdoor, "HPOpen"}] = true;
    const Bench bench(*row, "cool1", facts);
    const double supply = bench.volts("O", terminal, "O", "C");
    EXPECT_GT(supply, 26);
    EXPECT_NEAR(bench.across("O", "CC"), 0, 1e-6);
    EXPECT_NEAR(bench.across("O", "HP"), supply, 0.01);
    EXPECT_FALSE(bench.pulledIn("O", "CC"));
    EXPECT_THAT(bench.duties(), ::testing::Not(::testing::Contains("compressor1")));
  }
}

}  // namespace
}  // namespace ww::operation
