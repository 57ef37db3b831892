// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/profile_folder.h"

#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>

#include "support/own_units.h"
#include "support/stores.h"
#include "support/told.h"

namespace ww::history {
namespace {

namespace fs = std::filesystem;
using equipment::standardLibrary;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ww::testing::ownProfile;
using ww::testing::told;

class ProfileFolderTest : public ::testing::Test {
 protected:
  testing::TemporaryFolder data_;
  ProfileFolder folder_{data_.path()};
  void put(const std::string& name, const std::string& text) const {
    fs::create_directories(folder_.path());
    std::ofstream(folder_.path() + "/" + name, std::ios::binary) << text;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(folder_.path()))
      if (entry.is_regular_file())
        found.push_back(fs::relative(entry.path(), folder_.path()).generic_string());
    std::sort(found.begin(), found.end());
    return found;
  }
};

TEST_F(ProfileFolderTest, thatIsNotThereHasNothing) {
  const auto own = folder_.read(standardLibrary());
  EXPECT_THAT(own.refused, IsEmpty());
  EXPECT_THAT(own.library.own, IsEmpty());
  EXPECT_FALSE(fs::exists(folder_.path()));
}

TEST_F(ProfileFolderTest, readsItsJsonFilesAndNothingElse) {
  put("b.json", ownProfile("furnace-1", "my-furnace"));
  put("a.json", "{}");
  put("notes.txt", "no profile");
  put("large.json", std::string(quantity::kMaxJsonBytes + 10, ' '));
  fs::create_directories(folder_.path() + "/bin");
  put("bin/c.json", ownProfile("furnace-1", "thrown-away"));
  fs::create_directories(folder_.path() + "/folder.json");
  const auto own = folder_.read(standardLibrary());
  EXPECT_NE(own.library.find("my-furnace"), nullptr);
  EXPECT_EQ(own.library.own.size(), 1u);
  ASSERT_EQ(own.refused.size(), 2u);
  EXPECT_EQ(own.refused[0].name, "a.json");
  EXPECT_EQ(own.refused[1].name, "large.json");
  EXPECT_THAT(told(own.refused[1].problems), ElementsAre(" json-too-large"));
}

TEST_F(ProfileFolderTest, savesWholeAndIntoTheFileThatIsThere) {
  EXPECT_FALSE(folder_.save("mine", ownProfile("furnace-1", "mine")));
  EXPECT_THAT(names(), ElementsAre("mine.json"));
  put("kept.json", ownProfile("furnace-1", "other"));
  EXPECT_FALSE(folder_.save("other", ownProfile("od-cool-1", "other")));
  EXPECT_THAT(names(), ElementsAre("kept.json", "mine.json"));
  EXPECT_EQ(folder_.read(standardLibrary()).library.find("other")->kind, equipment::Kind::outdoorUnit);
}

TEST_F(ProfileFolderTest, saysWhyItCannotSave) {
  std::ofstream(folder_.path(), std::ios::binary) << "a file where the folder would be";
  const auto failure = folder_.save("mine", ownProfile("furnace-1", "mine"));
  ASSERT_TRUE(failure);
  EXPECT_FALSE(failure->detail.empty());
}

TEST_F(ProfileFolderTest, whatIsBinnedComesBackAsItWas) {
  const std::string text = ownProfile("furnace-1", "mine");
  folder_.save("mine", text);
  const auto first = folder_.bin("mine");
  ASSERT_TRUE(first);
  EXPECT_THAT(folder_.read(standardLibrary()).library.own, IsEmpty());
  folder_.save("mine", ownProfile("od-cool-1", "mine"));
  EXPECT_FALSE(folder_.restore("mine", *first)) << "another stands in its place";
  const auto second = folder_.bin("mine");
  ASSERT_TRUE(second);
  EXPECT_NE(*first, *second);
  EXPECT_TRUE(folder_.restore("mine", *first));
  EXPECT_EQ(folder_.read(standardLibrary()).library.find("mine")->kind, equipment::Kind::furnace);
  EXPECT_FALSE(folder_.bin("nowhere"));
}

/// A stored job is read with nothing but the shipped profiles.
TEST(StoredJobs, openWithTheProfilesThatTravelInside) {
  const testing::TemporaryFolder folder;
  auto store = testing::openedStore(testing::optionsFor(folder.path()));
  auto file = nlohmann::json::parse(
      std::ifstream(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/larkmoor-a-furnace-cooling.json"));
  for (auto& sheet : file["sheets"])
    for (auto& unit : sheet["units"])
      if (unit["profile"] == "od-cool-1") unit["profile"] = "my-outdoor";
  file["state"] = "draft";
  file["profiles"]["my-outdoor"] = nlohmann::json::parse(ownProfile("od-cool-1", "my-outdoor"));
  const auto job = job::readDocument(file.dump(), standardLibrary());
  ASSERT_THAT(told(job.problems), IsEmpty());
  const auto saved = store.saveDraft(*job.value, {});
  Reader reader(store);
  const auto loaded = reader.load(saved.version.ref);
  ASSERT_TRUE(loaded);
  EXPECT_EQ(loaded.value->job, *job.value);
  EXPECT_EQ(reader.find("unit:my-outdoor")->rows.size(), 1u);
  EXPECT_EQ(reader.find("")->rows.front().open, 0);
}

}  // namespace
}  // namespace ww::history
