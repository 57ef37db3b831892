// SPDX-License-Identifier: GPL-3.0-or-later
#include "jobs/preview_pane.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "fittings/pieces.h"
#include "fittings/severity_badge.h"
#include "fittings/style.h"
#include "jobs/visit_line.h"

namespace ww::jobs {

PreviewPane::PreviewPane(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), around_(around) {
  const auto& language = around.language;
  const auto text = [&](const char* key) {
    return language.sentence(QStringLiteral("jobs.") + QLatin1String(key));
  };
  fittings::setRole(this, "panel");
  setAttribute(Qt::WA_StyledBackground);
  setAccessibleName(text("preview"));
  scroll_ = new QScrollArea(this);
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setAccessibleName(text("preview"));
  nothing_ = fittings::paragraph(text("nothing-in-front"));
  fittings::setRole(nothing_, "quiet");
  const auto make = [&](const char* key, const char* icon, QKeySequence keys, const char* role) {
    return fittings::button(text(key), QLatin1String(icon), around.theme, keys, role);
  };
  open = make("open", "", Qt::Key_Return, "primary");
  callBack = make("call-back", "call-back", Qt::CTRL | Qt::SHIFT | Qt::Key_N, nullptr);
  duplicate = make("duplicate", "duplicate", Qt::CTRL | Qt::Key_D, nullptr);
  print = make("print", "print", Qt::CTRL | Qt::Key_P, nullptr);
  restore = make("restore", "restore", {}, "primary");
  buttons_ = new QWidget(this);
  auto* row = new QHBoxLayout(buttons_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  for (QPushButton* one : {open, restore, callBack, duplicate, print}) row->addWidget(one);
  row->addStretch();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 16, 16, 16);
  column->setSpacing(12);
  column->addWidget(nothing_);
  column->addWidget(scroll_, 1);
  column->addWidget(buttons_);
  column->addStretch(0);
  show(std::nullopt);
}

void PreviewPane::show(const std::optional<Preview>& preview) {
  preview_ = preview;
  nothing_->setVisible(!preview);
  scroll_->setVisible(preview.has_value());
  buttons_->setVisible(preview.has_value() && preview->problem.isEmpty());
  scroll_->setWidget(preview ? body(*preview) : new QWidget);
  if (!preview) return;
  open->setVisible(!preview->binned);
  callBack->setVisible(!preview->binned);
  duplicate->setVisible(!preview->binned);
  print->setVisible(!preview->binned);
  restore->setVisible(preview->binned);
}

QWidget* PreviewPane::body(const Preview& preview) {
  const auto& language = around_.language;
  const auto text = [&](const char* key) {
    return language.sentence(QStringLiteral("jobs.") + QLatin1String(key));
  };
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 4, 0);
  column->setSpacing(8);
  const auto add = [&](const QString& words, const char* role) {
    auto* made = fittings::label(words, role);
    made->setWordWrap(true);
    column->addWidget(made);
    return made;
  };
  add(preview.title, "title");
  if (!preview.beneath.isEmpty()) add(preview.beneath, "quiet");
  if (!preview.problem.isEmpty()) add(preview.problem, nullptr);
  if (!preview.notMeasured.isEmpty()) {
    auto* badge = new fittings::SeverityBadge(around_.theme);
    badge->setJudgement(paint::Severity::notMeasured, preview.notMeasured);
    column->addWidget(badge);
  }
  if (!preview.visits.empty()) {
    add(text("visits"), "caption");
    auto* line = new VisitLine(around_.theme, page);
    line->setVisits(preview.visits);
    column->addWidget(line);
  }
  if (preview.drift) {
    add(preview.drift->title, "caption");
    auto* plot = new DriftPlot(around_, page);
    plot->setDrift(*preview.drift);
    column->addWidget(plot);
  }
  if (!preview.changes.isEmpty()) {
    add(text("changes"), "caption");
    for (const QString& change : preview.changes) add(change, nullptr);
  }
  if (!preview.findings.empty()) {
    add(text("findings"), "caption");
    for (const OpenFinding& finding : preview.findings) {
      auto* row = new QHBoxLayout;
      auto* shape = new fittings::SeverityBadge(around_.theme);
      shape->setJudgement(finding.severity, {});
      shape->setAccessibleName(finding.title);
      auto* words = fittings::label(finding.title);
      words->setWordWrap(true);
      row->addWidget(shape, 0, Qt::AlignTop);
      row->addWidget(words, 1);
      column->addLayout(row);
    }
    if (!preview.furtherFindings.isEmpty()) add(preview.furtherFindings, "quiet");
  }
  column->addStretch();
  return page;
}

}  // namespace ww::jobs
