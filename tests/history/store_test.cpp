// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/store.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "history/reader.h"
#include "job/job_json.h"
#include "support/sample_job.h"
#include "support/stores.h"

namespace {

namespace history = ww::history;
namespace job = ww::job;
using namespace ww::testing;
using history::Version;

class StoreTest : public ::testing::Test {
 protected:
  TemporaryFolder folder_;
  StandingClock clock_;
  history::OpenOptions options() {
    auto options = optionsFor(folder_.path());
    options.clock = clock_.clock();
    return options;
  }
};

job::Job loaded(history::Reader& reader, const history::JobRef& ref) {
  auto stored = reader.load(ref);
  EXPECT_TRUE(stored) << (stored.problems.empty() ? "" : stored.problems.front().key);
  return stored ? stored.value->job : job::Job{};
}

TEST_F(StoreTest, aDraftComesBackEqual) {
  auto store = openedStore(options());
  job::Job draft = sampleJob();
  draft.state = job::State::draft;
  draft.stage = "live";
  const auto saved = store.saveDraft(draft, {});
  EXPECT_EQ(saved.version, (Version{{draft.id}, 1}));
  EXPECT_FALSE(saved.becameSibling);
  EXPECT_EQ(saved.at, "2026-03-12T10:00:00.000Z");
  history::Reader reader(store);
  const auto stored = reader.load({draft.id});
  ASSERT_TRUE(stored);
  EXPECT_EQ(stored.value->job, draft);
  EXPECT_EQ(stored.value->version, saved.version);
  EXPECT_EQ(stored.value->hash, "");
}

TEST_F(StoreTest, savesFollowEachOther) {
  auto store = openedStore(options());
  job::Job job = draftAt(1, "14 North Oak Avenue", "Unit 4");
  auto version = store.saveDraft(job, {}).version;
  job.site.customer = "M. Ode";
  version = store.saveDraft(job, version).version;
  EXPECT_EQ(version.number, 2);
  // The same again is no new state.
  EXPECT_EQ(store.saveDraft(job, version).version.number, 2);
  history::Reader reader(store);
  EXPECT_EQ(loaded(reader, {job.id}), job);
  EXPECT_EQ(reader.total(), 1u);
}

TEST_F(StoreTest, anotherProcessSeesWhatIsSaved) {
  auto first = openedStore(options());
  auto second = openedStore(options());
  history::Reader reader(second);
  EXPECT_EQ(reader.total(), 0u);
  const auto job = draftAt(1, "7 Larkmoor Terrace");
  first.saveDraft(job, {});
  EXPECT_EQ(reader.total(), 1u);
  EXPECT_EQ(loaded(reader, {job.id}), job);
}

TEST_F(StoreTest, theLoserOfARaceBecomesASibling) {
  auto mine = openedStore(options());
  auto theirs = openedStore(options());
  job::Job job = draftAt(1, "14 North Oak Avenue");
  const auto base = mine.saveDraft(job, {}).version;
  job::Job theirJob = job;
  theirJob.site.customer = "A. Pennick";
  EXPECT_FALSE(theirs.saveDraft(theirJob, base).becameSibling);
  job.site.customer = "M. Ode";
  const auto lost = mine.saveDraft(job, base);
  EXPECT_TRUE(lost.becameSibling);
  EXPECT_EQ(lost.version.ref, (history::JobRef{job.id, 1}));
  // It goes on as what it became.
  job.site.phone = "555-0142";
  const auto next = mine.saveDraft(job, lost.version);
  EXPECT_FALSE(next.becameSibling);
  EXPECT_EQ(next.version.ref, lost.version.ref);
  history::Reader reader(mine);
  EXPECT_EQ(loaded(reader, {job.id, 0}), theirJob);
  EXPECT_EQ(loaded(reader, {job.id, 1}), job);
  const auto found = reader.find("oak");
  ASSERT_EQ(found->rows.size(), 2u);
  EXPECT_TRUE(found->rows[0].hasSiblings && found->rows[1].hasSiblings);
}

TEST_F(StoreTest, closingFreezesAndSignaturesStandBeside) {
  auto store = openedStore(options());
  job::Job job = sampleJob();
  job.state = job::State::draft;
  const auto signature = job.signatures.front();
  job.signatures.clear();
  const auto draft = store.saveDraft(job, {});
  const auto closed = store.closeRevision(job, draft.version);
  job.state = job::State::closed;
  history::Reader reader(store);
  auto stored = reader.load({job.id});
  ASSERT_TRUE(stored);
  EXPECT_EQ(stored.value->job, job);
  EXPECT_EQ(stored.value->hash, job::hashOf(job));
  job.signatures.push_back(signature);
  store.saveDraft(job, closed.version);
  stored = reader.load({job.id});
  ASSERT_TRUE(stored);
  EXPECT_EQ(stored.value->job, job);
  EXPECT_EQ(stored.value->hash, job::hashOf(job));
  job.site.customer = "Somebody else";
  try {
    store.saveDraft(job, closed.version);
    FAIL() << "a closed job was changed";
  } catch (const history::StoreFault& fault) {
    EXPECT_EQ(fault.problem().kind, history::StoreProblem::Kind::frozen);
  }
}

TEST_F(StoreTest, anAmendmentFollowsTheClosedRevision) {
  auto store = openedStore(options());
  job::Job job = draftAt(1, "7 Larkmoor Terrace");
  auto version = store.closeRevision(job, {}).version;
  const std::string first = [&] {
    job::Job closed = job;
    closed.state = job::State::closed;
    return job::hashOf(closed);
  }();
  job.state = job::State::amended;
  job.site.notes = "the key is with the neighbour";
  version = store.saveDraft(job, version).version;
  history::Reader reader(store);
  EXPECT_EQ(reader.load({job.id}).value->hash, first);
  EXPECT_EQ(loaded(reader, {job.id}), job);
  EXPECT_TRUE(reader.find("")->rows.front().inWork);
  store.closeRevision(job, version);
  EXPECT_EQ(reader.load({job.id}).value->hash, job::hashOf(job));
  EXPECT_FALSE(reader.find("")->rows.front().inWork);
}

TEST_F(StoreTest, theBinKeepsEverything) {
  auto store = openedStore(options());
  const auto job = draftAt(1, "7 Larkmoor Terrace");
  store.saveDraft(job, {});
  store.removeToBin({job.id});
  history::Reader reader(store);
  EXPECT_EQ(reader.total(), 0u);
  EXPECT_TRUE(reader.find("larkmoor")->rows.empty());
  const auto binned = reader.find("larkmoor state:bin");
  ASSERT_EQ(binned->rows.size(), 1u);
  EXPECT_EQ(binned->rows.front().state, job::State::binned);
  EXPECT_EQ(loaded(reader, {job.id}), job);
  store.restore({job.id});
  EXPECT_EQ(reader.find("larkmoor")->rows.size(), 1u);
  EXPECT_TRUE(reader.find("state:bin")->rows.empty());
}

TEST_F(StoreTest, takingInTwiceChangesNothing) {
  auto store = openedStore(options());
  const std::vector<job::Job> jobs{sampleJob(), draftAt(2, "9 Larkmoor Terrace")};
  const auto first = store.import(jobs);
  const auto again = store.import(jobs);
  ASSERT_EQ(first.size(), 2u);
  ASSERT_EQ(again.size(), 2u);
  EXPECT_EQ(first[0].version, again[0].version);
  EXPECT_EQ(first[1].version, again[1].version);
  history::Reader reader(store);
  EXPECT_EQ(reader.total(), 2u);
  EXPECT_EQ(loaded(reader, {jobs[0].id}), jobs[0]);
  // Other content under the same id stands beside it.
  job::Job other = jobs[1];
  other.site.customer = "M. Ode";
  EXPECT_TRUE(store.import({other}).front().becameSibling);
  EXPECT_EQ(reader.total(), 3u);
  EXPECT_EQ(loaded(reader, {jobs[1].id}), jobs[1]);
}

TEST_F(StoreTest, aNumberTakenElsewhereGetsALetter) {
  auto store = openedStore(options());
  job::Job here = draftAt(1, "7 Larkmoor Terrace");
  job::Job there = draftAt(2, "9 Larkmoor Terrace");
  there.number = here.number;
  store.import({here, there});
  history::Reader reader(store);
  const auto rows = reader.find("")->rows;
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[1].number, "2026-0312-01");
  EXPECT_EQ(rows[0].number, "2026-0312-01b");
  EXPECT_EQ(store.freeNumber("2026-03-12"), "2026-0312-02");
  EXPECT_EQ(store.freeNumber("2026-03-13"), "2026-0313-01");
}

