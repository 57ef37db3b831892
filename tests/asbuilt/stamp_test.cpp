// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/stamp.h"

#include <gtest/gtest.h>

#include <numbers>

#include "support/small_units.h"

namespace ww::asbuilt {
namespace {

using circuit::Phasor;
using equipment::CoilPart;
using equipment::TransformerPart;
using ww::testing::contact;
using ww::testing::element;
using ww::testing::resistor;
using ww::testing::SmallUnit;

template <class Part>
const Part& shipped(const char* name) {
  return std::get<Part>(equipment::standardLibrary().parts.at(name));
}

// Secondary figures of 24 V transformers of 15 % regulation: common practice, worked out by hand.
TEST(Stamp, ATransformerIsAnEmfBehindItsRegulation) {
  struct Row {
    const char* part;
    double ohms, shortCircuitAmps;
  };
  for (const Row& row :
       {Row{"XF20", 4.32, 6.4}, Row{"XF40", 2.16, 12.8}, Row{"XF50", 1.73, 16.0}, Row{"XF75", 1.15, 24.0}}) {
    const auto& part = shipped<TransformerPart>(row.part);
    EXPECT_NEAR(emf(part, 1, {}), 27.6, 1e-12);
    EXPECT_NEAR(std::abs(sourceImpedance(part, {})), row.ohms, 0.005) << row.part;
    EXPECT_NEAR(emf(part, 1, {}) / std::abs(sourceImpedance(part, {})), row.shortCircuitAmps, 0.05)
        << row.part;
    // At rated amps just the rated volts are left.
    const double amps = part.rating.si() / part.rated.si();
    EXPECT_NEAR(emf(part, 1, {}) - amps * sourceImpedance(part, {}).real(), 24, 1e-9) << row.part;
  }
}

TEST(Stamp, TapLineAndRegulationScaleTheEmf) {
  const auto& part = shipped<TransformerPart>("XF40");
  EXPECT_NEAR(emf(part, 208.0 / 240, {}), 23.9, 0.05);
  EXPECT_NEAR(emf(part, 240.0 / 208, {}), 31.8, 0.05);
  Conditions low;
  low.line = 0.92;
  EXPECT_NEAR(emf(part, 1, low), 0.92 * 27.6, 1e-12);
  Conditions softer;
  softer.regulationShift = 0.05;
  EXPECT_NEAR(emf(part, 1, softer), 24 * 1.20, 1e-12);
  EXPECT_NEAR(std::abs(sourceImpedance(part, softer)), 0.20 * 576 / 40, 1e-12);
}

TEST(Stamp, ALimitedTransformerHasItsImpedanceAtAnAngle) {
  TransformerPart part = shipped<TransformerPart>("XF40");
  part.angleDegrees = 35;
  const Phasor z = sourceImpedance(part, {});
  EXPECT_NEAR(std::abs(z), 2.16, 1e-12);
  EXPECT_NEAR(std::arg(z), 35 * std::numbers::pi / 180, 1e-12);
}

// Z = V^2 / S (pf + j sqrt(1 - pf^2)) at 24 V and 60 Hz.
TEST(Stamp, CoilImpedanceSealedAndAtInrush) {
  struct Row {
    const char* part;
    Phasor sealed, inrush;
  };
  for (const Row& row : {Row{"C7", {28.8, 77.1}, {12.3, 10.9}}, Row{"K4", {72.0, 124.7}, {50.4, 51.4}},
                         Row{"GV10", {34.6, 46.1}, {30.9, 27.2}}, Row{"RV7", {37.0, 73.5}, {25.0, 29.2}}}) {
    const auto& coil = shipped<CoilPart>(row.part);
    EXPECT_LT(std::abs(coilImpedance(coil, true, 60) - row.sealed), 0.1) << row.part;
    EXPECT_LT(std::abs(coilImpedance(coil, false, 60) - row.inrush), 0.1) << row.part;
  }
}

TEST(Stamp, AtFiftyHertzACoilHasFiveSixthsOfItsReactance) {
  const auto& coil = shipped<CoilPart>("C7");
  for (const bool sealed : {true, false}) {
    const Phasor z60 = coilImpedance(coil, sealed, 60), z50 = coilImpedance(coil, sealed, 50);
    EXPECT_DOUBLE_EQ(z50.real(), z60.real());
    EXPECT_DOUBLE_EQ(z50.imag(), z60.imag() * 5 / 6);
    EXPECT_LT(std::abs(z50), std::abs(z60)) << "it draws more";
  }
}

/// One unit with everything on R and C, and a length of cable that ends loose.
class Stamped : public ::testing::Test {
 protected:
  Stamped() { unit_.terminals = {"R:hot", "C:common"}; }

