// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/report_place.h"

#include <QComboBox>
#include <QCoreApplication>
#include <QFileDialog>
#include <QFrame>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "fittings/pieces.h"
#include "fittings/style.h"
#include "paint/pdf_file.h"

namespace ww::report {

namespace {

constexpr int kContents = 360, kId = Qt::UserRole;
constexpr double kZoomStep = 1.25;

QString q(const std::string& text) { return QString::fromStdString(text); }

/// The printer that a person chose, set to the paper of the report.
std::shared_ptr<QPagedPaintDevice> chosenPrinter(QWidget* parent, paint::PaperSize paper) {
  auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
  printer->setPageSize(QPageSize(paper == paint::PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter));
  printer->setCreator(QCoreApplication::applicationName());
  if (QPrintDialog(printer.get(), parent).exec() != QDialog::Accepted) return nullptr;
  printer->setFullPage(true);
  printer->setResolution(paint::kPaperDpi);
  return printer;
}

}  // namespace

ReportPlace::ReportPlace(const session::Surroundings& surroundings, QWidget* parent)
    : Place(surroundings, parent), keys_(new fittings::KeyMap(this)), worker_(new Worker(this)) {
  setAccessibleName(words("reportview.name"));
  askFile = [this](const QString& suggested) {
    return QFileDialog::getSaveFileName(this, words("reportview.save"), suggested,
                                        words("reportview.pdf-files"));
  };
  askPrinter = [this](paint::PaperSize paper) { return chosenPrinter(this, paper); };
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  row->addWidget(contentsPane());
  row->addWidget(fittings::hairline(Qt::Vertical));
  right_ = new QStackedWidget;
  right_->addWidget(previewPane());
  closeSheet_ = new CloseSheet(around_);
  right_->addWidget(closeSheet_);
  row->addWidget(right_, 1);
  buildTopBar();
  bindKeys();
  connect(closeSheet_, &CloseSheet::confirmed, this, &ReportPlace::signAndClose);
  connect(closeSheet_, &CloseSheet::left, this, &ReportPlace::leaveCloseSheet);
  sayOpen();
}

ReportPlace::~ReportPlace() { delete worker_; }

QWidget* ReportPlace::contentsPane() {
  auto* pane = new QWidget;
  fittings::setRole(pane, "panel");
  pane->setFixedWidth(kContents);
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(0, 12, 0, 16);
  column->setSpacing(8);
  auto* head = new QHBoxLayout;
  head->setContentsMargins(16, 0, 16, 0);
  QLabel* title = fittings::label(words("reportview.contents"), "heading");
  count_ = fittings::label({}, "quiet");
  head->addWidget(title, 1);
  head->addWidget(count_, 0, Qt::AlignBottom);
  column->addLayout(head);
  contents_ = new QListWidget;
  contents_->setAccessibleName(words("reportview.contents"));
  contents_->setAccessibleDescription(words("reportview.contents-hint"));
  contents_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  contents_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  contents_->setFrameShape(QFrame::NoFrame);
  title->setBuddy(contents_);
  auto* listRow = new QHBoxLayout;
  listRow->setContentsMargins(10, 0, 10, 0);
  listRow->addWidget(contents_);
  column->addLayout(listRow);
  auto* box = new QFrame;
  box->setAutoFillBackground(true);
  QPalette palette = box->palette();
  palette.setColor(QPalette::Window, around_.theme.severity(paint::Severity::note).soft);
  box->setPalette(palette);
  auto* inside = new QVBoxLayout(box);
  inside->setContentsMargins(12, 10, 12, 10);
  inside->setSpacing(4);
  openHead_ = fittings::label(words("reportview.open.head"), "strong");
  openHead_->setWordWrap(true);
  inside->addWidget(openHead_);
  open_ = new QLabel;
  open_->setTextFormat(Qt::RichText);
  open_->setWordWrap(true);
  open_->setTextInteractionFlags(Qt::LinksAccessibleByMouse | Qt::LinksAccessibleByKeyboard);
  open_->setAccessibleName(words("reportview.open.head"));
  open_->setMinimumHeight(20);
  inside->addWidget(open_);
  auto* boxRow = new QHBoxLayout;
  boxRow->setContentsMargins(16, 0, 16, 0);
  boxRow->addWidget(box);
  column->addLayout(boxRow);
  column->addStretch(1);
  auto* form = new QGridLayout;
  form->setContentsMargins(16, 0, 16, 0);
  form->setVerticalSpacing(8);
  form->setColumnStretch(1, 1);
  form->setColumnMinimumWidth(0, 72);
  paper_ = new QComboBox;
  paper_->addItem(words("reportview.paper.letter"), QStringLiteral("letter"));
  paper_->addItem(words("reportview.paper.a4"), QStringLiteral("a4"));
  paper_->setCurrentIndex(around_.preferences.paper == "a4" ? 1 : 0);
  reportLanguage_ = new QComboBox;
  for (const char* code : {"en", "es"})
    reportLanguage_->addItem(words((std::string("reportview.language.") + code).c_str()),
                             QLatin1String(code));
  reportLanguage_->setCurrentIndex(std::max(0, reportLanguage_->findData(around_.language.code())));
  fittings::addRow(form, words("reportview.paper.label"), paper_);
  fittings::addRow(form, words("reportview.language.label"), reportLanguage_);
  column->addLayout(form);
  connect(open_, &QLabel::linkActivated, this, &ReportPlace::followLink);
  connect(contents_, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
    const std::string id = item->data(kId).toString().toStdString();
    const bool out = item->checkState() == Qt::Unchecked;
    if (out == leftOut_.contains(id)) return;
    if (out)
      leftOut_.insert(id);
    else
      leftOut_.erase(id);
    remake();
  });
  connect(contents_, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
    if (item && contents_->hasFocus()) goToArea("section:" + item->data(kId).toString().toStdString());
  });
  connect(contents_, &QListWidget::itemClicked, this,
          [this](QListWidgetItem* item) { goToArea("section:" + item->data(kId).toString().toStdString()); });
  connect(paper_, &QComboBox::activated, this, [this] {
    session::Preferences next = around_.preferences;
    next.paper = paper_->currentData().toString().toStdString();
    around_.keep(next);
    remake();
  });
  connect(reportLanguage_, &QComboBox::activated, this, &ReportPlace::remake);
  return pane;
}

