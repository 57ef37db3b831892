// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/logic_run.h"

#include <gtest/gtest.h>

#include "support/small_units.h"

namespace ww::operation {
namespace {

using ww::testing::SmallUnit;

constexpr const char* kOneOfEach = R"(
  {"id": "P", "a": "R", "b": "C", "part": "B2"}, {"id": "IN", "a": "R", "b": "C", "part": "IN3"},
  {"id": "K", "a": "R", "b": "C", "part": "K4"}, {"id": "H", "a": "R", "b": "C", "part": "SQ5"},
  {"id": "SW", "a": "R", "b": "C", "part": "relay", "closedBy": "false"})";

/// One unit's logic by itself: facts a, b, c and senses are set by hand, time is told.
class Bench {
 public:
  explicit Bench(std::vector<std::string> logic, const char* elements = "", const char* settings = "",
                 int controlNumber = 0, const settings::Values& set = {})
      : circuit_(compiled(std::move(logic), elements, settings, set)), run_(circuit_, 0, controlNumber) {
    const size_t n = circuit_.devices.size();
    for (auto* sense : {&senses_.seen, &senses_.pulledIn, &senses_.powered, &senses_.hot, &senses_.closed,
                        &senses_.supplyOn})
      sense->assign(n, 0);
  }

  Bench(const Bench&) = delete;  // the run points into the circuit
  Bench& operator=(const Bench&) = delete;

  Bench& fact(const char* name, bool holds) {
    facts_.world[{circuit_.units[0].id, name}] = holds;
    run_.setFacts(facts_);
    return *this;
  }
  Bench& call(const char* name) {
    facts_.call = name;
    run_.setFacts(facts_);
    return *this;
  }
  Bench& sense(std::vector<char> Senses::*which, const char* element, bool on) {
    (senses_.*which)[size_t(circuit_.device(circuit_.units[0].id, element) - circuit_.devices.data())] = on;
    return *this;
  }
  /// Evaluates at that second; false when the logic never comes to rest.
  bool at(double seconds) {
    now_ = Millis(std::llround(seconds * 1000));
    return run_.evaluate(now_, senses_);
  }
  void powerUp(double seconds) { run_.powerUp(Millis(std::llround(seconds * 1000))); }
  bool operator[](const char* signal) const { return run_.signal(signal); }
  /// Second of the next change a timer makes; -1 when none runs.
  double due() const {
    const auto at = run_.due(now_);
    return at ? double(*at) / 1000 : -1;
  }
  std::vector<Millis> fingerprint() const {
    std::vector<Millis> print;
    run_.appendPrint(now_, print);
    return print;
  }

 private:
  static asbuilt::AsBuilt compiled(std::vector<std::string> logic, const char* elements, const char* settings,
                                   const settings::Values& set) {
    SmallUnit unit;
    unit.terminals = {"R:hot", "C:common"};
    unit.elements = elements;
    unit.settings = settings;
    unit.logic = std::move(logic);
    unit.facts = {{"a", false}, {"b", false}, {"c", false}, {"usual", true}};
    auto sheet = ww::testing::sheetOf({unit});
    sheet.settings = set;
    return asbuilt::compile(sheet, ww::testing::libraryOf({unit}));
  }

