// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/wiring_place.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QToolButton>
#include <QVBoxLayout>

#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "fittings/undo_bar.h"
#include "wiring/diagram_accessible.h"
#include "wiring/legend.h"
#include "wiring/mend_search.h"
#include "wiring/outline.h"

namespace ww::wiring {

WiringPlace::WiringPlace(const session::Surroundings& surroundings, QWidget* parent)
    : Place(surroundings, parent),
      hand_(new InHand(around_, this)),
      keys_(new fittings::KeyMap(this)),
      calls_(new CallsRow(*hand_, this)),
      diagram_((installDiagramAccessibility(), new DiagramView(*hand_, this))),
      listing_(new QPlainTextEdit(this)),
      table_(new ConductorTable(*hand_, this)),
      entry_(new EntryLine(*hand_, this)),
      findings_(new FindingsStrip(*hand_, mendSearch(around_), this)),
      undoBar_(new fittings::UndoBar(around_, this)) {
  setAccessibleName(hand_->words("name"));
  buildTop();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(calls_);
  column->addWidget(fittings::hairline(Qt::Horizontal, this));
  auto* middle = new QHBoxLayout;
  middle->setSpacing(0);
  middle->addWidget(diagramPane(), 1);
  middle->addWidget(fittings::hairline(Qt::Vertical, this));
  middle->addWidget(tablePane());
  column->addLayout(middle, 1);
  column->addWidget(findings_);
  connect(findings_, &FindingsStrip::preview, this, [this](const std::optional<sheet::Sheet>& after) {
    diagram_->setPreview(after);
    std::map<EndRef, QString> ends;
    if (after)
      for (const sheet::Conductor& wire : after->conductors)
        for (const bool atA : {true, false}) {
          const sheet::Landing landing = atA ? wire.endA : wire.endB;
          if (landing != landingOf(hand_->sheet(), {wire.id, atA}))
            ends[{wire.id, atA}] =
                wording::landingName(around_.language, {*after, hand_->library()}, landing);
        }
    table_->preview(ends);
  });
  connect(findings_, &FindingsStrip::closed, this, [this] { table_->setFocus(Qt::OtherFocusReason); });
  connect(entry_, &EntryLine::closed, this, [this] { table_->setFocus(Qt::OtherFocusReason); });
  connect(findings_, &FindingsStrip::say, this, &WiringPlace::tell);
  connect(diagram_, &DiagramView::say, this, &WiringPlace::tell);
  connect(table_, &ConductorTable::say, this, &WiringPlace::tell);
  connect(diagram_, &DiagramView::openUnit, this, [this](sheet::UnitId unit) {
    const sheet::Unit* found = hand_->sheet().units.find(unit);
    if (found) Q_EMIT goTo(QStringLiteral("site"), QString::fromStdString(found->tag));
  });
  connect(hand_, &InHand::checked, this, &WiringPlace::refresh);
  connect(hand_, &InHand::offered, this, [this](const QString& sentence) {
    session::OpenJob* job = hand_->job();
    const int at = job->undoStack().index();
    undoBar_->offer(sentence, [this, job, at] {
      if (hand_->job() == job && job->undoStack().index() == at) job->undoStack().undo();
    });
    placeUndoBar();
  });
  bindKeys();
  refresh();
}

WiringPlace::~WiringPlace() = default;

QWidget* WiringPlace::diagramPane() {
  auto* pane = new QWidget(this);
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  left_ = new QStackedWidget(pane);
  left_->addWidget(diagram_);
  listing_->setReadOnly(true);
  listing_->setAccessibleName(hand_->words("listing"));
  listing_->setFrameShape(QFrame::NoFrame);
  left_->addWidget(listing_);
  column->addWidget(left_, 1);
  foot_ = new QWidget(pane);
  auto* foot = new QHBoxLayout(foot_);
  foot->setContentsMargins(24, 4, 16, 4);
  foot->setSpacing(8);
  legend_ = new Legend(*hand_, pane);
  foot->addWidget(legend_, 1);
  auto* fit =
      fittings::iconButton(QStringLiteral("fit"), hand_->words("key.fit"), around_.theme, Qt::Key_Home, pane);
  fit->setStyleSheet(
      QStringLiteral("QToolButton { border: 1px solid transparent; background: transparent; }"
                     "QToolButton:focus { border: 2px solid palette(highlight); }"));
  connect(fit, &QToolButton::clicked, diagram_, &DiagramView::fit);
  foot->addWidget(fit);
  zoom_ = fittings::label({}, "status", pane);
  zoom_->setMinimumWidth(40);
  zoom_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  foot->addWidget(zoom_);
  column->addWidget(foot_);
  const auto zoomed = [this] { zoom_->setText(around_.language.quantity(diagram_->zoom() * 100, "%", 0)); };
  connect(diagram_, &DiagramView::zoomed, this, zoomed);
  zoomed();
  return pane;
}

QWidget* WiringPlace::tablePane() {
  tablePane_ = new QWidget(this);
  fittings::setRole(tablePane_, "panel");
  tablePane_->setAttribute(Qt::WA_StyledBackground);
  tablePane_->setFixedWidth(fittings::kTableWidth);
  auto* column = new QVBoxLayout(tablePane_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(table_, 1);
  column->addWidget(entry_);
  return tablePane_;
}

void WiringPlace::buildTop() {
  top_ = new QWidget;
  auto* row = new QHBoxLayout(top_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  auto* either = new QButtonGroup(top_);
  const auto add = [&](const char* word, const char* iconName, const QKeySequence& keys, bool listing) {
    auto* made = new QToolButton(top_);
    made->setText(hand_->words(word));
    made->setAccessibleName(made->text());
    made->setToolTip(QStringLiteral("%1 (%2)").arg(made->text(), fittings::keyText(keys)));
    made->setIcon(fittings::icon(QString::fromLatin1(iconName), around_.theme));
    made->setIconSize({20, 20});
    made->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    made->setCheckable(true);
    made->setFocusPolicy(Qt::StrongFocus);
    fittings::setRole(made, "choice");
    either->addButton(made);
    row->addWidget(made);
    connect(made, &QToolButton::clicked, this, [this, listing] { showListing(listing); });
    return made;
  };
  diagramButton_ = add("diagram", "diagram", Qt::Key_F8, false);
  listingButton_ = add("listing", "list", Qt::Key_F8, true);
  diagramButton_->setChecked(true);
  auto* offer = fittings::button(hand_->words("propose"), QStringLiteral("propose"), around_.theme,
                                 Qt::Key_F5, nullptr, top_);
  connect(offer, &QPushButton::clicked, this, &WiringPlace::propose);
  row->addWidget(offer);
  proposeButton_ = offer;
  top_->hide();
}

void WiringPlace::setJob(session::OpenJob* job) {
  undoBar_->lapse();
  entry_->close();
  hand_->setJob(job);
  table_->setCurrentIndex({});
  refresh();
}

void WiringPlace::enter() {
  if (!table_->currentIndex().isValid()) table_->startWork();
  if (table_->model().rowCount() == 0 && hand_->canEdit() && !hand_->sheet().units.empty())
    insert();
  else
    table_->setFocus(Qt::OtherFocusReason);
}

fittings::StageMark WiringPlace::mark() const {
  fittings::StageMark mark;
  if (!hand_->job()) return mark;
  for (const verify::Finding* finding : hand_->job()->openFindings()) {
    if (finding->severity == verify::Severity::note) continue;
    if (!mark.severity) mark.severity = paint::shapeOf(finding->severity);
    ++mark.count;
  }
  if (!mark.severity && !hand_->sheet().conductors.empty() && hand_->hasCalls())
    mark.severity = paint::Severity::right;
  return mark;
}

std::vector<QWidget*> WiringPlace::panes() { return {calls_, left_->currentWidget(), table_, findings_}; }

bool WiringPlace::stepOut() {
  if (diagram_->letGo()) return true;
  if (entry_->open()) {
    entry_->close();
    return true;
  }
  if (findings_->stepOut()) return true;
  if (undoBar_->isVisible()) {
    undoBar_->lapse();
    return true;
  }
  if (!showsListing()) return false;
  showListing(false);
  return true;
}

void WiringPlace::bring(const QString& finding) { findings_->choose(finding.toStdString()); }

void WiringPlace::setLarge(bool large) {
  tablePane_->setFixedWidth(large ? fittings::kTableWidth * 3 / 2 : fittings::kTableWidth);
  legend_->setVisible(!large);
}

bool WiringPlace::showsListing() const { return left_->currentWidget() == listing_; }

void WiringPlace::showListing(bool listing) {
  if (listing) listing_->setPlainText(listingOf(*hand_));
  left_->setCurrentWidget(listing ? static_cast<QWidget*>(listing_) : diagram_);
  foot_->setVisible(!listing);
  (listing ? listingButton_ : diagramButton_)->setChecked(true);
  left_->currentWidget()->setFocus(Qt::OtherFocusReason);
}

void WiringPlace::tell(const QString& sentence) { Q_EMIT say(sentence); }

void WiringPlace::told(const QString& wrong) {
  if (wrong.isEmpty()) return;
  if (table_->hasFocus())
    table_->complain(wrong);
  else
    tell(wrong);
}

void WiringPlace::refresh() {
  proposeButton_->setEnabled(hand_->canEdit());
  if (showsListing()) listing_->setPlainText(listingOf(*hand_));
  Q_EMIT markChanged();
}

/// Over the foot of the diagram, where it hides nothing that is typed into.
void WiringPlace::placeUndoBar() {
  const QWidget* pane = left_->parentWidget();
  const int width = std::min(pane->width() - 32, std::max(480, undoBar_->sizeHint().width()));
  const int height = std::max(undoBar_->sizeHint().height(), undoBar_->heightForWidth(width));
  undoBar_->setGeometry(pane->x() + (pane->width() - width) / 2, findings_->y() - height - 48, width, height);
  undoBar_->raise();
}

void WiringPlace::resizeEvent(QResizeEvent* event) {
  Place::resizeEvent(event);
  placeUndoBar();
}

}  // namespace ww::wiring
