// SPDX-License-Identifier: GPL-3.0-or-later
// settings as a person and a script meet it.
#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>

#include "program.h"
#include "support/json_changes.h"

namespace {

using namespace ww::testing;
using nlohmann::json;

const std::string kFurnace = demoPath("larkmoor-a-furnace-cooling.json");
const std::string kPump = demoPath("larkmoor-g-heat-pump.json");
const std::string kValve = demoPath("larkmoor-g-wrong-valve-sense.json");

json settingOf(const json& all, const std::string& key) {
  for (const auto& setting : all["settings"])
    if (setting["key"] == key) return setting;
  return nullptr;
}

/// A heat pump's job with these choices, in a file of its own.
class WithChoices : public ::testing::Test {
 protected:
  std::string file(const json& control) {
    json job = json::parse(contentOf(kPump));
    job["control"] = control;
    const QString path = folder_.filePath("job.json");
    QFile out(path);
    EXPECT_TRUE(out.open(QIODevice::WriteOnly));
    out.write(QByteArray::fromStdString(job.dump()));
    return path.toStdString();
  }
  static json choice(const char* key, const char* value) {
    return {{"key", key}, {"value", value}, {"note", "asked for"}, {"by", "M. Ode"}, {"at", "2026-03-02"}};
  }
  QTemporaryDir folder_;
};

TEST(SettingsCommand, aHealthyFurnaceContradictsNothing) {
  const Ran ran = runWw({"settings", kFurnace, "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const json all = ran.json();
  EXPECT_TRUE(all["conflicts"].empty());
  EXPECT_EQ(settingOf(all, "minimumOff")["value"], 300);
  const json cycles = settingOf(all, "cycles.compressor1");
  EXPECT_EQ(cycles["value"], 3);
  EXPECT_EQ(cycles["cycling"]["halfLoad"]["on"], 600);
  EXPECT_EQ(cycles["cycling"]["busiest"], 3);
  EXPECT_FALSE(cycles["cycling"].contains("heldAbove"));
  for (const auto& setting : all["settings"])
    for (const char* member : {"text", "why", "ifWrong"})
      EXPECT_FALSE(setting[member].get<std::string>().empty()) << setting["key"];
}

TEST(SettingsCommand, saysItInBothLanguages) {
  const std::string english = runWw({"settings", kPump}).out,
                    spanish = runWw({"settings", kPump, "--lang", "es"}).out;
  EXPECT_NE(english.find("The compressor stays off for at least 5"), std::string::npos) << english;
  EXPECT_NE(english.find("helps only below 40\u202F°F outdoors"), std::string::npos) << english;
  EXPECT_NE(spanish.find("El compresor queda parado al menos 5"), std::string::npos) << spanish;
  for (const std::string& text : {english, spanish}) {
    EXPECT_EQ(text.find('{'), std::string::npos) << text;
    EXPECT_EQ(text.find("unknown"), std::string::npos) << text;
    EXPECT_EQ(text.find("desconocido"), std::string::npos) << text;
  }
}

TEST(SettingsCommand, aWrongValveSenseIsAConflict) {
  const json all = runWw({"settings", kValve, "--json"}).json();
  ASSERT_EQ(all["conflicts"].size(), 1u);
  EXPECT_EQ(all["conflicts"][0]["rule"], "valve-sense");
  EXPECT_EQ(all["conflicts"][0]["severity"], "fail");
  EXPECT_EQ(settingOf(all, "rvSense")["origin"], "differs");
}

TEST_F(WithChoices, aGapBetweenTheLockOutsStops) {
  const std::string path = file({{"wishes", json::object()},
                                 {"choices",
                                  {choice("auxiliaryAbove", "-5"), choice("compressorBelow", "2"),
                                   choice("cycles.compressor1", "5")}}});
  const json all = runWw({"settings", path, "--json"}).json();
  ASSERT_EQ(all["conflicts"].size(), 2u);
  EXPECT_EQ(all["conflicts"][0]["rule"], "lock-out-gap");
  EXPECT_EQ(all["conflicts"][0]["severity"], "stop");
  EXPECT_EQ(all["conflicts"][0]["figures"]["above"], -5);
  EXPECT_EQ(all["conflicts"][1]["rule"], "rate-held");
  EXPECT_EQ(settingOf(all, "cycles.compressor1")["cycling"]["heldAbove"], 0.6);
  const std::string text = runWw({"settings", path}).out;
  EXPECT_NE(text.find("Between 23\u202F°F and 35.6\u202F°F outdoors nothing heats"), std::string::npos)
      << text;
  EXPECT_NE(text.find("overridden by M. Ode"), std::string::npos) << text;
}

TEST_F(WithChoices, aValueThatIsNoneIsTold) {
  const Ran ran = runWw({"settings", file({{"choices", {choice("minimumOff", "soon")}}})});
  EXPECT_EQ(ran.exit, 2);
  EXPECT_NE(ran.err.find("/control/choices/0/value"), std::string::npos) << ran.err;
}

}  // namespace
