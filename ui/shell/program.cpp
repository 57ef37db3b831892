// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/program.h"

#include <QApplication>
#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QIcon>
#include <QRandomGenerator>
#include <QStandardPaths>

#include "fittings/announce.h"
#include "fittings/style.h"
#include "history/profile_folder.h"
#include "job/document_file.h"
#include "job/identity.h"
#include "shell/main_window.h"
#include "shell/status_line.h"
#include "shell/workbench.h"
#include "wording/sentences.h"

namespace ww::shell {

namespace {

constexpr double kLargeScale = 1.4;  // large mode: targets of 32 px become 44

QString preferencesFile(const QString& folder) { return folder + QStringLiteral("/preferences.json"); }

}  // namespace

/// What a window is built for; it outlives the window.
struct Program::Look {
  Look(wording::Language spoken, paint::Theme colours, const equipment::Library& library,
       const session::Preferences& preferences, std::function<void(const session::Preferences&)> keep,
       std::function<void(const QString&)> announce)
      : language(std::move(spoken)),
        theme(std::move(colours)),
        around{language,  theme,    library,         preferences,
               systemNow, systemId, std::move(keep), std::move(announce)} {}
  wording::Language language;
  paint::Theme theme;
  session::Surroundings around;
};

std::string Program::systemNow() {
  const QDateTime now = QDateTime::currentDateTime();
  return now.toOffsetFromUtc(now.offsetFromUtc()).toString(Qt::ISODate).toStdString();
}

std::string Program::systemId() {
  return job::uuid7(static_cast<std::uint64_t>(QDateTime::currentMSecsSinceEpoch()),
                    [] { return QRandomGenerator::system()->generate64(); });
}

Program::Program(QApplication& application, Options options)
    : application_(application),
      options_(std::move(options)),
      systemFont_(QApplication::font()),
      systemPalette_(QApplication::palette()) {
  if (options_.dataFolder.isEmpty())
    options_.dataFolder =
        QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + QStringLiteral("/wirewright");
  QDir().mkpath(options_.dataFolder);
  readPreferences();
  readProfiles();
  look_ = makeLook();
  dress();
}

Program::~Program() {
  window_.reset();
  bench_.reset();
}

void Program::readPreferences() {
  QFile file(preferencesFile(options_.dataFolder));
  // Before anything was chosen, the units are those of the country.
  const bool imperial = QLocale::system().measurementSystem() != QLocale::MetricSystem;
  preferences_.feet = preferences_.awg = preferences_.fahrenheit = imperial;
  if (!imperial) preferences_.paper = "a4";
  if (!file.open(QIODevice::ReadOnly)) return;
  const QByteArray bytes = file.readAll();
  auto read = session::readPreferences({bytes.constData(), static_cast<size_t>(bytes.size())});
  if (read.value)
    preferences_ = std::move(*read.value);
  else if (!read.problems.empty())
    putPreferencesAside(wording::problemText(chosenLanguage(), read.problems.front()));
}

/// What is wrong with a file of one's own is told in the line of the window; the others are there.
void Program::readProfiles() {
  const history::ProfileFolder folder(options_.dataFolder.toStdString());
  equipment::OwnProfiles own = folder.read(equipment::standardLibrary());
  library_ = std::move(own.library);
  if (own.refused.empty()) return;
  const equipment::RefusedFile& first = own.refused.front();
  profilesProblem_ = wording::problemText(chosenLanguage(), first.problems.front(),
                                          QString::fromStdString(folder.path() + "/" + first.name));
}

/// Meters and layout may still be read in it by a person, so the next save does not go over it.
void Program::putPreferencesAside(const QString& why) {
  const QString path = preferencesFile(options_.dataFolder);
  QString aside = path + QStringLiteral(".damaged");
  for (int n = 2; QFile::exists(aside); ++n) aside = path + QStringLiteral(".damaged-%1").arg(n);
  QFile::rename(path, aside);
  preferencesProblem_ = chosenLanguage().sentence(QStringLiteral("window.preferences-damaged"),
                                                  {{"why", why}, {"file", aside}});
}

const wording::Language& Program::chosenLanguage() const {
  for (const std::string& code : {options_.language.toStdString(), preferences_.language})
    if (const wording::Language* chosen = wording::Language::byCode(code)) return *chosen;
  return QLocale::system().language() == QLocale::Spanish ? wording::Language::spanish()
                                                          : wording::Language::english();
}

std::unique_ptr<Program::Look> Program::makeLook() {
  const std::string named = options_.theme.isEmpty() ? preferences_.theme : options_.theme.toStdString();
  const bool systemDark = systemPalette_.color(QPalette::Window).lightness() < 128;
  const bool dark = named.empty() ? systemDark : named == "dark";
  const auto contrast = fittings::highContrastTheme(systemPalette_);
  return std::make_unique<Look>(
      chosenLanguage().measuring({preferences_.feet, preferences_.awg, preferences_.fahrenheit}),
      contrast ? *contrast : paint::theme(dark ? paint::ThemeName::dark : paint::ThemeName::light), library_,
      preferences_, [this](const session::Preferences& next) { keep(next); },
      [this](const QString& sentence) {
        if (window_) fittings::announce(*window_, sentence);
      });
}

const session::Surroundings& Program::surroundings() const { return look_->around; }

void Program::dress() {
  fittings::dress(application_, look_->theme,
                  fittings::textScaleOf(systemFont_) * (large_ ? kLargeScale : 1));
}

void Program::keep(const session::Preferences& next) {
  preferences_ = next;
  look_->around.preferences = next;
  const std::string path = preferencesFile(options_.dataFolder).toStdString();
  if (const auto failure = job::saveFile(path, session::writePreferences(next)); failure && window_)
    window_->status().say(look_->language.sentence(QStringLiteral("window.preferences-not-kept"),
                                                   {{"why", QString::fromStdString(failure->detail)}}));
}

void Program::start() {
  QApplication::setWindowIcon(QIcon(QStringLiteral(":/icons/wirewright.svg")));
  bench_ = std::make_unique<Workbench>(look_->around, options_.dataFolder);
  buildWindow();
  for (const QString& problem : {profilesProblem_, preferencesProblem_})
    if (!problem.isEmpty()) window_->status().say(problem);
  bench_->openStore();
  if (!options_.file.isEmpty()) bench_->openFile(options_.file);
}

void Program::buildWindow() {
  window_ = std::make_unique<MainWindow>(look_->around, *bench_);
  connect(window_.get(), &MainWindow::largeWanted, this, [this](bool large) {
    large_ = large;
    dress();
  });
  connect(window_.get(), &MainWindow::libraryRead, this,
          [this](const equipment::Library& library) { library_ = library; });
  // The window asks from within one of its own dialogs: it must be gone from the stack before it is replaced.
  connect(
      window_.get(), &MainWindow::rebuildWanted, this,
      [this] {
        window_->keepLayout();
        window_.reset();
        auto next = makeLook();
        bench_->setSurroundings(next->around);
        look_ = std::move(next);
        dress();
        buildWindow();
      },
      Qt::QueuedConnection);
  window_->show();
}

}  // namespace ww::shell
