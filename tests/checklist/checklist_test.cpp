// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "checklist/band_model.h"
#include "checklist/checklist.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_pumps.h"

namespace ww::checklist {
namespace {

using testing::kRowA;
using testing::kRowB;
using testing::kRowG;

struct Prepared {
  sheet::Sheet sheet;
  operation::Solution solution;
};

Prepared prepared(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  auto sheet = sheet::readCsv(csv, library);
  auto solution = operation::solveSheet(sheet.value.value(), library);
  return {std::move(*sheet.value), std::move(solution)};
}

const Step* between(const Prepared& p, const std::vector<Step>& steps, const std::string& call,
                    const char* unit, const char* a, const char* b) {
  const auto id = p.sheet.unitByTag(unit)->id;
  const auto at = std::find_if(steps.begin(), steps.end(), [&](const Step& s) {
    return s.call == call && s.probe1 == sheet::TerminalRef{id, a} && s.probe2 == sheet::TerminalRef{id, b};
  });
  return at == steps.end() ? nullptr : &*at;
}

// Ohms with fuse out, hot lifted, control off its base; worked out independently from the same typical parts.
TEST(DeadChecks, OhmsToCommonFollowFromWhatIsStillConnected) {
  const Prepared a = prepared(kRowA);
  const auto stepsA = checklistFor(a.sheet, a.solution);
  EXPECT_NEAR(between(a, stepsA, "", "F", "Y", "C")->band->mean, 8.6, 0.05);
  EXPECT_NEAR(between(a, stepsA, "", "F", "W", "C")->band->mean, 3000, 1);
  const Prepared b = prepared(kRowB);
  const auto stepsB = checklistFor(b.sheet, b.solution);
  EXPECT_NEAR(between(b, stepsB, "", "A", "G", "C")->band->mean, 38, 0.1);
  EXPECT_NEAR(between(b, stepsB, "", "A", "W1", "C")->band->mean, 115, 0.5);
  EXPECT_TRUE(between(b, stepsB, "", "A", "R", "C")->band->open);
  const Prepared g = prepared(kRowG);
  const auto stepsG = checklistFor(g.sheet, g.solution);
  EXPECT_NEAR(between(g, stepsG, "", "A", "O", "C")->band->mean, 20.5, 0.05);
  EXPECT_NEAR(between(g, stepsG, "", "A", "Y1", "C")->band->mean, 1830, 10);
}

TEST(Walk, DeadBeforeRestBeforeCallsAndCautionsFirst) {
  const Prepared p = prepared(kRowG);
  const auto steps = checklistFor(p.sheet, p.solution);
  EXPECT_TRUE(std::is_sorted(steps.begin(), steps.end(),
                             [](const Step& x, const Step& y) { return x.phase < y.phase; }));
  EXPECT_EQ(steps.front().instruction, "isolate-and-lock");
  EXPECT_THAT(steps.front().cautions, ::testing::Contains("isolate-lock-off"));
  std::vector<std::string> keys;
  for (const auto& step : steps) keys.push_back(step.key);
  std::sort(keys.begin(), keys.end());
  EXPECT_EQ(std::adjacent_find(keys.begin(), keys.end()), keys.end()) << "keys are unique";
}

const Step* stepAt(const Prepared& p, const std::vector<Step>& steps, const char* instruction,
                   const char* tag) {
  const auto id = p.sheet.unitByTag(tag)->id;
  const auto at = std::find_if(steps.begin(), steps.end(), [&](const Step& step) {
    return step.instruction == instruction && step.standAt == id;
  });
  return at == steps.end() ? nullptr : &*at;
}

TEST(Walk, CautionsOfTheUnitsStandBeforeTheStepTheyConcern) {
  using ::testing::Contains;
  using ::testing::Not;
  const Prepared p = prepared(kRowG);
  const auto steps = checklistFor(p.sheet, p.solution);
  EXPECT_THAT(steps.front().cautions, Contains("separate-disconnects"));
  EXPECT_THAT(stepAt(p, steps, "prove-dead", "O")->cautions, Contains("capacitors-charged"));
  EXPECT_THAT(stepAt(p, steps, "prove-dead", "A")->cautions, Not(Contains("capacitors-charged")));
  EXPECT_THAT(stepAt(p, steps, "terminal-ohms", "O")->cautions, Contains("no-insulation-tester"))
      << "its board has no transformer whose fuse would be opened";
  const Prepared inverter = prepared(testing::kRowR);
  const auto other = checklistFor(inverter.sheet, inverter.solution);
  EXPECT_THAT(stepAt(inverter, other, "prove-dead", "O")->cautions, Not(Contains("single-pole-contactor")))
      << "it has no contactor";
}

TEST(Walk, ACautionThatOnlyAProfileKnowsStandsBeforeTheFirstStepAtItsUnit) {
  auto library = equipment::standardLibrary();
  auto own = std::make_shared<equipment::Profile>(*library.find("furnace-1"));
  own->cautions = {"lid-is-sharp"};
  library.profiles["furnace-1"] = own;
  const auto sheet = sheet::readCsv(kRowA, library);
  const auto steps = checklistFor(*sheet.value, operation::solveSheet(*sheet.value, library));
  const auto at = std::find_if(steps.begin(), steps.end(), [](const Step& step) {
    return std::count(step.cautions.begin(), step.cautions.end(), "lid-is-sharp") > 0;
  });
  ASSERT_NE(at, steps.end());
  EXPECT_EQ(at->standAt, sheet.value->unitByTag("F")->id);
  EXPECT_EQ(at->instruction, "prove-dead");
}

TEST(Walk, EveryLandedConductorIsProvedEndToEndOnce) {
  const Prepared p = prepared(kRowG);
  const auto steps = checklistFor(p.sheet, p.solution);
  const auto continuity =
      std::count_if(steps.begin(), steps.end(), [](const Step& s) { return s.instruction == "continuity"; });
  EXPECT_EQ(continuity, 11);  // twelve conductors, one a capped spare
}

TEST(Walk, CompressorOffTimeIsWaitedOutBetweenCompressorCalls) {
  const Prepared p = prepared(kRowG);
  const auto steps = checklistFor(p.sheet, p.solution);
  const auto waits = std::count_if(steps.begin(), steps.end(),
                                   [](const Step& s) { return s.instruction == "wait-off-time"; });
  EXPECT_EQ(waits, 3);  // before heat1, heat2 and defrost; cool1 is the first
}

TEST(Walk, NeverMeasuresWithoutAnActThatSetsTheCall) {
  const Prepared p = prepared(kRowA);
  std::string current;
  for (const auto& step : checklistFor(p.sheet, p.solution)) {
    if (step.instruction == "restore-power" || step.instruction == "set-call") current = step.call;
    if (step.measure == Measure::acVolts) {
      EXPECT_EQ(step.call, current);
    }
  }
}

/// Simulated healthy installations, drawn from the circuit itself and not from its linearisation.
TEST(Bands, HoldAboutNineteenOfTwentyHealthyReadings) {
  const Prepared p = prepared(kRowG);
  const auto steps = checklistFor(p.sheet, p.solution);
  const Priors& priors = standardPriors();
  std::mt19937 random(7);
  std::normal_distribution<double> normal;
  int inside = 0;
  int all = 0;
  circuit::Solver<circuit::Phasor> solver(p.solution.circuit->plan);
  for (int round = 0; round < 200; ++round) {
    asbuilt::Conditions c;
    c.line += normal(random) * priors.line;
    c.regulationShift = normal(random) * priors.regulation;
    c.coilScale = std::max(0.4, 1 + normal(random) * priors.coilVoltAmps);
    c.supplyScale = std::max(0.2, 1 + normal(random) * priors.supplyVoltAmps);
    c.temperature += normal(random) * priors.temperatureKelvin;
    for (size_t k = 0; k < p.solution.circuit->cables; ++k)
      c.cableScale.push_back(1 + normal(random) * priors.cableLength);
    const double gain = 1 + normal(random) * priors.meterGain;
    for (const auto& step : steps) {
      if (step.measure != Measure::acVolts || !step.band || step.band->mean < 5) continue;
      asbuilt::solve(*p.solution.circuit, p.solution.call(step.call)->positions, c, solver);
      const auto& circuit = *p.solution.circuit;
      const auto reading = solver.read(circuit.node(step.probe1), circuit.node(step.probe2));
      const double value = std::abs(*reading.value) * gain + normal(random) * priors.volts;
      inside += judge(step, value, false) == Verdict::good;
      ++all;
    }
  }
  const double share = double(inside) / all;
  EXPECT_GT(share, 0.90);
  EXPECT_LT(share, 0.99);
}

TEST(Bands, ReadingsNarrowTheOthersTogether) {
  const Prepared p = prepared(kRowA);
  const auto before = checklistFor(p.sheet, p.solution);
  const Step* rest = between(p, before, "rest", "F", "R", "C");
  const auto after =
      checklistFor(p.sheet, p.solution, {}, {{rest->key, rest->band->mean + rest->band->sigma}});
  const Step* was = between(p, before, "cool1", "F", "R", "C");
  const Step* is = between(p, after, "cool1", "F", "R", "C");
  EXPECT_LT(is->band->sigma, 0.6 * was->band->sigma);
  EXPECT_GT(is->band->mean, was->band->mean + 0.3 * was->band->sigma)
      << "a high line at rest is a high line in a call";
  EXPECT_EQ(between(p, after, "rest", "F", "R", "C")->band, rest->band) << "what was read keeps its own band";
}

TEST(Bands, AGrossErrorBendsNothing) {
  const Prepared p = prepared(kRowA);
  const auto before = checklistFor(p.sheet, p.solution);
  const Step* rest = between(p, before, "rest", "F", "R", "C");
  const auto after = checklistFor(p.sheet, p.solution, {}, {{rest->key, 2.7}});
  EXPECT_NEAR(between(p, after, "cool1", "F", "R", "C")->band->mean,
              between(p, before, "cool1", "F", "R", "C")->band->mean, 0.01);
}

TEST(Verdicts, AreThreeValued) {
  Step step;
  step.band = Band{20, 28, 24, 2, false};
  EXPECT_EQ(judge(step, 24, false), Verdict::good);
  EXPECT_EQ(judge(step, 28, false), Verdict::good);
  EXPECT_EQ(judge(step, 30, false), Verdict::again);
  EXPECT_EQ(judge(step, 31.5, false), Verdict::fault);
  EXPECT_EQ(judge(step, std::nullopt, false), Verdict::notMeasured);
  EXPECT_EQ(judge(step, std::nullopt, true), Verdict::fault);
  step.band = Band{1e6, 1e6, 1e6, 0, true};
  EXPECT_EQ(judge(step, std::nullopt, true), Verdict::good);
  EXPECT_EQ(judge(step, 8.5, false), Verdict::fault);
  step.band.reset();
  EXPECT_EQ(judge(step, 8.5, false), Verdict::notJudged);
}

/// What an inverter makes of its demand nobody sees: its 24 V is measured, its compressor is not looked for.
TEST(Checklist, AnInvertersDemandIsMeasuredAndNotLookedFor) {
  const Prepared p = prepared(testing::kRowR);
  size_t looks = 0;
  const auto steps = checklistFor(p.sheet, p.solution);
  for (const Step& step : steps) {
    if (step.measure != Measure::look) continue;
    ++looks;
    for (const auto* list : {&step.mustRun, &step.mustNotRun})
      for (const std::string& duty : *list)
        EXPECT_TRUE(duty.starts_with("blower") || duty.starts_with("electricHeat"))
            << step.key << " " << duty;
  }
  EXPECT_EQ(looks, p.solution.calls.size());
  const Step* demand = between(p, steps, "cool1", "O", "Y1", "C");
  ASSERT_NE(demand, nullptr);
  EXPECT_TRUE(demand->band && demand->band->low > 20);
}

TEST(Priors, RefuseWhatIsNotThere) {
  EXPECT_FALSE(readPriors("{}"));
  EXPECT_FALSE(readPriors("[1"));
  EXPECT_TRUE(readPriors(shippedPriors().front().text));
}

}  // namespace
}  // namespace ww::checklist