TEST_F(StoreTest, visitsToTheSamePlaceAreOneSite) {
  auto store = openedStore(options());
  job::Job before = sampleJob();
  job::Job now = sampleJob();
  now.id = numberedId(77);
  now.state = job::State::draft;
  now.visit = "2027-01-05";
  now.site.address = "7 Larkmoor Ter.";
  job::Job elsewhere = draftAt(3, "8 Larkmoor Terrace");
  store.import({before, now, elsewhere});
  history::Reader reader(store);
  const auto visits = reader.visits({now.id});
  ASSERT_EQ(visits.size(), 2u);
  EXPECT_EQ(visits[0].ref.id, before.id);
  EXPECT_EQ(visits[1].day, "2027-01-05");
  EXPECT_EQ(reader.visits({elsewhere.id}).size(), 1u);
  // Of the sample, only OL at one step counts: the other was struck out.
  const auto readings = reader.readings({now.id});
  ASSERT_EQ(readings.size(), 2u);
  EXPECT_TRUE(readings[0].openLine);
  EXPECT_EQ(readings[0].step, "continuity:1.R:2.R");
}

TEST_F(StoreTest, othersAtWorkAreSeenWhileTheyShowIt) {
  auto mine = openedStore(options());
  auto theirs = openedStore(options());
  const auto job = draftAt(1, "7 Larkmoor Terrace");
  mine.saveDraft(job, {});
  history::Reader reader(mine);
  mine.enter({job.id}, "J. Tamsin");
  EXPECT_TRUE(reader.editors({job.id}).empty());
  theirs.enter({job.id}, "A. Tamsin");
  ASSERT_EQ(reader.editors({job.id}).size(), 1u);
  EXPECT_EQ(reader.editors({job.id}).front().who, "A. Tamsin");
  clock_.now += std::chrono::seconds(history::kEditorAway + 1);
  EXPECT_TRUE(reader.editors({job.id}).empty());
  theirs.enter({job.id}, "A. Tamsin");
  EXPECT_EQ(reader.editors({job.id}).size(), 1u);
  theirs.leave({job.id});
  EXPECT_TRUE(reader.editors({job.id}).empty());
}

