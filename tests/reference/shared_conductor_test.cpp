// SPDX-License-Identifier: GPL-3.0-or-later
// Which relay of a sharing kit comes in, against a transient run of the same circuit in ngspice: source,
// contacts, two diodes, the conductor, and two relays each behind a diode and with a reservoir.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/installation.h"
#include "support/shared_conductor.h"
#include "support/spice.h"

namespace ww {
namespace {

using testing::edited;
using testing::kRowShared;

struct Relays {
  bool a = false, b = false;
  friend bool operator==(const Relays&, const Relays&) = default;
};

std::ostream& operator<<(std::ostream& out, const Relays& relays) {
  return out << (relays.a ? "A" : "-") << (relays.b ? "B" : "-");
}

/// Coils of 1,440 ohms with 220 uF for 24 V (0.4 VA, common practice, no source); one is in when it reaches
/// 0.7 of the rated peak in the last fifth of 0.4 s.
Relays inSpice(Relays contacts, bool reversed, double volts, double jointOhms) {
  const auto contact = [](bool closed) { return closed ? " 0.02\n" : " 1e9\n"; };
  const std::string x = reversed ? "0" : "y", c = reversed ? "y" : "0";
  const std::string deck =
      "* two calls on one conductor\nvs hot 0 sin(0 " + spice::number(volts * std::numbers::sqrt2) +
      " 60)\nrky hot a" + contact(contacts.a) + "rkg hot b" + contact(contacts.b) +
      ".model d1 d(is=1e-9 n=1.7)\nd1 a x d1\nd2 x b d1\nrx x y " + spice::number(0.3 + jointOhms) +
      "\n" +                                                                                  //
      "dka " + x + " pa d1\nca pa " + c + " 220u ic=0\nra pa ma 1440\nva ma " + c + " 0\n" +  //
      "dkb " + c + " pb d1\ncb pb " + x + " 220u ic=0\nrb pb mb 1440\nvb mb " + x + " 0\n" +  //
      "rx0 x 0 1e7\nry0 y 0 1e7\nrpa pa 0 1e7\nrpb pb 0 1e7\n.end\n";
  auto& simulator = spice::Simulator::instance();
  EXPECT_TRUE(simulator.load(deck)) << simulator.messages();
  EXPECT_TRUE(simulator.runTransient(1e-4, 0.4)) << simulator.messages();
  const auto in = [&](const char* source) {
    const auto series = simulator.ampsOverTime(source);
    double most = 0;
    for (size_t i = 0; i < series.amps.size(); ++i)
      if (series.seconds[i] > 0.32) most = std::max(most, series.amps[i] * 1440);
    return most >= 0.7 * std::numbers::sqrt2 * 24;
  };
  return {in("va"), in("vb")};
}

/// The sheet with only one of the calls landed at the sender, or both. `joint`: ohms in the shared conductor.
Relays inProgram(Relays contacts, bool reversed, asbuilt::Conditions conditions, double joint,
                 double& volts) {
  std::string row = kRowShared;
  if (!contacts.b) row = edited(row, "GN,T,G,S,B", "GN,T,*,S,B");
  if (!contacts.a) row = edited(row, "YE,T,Y,S,A", "YE,T,*,S,A");
  if (reversed) row = edited(edited(row, "F,/C,K,C", "F,/C,K,X"), "F,/X,K,X", "F,/X,K,C");
  const auto circuit = asbuilt::compile(testing::sheetOf(row), equipment::standardLibrary());
  for (const auto& wire : circuit.wires)
    if (circuit.nodeNames[size_t(wire.a)] == "T/X" && circuit.nodeNames[size_t(wire.b)] == "F/X" && joint > 0)
      conditions.overrides.push_back(asbuilt::seriesOhms(wire.branch, joint));
  testing::Installation house(row, conditions);
  house.call("rest");
  if (contacts.a || contacts.b) house.call("cool1");
  volts = house.volts("F", "B");
  const auto in = [&](const char* relay) {
    const auto* device = house.circuit().device(house.unit("K"), relay);
    return house.machine().positions().pulledIn[size_t(device - house.circuit().devices.data())] != 0;
  };
  return {in("XA"), in("XB")};
}

constexpr Relays kContacts[] = {{false, false}, {true, false}, {false, true}, {true, true}};

TEST(SharedConductor, TheSameRelaysComeInAsInATransientRun) {
  int pulled = 0;
  for (const bool reversed : {false, true})
    for (const Relays contacts : kContacts) {
      double volts = 0;
      const Relays program = inProgram(contacts, reversed, {}, 0, volts);
      ASSERT_GT(volts, 20);
      const Relays simulated = inSpice(contacts, reversed, volts, 0);
      EXPECT_EQ(program, simulated) << contacts << (reversed ? " reversed" : "");
      EXPECT_EQ(program.a, reversed ? contacts.b : contacts.a);
      pulled += simulated.a + simulated.b;
    }
  EXPECT_EQ(pulled, 8) << "one, one and two relays, both ways round";
}

TEST(SharedConductor, ABreakAndAPoorJointDoTheSame) {
  for (const double ohms : {20.0, 1e9})
    for (const Relays contacts : kContacts) {
      double volts = 0;
      const Relays program = inProgram(contacts, false, {}, ohms, volts);
      EXPECT_EQ(program, inSpice(contacts, false, volts, ohms)) << contacts << ohms;
      EXPECT_EQ(program, ohms < 100 ? contacts : Relays{});
    }
}

/// A secondary wound or landed the other way round: the half waves come half a period later, and that is all.
TEST(SharedConductor, AReversedSecondaryDoesTheSame) {
  const testing::Installation house(kRowShared);
  asbuilt::Conditions conditions;
  conditions.overrides.push_back({asbuilt::Override::Kind::emf, house.branch("F", "XF"), -1, 0, 0});
  for (const Relays contacts : kContacts) {
    double volts = 0;
    const Relays program = inProgram(contacts, false, conditions, 0, volts);
    EXPECT_EQ(program, inSpice(contacts, false, -volts, 0)) << contacts;
    EXPECT_EQ(program, contacts);
  }
}

/// Low volts: apart from the drop that ngspice's diodes have at so small a current (0.7 - 0.8 V).
TEST(SharedConductor, TheSameVoltsAreTooFew) {
  int told = 0;
  for (const double line : {0.66, 0.64, 0.72}) {
    asbuilt::Conditions conditions;
    conditions.line = line;
    double volts = 0;
    const Relays program = inProgram({false, true}, false, conditions, 0, volts);
    if (std::abs(volts - 17.93) < 0.4) continue;  // so near the edge the two may differ
    EXPECT_EQ(program, inSpice({false, true}, false, volts, 0)) << volts;
    ++told;
  }
  EXPECT_GE(told, 2);
}

}  // namespace
}  // namespace ww
