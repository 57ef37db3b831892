// SPDX-License-Identifier: GPL-3.0-or-later
// Every solved call against ngspice (the program of that name, as a library): the deck that the program
// exports is solved there and the volts are compared inside each part of the circuit that hangs together;
// what floats must float there too. And every call again by relays of the tests' own, which take each
// pull-in from volts of ngspice.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <random>
#include <sstream>

#include "job/document_file.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_air.h"
#include "support/reference_rows_pumps.h"
#include "support/reference_rows_water.h"
#include "support/spice_compare.h"
#include "support/spice_relays.h"

namespace ww::operation {
namespace {

using circuit::Quality;
using sheet::Sheet;
using sheet::TerminalRef;

/// What the call's result says of its terminals, coils and sources.
void compareResult(const asbuilt::AsBuilt& circuit, const CallResult& result, const asbuilt::Netlist& deck,
                   const testing::Volts& theirs, const std::string& what) {
  for (const auto& terminal : result.terminals) {
    if (terminal.quality != Quality::solid) continue;
    const int node = circuit.node(terminal.terminal), reference = circuit.node(terminal.reference);
    if (deck.nodeNames[size_t(node)].empty()) continue;
    ASSERT_TRUE(testing::near(terminal.volts, *theirs[size_t(node)] - *theirs[size_t(reference)]))
        << what << ": " << circuit.nodeNames[size_t(node)];
  }
  for (const auto& coil : result.coils) {
    const auto* device = circuit.device(coil.unit, coil.part);
    ASSERT_NE(device, nullptr);
    const auto& a = theirs[size_t(device->a)];
    const auto& b = theirs[size_t(device->b)];
    if (!a || !b || coil.amps.si() == 0) continue;
    ASSERT_NEAR(coil.sealed.si(), std::abs(*a - *b), 1e-6 * coil.sealed.si() + 1e-6) << what << coil.part;
  }
}

void compare(const asbuilt::AsBuilt& circuit, const SolvedCall& call, const std::string& what, double leak) {
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  asbuilt::solve(circuit, call.positions, {}, solver);
  asbuilt::Netlist deck;
  testing::Volts theirs;
  ASSERT_NO_FATAL_FAILURE(testing::compareWithSpice(circuit, solver, what, deck, theirs, leak));
  ASSERT_NO_FATAL_FAILURE(compareResult(circuit, call.result, deck, theirs, what));
}

void compareAll(const Sheet& sheet, const std::string& what, double leak = testing::kLeakOfOneSource) {
  const Solution solution = solveSheet(sheet, equipment::standardLibrary());
  for (const SolvedCall& call : solution.calls)
    compare(*solution.circuit, call, what + ", " + call.result.call, leak);
}

constexpr const char* kAirSystems[] = {"larkmoor-a-furnace-cooling",   "larkmoor-b-electric-air-handler",
                                       "larkmoor-g-heat-pump",         "larkmoor-c-cooling-only",
                                       "larkmoor-d-furnace-two-wires", "larkmoor-f-two-stage-furnace",
                                       "larkmoor-l-rooftop-unit"};
constexpr const char* kWaterAndZones[] = {"larkmoor-e-boiler-zone-valves", "larkmoor-k-boiler-and-cooling",
                                          "larkmoor-m-millivolt-heater",   "larkmoor-n-zoned-furnace",
                                          "larkmoor-o-oil-burner",         "larkmoor-p-hot-water-coil",
                                          "larkmoor-q-two-pipe-coil"};

constexpr const char* kPumps[] = {"larkmoor-h-heat-pump-valve-in-heating", "larkmoor-i-two-stage-heat-pump",
                                  "larkmoor-j-dual-fuel", "larkmoor-r-inverter"};

Sheet demoSheet(const std::string& name) {
  std::ifstream file(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + name + ".json");
  std::stringstream text;
  text << file.rdbuf();
  const auto job = job::readDocument(text.str(), equipment::standardLibrary());
  EXPECT_TRUE(job) << name;
  const Sheet* sheet = job ? job::currentSheet(*job.value) : nullptr;
  EXPECT_NE(sheet, nullptr) << name;
  return sheet != nullptr ? *sheet : Sheet();
}

TEST(CallsAgainstSpice, HealthyDemosAgreeInEveryCall) {
  for (const char* name : kAirSystems) compareAll(demoSheet(name), name);
  for (const char* name : kPumps) compareAll(demoSheet(name), name);
  for (const char* name : kWaterAndZones) compareAll(demoSheet(name), name, testing::kLeakOfSeveralSources);
}

/// One to three edits of a healthy row: an end moved, two ends swapped, a short jumpered, an end dropped.
Sheet edited(Sheet sheet, std::mt19937& random) {
  const auto pick = [&](size_t n) { return size_t(random() % n); };
  const int edits = 1 + int(pick(3));
  for (int k = 0; k < edits; ++k) {
    auto wire = sheet.conductors.rows()[pick(sheet.conductors.size())];
    const auto& profile = [&](sheet::UnitId unit) -> const equipment::Profile& {
      return *equipment::standardLibrary().find(sheet.units.find(unit)->profile);
    };
    const bool endA = pick(2) == 0;
    auto& end = endA ? wire.endA : wire.endB;
    switch (pick(4)) {
      case 0:
        if (const auto* ref = std::get_if<TerminalRef>(&end)) {
          const auto& terminals = profile(ref->unit).terminals;
          end = TerminalRef{ref->unit, terminals[pick(terminals.size())].id};
          sheet.conductors.put(wire);
        }
        break;
      case 1: {
        auto other = sheet.conductors.rows()[pick(sheet.conductors.size())];
        if (other.id == wire.id || other.cable != wire.cable) break;
        std::swap(end, endA ? other.endA : other.endB);
        sheet.conductors.put(wire);
        sheet.conductors.put(other);
        break;
      }
      case 2:
        if (const auto* ref = std::get_if<TerminalRef>(&end)) {
          const auto& terminals = profile(ref->unit).terminals;
          sheet::Conductor jumper;
          jumper.endA = *ref;
          jumper.endB = TerminalRef{ref->unit, terminals[pick(terminals.size())].id};
          sheet.addConductor(jumper);
        }
        break;
      default: end = sheet::Loose{}; sheet.conductors.put(wire);
    }
  }
  return sheet;
}

Sheet randomSheet(unsigned seed) {
  const auto& library = equipment::standardLibrary();
  static const Sheet rows[] = {*sheet::readCsv(testing::kRowA, library).value,
                               *sheet::readCsv(testing::kRowB, library).value,
                               *sheet::readCsv(testing::kRowG, library).value};
  std::mt19937 random(seed);
  return edited(rows[seed % 3], random);
}

/// The same edits of the rows with heat pumps.
Sheet randomPumpSheet(unsigned seed) {
  const auto& library = equipment::standardLibrary();
  static const Sheet rows[] = {
      *sheet::readCsv(testing::kRowH, library).value, *sheet::readCsv(testing::kRowI, library).value,
      *sheet::readCsv(testing::kRowJ, library).value, *sheet::readCsv(testing::kRowJWithKit, library).value,
      *sheet::readCsv(testing::kRowR, library).value};
  std::mt19937 random(seed);
  return edited(rows[seed % std::size(rows)], random);
}

TEST(CallsAgainstSpice, RandomSheetsWithHeatPumpsAgreeInEveryCall) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    compareAll(randomPumpSheet(seed), "pump seed " + std::to_string(seed));
    if (::testing::Test::HasFatalFailure()) return;
  }
}