QWidget* ReportPlace::previewPane() {
  auto* pane = new QWidget;
  fittings::setRole(pane, "sunk");
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(0, 0, 0, 8);
  column->setSpacing(0);
  view_ = new PageView(around_.theme);
  view_->setAccessibleName(words("reportview.preview"));
  foot_ = fittings::label({}, "quiet");
  foot_->setAlignment(Qt::AlignCenter);
  foot_->setWordWrap(true);
  column->addWidget(view_, 1);
  column->addWidget(foot_);
  connect(view_, &PageView::wanted, this, &ReportPlace::wantImage);
  connect(view_, &PageView::clicked, this, &ReportPlace::follow);
  connect(view_, &PageView::turn, this, [this](int by) { showPage(page_ + by); });
  return pane;
}

void ReportPlace::buildTopBar() {
  topBar_ = new QWidget;
  auto* bar = new QHBoxLayout(topBar_);
  bar->setContentsMargins(0, 0, 0, 0);
  bar->setSpacing(8);
  save_ =
      fittings::button(words("reportview.save"), "pdf", around_.theme, QKeySequence(Qt::CTRL | Qt::Key_S));
  print_ =
      fittings::button(words("reportview.print"), "print", around_.theme, QKeySequence(Qt::CTRL | Qt::Key_P));
  sign_ = fittings::button(words("reportview.close.title"), "sign", around_.theme, {}, "primary");
  for (QPushButton* button : {save_, print_, sign_}) bar->addWidget(button);
  connect(save_, &QPushButton::clicked, this, &ReportPlace::savePdf);
  connect(print_, &QPushButton::clicked, this, &ReportPlace::print);
  connect(sign_, &QPushButton::clicked, this, &ReportPlace::openCloseSheet);
}

void ReportPlace::bindKeys() {
  const auto seen = [this] { return !closing(); };
  keys_->add(
      Qt::Key_PageUp, words("reportview.key.back"), [this] { showPage(page_ - 1); }, seen);
  keys_->add(
      Qt::Key_PageDown, words("reportview.key.on"), [this] { showPage(page_ + 1); }, seen);
  keys_->add(
      Qt::CTRL | Qt::Key_Plus, words("reportview.key.in"), [this] { view_->zoomBy(kZoomStep); }, seen);
  keys_->add(
      Qt::CTRL | Qt::Key_Minus, words("reportview.key.out"), [this] { view_->zoomBy(1 / kZoomStep); }, seen);
  keys_->add(
      Qt::CTRL | Qt::Key_0, words("reportview.key.fit"), [this] { view_->fit(); }, seen);
  keys_->add(Qt::CTRL | Qt::Key_S, words("reportview.key.save"), [this] { savePdf(); });
  keys_->add(Qt::CTRL | Qt::Key_P, words("reportview.key.print"), [this] { print(); });
  keys_->add(
      Qt::CTRL | Qt::Key_Return, words("reportview.key.sign"), [this] { openCloseSheet(); }, seen);
  keys_->add(
      Qt::Key_Escape, {}, [this] { leaveCloseSheet(); }, [this] { return closing(); });
}

