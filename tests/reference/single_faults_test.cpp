// SPDX-License-Identifier: GPL-3.0-or-later
// Every single fault of the reference rows in every call against ngspice: the end state that the relays come
// to is solved there too. A fixed tenth by default, all under the label long.
#include <gtest/gtest.h>

#include "asbuilt/single_faults.h"
#include "operation/machine.h"
#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "support/spice_compare.h"

namespace ww::operation {
namespace {

/// Solves every `stride`-th fault; returns how many states were compared.
int compareFaults(const sheet::Sheet& sheet, const std::string& row, size_t first, size_t stride) {
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  const auto table = operationTable(circuit);
  const auto faults = asbuilt::singleFaults(circuit);
  int compared = 0;
  for (size_t k = first; k < faults.size(); k += stride) {
    asbuilt::Conditions conditions;
    conditions.overrides = faults[k].overrides;
    Machine rest(circuit, conditions);
    rest.powerUp({});
    for (const CallDemand& demand : table) {
      Machine machine = rest;
      Facts facts;
      facts.call = demand.call;
      machine.run(facts);
      asbuilt::Netlist deck;
      testing::Volts theirs;
      testing::compareWithSpice(circuit, machine.solver(),
                                row + ", fault " + std::to_string(k) + ", " + demand.call, deck, theirs);
      if (::testing::Test::HasFatalFailure()) return compared;
      EXPECT_TRUE(machine.solver().certificate().tight()) << k << demand.call;
      ++compared;
    }
  }
  return compared;
}

/// States to compare: faults of the list, and of its tenth, in each of the row's calls.
struct Row {
  const char* name;
  sheet::Sheet (*sheet)();
  int all, tenth;
};
constexpr Row kRows[] = {{"A", testing::rowA, 105 * 4, 11 * 4},
                         {"B", testing::rowB, 93 * 4, 9 * 4},
                         {"G", testing::rowG, 189 * 7, 19 * 7}};

TEST(SingleFaults, ATenthOfThemAgreesInEveryCall) {
  for (const Row& row : kRows) {
    EXPECT_EQ(compareFaults(row.sheet(), row.name, 3, 10), row.tenth) << row.name;
    if (HasFatalFailure()) return;
  }
}

TEST(SingleFaultsLong, AllOfThemAgreeInEveryCall) {
  for (const Row& row : kRows) {
    EXPECT_EQ(compareFaults(row.sheet(), row.name, 0, 1), row.all) << row.name;
    if (HasFatalFailure()) return;
  }
}

TEST(SingleFaults, TheListHasEveryKindOnceAThing) {
  const auto circuit = asbuilt::compile(testing::rowA(), equipment::standardLibrary());
  const auto faults = asbuilt::singleFaults(circuit);
  const auto count = [&](asbuilt::FaultKind kind) {
    return std::count_if(faults.begin(), faults.end(), [&](const auto& f) { return f.kind == kind; });
  };
  EXPECT_EQ(count(asbuilt::FaultKind::conductorOpen), 7);
  EXPECT_EQ(count(asbuilt::FaultKind::poorJoint), 35);
  EXPECT_EQ(count(asbuilt::FaultKind::conductorsTouch), 2 * (10 + 1)) << "ten pairs of five, one of two";
  EXPECT_EQ(count(asbuilt::FaultKind::touchesMetal), 7) << "the furnace is bonded";
  EXPECT_EQ(count(asbuilt::FaultKind::fuseOpen), 1);
}

}  // namespace
}  // namespace ww::operation