/// The same edits of the rows with water and zones.
Sheet randomWaterSheet(unsigned seed) {
  const auto& library = equipment::standardLibrary();
  static const Sheet rows[] = {
      *sheet::readCsv(testing::kRowE, library).value, *sheet::readCsv(testing::kRowK, library).value,
      *sheet::readCsv(testing::kRowM, library).value, *sheet::readCsv(testing::kRowN, library).value,
      *sheet::readCsv(testing::kRowO, library).value, *sheet::readCsv(testing::kRowP, library).value,
      *sheet::readCsv(testing::kRowQ, library).value};
  std::mt19937 random(seed);
  return edited(rows[seed % std::size(rows)], random);
}

TEST(CallsAgainstSpice, RandomSheetsWithWaterAndZonesAgreeInEveryCall) {
  for (unsigned seed = 1; seed <= 70; ++seed) {
    compareAll(randomWaterSheet(seed), "water seed " + std::to_string(seed), testing::kLeakOfSeveralSources);
    if (::testing::Test::HasFatalFailure()) return;
  }
}

/// The same edits of cooling alone, heating alone, two stages and the rooftop unit.
Sheet randomStagesSheet(unsigned seed) {
  const auto& library = equipment::standardLibrary();
  static const Sheet rows[] = {
      *sheet::readCsv(testing::kRowC, library).value, *sheet::readCsv(testing::kRowD, library).value,
      *sheet::readCsv(testing::kRowF, library).value, *sheet::readCsv(testing::kRowL, library).value};
  std::mt19937 random(seed);
  return edited(rows[seed % std::size(rows)], random);
}

