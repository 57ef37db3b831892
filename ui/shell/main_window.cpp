// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/main_window.h"

#include <QCloseEvent>
#include <QCoreApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include "fittings/pieces.h"
#include "fittings/qt_words.h"
#include "fittings/style.h"
#include "fittings/undo_bar.h"
#include "jobs/jobs_page.h"
#include "library/library_page.h"
#include "shell/places.h"
#include "shell/status_line.h"
#include "shell/top_bar.h"

namespace ww::shell {

MainWindow::MainWindow(const session::Surroundings& around, Workbench& bench)
    : around_(around), bench_(bench) {
  QCoreApplication::installTranslator(new fittings::QtWords(around_.language, this));
  setWindowTitle(QStringLiteral("Wirewright"));
  setMinimumSize(960, 540);
  resize(1280, 720);
  stages_ = stagesOf(around_.language);
  buildMenu();
  buildFrame();
  bindKeys();
  connectJobs();
  connect(&bench_, &Workbench::jobChanged, this, &MainWindow::takeJob);
  connect(&bench_, &Workbench::savedChanged, this, &MainWindow::refreshStatus);
  connect(&bench_, &Workbench::told, this, [this](const QString& said) { status_->say(said); });
  connect(&bench_, &Workbench::undoable, this,
          [this](const QString& said, const std::function<void()>& undo) { undoBar_->offer(said, undo); });
  connect(&bench_, &Workbench::storeChanged, this, [this] {
    banner_->setVisible(bench_.demo());
    bench_.job() ? jobs_->reload() : takeJob();
  });
  restoreLayout();
  takeJob();
}

MainWindow::~MainWindow() {
  for (const Stage& stage : stages_)
    if (stage.place) stage.place->setJob(nullptr);
}

const std::vector<Stage>& MainWindow::stages() {
  makePlaces();
  return stages_;
}

QString MainWindow::sentence(const char* key, const wording::Args& args) const {
  return around_.language.sentence(QStringLiteral("window.") + QLatin1String(key), args);
}

void MainWindow::makePlaces() {
  if (stages_.front().place) return;
  for (Stage& one : stages_) {
    fittings::Place* place = one.place = makePlace(one, around_, places_);
    places_->addWidget(place);
    if (large_) place->setLarge(true);
    connect(place, &fittings::Place::say, this, [this, place](const QString& said) {
      if (this->place() == place) status_->say(said);
    });
    connect(place, &fittings::Place::goTo, this, [this](const QString& stage, const QString& what) {
      showStage(stage.toStdString());
      if (fittings::Place* to = this->place()) to->bring(what);
    });
    connect(place, &fittings::Place::offered, this, &MainWindow::offerUndo);
    connect(place, &fittings::Place::closeJob, &bench_, &Workbench::closeRevision);
  }
  rail_->followPlaces();
}

void MainWindow::offerUndo(const QString& said) {
  session::OpenJob* job = bench_.job();
  if (!job) return;
  const int at = job->undoStack().index();
  // Only that edit: what was done since is not the bar's to undo.
  undoBar_->offer(said, [this, job, at] {
    if (bench_.job() == job && job->undoStack().index() == at) bench_.undo();
  });
}

void MainWindow::buildBanner() {
  banner_ = new QWidget(this);
  fittings::setRole(banner_, "banner");
  banner_->setAttribute(Qt::WA_StyledBackground);
  banner_->setAccessibleName(sentence("demo.banner"));
  auto* row = new QHBoxLayout(banner_);
  row->setContentsMargins(16, 4, 16, 4);
  row->addWidget(fittings::label(sentence("demo.banner")), 1);
  auto* own = fittings::button(sentence("demo.own"), QStringLiteral("new-job"), around_.theme);
  connect(own, &QPushButton::clicked, &bench_, &Workbench::startOwn);
  row->addWidget(own);
  banner_->setVisible(bench_.demo());
}

void MainWindow::buildFrame() {
  top_ = new TopBar(around_, menu_, this);
  buildBanner();
  // Each is made within what it stands in: a widget that changes its parent is dressed again with all it has.
  pages_ = new QStackedWidget(this);
  jobs_ = new jobs::JobsPage(around_, bench_.shelf(), pages_);
  jobFrame_ = new QWidget(pages_);
  places_ = new QStackedWidget(jobFrame_);
  rail_ = new StageRail(around_, stages_, jobFrame_);
  auto* across = new QHBoxLayout(jobFrame_);
  across->setContentsMargins(0, 0, 0, 0);
  across->setSpacing(0);
  across->addWidget(rail_);
  across->addWidget(fittings::hairline(Qt::Vertical));
  across->addWidget(places_, 1);
  pages_->addWidget(jobs_);
  pages_->addWidget(jobFrame_);
  undoBar_ = new fittings::UndoBar(around_, this);
  status_ = new StatusLine(around_, this);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(top_);
  column->addWidget(fittings::hairline(Qt::Horizontal));
  column->addWidget(banner_);
  column->addWidget(pages_, 1);
  column->addWidget(undoBar_);
  column->addWidget(status_);
  connect(rail_, &StageRail::chosen, this, qOverload<size_t>(&MainWindow::showStage));
  connect(top_->railButton(), &QToolButton::clicked, this, [this] {
    foldedByHand_ = !rail_->folded();
    rail_->setFolded(foldedByHand_);
  });
  connect(top_->jobsButton(), &QToolButton::clicked, this, &MainWindow::showJobs);
  connect(top_->jobsTab(), &QToolButton::clicked, this, &MainWindow::showJobs);
  connect(top_->libraryTab(), &QToolButton::clicked, this, &MainWindow::showLibrary);
  connect(top_->newButton(), &QPushButton::clicked, &bench_, &Workbench::startNew);
  connect(top_->undoButton(), &QToolButton::clicked, this, [this] { bench_.undo(); });
  connect(top_->redoButton(), &QToolButton::clicked, this, [this] { bench_.redo(); });
}

fittings::Place* MainWindow::place() const {
  return bench_.job() && pages_->currentWidget() == jobFrame_ ? stages_[current_].place : nullptr;
}

void MainWindow::showStage(size_t stage) {
  if (!bench_.job() || stage >= stages_.size()) return;
  current_ = stage;
  fittings::Place* front = stages_[stage].place;
  top_->setPlaceBar(front->topBar());
  places_->setCurrentWidget(front);
  pages_->setCurrentWidget(jobFrame_);
  rail_->setCurrent(stage);
  bench_.job()->setStage(stages_[stage].id);
  status_->hush();  // what the other stage said is no longer seen there
  front->enter();
}

void MainWindow::showStage(const std::string& id) {
  for (size_t i = 0; i < stages_.size(); ++i)
    if (stages_[i].id == id) return showStage(i);
  showStage(size_t{0});
}

void MainWindow::showJobs() {
  if (bench_.job()) return bench_.putAway();
  takeJob();
}

library::LibraryPage& MainWindow::libraryPage() {
  if (library_) return *library_;
  library_ = new library::LibraryPage(around_, bench_.folder(), pages_);
  pages_->addWidget(library_);
  connect(library_, &library::LibraryPage::said, this, [this](const QString& said) { status_->say(said); });
  connect(library_, &library::LibraryPage::undoable, this,
          [this](const QString& said, const std::function<void()>& undo) { undoBar_->offer(said, undo); });
  connect(library_, &library::LibraryPage::libraryRead, this, &MainWindow::libraryRead);
  return *library_;
}

bool MainWindow::inLibrary() const { return library_ && pages_->currentWidget() == library_; }

void MainWindow::showLibrary() {
  if (bench_.job()) bench_.putAway();
  if (bench_.job()) return;  // it could not be saved, and the person stays with it
  library::LibraryPage& page = libraryPage();
  undoBar_->lapse();
  status_->hush();
  pages_->setCurrentWidget(&page);
  top_->setLibrary(true);
  page.enter();
}

void MainWindow::takeJob() {
  session::OpenJob* job = bench_.job();
  if (job) makePlaces();
  for (const Stage& stage : stages_)
    if (stage.place) stage.place->setJob(job);
  top_->setJob(job);
  undoBar_->lapse();  // what it offers belongs to what was in front
  refreshStatus();
  if (job) {
    rail_->refresh();
    jobs_->choose(job->job().id);
    showStage(job->job().stage);
    return;
  }
  top_->setPlaceBar(nullptr);
  pages_->setCurrentWidget(jobs_);
  top_->setLibrary(false);
  jobs_->enter();
}

void MainWindow::refreshStatus() {
  if (bench_.job())
    status_->setSaved([this] { return bench_.saved(); });
  else
    status_->setSaved(nullptr);
  QString meter;
  for (const job::Meter& one : around_.preferences.meters)
    if (one.id == around_.preferences.meterInHand) meter = QString::fromStdString(one.name);
  status_->setMeter(meter);
}

void MainWindow::setLarge(bool large) {
  large_ = large;
  rail_->setFolded(large || foldedByHand_ || width() < 1360);
  for (const Stage& stage : stages_)
    if (stage.place) stage.place->setLarge(large);
  Q_EMIT largeWanted(large);
}

void MainWindow::closeEvent(QCloseEvent* event) {
  keepLayout();
  // What is on the desk is in the store before the window goes; a store that cannot take it is told first.
  if (bench_.flushed(this))
    event->accept();
  else
    event->ignore();
}

void MainWindow::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  // Below about 1360 px the diagram and its table need the room more than the names of the stages do.
  if (!large_) rail_->setFolded(foldedByHand_ || width() < 1360);
}

void MainWindow::keepLayout() {
  session::Preferences next = around_.preferences;
  next.layout["window"] = saveGeometry().toBase64().toStdString();
  next.layout["rail"] = foldedByHand_ ? "folded" : "open";
  next.layout["jobs"] = jobs_->layoutState().toBase64().toStdString();
  if (next != around_.preferences) around_.keep(next);
}

void MainWindow::restoreLayout() {
  const auto& kept = around_.preferences.layout;
  const auto bytes = [&](const char* name) {
    const auto at = kept.find(name);
    return at == kept.end() ? QByteArray() : QByteArray::fromBase64(QByteArray::fromStdString(at->second));
  };
  if (const QByteArray geometry = bytes("window"); !geometry.isEmpty()) restoreGeometry(geometry);
  if (const QByteArray jobs = bytes("jobs"); !jobs.isEmpty()) jobs_->restoreLayout(jobs);
  const auto rail = kept.find("rail");
  foldedByHand_ = rail != kept.end() && rail->second == "folded";
  rail_->setFolded(foldedByHand_ || width() < 1360);
}

}  // namespace ww::shell
