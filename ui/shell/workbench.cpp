// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/workbench.h"

#include <QApplication>
#include <QFileDialog>
#include <QMessageBox>
#include <QMetaObject>
#include <QPointer>
#include <algorithm>

#include "wording/sentences.h"

namespace ww::shell {

namespace {

constexpr int kFormerVisits = 5;  ///< looked through for readings

bool askToLeave(QWidget* parent, const QString& why) {
  return QMessageBox::question(parent, QStringLiteral("Wirewright"), why,
                               QMessageBox::Discard | QMessageBox::Cancel,
                               QMessageBox::Cancel) == QMessageBox::Discard;
}

}  // namespace

Workbench::Workbench(const session::Surroundings& around, QString folder, BenchWorld world)
    : around_(&around), folder_(std::move(folder)), world_(std::move(world)) {
  if (!world_.leaveUnsaved) world_.leaveUnsaved = askToLeave;
  if (!world_.pdfFile)
    world_.pdfFile = [](QWidget* parent, const QString& suggested) {
      return QFileDialog::getSaveFileName(parent, {}, suggested, QStringLiteral("PDF (*.pdf)"));
    };
  shelf_.setSurroundings(around);
  heartbeat_.setInterval(history::kEditorAway * 1000 / 3);
  connect(&heartbeat_, &QTimer::timeout, this, &Workbench::heartbeat);
  again_.setSingleShot(true);
  again_.setInterval(world_.pace.again);
  connect(&again_, &QTimer::timeout, this, &Workbench::tryStoreAgain);
}

Workbench::~Workbench() {
  printing_.reset();
  presence_.reset();
  shelf_.setStore(nullptr, {});
  reader_.reset();
  autosave_.reset();
}

QString Workbench::sentence(const char* key, const wording::Args& args, std::optional<int> count) const {
  return around_->language.sentence(QStringLiteral("window.") + QLatin1String(key), args, count);
}

void Workbench::setSurroundings(const session::Surroundings& around) {
  shelf_.setSurroundings(around);
  around_ = &around;
}

void Workbench::useDemo(bool demo) {
  if (demo == demo_ && autosave_) return;
  putAway();
  if (open_) return;
  demo_ = demo;
  openStore();
}

void Workbench::openStore() {
  problem_.clear();
  openedStore();
  Q_EMIT storeChanged();
}

void Workbench::tryStoreAgain() {
  if (autosave_ || !openedStore(0)) return;
  Q_EMIT storeChanged();
  if (open_ && savedKind_ == SavedState::Kind::failed) changed(true);
}

bool Workbench::openedStore(std::optional<int> wait) {
  presence_.reset();
  shelf_.setStore(nullptr, {});
  reader_.reset();
  autosave_.reset();
  history::OpenOptions options;
  options.folder = folder_.toStdString();
  options.kind = demo_ ? history::StoreKind::demo : history::StoreKind::own;
  options.program = QApplication::applicationVersion().toStdString();
  if (wait) options.busyMilliseconds = *wait;
  if (world_.openOptions) world_.openOptions(options);
  auto opened = history::Store::open(options, equipment::standardLibrary());
  if (const auto* problem = std::get_if<history::StoreProblem>(&opened)) {
    using Kind = history::StoreProblem::Kind;
    if (problem->kind == Kind::readOnly || problem->kind == Kind::full || problem->kind == Kind::locked)
      again_.start();
    const QString before = std::exchange(problem_, wording::storeProblemText(around_->language, *problem));
    shelf_.setStore(nullptr, problem_);
    if (problem_ != before) Q_EMIT told(problem_);
    return false;
  }
  problem_.clear();
  takeStore(std::move(std::get<history::Store>(opened)));
  return true;
}

void Workbench::takeStore(history::Store store) {
  if (!store.migrationBackup().empty())
    Q_EMIT told(around_->language.sentence(QStringLiteral("store.migrated"),
                                           {{"backup", QString::fromStdString(store.migrationBackup())}}));
  try {
    shelf_.setStore(&store, {});
    reader_ = std::make_unique<history::Reader>(store);
  } catch (const history::StoreFault& fault) {
    Q_EMIT told(wording::storeProblemText(around_->language, fault.problem()));
  }
  const auto onDesk = [this](auto tell) {
    return [this, tell](const auto& what) {
      QMetaObject::invokeMethod(
          this, [this, tell, what] { (this->*tell)(what); }, Qt::QueuedConnection);
    };
  };
  autosave_ = std::make_unique<history::Autosave>(
      std::move(store),
      history::Autosave::Told{onDesk(&Workbench::takeSaved), onDesk(&Workbench::takeFailure)}, world_.pace);
  presence_ = std::make_unique<LatestWorker>();
}

SavedState Workbench::saved() const {
  SavedState state;
  state.kind = savedKind_;
  state.failure = failure_;
  if (savedKind_ == SavedState::Kind::saved)
    state.secondsAgo = std::chrono::duration_cast<std::chrono::seconds>(world_.ticks() - savedAt_).count();
  return state;
}

void Workbench::changed(bool atOnce) {
  if (!autosave_) {
    savedKind_ = SavedState::Kind::failed;
    failure_ = sentence("no-store", {{"why", problem_}});
  } else {
    // While saves fail the line keeps saying so; only one that succeeds changes it.
    if (savedKind_ != SavedState::Kind::failed) savedKind_ = SavedState::Kind::pending;
    autosave_->submit(open_->job(), atOnce);
  }
  Q_EMIT savedChanged();
}

void Workbench::takeSaved(const history::Saved& saved) {
  if (saved.becameSibling) Q_EMIT told(sentence("became-sibling"));
  if (!open_ || saved.version.ref.id != open_->job().id) return;
  // Something newer may have been submitted since; then its own save is told too.
  if (autosave_->unsaved()) return;
  savedKind_ = SavedState::Kind::saved;
  savedAt_ = world_.ticks();
  failure_.clear();
  if (!present_) heartbeat();  // the first save of a new job: now there is something to be present at
  Q_EMIT savedChanged();
}

void Workbench::takeFailure(const history::StoreProblem& problem) {
  savedKind_ = SavedState::Kind::failed;
  failure_ = sentence("not-saved", {{"why", wording::storeProblemText(around_->language, problem)}});
  Q_EMIT savedChanged();
}

void Workbench::undo() {
  if (open_ && !open_->readOnly()) open_->undoStack().undo();
}

void Workbench::redo() {
  if (open_ && !open_->readOnly()) open_->undoStack().redo();
}

void Workbench::put(job::Job job, const history::Version& version,
                    const std::optional<history::JobRef>& before) {
  auto next = std::make_unique<session::OpenJob>(std::move(job), around_->library);
  if (before || version.number != 0)
    next->setFormer(formerVisit(before.value_or(version.ref), next->job().id));
  if (autosave_ && version.number != 0) autosave_->hold(version);
  connect(next.get(), &session::OpenJob::toSave, this, &Workbench::changed);
  const auto former = std::exchange(open_, std::move(next));
  savedKind_ = version.number != 0 ? SavedState::Kind::saved : SavedState::Kind::none;
  savedAt_ = world_.ticks();
  failure_.clear();
  present_ = false;
  Q_EMIT jobChanged();  // the places let go of the former here
  if (version.number != 0) tellEditors(version.ref);
  heartbeat();
  heartbeat_.start();
}

std::optional<job::Job> Workbench::formerVisit(const history::JobRef& ref, const std::string& without) const {
  if (!reader_) return std::nullopt;
  try {
    const std::vector<history::Visit> visits = reader_->visits(ref);
    // Only what came before; a new visit comes after all.
    auto end = std::find_if(visits.begin(), visits.end(),
                            [&](const history::Visit& visit) { return visit.ref.id == without; });
    for (int tried = 0; end != visits.begin() && tried < kFormerVisits; ++tried) {
      --end;
      if (end->state == job::State::binned) continue;
      auto loaded = reader_->load(end->ref);
      if (loaded.value && !loaded.value->job.readings.empty()) return std::move(loaded.value->job);
    }
  } catch (const history::StoreFault&) {
    // Earlier readings are a help; the job opens without them.
  }
  return std::nullopt;
}

void Workbench::putAway() {
  if (!open_ || !flushed(QApplication::activeWindow())) return;
  heartbeat_.stop();
  if (autosave_) {
    const history::Version version = autosave_->versionOf(open_->job().id);
    if (version.number != 0) act([&](history::Store& store) { store.leave(version.ref); });
  }
  const auto former = std::exchange(open_, nullptr);
  savedKind_ = SavedState::Kind::none;
  Q_EMIT jobChanged();
}

void Workbench::takeTyped() {
  const QPointer<QWidget> field = QApplication::focusWidget();
  if (!open_ || !field) return;
  field->clearFocus();
  if (field) field->setFocus(Qt::OtherFocusReason);
}

bool Workbench::flushed(QWidget* parent) {
  takeTyped();
  if (!open_ || savedKind_ == SavedState::Kind::none || savedKind_ == SavedState::Kind::saved) return true;
  if (autosave_ && autosave_->flush()) return true;
  return world_.leaveUnsaved(parent, sentence("leave-unsaved", {{"why", failure_}}));
}

bool Workbench::act(const std::function<void(history::Store&)>& act) {
  if (!autosave_) {
    Q_EMIT told(problem_);
    return false;
  }
  try {
    autosave_->act(act);
    return true;
  } catch (const history::StoreFault& fault) {
    Q_EMIT told(wording::storeProblemText(around_->language, fault.problem()));
    return false;
  }
}

void Workbench::heartbeat() {
  if (!presence_ || !open_) return;
  const history::Version version = autosave_->versionOf(open_->job().id);
  if (version.number == 0) return;
  present_ = true;
  std::string who = around_->preferences.installer;
  if (who.empty()) who = qEnvironmentVariable("USER").toStdString();
  presence_->submit([autosave = autosave_.get(), ref = version.ref, who] {
    try {
      autosave->act([&](history::Store& store) { store.enter(ref, who); });
    } catch (const history::StoreFault&) {
      // Presence is advice; a store that cannot take it says so with the next save.
    }
  });
}

void Workbench::tellEditors(const history::JobRef& ref) {
  if (!reader_) return;
  try {
    const auto editors = reader_->editors(ref);
    if (editors.empty()) return;
    Q_EMIT told(sentence("also-open", {{"who", QString::fromStdString(editors.front().who)},
                                       {"since", around_->language.moment(editors.front().since)}}));
  } catch (const history::StoreFault&) {
    // As above.
  }
}

void Workbench::takePreferences(const session::Preferences& before) {
  if (!open_ || open_->readOnly()) return;
  const session::Preferences& now = around_->preferences;
  session::Undoable next = session::undoableOf(open_->job());
  if (next.company == before.company) next.company = now.company;
  if (next.installer == before.installer) next.installer = now.installer;
  open_->edit(sentence("key.settings"), next);
  for (const job::Meter& meter : now.meters)
    if (meter.id == now.meterInHand) open_->keepMeter(meter);
}

}  // namespace ww::shell
