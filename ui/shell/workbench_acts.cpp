// SPDX-License-Identifier: GPL-3.0-or-later
// What is done with whole jobs: begun, opened, copied, binned, taken in, given out, closed.
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include "job/document_file.h"
#include "job/job_json.h"
#include "job/profiles.h"
#include "shell/workbench.h"
#include "wording/sentences.h"

namespace ww::shell {

namespace {

/// What no job file comes near; a device or a film is not read.
constexpr qint64 kMostFileBytes = qint64{32} << 20;

/// A job with its site and sheets, and none of its facts.
job::Job withoutFacts(job::Job job) {
  job.readings.clear();
  job.acknowledgements.clear();
  job.acceptances.clear();
  job.signatures.clear();
  job.meters.clear();
  return job;
}

}  // namespace

job::Job Workbench::begun() {
  job::Job job;
  const session::Preferences& preferences = around_->preferences;
  job.id = around_->newId();
  job.visit = around_->now().substr(0, 10);
  job.stage = "site";
  job.installer = preferences.installer;
  job.company = preferences.company;
  for (const job::Meter& meter : preferences.meters)
    if (meter.id == preferences.meterInHand) job.meters.push_back(meter);
  if (autosave_) act([&](history::Store& store) { job.number = store.freeNumber(job.visit); });
  return job;
}

void Workbench::startNew() {
  putAway();
  if (!open_) put(begun(), {});
}

void Workbench::startOwn() {
  useDemo(false);
  if (!demo_) startNew();
}

std::optional<history::StoredJob> Workbench::load(const std::string& entry) {
  if (!reader_) {
    Q_EMIT told(problem_);
    return std::nullopt;
  }
  try {
    auto loaded = reader_->load(refOf(entry));
    if (!loaded.value && !loaded.problems.empty())
      Q_EMIT told(wording::problemText(around_->language, loaded.problems.front()));
    return std::move(loaded.value);
  } catch (const history::StoreFault& fault) {
    Q_EMIT told(wording::storeProblemText(around_->language, fault.problem()));
    return std::nullopt;
  }
}

void Workbench::open(const std::string& entry) {
  auto stored = load(entry);
  if (!stored) return;
  putAway();
  if (!open_) put(std::move(stored->job), stored->version);
}

void Workbench::callBack(const std::string& entry) {
  const auto stored = load(entry);
  if (!stored) return;
  putAway();
  if (open_) return;
  const job::Job fresh = begun();
  job::Job next = withoutFacts(stored->job);
  next.id = fresh.id;
  next.number = fresh.number;
  next.visit = fresh.visit;
  next.state = job::State::draft;
  next.stage = "live";
  next.installer = fresh.installer;
  next.company = fresh.company;
  next.meters = fresh.meters;
  // As it was left is how it is found.
  if (const sheet::Sheet* left = job::currentSheet(stored->job)) next.asFound = *left;
  next.planned.reset();
  next.asLeft.reset();
  put(std::move(next), {}, stored->version.ref);
  changed(true);
}

void Workbench::duplicate(const std::string& entry) {
  const auto stored = load(entry);
  if (!stored) return;
  putAway();
  if (open_) return;
  job::Job next = begun();
  next.planned = stored->job.planned;
  next.asFound = stored->job.asFound;
  next.asLeft = stored->job.asLeft;
  next.profiles = stored->job.profiles;
  next.lowLine = stored->job.lowLine;
  next.highLine = stored->job.highLine;
  put(std::move(next), {});
  changed(true);
}

void Workbench::bin(const std::vector<std::string>& entries) {
  const bool done = act([&](history::Store& store) {
    for (const std::string& entry : entries) store.removeToBin(refOf(entry));
  });
  Q_EMIT storeChanged();
  if (done)
    Q_EMIT undoable(sentence("binned", {}, static_cast<int>(entries.size())),
                    [this, entries] { restore(entries); });
}

void Workbench::restore(const std::vector<std::string>& entries) {
  act([&](history::Store& store) {
    for (const std::string& entry : entries) store.restore(refOf(entry));
  });
  Q_EMIT storeChanged();
}

void Workbench::importFiles(const QStringList& files) {
  std::vector<job::Job> jobs;
  QString problem;
  for (const QString& path : files) {
    QFile file(path);
    const QString name = QFileInfo(path).fileName();
    if (!QFileInfo(path).isFile() || !file.open(QIODevice::ReadOnly) || file.size() > kMostFileBytes) {
      problem = sentence("cannot-read", {{"file", name}});
      continue;
    }
    const QByteArray bytes = file.readAll();
    auto read = job::readDocument({bytes.constData(), static_cast<size_t>(bytes.size())}, around_->library);
    if (!read.value) {
      problem = wording::problemText(around_->language, read.problems.front(), name);
      continue;
    }
    if (read.value->id.empty()) {
      const job::Job fresh = begun();
      read.value->id = fresh.id;
      read.value->number = fresh.number;
      read.value->visit = fresh.visit;
      read.value->installer = fresh.installer;
      read.value->company = fresh.company;
    }
    jobs.push_back(job::withProfiles(std::move(*read.value), around_->library));
  }
  if (!jobs.empty() && !act([&](history::Store& store) { store.import(jobs); })) return;
  Q_EMIT storeChanged();
  Q_EMIT told(problem.isEmpty() ? sentence("imported", {}, static_cast<int>(jobs.size())) : problem);
}

void Workbench::openFile(const QString& path) {
  QFile file(path);
  if (!file.open(QIODevice::ReadOnly) || file.size() > kMostFileBytes) {
    Q_EMIT told(sentence("cannot-read", {{"file", path}}));
    return;
  }
  const QByteArray bytes = file.readAll();
  auto read = job::readDocument({bytes.constData(), static_cast<size_t>(bytes.size())}, around_->library);
  if (!read.value) {
    Q_EMIT told(wording::problemText(around_->language, read.problems.front(), QFileInfo(path).fileName()));
    return;
  }
  if (read.value->id.empty()) {
    importFiles({path});
    return;
  }
  history::Saved saved;
  if (act([&](history::Store& store) {
        saved = store.import({job::withProfiles(*read.value, around_->library)}).front();
      })) {
    Q_EMIT storeChanged();
    open(entryId(saved.version.ref));
  }
}

void Workbench::exportJobs(const std::vector<std::string>& entries, const QString& target) {
  int written = 0;
  const bool folder = QFileInfo(target).isDir() || entries.size() > 1;
  if (folder) QDir().mkpath(target);
  for (const std::string& entry : entries) {
    const auto stored = load(entry);
    if (!stored) return;
    const QString path =
        folder ? QDir(target).filePath(QString::fromStdString(stored->job.number) + QStringLiteral(".json"))
               : target;
    if (const auto failure = job::saveFile(path.toStdString(), job::writeJob(stored->job))) {
      Q_EMIT told(
          sentence("cannot-write", {{"file", path}, {"detail", QString::fromStdString(failure->detail)}}));
      return;
    }
    ++written;
  }
  Q_EMIT told(around_->language.sentence(QStringLiteral("window.exported"), {{"file", target}}, written));
}

void Workbench::closeRevision() {
  if (!open_ || open_->readOnly()) return;
  if (autosave_) autosave_->flush();
  history::Saved saved;
  const bool done = act([&](history::Store& store) {
    saved = store.closeRevision(open_->job(), autosave_->versionOf(open_->job().id));
  });
  if (!done) return;
  autosave_->hold(saved.version);
  open_->replaceState(open_->job().state == job::State::amended ? job::State::amended : job::State::closed);
  savedKind_ = SavedState::Kind::saved;
  savedAt_ = world_.ticks();
  Q_EMIT savedChanged();
  Q_EMIT told(sentence("closed"));
}

}  // namespace ww::shell