  asbuilt::AsBuilt circuit_;
  LogicRun run_;
  Facts facts_;
  Senses senses_;
  Millis now_ = 0;
};

TEST(LogicRun, AndOrNot) {
  Bench bench({"both := world.a & world.b & true", "either := world.a | world.b | false",
               "only := world.a & !world.b", "mixed := world.a & world.b | world.c"});
  for (int row = 0; row < 8; ++row) {
    const bool a = row & 1, b = row & 2, c = row & 4;
    bench.fact("a", a).fact("b", b).fact("c", c);
    ASSERT_TRUE(bench.at(row));
    EXPECT_EQ(bench["both"], a && b) << row;
    EXPECT_EQ(bench["either"], a || b) << row;
    EXPECT_EQ(bench["only"], a && !b) << row;
    EXPECT_EQ(bench["mixed"], (a && b) || c) << row;
  }
}

TEST(LogicRun, FactsHaveTheirDefaultUntilOverridden) {
  Bench bench({"usual := world.usual", "rare := world.a", "mains := line"});
  bench.at(0);
  EXPECT_TRUE(bench["usual"]);
  EXPECT_FALSE(bench["rare"]);
  EXPECT_TRUE(bench["mains"]);
  bench.fact("usual", false).fact("a", true).fact("line", false).at(1);
  EXPECT_FALSE(bench["usual"]);
  EXPECT_TRUE(bench["rare"]);
  EXPECT_FALSE(bench["mains"]);
}

TEST(LogicRun, ASignalMayBeReadBeforeItIsAssigned) {
  Bench bench({"third := second", "second := first1", "first1 := world.a"});
  bench.fact("a", true);
  ASSERT_TRUE(bench.at(0));
  EXPECT_TRUE(bench["third"]);
}

TEST(LogicRun, SettingsAreComparedByValue) {
  constexpr const char* kSetting = R"({"key": "banks", "choices": ["1", "2"], "standard": "1"})";
  const std::vector<std::string> logic{"one := banks=1", "two := banks=2"};
  Bench standard(logic, "", kSetting);
  standard.at(0);
  EXPECT_TRUE(standard["one"]);
  EXPECT_FALSE(standard["two"]);
  settings::Values both;
  both.set("banks", "1");
  both.set("U1.banks", "2");
  Bench own(logic, "", kSetting, 0, both);
  own.at(0);
  EXPECT_FALSE(own["one"]) << "the unit's own value goes before the common one";
  EXPECT_TRUE(own["two"]);
}

TEST(LogicRun, OneOfSeveralControlsHearsItsZoneAndEverybodyTheWholeHouse) {
  const std::vector<std::string> logic{"heat := call.heat1", "frost := call.defrost"};
  Bench second(logic, "", "", 2);
  second.call("zone1.heat1").at(0);
  EXPECT_FALSE(second["heat"]);
  second.call("zone2.heat1").at(1);
  EXPECT_TRUE(second["heat"]);
  second.call("defrost").at(2);
  EXPECT_FALSE(second["heat"]);
  EXPECT_TRUE(second["frost"]);
  Bench only(logic);
  only.call("heat1").at(0);
  EXPECT_TRUE(only["heat"]);
  only.call("rest").at(1);
  EXPECT_FALSE(only["heat"]);
}

TEST(LogicRun, EverySenseReadsItsOwnElement) {
  Bench bench({"sees := seen(IN)", "pulls := in(K)", "holds := powered(K)", "warm := hot(H)",
               "closed := shut(SW)", "up := live", "same := live(P)"},
              kOneOfEach);
  bench.at(0);
  for (const char* name : {"sees", "pulls", "holds", "warm", "closed", "up", "same"})
    EXPECT_FALSE(bench[name]) << name;
  const std::vector<std::tuple<std::vector<char> Senses::*, const char*, std::vector<const char*>>> senses{
      {&Senses::seen, "IN", {"sees"}},     {&Senses::pulledIn, "K", {"pulls"}},
      {&Senses::powered, "K", {"holds"}},  {&Senses::hot, "H", {"warm"}},
      {&Senses::closed, "SW", {"closed"}}, {&Senses::supplyOn, "P", {"up", "same"}}};
  for (const auto& [sense, element, names] : senses) {
    bench.sense(sense, element, true).at(1);
    for (const char* name : {"sees", "pulls", "holds", "warm", "closed", "up", "same"})
      EXPECT_EQ(bench[name], std::find(names.begin(), names.end(), std::string_view(name)) != names.end())
          << name << " by " << element;
    bench.sense(sense, element, false).at(2);
  }
}

TEST(LogicRun, AnOnDelayCountsFromTheRiseAndForgetsABrokenWait) {
  Bench bench({"late := world.a on 3"});
  bench.at(0);
  EXPECT_EQ(bench.due(), -1);
  bench.fact("a", true).at(10);
  EXPECT_FALSE(bench["late"]);
  EXPECT_EQ(bench.due(), 13);
  bench.at(12.999);
  EXPECT_FALSE(bench["late"]);
  bench.at(13);
  EXPECT_TRUE(bench["late"]);
  EXPECT_EQ(bench.due(), -1);
  bench.fact("a", false).at(20);
  EXPECT_FALSE(bench["late"]) << "falls at once";
  bench.fact("a", true).at(21);
  bench.fact("a", false).at(23);
  bench.fact("a", true).at(23.5);
  bench.at(25);
  EXPECT_FALSE(bench["late"]);
  EXPECT_EQ(bench.due(), 26.5);
}

TEST(LogicRun, AnOffDelayHoldsFromTheFallAndIsOffAtFirst) {
  Bench bench({"held := world.a off 90"});
  bench.at(0);
  EXPECT_FALSE(bench["held"]) << "nothing fell yet";
  bench.fact("a", true).at(10);
  EXPECT_TRUE(bench["held"]) << "rises at once";
  EXPECT_EQ(bench.due(), -1);
  bench.fact("a", false).at(20);
  EXPECT_TRUE(bench["held"]);
  EXPECT_EQ(bench.due(), 110);
  bench.fact("a", true).at(100);
  EXPECT_EQ(bench.due(), -1);
  bench.fact("a", false).at(120);
  bench.at(209.999);
  EXPECT_TRUE(bench["held"]);
  bench.at(210);
  EXPECT_FALSE(bench["held"]);
}

TEST(LogicRun, DelaysFollowEachOther) {
  Bench bench({"pulse := (world.a on 2) off 5"});
  bench.fact("a", true).at(0);
  bench.at(2);
  EXPECT_TRUE(bench["pulse"]);
  bench.fact("a", false).at(3);
  EXPECT_TRUE(bench["pulse"]);
  EXPECT_EQ(bench.due(), 8);
  bench.at(8);
  EXPECT_FALSE(bench["pulse"]);
}

TEST(LogicRun, MinOffCountsFromTheFallAndFromPowerUp) {
  Bench bench({"K := world.a & minOff(300)"});
  bench.powerUp(0);
  bench.fact("a", true).at(1);
  EXPECT_FALSE(bench["K"]);
  EXPECT_EQ(bench.due(), 300);
  bench.at(300);
  EXPECT_TRUE(bench["K"]);
  bench.fact("a", false).at(400);
  EXPECT_FALSE(bench["K"]);
  bench.fact("a", true).at(401);
  EXPECT_FALSE(bench["K"]);
  EXPECT_EQ(bench.due(), 700) << "from the fall";
  bench.powerUp(500);
  bench.at(700);
  EXPECT_FALSE(bench["K"]) << "power came back";
  bench.at(800);
  EXPECT_TRUE(bench["K"]);
}

TEST(LogicRun, MinOnKeepsAnOutputUntilItsTimeIsUp) {
  Bench bench({"K := world.a | !minOn(60)"});
  bench.at(0);
  EXPECT_FALSE(bench["K"]);
  bench.fact("a", true).at(10);
  EXPECT_TRUE(bench["K"]);
  bench.fact("a", false).at(11);
  EXPECT_TRUE(bench["K"]);
  EXPECT_EQ(bench.due(), 70);
  bench.at(70);
  EXPECT_FALSE(bench["K"]);
  bench.fact("a", true).at(100);
  bench.at(200);
  bench.fact("a", false).at(201);
  EXPECT_FALSE(bench["K"]) << "it was on long enough";
}

TEST(LogicRun, OfALatchTheResetWins) {
  Bench bench({"kept := latch(world.a; world.b)"});
  bench.fact("a", true).at(0);
  EXPECT_TRUE(bench["kept"]);
  bench.fact("a", false).at(1);
  EXPECT_TRUE(bench["kept"]);
  bench.fact("b", true).at(2);
  EXPECT_FALSE(bench["kept"]);
  bench.fact("a", true).at(3);
  EXPECT_FALSE(bench["kept"]) << "both: reset";
  bench.fact("b", false).at(4);
  EXPECT_TRUE(bench["kept"]);
}

TEST(LogicRun, ALatchForgetsWithoutSupplyUnlessItKeeps) {
  Bench bench({"kept := latch(world.a; world.b) ", "always := latch(world.a; world.b; keep)"}, kOneOfEach);
  bench.sense(&Senses::supplyOn, "P", true).fact("a", true).at(0);
  bench.fact("a", false).at(1);
  EXPECT_TRUE(bench["kept"]);
  EXPECT_TRUE(bench["always"]);
  bench.sense(&Senses::supplyOn, "P", false).at(2);
  EXPECT_FALSE(bench["kept"]);
  EXPECT_TRUE(bench["always"]);
  bench.sense(&Senses::supplyOn, "P", true).at(3);
  bench.powerUp(3);
  bench.at(3);
  EXPECT_FALSE(bench["kept"]);
  EXPECT_TRUE(bench["always"]);
}

TEST(LogicRun, ATallyCountsRisesNotTime) {
  Bench bench({"third := tally(world.a, 3; world.b)"});
  double t = 0;
  const auto rise = [&] {
    bench.fact("a", true).at(++t);
    bench.at(++t);  // standing on is no further rise
    const bool on = bench["third"];
    bench.fact("a", false).at(++t);
    return on;
  };
  EXPECT_FALSE(rise());
  EXPECT_FALSE(rise());
  EXPECT_TRUE(rise());
  EXPECT_TRUE(bench["third"]) << "stays";
  bench.fact("b", true).at(++t);
  EXPECT_FALSE(bench["third"]);
  EXPECT_FALSE(rise());
  bench.fact("b", false).at(++t);
  EXPECT_FALSE(rise());
  EXPECT_FALSE(rise());
  EXPECT_TRUE(rise()) << "rises while held at zero did not count";
}

TEST(LogicRun, RanAddsUpWhatItRanInPieces) {
  Bench bench({"due := ran(world.a, 100; world.b)"});
  bench.fact("a", true).at(0);
  EXPECT_EQ(bench.due(), 100);
  bench.fact("a", false).at(60);
  EXPECT_EQ(bench.due(), -1);
  bench.fact("a", true).at(1000);
  EXPECT_FALSE(bench["due"]);
  EXPECT_EQ(bench.due(), 1040);
  bench.at(1020);  // looking at it changes nothing
  EXPECT_EQ(bench.due(), 1040);
  bench.at(1040);
  EXPECT_TRUE(bench["due"]);
  bench.fact("a", false).at(1100);
  EXPECT_TRUE(bench["due"]) << "stays until reset";
  bench.fact("a", true).fact("b", true).at(1200);
  EXPECT_FALSE(bench["due"]);
  EXPECT_EQ(bench.due(), -1) << "held at zero";
  bench.fact("b", false).at(1300);
  EXPECT_EQ(bench.due(), 1400);
}

TEST(LogicRun, WhoComesFirstKeepsIt) {
  Bench bench({"heat, cool, dry := first(world.a; world.b; world.c)"});
  bench.at(0);
  EXPECT_FALSE(bench["heat"] || bench["cool"] || bench["dry"]);
  bench.fact("b", true).at(1);
  EXPECT_TRUE(bench["cool"]);
  bench.fact("a", true).fact("c", true).at(2);
  EXPECT_TRUE(bench["cool"]) << "held against an earlier name";
  EXPECT_FALSE(bench["heat"] || bench["dry"]);
  bench.fact("b", false).at(3);
  EXPECT_TRUE(bench["heat"]) << "passed on: of the waiting the first named";
  EXPECT_FALSE(bench["cool"] || bench["dry"]);
  bench.fact("a", false).at(4);
  EXPECT_TRUE(bench["dry"]);
  bench.fact("c", false).at(5);
  EXPECT_FALSE(bench["heat"] || bench["cool"] || bench["dry"]);
  bench.fact("a", true).fact("b", true).at(6);
  EXPECT_TRUE(bench["heat"]) << "tie: first named";
}

/// `pulse` rises with the fact and falls in the same instant, because it cuts itself through `seen`.
TEST(LogicRun, APulseOfNoLengthIsNotLost) {
  Bench bench({"latchBefore := latch(pulse; world.b)", "countBefore := tally(pulse, 2; world.b)",
               "heldBefore := pulse off 5", "pulse := world.a & !done", "latchAfter := latch(pulse; world.b)",
               "countAfter := tally(pulse, 2; world.b)", "heldAfter := pulse off 5",
               "done := latch(pulse; !world.a)"});
  bench.fact("a", true);
  ASSERT_TRUE(bench.at(10));
  EXPECT_FALSE(bench["pulse"]) << "over within the instant";
  EXPECT_TRUE(bench["latchBefore"]);
  EXPECT_TRUE(bench["latchAfter"]);
  EXPECT_TRUE(bench["heldBefore"]);
  EXPECT_TRUE(bench["heldAfter"]);
  EXPECT_FALSE(bench["countBefore"]);
  EXPECT_FALSE(bench["countAfter"]);
  EXPECT_EQ(bench.due(), 15);
  bench.fact("a", false).at(12);
  bench.fact("a", true).at(13);
  EXPECT_TRUE(bench["countBefore"]);
  EXPECT_TRUE(bench["countAfter"]);
  EXPECT_EQ(bench.due(), 18) << "the hold starts again";
}

TEST(LogicRun, LogicThatNeverRestsIsSaid) {
  Bench bench({"flip := latch(world.a & !flop; flop)", "flop := flip"});
  EXPECT_TRUE(bench.at(0));
  bench.fact("a", true);
  EXPECT_FALSE(bench.at(1));
}

TEST(LogicRun, AFingerprintKnowsAllMemoryThatStillMatters) {
  // Ran for a while and stopped is not the same as never ran.
  Bench ran({"due := ran(world.a, 100; world.b)"});
  ran.at(0);
  const auto never = ran.fingerprint();
  ran.fact("a", true).at(10);
  ran.fact("a", false).at(50);
  EXPECT_NE(ran.fingerprint(), never);
  ran.fact("b", true).at(60);
  ran.fact("b", false).at(70);
  EXPECT_EQ(ran.fingerprint(), never) << "reset";

  // Rises beyond the number that matters leave no trace, or a round could never be seen to repeat.
  Bench count({"third := tally(world.a, 3; world.b)"});
  std::vector<std::vector<Millis>> prints;
  for (int rise = 1; rise <= 5; ++rise) {
    count.fact("a", true).at(2 * rise);
    count.fact("a", false).at(2 * rise + 1);
    prints.push_back(count.fingerprint());
  }
  EXPECT_NE(prints[0], prints[1]);
  EXPECT_NE(prints[1], prints[2]);
  EXPECT_EQ(prints[2], prints[4]);
}

TEST(LogicRun, AMomentCanBeCopied) {
  Bench bench({"late := world.a on 3"});
  bench.fact("a", true).at(0);
  const auto before = bench.fingerprint();
  bench.at(1);
  EXPECT_NE(bench.fingerprint(), before) << "one second less to go";
}

}  // namespace
}  // namespace ww::operation
