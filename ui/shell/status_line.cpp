// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/status_line.h"

#include <QHBoxLayout>
#include <QLabel>

#include "fittings/elided_label.h"
#include "fittings/pieces.h"
#include "fittings/style.h"

namespace ww::shell {

namespace {

QString wordSaved(const wording::Language& language, const SavedState& state) {
  switch (state.kind) {
    case SavedState::Kind::none: return {};
    case SavedState::Kind::pending: return language.sentence(QStringLiteral("window.saved.pending"));
    case SavedState::Kind::failed: return state.failure;
    case SavedState::Kind::saved: break;
  }
  const bool minutes = state.secondsAgo >= 60;
  const auto count = minutes ? state.secondsAgo / 60 : state.secondsAgo;
  return language.sentence(
      minutes ? QStringLiteral("window.saved.minutes") : QStringLiteral("window.saved.seconds"),
      {{"n", language.number(static_cast<double>(count), 0)}});
}

}  // namespace

StatusLine::StatusLine(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent),
      around_(around),
      meter_(fittings::label({}, "status", this)),
      units_(fittings::label({}, "status", this)),
      saved_(new fittings::ElidedLabel("status", this)),
      said_(new fittings::ElidedLabel("status", this)) {
  fittings::setRole(this, "sunk");
  setAttribute(Qt::WA_StyledBackground);
  setMinimumHeight(fittings::kStatusBar);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(16, 0, 16, 0);
  row->setSpacing(20);
  row->addWidget(meter_);
  row->addWidget(saved_);
  row->addWidget(said_, 1);
  row->addWidget(units_);
  const auto& language = around.language;
  units_->setText(language.sentence(
      QStringLiteral("window.units"),
      {{"gauge", language.showsGauges() ? QStringLiteral("AWG") : QStringLiteral("mm²")},
       {"length", language.measuresInFeet() ? QStringLiteral("ft") : QStringLiteral("m")},
       {"warmth", language.measuresInFahrenheit() ? QStringLiteral("°F") : QStringLiteral("°C")}}));
  tick_.setInterval(1000);
  connect(&tick_, &QTimer::timeout, this, &StatusLine::refresh);
  sayFor_.setSingleShot(true);
  sayFor_.setInterval(12000);
  connect(&sayFor_, &QTimer::timeout, said_, [this] { said_->setWhole({}); });
  setMeter({});
}

void StatusLine::setMeter(const QString& name) {
  meter_->setText(name.isEmpty()
                      ? around_.language.sentence(QStringLiteral("window.no-meter"))
                      : around_.language.sentence(QStringLiteral("window.meter-in-hand"), {{"meter", name}}));
}

void StatusLine::setSaved(std::function<SavedState()> saved) {
  ask_ = std::move(saved);
  ask_ ? tick_.start() : tick_.stop();
  refresh();
}

void StatusLine::refresh() {
  const SavedState state = ask_ ? ask_() : SavedState{};
  const QString text = wordSaved(around_.language, state);
  if (text == saved_->whole()) return;
  saved_->setWhole(text);
  fittings::setRole(saved_, state.kind == SavedState::Kind::failed ? "status-alarm" : "status");
}

void StatusLine::say(const QString& sentence) {
  said_->setWhole(sentence);
  sayFor_.start();
  if (around_.announce) around_.announce(sentence);
}

void StatusLine::hush() {
  sayFor_.stop();
  said_->setWhole({});
}

QString StatusLine::savedText() const { return saved_->whole(); }
QString StatusLine::saidText() const { return said_->whole(); }

}  // namespace ww::shell
