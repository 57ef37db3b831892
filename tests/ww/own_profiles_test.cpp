// SPDX-License-Identifier: GPL-3.0-or-later
// The command with unit profiles of one's own: in the data folder, inside a job, or handed over to be
// checked.
#include <gmock/gmock.h>

#include <filesystem>

#include "support/own_units.h"
#include "ww/program.h"

namespace ww {
namespace {

using nlohmann::json;
using testing::contentOf;
using testing::demoPath;
using ::testing::HasSubstr;
using testing::ownProfile;
using testing::runWw;

class OwnProfilesCommand : public testing::InFolder {
 protected:
  OwnProfilesCommand() { std::filesystem::create_directories(path("data/profiles")); }
  std::string data() const { return path("data"); }
  /// The furnace with cooling, its outdoor unit one of one's own.
  std::string job() const {
    std::string text = contentOf(demoPath("larkmoor-a-furnace-cooling.json"));
    for (size_t at; (at = text.find("\"od-cool-1\"")) != std::string::npos;)
      text.replace(at, 11, "\"my-outdoor\"");
    return file("job.json", text);
  }
};

TEST_F(OwnProfilesCommand, areUsedFromTheDataFolderByEveryCommand) {
  const std::string job = this->job();
  EXPECT_EQ(runWw({"check", job, "--data", data()}).exit, 2);
  file("data/profiles/outdoor.json", ownProfile("od-cool-1", "my-outdoor"));
  for (const char* command : {"check", "solve", "steps", "size", "settings"})
    EXPECT_EQ(runWw({command, job, "--data", data()}).exit, 0) << command;
  EXPECT_EQ(runWw({"check", job, "--data", data(), "--json"}).json()["calls"],
            runWw({"check", demoPath("larkmoor-a-furnace-cooling.json"), "--json"}).json()["calls"]);
}

TEST_F(OwnProfilesCommand, aBadFileIsToldWithAllProblemsAndStopsNothing) {
  file("data/profiles/outdoor.json", ownProfile("od-cool-1", "my-outdoor"));
  file("data/profiles/bad.json", ownProfile("furnace-1", "furnace-1", [](auto& profile) {
         profile["kind"] = "robot";
         profile["bond"] = "glued";
       }));
  const auto ran = runWw({"check", job(), "--data", data()});
  EXPECT_EQ(ran.exit, 0);
  const auto said = ran.complaints();
  ASSERT_EQ(said.size(), 3u);
  EXPECT_THAT(said[0], HasSubstr("profiles/bad.json, /kind: "));
  EXPECT_THAT(said[1], HasSubstr("profiles/bad.json, /bond: "));
  EXPECT_THAT(said[2], HasSubstr("profiles/bad.json, /id: id furnace-1 belongs to a profile that ships"));
}

TEST_F(OwnProfilesCommand, travelInAJobThatIsKept) {
  file("data/profiles/outdoor.json", ownProfile("od-cool-1", "my-outdoor"));
  ASSERT_EQ(runWw({"save", job(), "--data", data()}).exit, 0);
  std::filesystem::remove_all(path("data/profiles"));
  const auto found = runWw({"find", "unit:my-outdoor", "--data", data(), "--json"}).json();
  ASSERT_EQ(found["jobs"].size(), 1u);
  EXPECT_EQ(found["jobs"][0]["open"], 0);

  json embedded = json::parse(contentOf(job()));
  embedded["profiles"]["my-outdoor"] = json::parse(ownProfile("od-cool-1", "my-outdoor"));
  EXPECT_EQ(runWw({"check", file("embedded.json", embedded.dump()), "--data", data()}).exit, 0);
}

TEST_F(OwnProfilesCommand, oneFileCanBeCheckedBeforeItIsPutThere) {
  const auto sound = runWw({"check", file("mine.json", ownProfile("od-cool-1", "my-outdoor")), "--json"});
  EXPECT_EQ(sound.exit, 0) << sound.err;
  EXPECT_EQ(sound.json()["profile"], "my-outdoor");
  const std::string bad = file("bad.json", ownProfile("od-cool-1", "od-cool-1", [](auto& profile) {
                                 profile["terminals"][0]["role"] = "plug";
                                 profile["logic"].push_back("a := !a");
                               }));
  const auto english = runWw({"check", bad});
  EXPECT_EQ(english.exit, 2);
  ASSERT_EQ(english.complaints().size(), 3u) << english.err;
  EXPECT_THAT(english.err, HasSubstr("/terminals/0/role"));
  EXPECT_THAT(english.err, HasSubstr("/logic"));
  EXPECT_THAT(english.err, HasSubstr("/id"));
  EXPECT_THAT(runWw({"check", bad, "--lang", "es"}).err, HasSubstr("viene con el programa"));
}

}  // namespace
}  // namespace ww
