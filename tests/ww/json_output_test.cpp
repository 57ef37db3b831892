// SPDX-License-Identifier: GPL-3.0-or-later
// The JSON of each command: its members, and that they say what the circuit in the same process says.
#include <gmock/gmock.h>

#include <cmath>
#include <set>

#include "job/document_file.h"
#include "operation/solution.h"
#include "support/reference_rows.h"
#include "ww/program.h"

namespace ww {
namespace {

using nlohmann::json;
using testing::contentOf;
using testing::demoPath;
using testing::runWw;

const std::vector<std::string> kDemos{
    "larkmoor-a-furnace-cooling.json",      "larkmoor-a-swapped-at-furnace.json",
    "larkmoor-b-electric-air-handler.json", "larkmoor-g-heat-pump.json",
    "larkmoor-g-wrong-valve-sense.json",    "larkmoor-a.csv"};

const std::set<std::string> kSeverities{"stop", "fail", "warn", "note"};
const std::set<std::string> kCoilStates{"out", "in", "late", "hum", "chatter", "under"};
const std::set<std::string> kCallStates{"ok", "late", "hum", "race", "chatter", "collapse", "fuse-open"};
const std::set<std::string> kQualities{"solid", "ghost", "floating"};

std::set<std::string> members(const json& object) {
  std::set<std::string> names;
  for (const auto& item : object.items()) names.insert(item.key());
  return names;
}

/// The sheet that the command speaks of, read in this process.
sheet::Sheet sheetOf(const std::string& demo) {
  const auto job = job::readDocument(contentOf(demoPath(demo)), equipment::standardLibrary());
  return *job::currentSheet(*job.value);
}

class Demo : public ::testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(All, Demo, ::testing::ValuesIn(kDemos), [](const auto& demo) {
  std::string name = demo.param;
  std::erase_if(name, [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); });
  return name;
});

TEST_P(Demo, checkListsFindingsAndCalls) {
  const auto ran = runWw({"check", "--json", demoPath(GetParam())});
  EXPECT_EQ(ran.err, "");
  const json result = ran.json();
  ASSERT_EQ(members(result), (std::set<std::string>{"calls", "findings"}));
  bool fault = false;
  for (const json& finding : result["findings"]) {
    EXPECT_TRUE(finding["key"].is_string());
    const auto severity = finding["severity"].get<std::string>();
    EXPECT_TRUE(kSeverities.contains(severity)) << severity;
    fault |= severity == "stop" || severity == "fail";
    ASSERT_TRUE(finding["places"].is_array());
    EXPECT_FALSE(finding["places"].empty()) << finding;
    for (const json& place : finding["places"]) EXPECT_NE(place.get<std::string>(), "") << finding;
    EXPECT_GT(finding["text"].get<std::string>().size(), 20u);
    EXPECT_EQ(finding["text"].get<std::string>().find('{'), std::string::npos);
  }
  EXPECT_EQ(ran.exit, fault ? 1 : 0);
  std::set<std::string> names;
  for (const json& call : result["calls"]) {
    ASSERT_EQ(members(call), (std::set<std::string>{"call", "must", "ok", "runs"}));
    EXPECT_TRUE(names.insert(call["call"]).second);
    EXPECT_TRUE(call["must"].is_array() && call["runs"].is_array() && call["ok"].is_boolean());
  }
  EXPECT_TRUE(names.contains("rest"));
}

TEST_P(Demo, solveSaysWhatTheCircuitSays) {
  const auto ran = runWw({"solve", "--json", demoPath(GetParam())});
  EXPECT_EQ(ran.exit, 0);
  EXPECT_EQ(ran.err, "");
  const json calls = ran.json()["calls"];
  const auto sheet = sheetOf(GetParam());
  const auto solution = operation::solveSheet(sheet, equipment::standardLibrary());
  ASSERT_EQ(calls.size(), solution.calls.size());
  for (size_t k = 0; k < calls.size(); ++k) {
    const auto& solved = solution.calls[k].result;
    const json& call = calls[k];
    EXPECT_EQ(members(call), (std::set<std::string>{"amps", "call", "coils", "duties", "nodes", "state"}));
    EXPECT_EQ(call["call"], solved.call);
    EXPECT_TRUE(kCallStates.contains(call["state"])) << call["state"];
    ASSERT_EQ(call["nodes"].size(), solved.terminals.size());
    for (const auto& terminal : solved.terminals) {
      const std::string name =
          sheet.units.find(terminal.terminal.unit)->tag + "." + terminal.terminal.terminal;
      ASSERT_TRUE(call["nodes"].contains(name)) << name;
      const json& node = call["nodes"][name];
      ASSERT_EQ(members(node), (std::set<std::string>{"degrees", "quality", "reference", "volts"}));
      EXPECT_TRUE(kQualities.contains(node["quality"])) << node;
      ASSERT_TRUE(call["nodes"].contains(node["reference"].get<std::string>())) << name << " " << node;
      if (terminal.quality == circuit::Quality::floating) {
        EXPECT_TRUE(node["volts"].is_null() && node["degrees"].is_null()) << name << " " << node;
        continue;
      }
      EXPECT_NEAR(node["volts"].get<double>(), std::abs(terminal.volts), 1e-4) << name;
      EXPECT_LE(std::abs(node["degrees"].get<double>()), 180.0) << name;
      const double angle = node["degrees"].get<double>() * std::acos(-1.0) / 180;
      EXPECT_NEAR(node["volts"].get<double>() * std::cos(angle), terminal.volts.real(), 2e-4) << name;
    }
    ASSERT_EQ(call["coils"].size(), solved.coils.size());
    for (const auto& coil : solved.coils) {
      const json& told = call["coils"][sheet.units.find(coil.unit)->tag + "." + coil.part];
      EXPECT_TRUE(kCoilStates.contains(told["state"])) << told;
      EXPECT_NEAR(told["pullInVolts"].get<double>(), coil.pullIn.si(), 1e-4);
      EXPECT_NEAR(told["sealedVolts"].get<double>(), coil.sealed.si(), 1e-4);
      EXPECT_NEAR(told["amps"].get<double>(), coil.amps.si(), 1e-4);
    }
    ASSERT_EQ(call["amps"].size(), solved.sources.size());
    for (const auto& source : solved.sources)
      EXPECT_NEAR(call["amps"][sheet.units.find(source.unit)->tag + "." + source.part].get<double>(),
                  source.amps.si(), 1e-4);
    std::vector<std::string> duties;
    for (const auto& duty : solved.duties) duties.push_back(duty.duty);
    EXPECT_EQ(call["duties"], json(duties));
  }
}

TEST_P(Demo, checkAndSolveAgreeOnWhatRuns) {
  const json checked = runWw({"check", "--json", demoPath(GetParam())}).json()["calls"];
  for (const json& call : checked) {
    const std::string name = call["call"];
    const json solved = runWw({"solve", "--json", "--call", name, demoPath(GetParam())}).json()["calls"];
    ASSERT_EQ(solved.size(), 1u) << name;
    EXPECT_EQ(solved[0]["call"], name);
    const auto runs = call["runs"].get<std::set<std::string>>();
    EXPECT_EQ(runs, solved[0]["duties"].get<std::set<std::string>>()) << name;
  }
}

TEST_P(Demo, stepsStandInWalkingOrderWithTheirBands) {
  const auto ran = runWw({"steps", "--json", demoPath(GetParam())});
  EXPECT_EQ(ran.exit, 0);
  const json steps = ran.json()["steps"];
  ASSERT_GT(steps.size(), 20u);
  const std::vector<std::string> phases{"dead", "rest", "call"};
  std::set<std::string> keys;
  ptrdiff_t phase = 0;
  int bands = 0;
  for (const json& step : steps) {
    EXPECT_TRUE(keys.insert(step["key"]).second) << step["key"];
    const auto at =
        std::find(phases.begin(), phases.end(), step["phase"].get<std::string>()) - phases.begin();
    EXPECT_GE(at, phase) << step["key"] << ": dead checks come first";
    phase = at;
    const bool probed = step["measure"] == "ohms" || step["measure"] == "ac-volts";
    EXPECT_NE(step["text"], "") << step["key"];
    if (probed) {
      EXPECT_EQ(step.contains("call"), step["phase"] != "dead") << step["key"];
      ASSERT_EQ(step["probes"].size(), 2u) << step["key"];
      EXPECT_NE(step["probes"][0], step["probes"][1]) << step["key"];
    }
    if (!step.contains("band")) continue;
    ++bands;
    const json& band = step["band"];
    if (band.value("open", false))
      EXPECT_GT(band["atLeast"].get<double>(), 0) << step["key"];
    else
      EXPECT_LT(band["low"].get<double>(), band["high"].get<double>()) << step["key"];
  }
  EXPECT_GT(bands, 10);
}

TEST_P(Demo, idsAndFiguresAreTheSameInEveryLanguageAndSentencesAreNot) {
  for (const char* command : {"check", "steps", "solve"}) {
    json english = runWw({command, "--json", "--lang", "en", demoPath(GetParam())}).json();
    json spanish = runWw({command, "--json", "--lang", "es", demoPath(GetParam())}).json();
    for (const char* list : {"findings", "steps"}) {
      if (!english.contains(list)) continue;
      ASSERT_EQ(english[list].size(), spanish[list].size());
      for (size_t i = 0; i < english[list].size(); ++i) {
        EXPECT_NE(english[list][i]["text"], spanish[list][i]["text"]) << english[list][i]["key"];
        for (json* entry : {&english[list][i], &spanish[list][i]}) {
          entry->erase("text");
          entry->erase("title");
        }
      }
    }
    EXPECT_EQ(english, spanish) << command;
  }
}

TEST_P(Demo, theNetlistIsTheSameAsTextAndAsJson) {
  const auto text = runWw({"netlist", demoPath(GetParam()), "--call", "rest"});
  const auto wrapped = runWw({"netlist", "--json", demoPath(GetParam()), "--call", "rest"});
  EXPECT_EQ(text.exit, 0);
  EXPECT_EQ(wrapped.exit, 0);
  EXPECT_EQ(wrapped.json()["netlist"], text.out);
  EXPECT_EQ(wrapped.json()["call"], "rest");
  EXPECT_NE(text.out.find("\n.end"), std::string::npos);
}

TEST(JsonOutput, aJobAndItsSheetAsCsvSayTheSame) {
  for (const char* command : {"check", "solve"})
    EXPECT_EQ(runWw({command, "--json", demoPath("larkmoor-a-furnace-cooling.json")}).json(),
              runWw({command, "--json", demoPath("larkmoor-a.csv")}).json())
        << command;
}

class JsonFiles : public testing::InFolder {};

TEST_F(JsonFiles, reportAndDrawNameWhatTheyWrote) {
  const std::string pdf = path("r.pdf"), svg = path("d.svg"), png = path("d.png");
  const auto report = runWw({"report", "--json", demoPath("larkmoor-a.csv"), "-o", pdf});
  EXPECT_EQ(report.exit, 0);
  EXPECT_EQ(report.err, "");
  EXPECT_EQ(report.json()["file"], pdf);
  EXPECT_GT(report.json()["pages"].get<int>(), 2);
  EXPECT_TRUE(report.json()["report"].is_object());
  EXPECT_EQ(contentOf(pdf).substr(0, 5), "%PDF-");
  for (const std::string& picture : {svg, png}) {
    const auto drawn =
        runWw({"draw", "--json", demoPath("larkmoor-a.csv"), "-o", picture, "--call", "cool1"});
    EXPECT_EQ(drawn.exit, 0);
    EXPECT_EQ(drawn.err, "");
    EXPECT_EQ(drawn.json()["file"], picture);
  }
  EXPECT_NE(contentOf(svg).find("<svg"), std::string::npos);
  EXPECT_EQ(contentOf(png).substr(1, 3), "PNG");
  EXPECT_THAT(names(), ::testing::UnorderedElementsAre("r.pdf", "d.svg", "d.png"));
}

TEST_F(JsonFiles, placesNameTerminalsPartsAndConductors) {
  const std::string loose = file("loose.csv", testing::edited(testing::kRowA, "YE,F,Y,O,Y", "YE,F,Y,O,"));
  std::set<std::string> keys;
  std::string places;
  const json result = runWw({"check", "--json", loose}).json();
  for (const json& finding : result["findings"]) {
    keys.insert(finding["key"]);
    for (const json& place : finding["places"]) places += place.get<std::string>() + "\n";
  }
  EXPECT_TRUE(keys.contains("loose-end"));
  EXPECT_NE(places.find("cable 2 YE end B"), std::string::npos) << places;
}

}  // namespace
}  // namespace ww
