// SPDX-License-Identifier: GPL-3.0-or-later
// The command as a person runs it: its own process, its output and its exit status.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/reference_rows.h"

namespace ww {
namespace {

using nlohmann::json;
using testing::kRowA;

struct Ran {
  std::string out;  ///< both streams
  int exit = -1;
};

Ran run(const std::string& arguments) {
  Ran ran;
  FILE* pipe = popen((std::string(WIREWRIGHT_WW) + " " + arguments + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> buffer;
  for (size_t n = 0; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    ran.out.append(buffer.data(), n);
  const int status = pclose(pipe);
  ran.exit = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return ran;
}

class Command : public ::testing::Test {
 protected:
  Command() : folder_(std::filesystem::temp_directory_path() / ("ww-" + std::to_string(getpid()))) {
    std::filesystem::create_directories(folder_);
  }
  ~Command() override { std::filesystem::remove_all(folder_); }
  std::string file(const std::string& name, const std::string& content) const {
    const auto path = folder_ / name;
    std::ofstream(path, std::ios::binary) << content;
    return path.string();
  }
  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  static std::string demo(const std::string& name) {
    return std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + name;
  }

 private:
  std::filesystem::path folder_;
};

TEST_F(Command, HealthyDemosEndWithZeroAndNoFinding) {
  for (const char* name : {"larkmoor-a-furnace-cooling.json", "larkmoor-b-electric-air-handler.json",
                           "larkmoor-g-heat-pump.json", "larkmoor-a.csv"}) {
    const Ran ran = run("check --json " + demo(name));
    EXPECT_EQ(ran.exit, 0) << name;
    const json result = json::parse(ran.out);
    EXPECT_TRUE(result["findings"].empty()) << name;
    EXPECT_GE(result["calls"].size(), 4U);
    for (const auto& call : result["calls"]) EXPECT_EQ(call["ok"], true) << name << " " << call["call"];
  }
}

TEST_F(Command, FaultyDemosEndWithOneAndTheRightFindingFirst) {
  const Ran swapped = run("check --json " + demo("larkmoor-a-swapped-at-furnace.json"));
  EXPECT_EQ(swapped.exit, 1);
  const json first = json::parse(swapped.out)["findings"][0];
  EXPECT_EQ(first["key"], "compressor-without-blower");
  EXPECT_EQ(first["severity"], "stop");
  EXPECT_EQ(first["places"][0], "O");
  EXPECT_FALSE(first["text"].get<std::string>().empty());
  const Ran sense = run("check --json --lang es " + demo("larkmoor-g-wrong-valve-sense.json"));
  EXPECT_EQ(sense.exit, 1);
  EXPECT_EQ(json::parse(sense.out)["findings"][0]["key"], "rv-sense");
  EXPECT_NE(json::parse(sense.out)["findings"][0]["text"].get<std::string>().find("válvula"),
            std::string::npos);
}

TEST_F(Command, StrictCountsWhatIsMarginal) {
  const std::string splice =
      testing::edited(testing::edited(kRowA, "YE,T,Y,F,Y", "YE,T,Y,F,/S1"), "YE,F,Y,O,Y", "YE,F,/S1,O,Y");
  const std::string sheet = file("speed.csv", splice);
  EXPECT_EQ(run("check " + sheet).exit, 0);
  EXPECT_EQ(run("check --strict " + sheet).exit, 1);
}

TEST_F(Command, SolveSpeaksOfNodesCoilsDutiesAmpsAndState) {
  const Ran ran = run("solve --json --call cool1 " + demo("larkmoor-a.csv"));
  ASSERT_EQ(ran.exit, 0);
  const json call = json::parse(ran.out)["calls"][0];
  EXPECT_EQ(call["call"], "cool1");
  EXPECT_NEAR(call["nodes"]["F.R"]["volts"].get<double>(), 27.0, 0.1);
  EXPECT_EQ(call["nodes"]["F.R"]["reference"], "F.C");
  EXPECT_EQ(call["nodes"]["F.R"]["quality"], "solid");
  EXPECT_TRUE(call["nodes"]["F.R"].contains("degrees"));
  EXPECT_EQ(call["coils"]["O.CC"]["state"], "in");
  EXPECT_NEAR(call["coils"]["O.CC"]["pullInVolts"].get<double>(), 23.35, 0.1);
  EXPECT_NEAR(call["coils"]["O.CC"]["sealedVolts"].get<double>(), 26.84, 0.1);
  EXPECT_EQ(call["duties"], json({"blower:cool1", "compressor1"}));
  EXPECT_NEAR(call["amps"]["F.XF"].get<double>(), 0.51, 0.02);
  EXPECT_EQ(call["state"], "ok");
  EXPECT_EQ(run("solve --call heat9 " + demo("larkmoor-a.csv")).exit, 2);
}

TEST_F(Command, SolveAsksForACallWhileNobodyIsIn) {
  const Ran ran = run("solve --json --call unoccupied.cool1 " + demo("larkmoor-l-rooftop-unit.json"));
  ASSERT_EQ(ran.exit, 0);
  EXPECT_EQ(json::parse(ran.out)["calls"][0]["duties"], json({"compressor1", "blower"}));
}

TEST_F(Command, StepsCarryBandsAndCautions) {
  const Ran ran = run("steps --json " + demo("larkmoor-a.csv"));
  ASSERT_EQ(ran.exit, 0);
  const json steps = json::parse(ran.out)["steps"];
  EXPECT_EQ(steps[0]["instruction"], "isolate-and-lock");
  int bands = 0;
  for (const auto& step : steps) bands += step.contains("band");
  EXPECT_GT(bands, 25);
}

TEST_F(Command, ReportAndDrawingAreWrittenOrNotAtAll) {
  const std::string pdf = path("report.pdf");
  EXPECT_EQ(run("report " + demo("larkmoor-a-furnace-cooling.json") + " -o " + pdf).exit, 0);
  EXPECT_GT(std::filesystem::file_size(pdf), 10000U);
  EXPECT_EQ(run("draw " + demo("larkmoor-a.csv") + " --call fan -o " + path("fan.svg")).exit, 0);
  EXPECT_GT(std::filesystem::file_size(path("fan.svg")), 1000U);
  EXPECT_EQ(run("draw " + demo("larkmoor-a.csv") + " -o " + path("fan.bmp")).exit, 2);
  EXPECT_EQ(run("report " + demo("larkmoor-a.csv") + " -o " + path("no/such/folder.pdf")).exit, 3);
  EXPECT_EQ(run("draw " + demo("larkmoor-a.csv") + " -o " + path("no/such/folder.png")).exit, 3);
  for (const auto& entry : std::filesystem::directory_iterator(path("")))
    EXPECT_NE(entry.path().extension(), ".part");
}

TEST_F(Command, WrongInputIsToldWithItsPlaceAndNothingRaw) {
  const std::string deep(200, '[');
  const std::string truncated = "{\"format\": \"wirewright-job\", \"version\": 1, \"id\":";
  const std::pair<std::string, const char*> cases[] = {
      {file("terminal.csv", testing::edited(kRowA, "RD,T,R,F,R", "RD,T,R,F,Q")), "row 6, end_b"},
      {file("unit.csv", testing::edited(kRowA, "BU,F,C,O,C", "BU,F,C,Z,C")), "Z"},
      {file("zero.csv", testing::edited(kRowA, "1,18,5,15,m,RD", "1,18,5,0,m,RD")), "length"},
      {file("negative.csv", testing::edited(kRowA, "1,18,5,15,m,RD", "1,18,5,-2,m,RD")), "length"},
      {file("nan.csv", testing::edited(kRowA, "1,18,5,15,m,RD", "1,18,5,nan,m,RD")), "length"},
      {file("deep.json", deep), "64"},
      {file("truncated.json", truncated), "JSON"},
      {file("newer.json", "{\"format\": \"wirewright-job\", \"version\": 99}"), "99"},
      {file("other.json", "{\"format\": \"something\"}"), "wirewright-job"},
      {file("type.json", "[1, 2]"), "wirewright-job"},
      {file("huge.json", "{\"a\": \"" + std::string(17 << 20, 'x') + "\"}"), ""},
      {file("empty.csv", ""), "empty"}};
  for (const auto& [name, piece] : cases)
    for (const char* language : {"en", "es"}) {
      const Ran ran = run("check --lang " + std::string(language) + " " + name);
      EXPECT_EQ(ran.exit, 2) << name << "\n" << ran.out;
      EXPECT_NE(ran.out.find(name), std::string::npos) << ran.out;
      EXPECT_EQ(ran.out.find('{'), std::string::npos) << ran.out;
      if (std::string(language) == "en") {
        EXPECT_NE(ran.out.find(piece), std::string::npos) << piece << " in\n" << ran.out;
      }
    }
  EXPECT_EQ(run("check " + path("not-there.json")).exit, 3);
  EXPECT_EQ(run("check").exit, 2);
  EXPECT_EQ(run("--help").exit, 0);
}

TEST_F(Command, AllProblemsAreListedAtOnce) {
  const std::string sheet =
      testing::edited(testing::edited(kRowA, "RD,T,R,F,R", "RD,T,R,F,Q"), "2,18,2,12,m,YE", "2,18,2,-1,m,YX");
  const Ran ran = run("check " + file("many.csv", sheet));
  EXPECT_EQ(ran.exit, 2);
  EXPECT_GE(std::count(ran.out.begin(), ran.out.end(), '\n'), 3) << ran.out;
}

}  // namespace
}  // namespace ww