  void build(const std::vector<std::string>& elements) {
    std::vector<std::string> all{element("XF", "x0", "C", "XF40"), resistor("J", "x0", "R", 1)};
    all.insert(all.end(), elements.begin(), elements.end());
    unit_.elements = ww::testing::joinedJson(all);
    built_ = compile(ww::testing::sheetOf({unit_}), ww::testing::libraryOf({unit_}));
    positions_ = Positions(built_.devices.size());
    closed("XF") = 1;
  }
  size_t index(const char* name) const {
    return size_t(built_.device(built_.units[0].id, name) - built_.devices.data());
  }
  char& closed(const char* name) { return positions_.closed[index(name)]; }
  /// Ohms (complex) the element shows by its volts and amps.
  Phasor ohms(const char* name, const Conditions& conditions = {}) {
    circuit::Solver<Phasor> solver(built_.plan);
    solve(built_, positions_, conditions, solver);
    const Device& device = built_.devices[index(name)];
    return solver.voltage(device.a, device.b) / solver.current(device.branch);
  }
  Phasor amps(const char* name, const Conditions& conditions = {}) {
    circuit::Solver<Phasor> solver(built_.plan);
    solve(built_, positions_, conditions, solver);
    return solver.current(built_.devices[index(name)].branch);
  }

