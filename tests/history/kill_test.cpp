// SPDX-License-Identifier: GPL-3.0-or-later
// A writer that is killed at any moment loses nothing it had acknowledged.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <random>

#include "history/autosave.h"
#include "history/reader.h"
#include "support/sample_job.h"
#include "support/stores.h"

namespace {

namespace history = ww::history;
namespace job = ww::job;
using namespace ww::testing;

/// Job number n, and what of it was acknowledged: its sequence number stands in the notes.
job::Job numbered(std::uint64_t sequence) {
  job::Job job = draftAt(sequence % 7, std::to_string(sequence % 90) + " Larkmoor Terrace");
  job.site.notes = std::to_string(sequence);
  return job;
}

/// The child: saves one state after another and says each number once it is saved. Never returns.
[[noreturn]] void writeUntilKilled(const history::OpenOptions& options, int pipe) {
  auto store = openedStore(options);
  std::map<std::string, history::Version> versions;
  for (std::uint64_t sequence = 1;; ++sequence) {
    const job::Job job = numbered(sequence);
    versions[job.id] = store.saveDraft(job, versions[job.id]).version;
    if (::write(pipe, &sequence, sizeof sequence) != sizeof sequence) ::_exit(1);
  }
}

/// The last number that was said; the child is killed a random while after it began.
std::uint64_t lastSaid(int pipe, pid_t child, int milliseconds) {
  // The pipe is read to its end only afterwards: whatever was in it was said.
  ::poll(nullptr, 0, milliseconds);
  ::kill(child, SIGKILL);
  ::waitpid(child, nullptr, 0);
  std::uint64_t last = 0;
  std::uint64_t said = 0;
  while (::read(pipe, &said, sizeof said) == sizeof said) last = said;
  return last;
}

/// Kills a writer `rounds` times; how many numbers were said in all.
std::uint64_t killed(int rounds, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::uint64_t all = 0;
  for (int round = 0; round < rounds; ++round) {
    const TemporaryFolder folder;
    const auto options = optionsFor(folder.path());
    // Half of the writers are killed in a store that they make themselves.
    if (round % 2 == 0) openedStore(options);
    int ends[2];
    EXPECT_EQ(::pipe(ends), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      ::close(ends[0]);
      writeUntilKilled(options, ends[1]);
    }
    ::close(ends[1]);
    const std::uint64_t last = lastSaid(ends[0], child, static_cast<int>(random() % 51));
    ::close(ends[0]);
    all += last;
    auto store = openedStore(options);
    EXPECT_THAT(store.faults(), ::testing::IsEmpty()) << "round " << round;
    history::Reader reader(store);
    // Of each job the newest acknowledged state or a later one.
    for (std::uint64_t sequence = last; sequence > 0 && sequence + 7 > last; --sequence) {
      const auto stored = reader.load({numbered(sequence).id});
      if (!stored) {
        ADD_FAILURE() << "round " << round << ": job of number " << sequence << " is gone";
        continue;
      }
      EXPECT_GE(std::stoull(stored.value->job.site.notes), sequence) << "round " << round;
      EXPECT_EQ(stored.value->job, numbered(std::stoull(stored.value->job.site.notes)));
    }
    EXPECT_EQ(reader.total(), std::min<size_t>(reader.total(), 7));
    EXPECT_EQ(reader.find("larkmoor")->rows.size(), reader.total());
  }
  return all;
}

TEST(Kill, losesNothingAcknowledged) { EXPECT_GT(killed(24, 1), 24u); }

TEST(KillLong, losesNothingAcknowledged) { EXPECT_GT(killed(600, 2), 600u); }

}  // namespace
