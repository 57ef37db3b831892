// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/presence.h"

#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <random>

#include "history/store_state.h"
#include "job/identity.h"

namespace ww::history {

std::string bootId() {
  std::ifstream file("/proc/sys/kernel/random/boot_id");
  std::string id;
  std::getline(file, id);
  return id;
}

Presence newPresence() {
  std::random_device device;
  const auto bits = [&] { return std::uint64_t{device()} << 32 | device(); };
  return {job::uuid7(0, bits), bootId(), static_cast<int>(::getpid()), 0};
}

bool isAlive(const Presence& presence, std::int64_t nowMilliseconds) {
  if (presence.boot != bootId()) return false;
  if (std::abs(nowMilliseconds - presence.beat) > std::int64_t{kEditorAway} * 1000) return false;
  return ::kill(presence.pid, 0) == 0 || errno == EPERM;
}

void Store::enter(const JobRef& ref, const std::string& who) {
  state_->inTransaction([&] {
    const auto row = state_->find(ref);
    if (!row) return;
    const Presence& self = state_->presence;
    state_
        ->sql(
            "INSERT INTO editor(job, process, boot, pid, who, since, beat) VALUES(?,?,?,?,?,?,?)"
            " ON CONFLICT(job, process) DO UPDATE SET who = excluded.who, beat = excluded.beat",
            row->stored.key, self.process, self.boot, self.pid, who, state_->now(),
            millisecondsOf(state_->options.clock()))
        .run();
    // Those of an earlier start of the computer are gone for good.
    state_->sql("DELETE FROM editor WHERE boot <> ?", self.boot).run();
  });
}

void Store::leave(const JobRef& ref) {
  state_->inTransaction([&] {
    if (const auto row = state_->find(ref))
      state_
          ->sql("DELETE FROM editor WHERE job = ? AND process = ?", row->stored.key, state_->presence.process)
          .run();
  });
}

}  // namespace ww::history