  SmallUnit unit_;
  AsBuilt built_;
  Positions positions_;
};

TEST_F(Stamped, EveryKindShowsItsOhms) {
  build({element("K", "R", "C", "C7"), element("H", "R", "C", "SQ5"), element("IN", "R", "C", "IN5"),
         resistor("L", "R", "C", 470), contact("SW", "R", "t", "false"), resistor("M", "t", "C", 50),
         element("F", "R", "u", "fuse3"), resistor("N", "u", "C", 60)});
  EXPECT_LT(std::abs(ohms("K") - Phasor(12.3, 10.9)), 0.1) << "starting";
  positions_.pulledIn[index("K")] = 1;
  EXPECT_LT(std::abs(ohms("K") - Phasor(28.8, 77.1)), 0.1) << "sealed";
  positions_.allAtInrush = true;
  EXPECT_LT(std::abs(ohms("K") - Phasor(12.3, 10.9)), 0.1);
  EXPECT_NEAR(std::abs(ohms("H") - 115.2), 0, 1e-9);
  EXPECT_NEAR(std::abs(ohms("IN") - 4700.0), 0, 1e-6);
  EXPECT_NEAR(std::abs(ohms("L") - 470.0), 0, 1e-6);
  EXPECT_EQ(std::abs(amps("M")), 0) << "contact open";
  EXPECT_EQ(std::abs(amps("N")), 0) << "fuse blown";
  closed("SW") = closed("F") = 1;
  EXPECT_NEAR(std::abs(ohms("SW") - 0.020), 0, 1e-9);
  EXPECT_NEAR(std::abs(ohms("F") - 0.035), 0, 1e-9);
  closed("XF") = 0;
  EXPECT_EQ(std::abs(amps("L")), 0) << "no line voltage";
}

TEST_F(Stamped, ConditionsScaleWhatTheyName) {
  build({element("K", "R", "C", "C7"), element("H", "R", "C", "SQ5"), element("IN", "R", "C", "IN5"),
         contact("SW", "R", "t", "false"), resistor("M", "t", "C", 50), resistor("L", "R", "C", 470)});
  closed("SW") = 1;
  const Phasor coil = ohms("K");
  Conditions off;
  off.coilScale = 1.1;
  off.inputScale = 0.9;
  off.contactScale = 5;
  EXPECT_NEAR(std::abs(ohms("K", off) - 1.1 * coil), 0, 1e-9);
  EXPECT_NEAR(std::abs(ohms("H", off) - 1.1 * 115.2), 0, 1e-9);
  EXPECT_NEAR(std::abs(ohms("IN", off) - 0.9 * 4700), 0, 1e-6);
  EXPECT_NEAR(std::abs(ohms("SW", off) - 5 * 0.020), 0, 1e-9);
  EXPECT_NEAR(std::abs(ohms("L", off) - 470.0), 0, 1e-6) << "a plain resistance keeps its ohms";
  EXPECT_NEAR(std::abs(ohms("M", off) - 50.0), 0, 1e-6);
}

TEST_F(Stamped, ASupplyDrawsItsVoltAmpsAtItsPowerFactor) {
  build({element("S", "R", "C", "S1.5")});
  EXPECT_EQ(std::abs(amps("S")), 0) << "out: draws nothing";
  positions_.supplyOn[index("S")] = 1;
  positions_.supplyVoltAmps[index("S")] = 1.5;
  circuit::Solver<Phasor> solver(built_.plan);
  EXPECT_EQ(solve(built_, positions_, {}, solver), circuit::PowerOutcome::settled);
  const Device& device = built_.devices[index("S")];
  const Phasor power = solver.voltage(device.a, device.b) * std::conj(solver.current(device.branch));
  EXPECT_NEAR(power.real(), 1.5 * 0.7, 1e-9);
  EXPECT_NEAR(power.imag(), 1.5 * std::sqrt(1 - 0.49), 1e-9);
  Conditions twice;
  twice.supplyScale = 2;
  solve(built_, positions_, twice, solver);
  EXPECT_NEAR(std::abs(solver.voltage(device.a, device.b) * solver.current(device.branch)), 3, 1e-9);
  positions_.supplyVoltAmps[index("S")] = 400;
  EXPECT_EQ(solve(built_, positions_, {}, solver), circuit::PowerOutcome::collapse);
}

TEST(StampCable, CopperByLengthGaugeAndTemperature) {
  SmallUnit source, load;
  source.id = "source";
  load.id = "load";
  source.terminals = load.terminals = {"R:hot", "C:common"};
  source.elements = element("XF", "R", "C", "XF40");
  load.elements = resistor("L", "R", "C", 10);
  auto sheet = ww::testing::sheetOf({source, load});
  sheet::Cable cable;
  cable.length = quantity::Metres(30);
  cable.endA = sheet.unitByTag("U1")->id;
  cable.endB = sheet.unitByTag("U2")->id;
  const auto id = sheet.addCable(cable);
  for (const char* terminal : {"R", "C"}) {
    sheet::Conductor wire;
    wire.cable = id;
    wire.endA = sheet::TerminalRef{cable.endA, terminal};
    wire.endB = sheet::TerminalRef{cable.endB, terminal};
    sheet.addConductor(wire);
  }
  const auto library = ww::testing::libraryOf({source, load});
  const AsBuilt built = compile(sheet, library);
  Positions positions(built.devices.size());
  std::fill(positions.closed.begin(), positions.closed.end(), 1);
  const auto wireOhms = [&](const Conditions& conditions) {
    circuit::Solver<Phasor> solver(built.plan);
    solve(built, positions, conditions, solver);
    return std::abs(solver.voltage(built.wires[0].a, built.wires[0].b) /
                    solver.current(built.wires[0].branch));
  };
  // 18 AWG is 0.8230 mm2 (ASTM B258), 1/58 ohm mm2/m at 20 C, 0.393 % per kelvin.
  const double at20 = 30 / 58.0 / 0.8230;
  EXPECT_NEAR(wireOhms({}), at20, 1e-4);
  Conditions hot;
  hot.temperature = 50;
  EXPECT_NEAR(wireOhms(hot), at20 * (1 + 0.00393 * 30), 1e-4);
  Conditions longer;
  longer.cableScale = {1.2};
  EXPECT_NEAR(wireOhms(longer), 1.2 * at20, 1e-4);
}

TEST_F(Stamped, AnOhmmeterSeesDirectCurrentOhms) {
  build({element("K", "R", "C", "C7"), contact("SW", "R", "t", "false"), resistor("M", "t", "C", 50)});
  const auto dead = [&](const std::vector<char>& lifted) {
    circuit::Solver<double> solver(built_.plan);
    stampDead(built_, positions_, {}, lifted, solver);
    return solver.thevenin(built_.node({built_.units[0].id, "R"}), built_.node({built_.units[0].id, "C"}))
        .impedance;
  };
  const auto parallel = [](std::initializer_list<double> ohms) {
    double sum = 0;
    for (const double r : ohms) sum += 1 / r;
    return 1 / sum;
  };
  std::vector<char> lifted(built_.devices.size(), 0);
  const double winding = 1 + 0.45 * 2.16;
  EXPECT_NEAR(dead(lifted), parallel({8, winding}), 1e-9);
  positions_.pulledIn[index("K")] = 1;
  EXPECT_NEAR(dead(lifted), parallel({8, winding}), 1e-9) << "direct current knows no sealed coil";
  closed("SW") = 1;
  EXPECT_NEAR(dead(lifted), parallel({8, winding, 50.02}), 1e-9);
  lifted[index("J")] = 1;
  EXPECT_NEAR(dead(lifted), parallel({8, 50.02}), 1e-9) << "the transformer lifted off";
}

}  // namespace
}  // namespace ww::asbuilt
