// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <filesystem>

#include "program.h"

namespace {

using namespace ww::testing;

const std::string kDemo = WIREWRIGHT_DEMO_DATA_DIR;

class StoreCommand : public ::testing::Test {
 protected:
  QTemporaryDir folder_;
  std::string data_ = folder_.path().toStdString() + "/store";
  Ran save(const std::string& file) { return runWw({"save", file, "--data", data_, "--json"}); }
  nlohmann::json find(const std::string& text) {
    const Ran ran = runWw({"find", text, "--data", data_, "--json"});
    EXPECT_EQ(ran.exit, 0) << ran.err;
    return ran.json();
  }
};

TEST_F(StoreCommand, whatIsSavedIsFound) {
  const Ran saved = save(kDemo + "/larkmoor-g-heat-pump.json");
  ASSERT_EQ(saved.exit, 0) << saved.err;
  EXPECT_EQ(saved.json()["number"], "2026-0319-02");
  const auto found = find("larkmoor ter 7");
  ASSERT_EQ(found["jobs"].size(), 1u);
  EXPECT_EQ(found["jobs"][0]["id"], saved.json()["id"]);
  EXPECT_EQ(found["jobs"][0]["system"], "G");
  EXPECT_EQ(found["jobs"][0]["state"], "closed");
  EXPECT_EQ(found["jobs"][0]["matches"][0]["field"], "address");
  EXPECT_EQ(found["matching"], 1);
  EXPECT_EQ(find("state:draft")["jobs"].size(), 0u);
}

TEST_F(StoreCommand, savingTwiceIsSavingOnce) {
  save(kDemo + "/larkmoor-g-heat-pump.json");
  EXPECT_EQ(save(kDemo + "/larkmoor-g-heat-pump.json").json()["sibling"], 0);
  EXPECT_EQ(find("")["all"], 1);
}

TEST_F(StoreCommand, aSheetAloneBecomesADraft) {
  const Ran first = save(kDemo + "/larkmoor-a.csv");
  const Ran second = save(kDemo + "/larkmoor-a.csv");
  ASSERT_EQ(first.exit, 0) << first.err;
  EXPECT_NE(first.json()["number"], second.json()["number"]);
  const auto found = find("system:A state:draft");
  ASSERT_EQ(found["jobs"].size(), 2u);
  EXPECT_EQ(found["jobs"][0]["stage"], "wiring");
}

TEST_F(StoreCommand, sentencesInBothLanguages) {
  save(kDemo + "/larkmoor-g-heat-pump.json");
  const Ran english = runWw({"find", "lrakmoor", "--data", data_});
  const Ran spanish = runWw({"find", "lrakmoor", "--data", data_, "--lang", "es"});
  EXPECT_NE(english.out.find("2026-0319-02"), std::string::npos) << english.out;
  EXPECT_NE(english.out.find("\"lrakmoor\""), std::string::npos) << english.out;
  EXPECT_NE(spanish.out.find("cerrado"), std::string::npos) << spanish.out;
  EXPECT_NE(english.out, spanish.out);
}

TEST_F(StoreCommand, aFaultyFileIsWrongInputAndNothingIsMade) {
  const std::string file = folder_.path().toStdString() + "/faulty.json";
  std::ofstream(file) << "{\"format\": \"wirewright-job\"}";
  EXPECT_EQ(save(file).exit, 2);
  EXPECT_EQ(save(folder_.path().toStdString() + "/nowhere.json").exit, 3);
  EXPECT_FALSE(std::filesystem::exists(data_));
}

TEST_F(StoreCommand, aStoreThatCannotBeWrittenIsTold) {
  const std::string file = folder_.path().toStdString() + "/file";
  std::ofstream(file) << "x";
  const Ran ran = runWw({"find", "--data", file + "/store"});
  EXPECT_EQ(ran.exit, 3);
  ASSERT_EQ(ran.complaints().size(), 1u);
  EXPECT_NE(ran.complaints()[0].find(file + "/store"), std::string::npos) << ran.err;
}

TEST_F(StoreCommand, aStoreThatIsNoneIsLeftAsItIs) {
  std::filesystem::create_directories(data_);
  std::ofstream(data_ + "/jobs.db") << std::string(500, 'a');
  EXPECT_EQ(runWw({"find", "--data", data_}).exit, 3);
  EXPECT_EQ(std::filesystem::file_size(data_ + "/jobs.db"), 500u);
}

}  // namespace
