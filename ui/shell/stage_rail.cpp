// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/stage_rail.h"

#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "wording/names.h"

namespace ww::shell {

namespace {

verify::Severity findingSeverity(paint::Severity severity) {
  switch (severity) {
    case paint::Severity::stop: return verify::Severity::stop;
    case paint::Severity::fail: return verify::Severity::fail;
    case paint::Severity::warn: return verify::Severity::warn;
    default: return verify::Severity::note;
  }
}

QString markWord(const wording::Language& language, paint::Severity severity) {
  if (severity == paint::Severity::right) return language.sentence(QStringLiteral("window.mark.right"));
  if (severity == paint::Severity::notMeasured) return language.sentence(QStringLiteral("window.mark.open"));
  return wording::severityName(language, findingSeverity(severity));
}

/// The shape of a mark as an icon; sharp at the screen's resolution.
QIcon markIcon(paint::Severity severity, const paint::Theme& theme, double ratio) {
  QPixmap picture(QSize(20, 20) * ratio);
  picture.setDevicePixelRatio(ratio);
  picture.fill(Qt::transparent);
  QPainter painter(&picture);
  painter.setRenderHint(QPainter::Antialiasing);
  paint::paintSeverity(painter, severity, {2, 2, 16, 16}, theme);
  return QIcon(picture);
}

}  // namespace

StageRail::StageRail(const session::Surroundings& around, const std::vector<Stage>& stages, QWidget* parent)
    : QWidget(parent), around_(around), stages_(stages) {
  fittings::setRole(this, "panel");
  setAttribute(Qt::WA_StyledBackground);
  setAccessibleName(around.language.sentence(QStringLiteral("window.rail")));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 8, 0, 8);
  column->setSpacing(0);
  for (size_t i = 0; i < stages.size(); ++i) {
    auto* made = new QToolButton(this);
    fittings::setRole(made, "rail");
    made->setCheckable(true);
    made->setAutoExclusive(true);
    made->setFocusPolicy(Qt::StrongFocus);
    made->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    made->setIconSize({20, 20});
    connect(made, &QToolButton::clicked, this, [this, i] { Q_EMIT chosen(i); });
    buttons_.push_back(made);
    column->addWidget(made);
  }
  column->addStretch();
  refresh();
}

void StageRail::followPlaces() {
  for (size_t i = 0; i < stages_.size(); ++i)
    connect(stages_[i].place, &fittings::Place::markChanged, this, [this, i] { dressButton(i); });
}

void StageRail::setCurrent(size_t stage) { buttons_[stage]->setChecked(true); }

void StageRail::setFolded(bool folded) {
  folded_ = folded;
  refresh();
}

void StageRail::refresh() {
  setMinimumWidth(folded_ ? fittings::kRailFolded : fittings::kRail);
  for (size_t i = 0; i < stages_.size(); ++i) dressButton(i);
  updateGeometry();
}

void StageRail::dressButton(size_t stage) {
  QToolButton* made = buttons_[stage];
  const fittings::Place* place = stages_[stage].place;
  const fittings::StageMark mark = place ? place->mark() : fittings::StageMark();
  const auto& language = around_.language;
  const QString title = stages_[stage].title;
  const QString shown = folded_ ? language.sentence(QStringLiteral("window.stage-short.") +
                                                    QString::fromStdString(stages_[stage].id))
                                : title;
  made->setToolButtonStyle(folded_ ? Qt::ToolButtonTextUnderIcon : Qt::ToolButtonTextBesideIcon);
  made->setIcon(mark.severity ? markIcon(*mark.severity, around_.theme, devicePixelRatioF())
                              : fittings::icon(stages_[stage].iconName, around_.theme));
  const bool counted = mark.count > 0;
  made->setText(counted ? language.sentence(QStringLiteral("window.stage-count"),
                                            {{"stage", shown}, {"n", language.number(mark.count, 0)}})
                        : shown);
  QString name = title;
  if (mark.severity)
    name = language.sentence(
        counted ? QStringLiteral("window.stage-mark-count") : QStringLiteral("window.stage-mark"),
        {{"stage", title},
         {"mark", markWord(language, *mark.severity)},
         {"n", language.number(mark.count, 0)}});
  made->setAccessibleName(name);
  const QKeySequence keys(Qt::ALT | static_cast<Qt::Key>(Qt::Key_1 + static_cast<int>(stage)));
  made->setToolTip(QStringLiteral("%1 (%2)").arg(name, fittings::keyText(keys)));
}

}  // namespace ww::shell