std::vector<fittings::KeyLine> ReportPlace::keys() const {
  auto lines = keys_->lines();
  lines.push_back({Qt::Key_Space, words("reportview.key.part")});
  return lines;
}

void ReportPlace::setJob(session::OpenJob* job) {
  if (job_) job_->disconnect(this);
  worker_->forget("make");
  worker_->forget("image");
  job_ = job;
  made_.reset();
  leftOut_.clear();
  page_ = 0;
  contents_->clear();
  view_->setPage({});
  right_->setCurrentIndex(0);
  if (job_) {
    connect(job_, &session::OpenJob::edited, this, &ReportPlace::changed);
    connect(job_, &session::OpenJob::sheetChanged, this, &ReportPlace::changed);
    connect(job_, &session::OpenJob::factsChanged, this, &ReportPlace::changed);
  }
  sayOpen();
  changed();
}

/// Pages are made again only while someone looks at them.
void ReportPlace::changed() {
  stale_ = true;
  sign_->setText(words(job_ && job_->readOnly() ? "reportview.close.sign" : "reportview.close.title"));
  for (QPushButton* button : {save_, print_, sign_}) button->setEnabled(job_ != nullptr);
  if (isVisible()) remake();
}

void ReportPlace::enter() {
  if (stale_) remake();
  if (closing())
    closeSheet_->name("installer")->setFocus();
  else
    contents_->setFocus();
}

Source ReportPlace::source() const {
  Source source{job_->job(), &equipment::standardLibrary(), nullptr, paint::PaperSize::letter, leftOut_, {}};
  source.language = wording::Language::byCode(reportLanguage_->currentData().toString().toStdString());
  if (paper_->currentData().toString() == u"a4") source.paper = paint::PaperSize::a4;
  source.version = QCoreApplication::applicationVersion().toStdString();
  return source;
}

void ReportPlace::remake() {
  stale_ = false;
  if (!job_) return;
  worker_->post("make", [this, source = source()]() -> Worker::Then {
    auto made = make(source);
    return [this, made] { takeOver(made); };
  });
}

void ReportPlace::takeOver(std::shared_ptr<const Made> made) {
  made_ = std::move(made);
  page_ = std::clamp(page_, 0, std::max(0, pages() - 1));
  fillContents();
  sayOpen();
  showPage(page_);
  Q_EMIT markChanged();
}

int ReportPlace::pages() const { return made_ ? int(made_->pages->pictures().size()) : 0; }

void ReportPlace::showPage(int page) {
  if (!made_ || pages() == 0) return;
  page_ = std::clamp(page, 0, pages() - 1);
  const auto& picture = made_->pages->pictures()[size_t(page_)];
  view_->setPage(picture.pageSize());
  foot_->setText(words("reportview.foot", {{"page", around_.language.number(page_ + 1, 0)},
                                           {"pages", around_.language.number(pages(), 0)}}));
  view_->setAccessibleDescription(foot_->text());
  markPart();
}

void ReportPlace::wantImage(int widthPixels) {
  if (!made_ || widthPixels < 1) return;
  worker_->post("image", [this, made = made_, page = page_, widthPixels]() -> Worker::Then {
    const QImage image = pageImage(*made, page, widthPixels);
    return [this, image] { view_->setImage(image); };
  });
}

QString ReportPlace::openText() const { return open_->text(); }

void ReportPlace::followLink(const QString& link) {
  const size_t at = link.toULong();
  if (!made_ || at >= made_->open.size()) return;
  Q_EMIT goTo(q(made_->open[at].stage), q(made_->open[at].goTo));
}

