// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/store.h"

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "history/demo.h"
#include "history/open_store.h"
#include "history/store_state.h"
#include "job/job_json.h"

namespace ww::history {

Store::Store(std::unique_ptr<State> state) : state_(std::move(state)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

std::variant<Store, StoreProblem> Store::open(const OpenOptions& options, const equipment::Library& library) {
  auto opened = openStore(options, library);
  if (auto* problem = std::get_if<StoreProblem>(&opened)) return std::move(*problem);
  try {
    Store store(std::make_unique<State>(options, library, std::move(std::get<Opened>(opened))));
    if (options.kind == StoreKind::demo)
      store.state_->inTransaction([&] { store.state_->addMissing(demoJobs(library)); });
    return store;
  } catch (const StoreFault& fault) {
    return fault.problem();
  }
}

const std::string& Store::path() const { return state_->path; }
const std::string& Store::migrationBackup() const { return state_->migrationBackup; }

Saved Store::saveDraft(const job::Job& job, const Version& from) {
  return state_->inTransaction([&] { return state_->save(job, from); });
}

Saved Store::closeRevision(const job::Job& job, const Version& from) {
  return state_->inTransaction([&] { return state_->close(job, from); });
}

std::vector<Saved> Store::import(const std::vector<job::Job>& jobs) {
  return state_->inTransaction([&] {
    std::vector<Saved> all;
    all.reserve(jobs.size());
    for (const job::Job& job : jobs) all.push_back(state_->takeIn(job));
    return all;
  });
}

void Store::removeToBin(const JobRef& ref) {
  state_->inTransaction([&] { state_->bin(ref, true); });
}

void Store::restore(const JobRef& ref) {
  state_->inTransaction([&] { state_->bin(ref, false); });
}

std::string Store::freeNumber(const std::string& day) {
  return guarded(state_->path, [&] {
    const std::string stem = day.substr(0, 4) + '-' + day.substr(5, 2) + day.substr(8, 2) + '-';
    auto used = state_->sql(
        "SELECT max(CAST(substr(number, ?1) AS INTEGER)) FROM listing"
        " WHERE number >= ?2 AND number < ?3",
        stem.size() + 1, stem, stem + ':');
    used.next();
    const std::string next = std::to_string(used.whole(0) + 1);
    return stem + (next.size() < 2 ? "0" : "") + next;
  });
}

void Store::backUp(const std::string& path) {
  guarded(state_->path, [&] {
    state_->sql("VACUUM INTO ?", path).run();
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file >= 0) {
      ::fsync(file);
      ::close(file);
    }
  });
}

std::vector<std::string> Store::faults() {
  return guarded(state_->path, [&] {
    std::vector<std::string> faults;
    SQLite::Statement integrity(*state_->database, "PRAGMA integrity_check");
    while (integrity.executeStep())
      if (const std::string said = integrity.getColumn(0).getString(); said != "ok") faults.push_back(said);
    SQLite::Statement references(*state_->database, "PRAGMA foreign_key_check");
    while (references.executeStep())
      faults.push_back("reference of " + references.getColumn(0).getString() + " points nowhere");
    try {
      state_->database->exec("INSERT INTO search(search) VALUES('integrity-check')");
    } catch (const SQLite::Exception& error) {
      faults.push_back(std::string("search index: ") + error.what());
    }
    return faults;
  });
}

namespace {

[[noreturn]] void fail(const std::string& path, const std::error_code& error) {
  using Kind = StoreProblem::Kind;
  const Kind kind = error == std::errc::no_space_on_device ? Kind::full : Kind::readOnly;
  throw StoreFault({kind, path, error.message(), {}});
}

}  // namespace

std::string setAside(const OpenOptions& options) {
  namespace fs = std::filesystem;
  const std::string path = storePath(options);
  std::string aside = path + ".damaged-" + isoOf(options.clock(), true);
  std::error_code error;
  // The journal first: a journal without its file is nothing to a new store, a file without its journal is.
  for (const char* ending : {"-wal", "-shm", ""}) {
    if (!fs::exists(path + ending, error)) continue;
    fs::rename(path + ending, aside + ending, error);
    if (error) fail(path, error);
  }
  return aside;
}

void restoreBackup(const OpenOptions& options, const std::string& backup) {
  namespace fs = std::filesystem;
  const std::string path = storePath(options);
  std::error_code error;
  if (fs::exists(path, error)) fail(path, std::make_error_code(std::errc::file_exists));
  const std::string beside = path + ".part";
  fs::copy_file(backup, beside, fs::copy_options::overwrite_existing, error);
  if (error) fail(path, error);
  if (const int file = ::open(beside.c_str(), O_RDONLY | O_CLOEXEC); file >= 0) {
    ::fsync(file);
    ::close(file);
  }
  fs::rename(beside, path, error);
  if (error) fail(path, error);
}

}  // namespace ww::history
