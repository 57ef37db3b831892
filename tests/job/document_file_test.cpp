// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/document_file.h"

#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "job/job_json.h"
#include "sheet/sheet_csv.h"
#include "sheet/sheet_json.h"
#include "support/sample_job.h"
#include "support/told.h"

namespace ww::job {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ww::testing::told;

quantity::Loaded<Job> read(std::string_view text) { return readDocument(text, equipment::standardLibrary()); }

std::string contentOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

TEST(ReadDocument, tellsAJobASheetAndACsvApart) {
  const Job job = ww::testing::sampleJob();
  EXPECT_EQ(*read(writeJob(job)).value, job);
  EXPECT_EQ(*read("\xEF\xBB\xBF \n" + writeJob(job)).value, job);
  for (const std::string& text : {sheet::writeSheetFile(*job.asLeft), sheet::writeCsv(*job.asLeft),
                                  "\xEF\xBB\xBF" + sheet::writeCsv(*job.asLeft)}) {
    const auto loaded = read(text);
    ASSERT_THAT(told(loaded.problems), IsEmpty()) << text;
    EXPECT_EQ(loaded.value->planned, job.asLeft);
    EXPECT_FALSE(loaded.value->asFound || loaded.value->asLeft);
    EXPECT_EQ(loaded.value->state, State::draft);
  }
}

TEST(ReadDocument, whatItIsNot) {
  EXPECT_THAT(told(read("").problems), ElementsAre(" empty-file"));
  EXPECT_THAT(told(read("\xEF\xBB\xBF \r\n").problems), ElementsAre(" empty-file"));
  EXPECT_THAT(told(read("{}").problems), ElementsAre(" unknown-format"));
  EXPECT_THAT(told(read("[1, 2]").problems), ElementsAre(" unknown-format"));
  EXPECT_THAT(told(read(R"({"format": "invoice"})").problems), ElementsAre(" unknown-format"));
  EXPECT_THAT(told(read(R"({"format": ["wirewright-job"]})").problems), ElementsAre(" unknown-format"));
  EXPECT_THAT(told(read("{\"format\": \"wirewright-job\"").problems), ElementsAre(" json-syntax"));
  EXPECT_THAT(told(read(std::string(100, '[')).problems), ElementsAre(" json-too-deep"));
  EXPECT_THAT(told(read("{" + std::string(kMostJobBytes, ' ')).problems), ElementsAre(" json-too-large"));
  EXPECT_THAT(told(read("Dear customer,\nplease find").problems), ElementsAre("row 1 header-missing"));
  EXPECT_THAT(told(read(std::string("\x7f"
                                    "ELF\0\0",
                                    6))
                       .problems),
              ElementsAre(" zero-byte"));
}

TEST(ReadDocument, blankLinesInFrontCountInThePlaceOfAnError) {
  const auto loaded = read("\n\n{\"format\" 1}");
  ASSERT_THAT(told(loaded.problems), ElementsAre(" json-syntax"));
  EXPECT_EQ(ww::testing::argument(loaded.problems.front(), "line"), "3");
}

TEST(ReadDocument, aJobCutAnywhereNeverGivesHalfAJob) {
  const std::string text = writeJob(ww::testing::sampleJob());
  for (size_t bytes = 0; bytes + 1 < text.size(); bytes += 7)
    EXPECT_FALSE(read(text.substr(0, bytes))) << bytes;
}

class SaveFile : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "wirewright-save-XXXXXX").string();
    ASSERT_NE(mkdtemp(pattern.data()), nullptr);
    folder_ = pattern;
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::vector<std::string> names() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder_))
      found.push_back(entry.path().filename().string());
    return found;
  }

  fs::path folder_;
};

TEST_F(SaveFile, writesAndReplacesWholeFiles) {
  const fs::path target = folder_ / "job.json";
  ASSERT_EQ(saveFile(target.string(), std::string(100'000, 'a')), std::nullopt);
  ASSERT_EQ(saveFile(target.string(), "short"), std::nullopt);
  EXPECT_EQ(contentOf(target), "short");
  EXPECT_THAT(names(), ElementsAre("job.json"));
}

TEST_F(SaveFile, whereNothingCanBeWritten) {
  const auto missing = saveFile((folder_ / "no" / "job.json").string(), "x");
  ASSERT_TRUE(missing);
  EXPECT_EQ(missing->step, SaveFailure::Step::open);
  EXPECT_FALSE(missing->detail.empty());
  fs::create_directory(folder_ / "folder");
  EXPECT_EQ(saveFile((folder_ / "folder").string(), "x")->step, SaveFailure::Step::open);
  EXPECT_TRUE(saveFile("", "x"));
  EXPECT_THAT(names(), ElementsAre("folder"));
}

TEST_F(SaveFile, aDeviceOrAPipeKeepsItsPlace) {
  const fs::path pipe = folder_ / "pipe";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_TRUE(saveFile(pipe.string(), "x"));
  EXPECT_TRUE(saveFile("/dev/null", "x"));
  EXPECT_TRUE(fs::is_fifo(pipe));
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
  EXPECT_THAT(names(), ElementsAre("pipe"));
}

/// A limit on file sizes stands in for a full disk.
TEST_F(SaveFile, aWriteThatFailsLeavesWhatStoodThere) {
  const fs::path target = folder_ / "job.json";
  ASSERT_EQ(saveFile(target.string(), "before"), std::nullopt);
  rlimit before{};
  ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit small{1000, before.rlim_max};
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &small), 0);
  const auto failure = saveFile(target.string(), std::string(5000, 'x'));
  setrlimit(RLIMIT_FSIZE, &before);
  std::signal(SIGXFSZ, handler);
  ASSERT_TRUE(failure);
  EXPECT_EQ(failure->step, SaveFailure::Step::write);
  EXPECT_EQ(contentOf(target), "before");
  EXPECT_THAT(names(), ElementsAre("job.json"));
}

}  // namespace
}  // namespace ww::job