TEST_F(StoreTest, demoJobsLieInAStoreOfTheirOwn) {
  const auto files = std::filesystem::directory_iterator(WIREWRIGHT_DEMO_DATA_DIR);
  const auto shipped = size_t(std::count_if(
      begin(files), end(files), [](const auto& file) { return file.path().extension() == ".json"; }));
  auto demo = options();
  demo.kind = history::StoreKind::demo;
  {
    auto store = openedStore(demo);
    history::Reader reader(store);
    EXPECT_EQ(reader.total(), shipped);
    const auto rows = reader.find("system:g")->rows;
    ASSERT_EQ(rows.size(), 3u);
    store.removeToBin(rows[0].ref);
  }
  auto again = openedStore(demo);
  history::Reader reader(again);
  EXPECT_EQ(reader.total(), shipped - 1);
  auto own = openedStore(options());
  EXPECT_EQ(history::Reader(own).total(), 0u);
}

TEST_F(StoreTest, aJobThatIsNotThereIsTold) {
  auto store = openedStore(options());
  const auto missing = history::Reader(store).load({numberedId(9)});
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.problems.front().key, "job-not-stored");
}

TEST_F(StoreTest, aSoundStoreHasNoFaults) {
  auto store = openedStore(options());
  store.import({sampleJob(), draftAt(2, "9 Larkmoor Terrace")});
  EXPECT_THAT(store.faults(), ::testing::IsEmpty());
}

}  // namespace