void ReportPlace::follow(QPointF share) {
  if (!made_ || pages() == 0) return;
  const QSizeF paper = made_->pages->pictures()[size_t(page_)].pageSize();
  const QPointF at(share.x() * paper.width(), share.y() * paper.height());
  std::string what;
  for (const auto& area : made_->painted.areas) {
    if (area.page > page_ || (area.page == page_ && area.box.top() > at.y())) continue;
    const bool section = area.what.starts_with("section:");
    if (section || (area.page == page_ && area.box.contains(at))) what = area.what;
  }
  const auto colon = what.find(':');
  if (colon == std::string::npos) return;
  const std::string kind = what.substr(0, colon), id = what.substr(colon + 1);
  if (kind == "finding") return Q_EMIT goTo(QStringLiteral("wiring"), q(id));
  if (kind == "step") {
    const auto& steps = job_->steps();
    const auto step = std::find_if(steps.begin(), steps.end(), [&](const auto& s) { return s.key == id; });
    const bool dead = step != steps.end() && step->phase == checklist::Phase::dead;
    return Q_EMIT goTo(dead ? QStringLiteral("dead") : QStringLiteral("live"), q(id));
  }
  const bool wiring = id == "wiring" || id == "diagram" || id == "findings";
  Q_EMIT goTo(wiring             ? QStringLiteral("wiring")
              : id == "readings" ? QStringLiteral("live")
              : id == "cautions" ? QStringLiteral("dead")
                                 : QStringLiteral("site"),
              {});
}

void ReportPlace::goToArea(const std::string& what) {
  if (!made_) return;
  for (const auto& area : made_->painted.areas)
    if (area.what == what) return showPage(area.page);
}

void ReportPlace::savePdf() {
  if (!job_) return;
  QString name = q(job_->job().number.empty() ? job_->job().visit : job_->job().number);
  if (!job_->job().site.address.empty()) name += u' ' + q(job_->job().site.address);
  name.replace(u'/', u'-');
  const QString path = askFile(name.trimmed() + QStringLiteral(".pdf"));
  if (path.isEmpty()) return;
  Q_EMIT say(words("reportview.saving", {{"file", path}}));
  worker_->post({}, [this, source = source(), path]() -> Worker::Then {
    const auto made = make(source);
    const auto written =
        paint::writePdf(made->shown, made->sheet, *source.library, *source.language, source.paper, path);
    return [this, written, path] {
      if (written)
        Q_EMIT say(words("reportview.saved",
                         {{"file", path}, {"n", around_.language.number(written.pages, 0)}}, written.pages));
      else
        Q_EMIT say(words("ww-cannot-write", {{"file", path}, {"detail", written.failure->detail}}));
    };
  });
}

void ReportPlace::print() {
  if (!job_) return;
  const Source source = this->source();
  auto device = askPrinter(source.paper);
  if (!device) return;
  worker_->post({}, [this, source, device]() mutable -> Worker::Then {
    const auto made = make(source);
    const int count = paintOn(*device, *made, source).pages;
    return [this, count, device] {
      Q_EMIT say(words("reportview.printed", {{"n", around_.language.number(count, 0)}}, count));
    };
  });
}

bool ReportPlace::closing() const { return right_->currentIndex() == 1; }

void ReportPlace::openCloseSheet() {
  if (!job_ || closing()) return;
  // What stands open is said as it is now, not as it was when the pages were made.
  worker_->post("make", [this, source = source()]() -> Worker::Then {
    auto made = make(source);
    return [this, made] {
      takeOver(made);
      showCloseSheet();
    };
  });
}

void ReportPlace::showCloseSheet() {
  std::vector<CloseSheet::Line> lines;
  for (const OpenLine& line : made_->open) lines.push_back({line.severity, openLine(line)});
  closeSheet_->setOpen(lines, job_->readOnly());
  right_->setCurrentIndex(1);
  closeSheet_->name("installer")->setFocus();
}

void ReportPlace::leaveCloseSheet() {
  right_->setCurrentIndex(0);
  contents_->setFocus();
}

void ReportPlace::signAndClose() {
  if (!job_) return;
  const bool closed = job_->readOnly();
  for (job::Signature signature : closeSheet_->signatures()) {
    signature.id = around_.newId();
    signature.at = around_.now();
    job_->sign(signature);
  }
  leaveCloseSheet();
  if (!closed) Q_EMIT closeJob();
}

bool ReportPlace::stepOut() {
  if (!closing()) return false;
  leaveCloseSheet();
  return true;
}

std::vector<QWidget*> ReportPlace::panes() {
  if (closing()) return {contents_, closeSheet_->name("installer")};
  return {contents_, view_};
}

fittings::StageMark ReportPlace::mark() const {
  if (job_ && job_->readOnly()) return {paint::Severity::right, 0};
  return {paint::Severity::notMeasured, 0};
}

QString ReportPlace::words(const char* key, const wording::Args& args, std::optional<int> count) const {
  return around_.language.sentence(QLatin1String(key), args, count);
}

}  // namespace ww::report
