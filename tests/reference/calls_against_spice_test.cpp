// SPDX-License-Identifier: GPL-3.0-or-later
// Every solved call against ngspice: the deck that the program exports is solved there and the volts are
// compared, inside each part of the circuit that hangs together.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <random>
#include <sstream>

#include "asbuilt/netlist.h"
#include "job/document_file.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/spice.h"

namespace ww::operation {
namespace {

using circuit::Quality;
using sheet::Sheet;
using sheet::TerminalRef;

/// Volts agree to a millionth and a microvolt. Both sides carry the same explicit leaks.
void compare(const asbuilt::AsBuilt& circuit, const SolvedCall& call, const std::string& what) {
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  asbuilt::solve(circuit, call.positions, {}, solver);
  const auto deck = asbuilt::spice(circuit, solver, what);
  auto& simulator = spice::Simulator::instance();
  ASSERT_TRUE(simulator.load(deck.text)) << what << "\n" << simulator.messages();
  ASSERT_TRUE(simulator.runAc(circuit.frequency)) << what << "\n" << simulator.messages();
  std::vector<std::optional<std::complex<double>>> theirs;
  for (const auto& name : deck.nodeNames)
    theirs.push_back(name == "0"    ? std::optional(std::complex<double>())
                     : name.empty() ? std::nullopt
                                    : simulator.volts(name));
  int compared = 0;
  for (size_t a = 0; a < theirs.size(); ++a)
    for (size_t b = a + 1; b < theirs.size(); ++b) {
      if (!theirs[a] || !theirs[b] || solver.quality(int(a), int(b)) != Quality::solid) continue;
      const auto ours = solver.voltage(int(a), int(b));
      ASSERT_LE(std::abs(ours - (*theirs[a] - *theirs[b])), 1e-6 * std::abs(ours) + 1e-6)
          << what << ": " << circuit.nodeNames[a] << " to " << circuit.nodeNames[b];
      ++compared;
    }
  EXPECT_GT(compared, 0) << what;
}

void compareAll(const Sheet& sheet, const std::string& what) {
  const Solution solution = solveSheet(sheet, equipment::standardLibrary());
  for (const SolvedCall& call : solution.calls)
    compare(*solution.circuit, call, what + ", " + call.result.call);
}

TEST(CallsAgainstSpice, HealthyDemosAgreeInEveryCall) {
  for (const char* name :
       {"larkmoor-a-furnace-cooling", "larkmoor-b-electric-air-handler", "larkmoor-g-heat-pump"}) {
    std::ifstream file(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + name + ".json");
    std::stringstream text;
    text << file.rdbuf();
    const auto job = job::readDocument(text.str(), equipment::standardLibrary());
    ASSERT_TRUE(job) << name;
    compareAll(*job::currentSheet(*job.value), name);
  }
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

TEST(CallsAgainstSpice, TwoHundredRandomSheetsAgreeInEveryCall) {
  const auto& library = equipment::standardLibrary();
  const Sheet rows[] = {*sheet::readCsv(testing::kRowA, library).value,
                        *sheet::readCsv(testing::kRowB, library).value,
                        *sheet::readCsv(testing::kRowG, library).value};
  for (unsigned seed = 1; seed <= 200; ++seed) {
    std::mt19937 random(seed);
    const Sheet sheet = edited(rows[seed % 3], random);
    compareAll(sheet, "seed " + std::to_string(seed));
    if (::testing::Test::HasFatalFailure()) return;
  }
}

}  // namespace
}  // namespace ww::operation