TEST(CallsAgainstSpice, RandomSheetsWithStagesAgreeInEveryCall) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    compareAll(randomStagesSheet(seed), "stages seed " + std::to_string(seed));
    if (::testing::Test::HasFatalFailure()) return;
  }
}

TEST(CallsAgainstSpice, TwoHundredRandomSheetsAgreeInEveryCall) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    compareAll(randomSheet(seed), "seed " + std::to_string(seed));
    if (::testing::Test::HasFatalFailure()) return;
  }
}

/// Seeds 1 to 1,000 are the whole set; the first 200 are above.
TEST(CallsAgainstSpiceLong, AThousandRandomSheetsAgreeInEveryCall) {
  for (unsigned seed = 201; seed <= 1000; ++seed) {
    compareAll(randomSheet(seed), "seed " + std::to_string(seed));
    if (::testing::Test::HasFatalFailure()) return;
  }
}

/// What became of the calls that the tests' own relays went through.
struct Tally {
  int settled = 0, quick = 0, slow = 0;
};

/// The end states of both: race and chatter as states only, for which of them moves last is chance; where a
/// board tries again for ever no moment is the end.
void compareRelays(const Sheet& sheet, const std::string& name, Tally& tally) {
  const Solution solution = solveSheet(sheet, equipment::standardLibrary());
  const auto& circuit = *solution.circuit;
  testing::SpiceRelays rest(circuit);
  if (rest.powerUp() != testing::SpiceRelays::End::settled) return;
  for (const SolvedCall& call : solution.calls) {
    const std::string what = name + ", " + call.result.call;
    testing::SpiceRelays relays = rest;
    const auto end = relays.run(call.result.call);
    const bool quick = call.result.state == CallState::race || call.result.state == CallState::chatter;
    if (end == testing::SpiceRelays::End::slow) {
      ++tally.slow;
      EXPECT_FALSE(quick) << what;
      continue;
    }
    if (end == testing::SpiceRelays::End::quick) {
      ++tally.quick;
      EXPECT_TRUE(quick || call.result.state > CallState::chatter) << what;
      continue;
    }
    ++tally.settled;
    EXPECT_FALSE(quick) << what;
    // A supply that lets go in the dip of a start and comes back is no collapse in the end.
    EXPECT_TRUE(relays.collapsed() || call.result.state != CallState::collapse) << what;
    for (size_t i = 0; i < circuit.devices.size(); ++i) {
      const auto& device = circuit.devices[i];
      const auto& part = device.part;
      const std::string where =
          what + ": " + circuit.units[size_t(device.unit)].tag + "." + circuit.element(device).id;
      if (std::holds_alternative<equipment::CoilPart>(part)) {
        EXPECT_EQ(call.positions.pulledIn[i] != 0, relays.in[i] != 0) << where;
      } else if (std::holds_alternative<equipment::SupplyPart>(part)) {
        EXPECT_EQ(call.positions.supplyOn[i] != 0, relays.on[i] != 0) << where;
      } else if (std::holds_alternative<equipment::ContactPart>(part) ||
                 std::holds_alternative<equipment::FusePart>(part)) {
        EXPECT_EQ(call.positions.closed[i] != 0, relays.closed[i] != 0) << where;
      }
    }
    const auto atInrush = relays.volts(true), atEnd = relays.volts();
    for (const auto& coil : call.result.coils) {
      const auto* device = circuit.device(coil.unit, coil.part);
      const auto i = size_t(device - circuit.devices.data());
      const bool isCoil = std::holds_alternative<equipment::CoilPart>(device->part);
      EXPECT_EQ(isCoil && coil.state == CoilState::late, relays.late[i] != 0) << what << ": " << coil.part;
      EXPECT_NEAR(coil.sealed.si(), atEnd[i], 1e-5) << what << ": " << coil.part;
      if (!isCoil || atInrush.empty()) continue;
      EXPECT_NEAR(coil.pullIn.si(), atInrush[i], 1e-5) << what << ": " << coil.part;
    }
  }
}

TEST(CallsAgainstSpice, CondensingAndTimedFurnacesAgreeInEveryCall) {
  const auto& library = equipment::standardLibrary();
  Tally tally;
  for (const std::string& csv : {testing::edited(testing::kRowF, "F,furnace-2", "F,furnace-2-condensing"),
                                 testing::edited(testing::kRowD, "F,furnace-1", "F,furnace-1-condensing"),
                                 testing::edited(testing::kRowF, "stagedBy,control", "stagedBy,board")}) {
    const Sheet sheet = *sheet::readCsv(csv, library).value;
    compareAll(sheet, "furnace");
    compareRelays(sheet, "furnace", tally);
  }
  EXPECT_EQ(tally.settled, 14);
}

TEST(RelaysAgainstSpice, HealthyDemosEndAlikeInEveryCall) {
  Tally tally;
  for (const char* name : kAirSystems) compareRelays(demoSheet(name), name, tally);
  for (const char* name : kPumps) compareRelays(demoSheet(name), name, tally);
  for (const char* name : kWaterAndZones) compareRelays(demoSheet(name), name, tally);
  EXPECT_GE(tally.settled, 90);
  EXPECT_EQ(tally.quick + tally.slow, 0);
}

TEST(RelaysAgainstSpice, RandomSheetsEndAlikeInEveryCall) {
  Tally tally;
  for (unsigned seed = 1; seed <= 200; ++seed)
    compareRelays(randomSheet(seed), "seed " + std::to_string(seed), tally);
  RecordProperty("settled", tally.settled);
  RecordProperty("quick", tally.quick);
  RecordProperty("slow", tally.slow);
  EXPECT_GT(tally.settled, 5 * (tally.quick + tally.slow)) << "too few to say anything";
}

TEST(RelaysAgainstSpice, RandomSheetsWithWaterAndZonesEndAlikeInEveryCall) {
  Tally tally;
  for (unsigned seed = 1; seed <= 70; ++seed)
    compareRelays(randomWaterSheet(seed), "water seed " + std::to_string(seed), tally);
  EXPECT_GT(tally.settled, 5 * (tally.quick + tally.slow)) << "too few to say anything";
}

TEST(RelaysAgainstSpice, RandomSheetsWithStagesEndAlikeInEveryCall) {
  Tally tally;
  for (unsigned seed = 1; seed <= 60; ++seed)
    compareRelays(randomStagesSheet(seed), "stages seed " + std::to_string(seed), tally);
  EXPECT_GT(tally.settled, 5 * (tally.quick + tally.slow)) << "too few to say anything";
}

TEST(RelaysAgainstSpiceLong, AThousandRandomSheetsEndAlikeInEveryCall) {
  Tally tally;
  for (unsigned seed = 201; seed <= 1000; ++seed)
    compareRelays(randomSheet(seed), "seed " + std::to_string(seed), tally);
  EXPECT_GT(tally.settled, 5 * (tally.quick + tally.slow)) << "too few to say anything";
}

}  // namespace
}  // namespace ww::operation
