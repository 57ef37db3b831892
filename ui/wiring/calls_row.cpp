// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/calls_row.h"

#include <QHBoxLayout>
#include <QPainter>
#include <algorithm>

#include "fittings/pieces.h"
#include "fittings/style.h"
#include "operation/call_name.h"

namespace ww::wiring {

namespace {

/// Whether no room control makes the call: an outdoor state.
bool isOutdoors(const sheet::Sheet& sheet, const equipment::Library& library, const std::string& call) {
  const std::string name(operation::partsOf(call).call);
  if (name == "rest") return false;
  for (const sheet::Unit& unit : sheet.units) {
    const equipment::Profile* profile = library.find(unit.profile);
    if (!profile || profile->kind != equipment::Kind::roomControl) continue;
    for (const equipment::Call& each : profile->calls)
      if (each.name == name) return false;
  }
  return true;
}

/// The severity's shape; on a chip that is down its ground is ink, so the shape takes the chip's soft colour.
QIcon shapeIcon(verify::Severity severity, const paint::Theme& theme) {
  QIcon icon;
  for (const bool down : {false, true}) {
    QPixmap picture(32, 32);
    picture.setDevicePixelRatio(2);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    paint::Theme shown = theme;
    if (down) {
      for (auto& colours : shown.severities) colours.text = colours.soft;
      shown.panel = theme.ink;
    }
    paint::paintSeverity(painter, paint::shapeOf(severity), {1, 1, 14, 14}, shown);
    painter.end();
    icon.addPixmap(picture, QIcon::Normal, down ? QIcon::On : QIcon::Off);
  }
  return icon;
}

}  // namespace

CallsRow::CallsRow(InHand& hand, QWidget* parent)
    : QWidget(parent), hand_(hand), chips_(new QWidget(this)), list_(new QComboBox(this)) {
  setMinimumHeight(fittings::kCallRow);
  setAccessibleName(hand_.words("calls"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(16, 4, 16, 4);
  row->setSpacing(8);
  callLabel_ = fittings::label(hand_.words("call"), "quiet", this);
  callLabel_->setBuddy(list_);
  load_ = fittings::label({}, nullptr, this);
  QFont bold = load_->font();
  bold.setWeight(QFont::Bold);
  load_->setFont(bold);
  load_->setAccessibleDescription(hand_.words("load-name"));
  row->addWidget(callLabel_);
  row->addWidget(chips_);
  row->addWidget(list_);
  row->addStretch(1);
  row->addWidget(load_);
  auto* inner = new QHBoxLayout(chips_);
  inner->setContentsMargins(0, 0, 0, 0);
  inner->setSpacing(8);
  list_->setAccessibleName(hand_.words("calls"));
  list_->hide();
  connect(list_, &QComboBox::activated, this, [this](int at) { showCall(at); });
  connect(&hand_, &InHand::checked, this, &CallsRow::takeCalls);
  connect(&hand_, &InHand::callChanged, this, &CallsRow::takeLoad);
  takeCalls();
}

std::vector<std::string> CallsRow::calls() const {
  std::vector<std::string> calls;
  for (const Chip& chip : all_) calls.push_back(chip.call);
  return calls;
}

QPushButton* CallsRow::chip(const std::string& call) const {
  for (const Chip& chip : all_)
    if (chip.call == call) return chip.button;
  return nullptr;
}

void CallsRow::takeCalls() {
  std::vector<std::pair<std::string, bool>> wanted;
  if (hand_.job())
    for (const auto& solved : hand_.job()->solution().calls)
      wanted.emplace_back(solved.result.call,
                          isOutdoors(hand_.sheet(), hand_.around().library, solved.result.call));
  std::stable_sort(wanted.begin(), wanted.end(),
                   [](const auto& a, const auto& b) { return a.second < b.second; });
  const bool same =
      std::equal(wanted.begin(), wanted.end(), all_.begin(), all_.end(),
                 [](const auto& a, const Chip& b) { return a.first == b.call && a.second == b.outdoors; });
  if (!same) {
    for (const Chip& chip : all_) delete chip.button;
    delete std::exchange(outdoorLabel_, nullptr);
    all_.clear();
    list_->clear();
    auto* row = static_cast<QHBoxLayout*>(chips_->layout());
    for (const auto& [call, outdoors] : wanted) {
      if (outdoors && !outdoorLabel_) {
        outdoorLabel_ = fittings::label(hand_.words("outdoors"), "quiet", chips_);
        row->addWidget(outdoorLabel_);
      }
      auto* button = new QPushButton(wording::callName(hand_.around().language, call), chips_);
      fittings::setRole(button, "chip");
      button->setCheckable(true);
      button->setAutoExclusive(false);
      button->setIconSize({16, 16});
      connect(button, &QPushButton::clicked, this, [this, call = call] {
        if (hand_.job()) hand_.job()->setCall(call);
        takeLoad();
      });
      row->addWidget(button);
      button->show();
      all_.push_back({call, outdoors, button});
      list_->addItem(button->text());
    }
    settle();
  }
  takeMarks();
  takeLoad();
}

void CallsRow::takeMarks() {
  for (size_t i = 0; i < all_.size(); ++i) {
    const Chip& chip = all_[i];
    const QString name = wording::callName(hand_.around().language, chip.call);
    const auto severity = hand_.mark(chip.call);
    const QIcon icon = severity ? shapeIcon(*severity, hand_.around().theme) : QIcon();
    chip.button->setIcon(icon);
    list_->setItemIcon(static_cast<int>(i), icon);
    const QString spoken =
        severity ? hand_.words("call-marked",
                               {{"call", name},
                                {"severity", wording::severityName(hand_.around().language, *severity)}})
                 : name;
    chip.button->setAccessibleName(spoken);
    chip.button->setToolTip(
        i < 10
            ? QStringLiteral("%1 (%2)").arg(
                  spoken, fittings::keyText(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_0 + static_cast<int>(i))))
            : spoken);
  }
}

void CallsRow::takeLoad() {
  QStringList loads;
  const session::OpenJob* job = hand_.job();
  if (const auto* solved = job ? job->solution().call(job->call()) : nullptr)
    for (const auto& source : solved->result.sources)
      loads << hand_.words("load",
                           {{"load", hand_.around().language.number(source.shown.si(), 1)},
                            {"rating", hand_.around().language.quantity(source.rating.si(), "VA", 0)}});
  load_->setText(loads.join(QStringLiteral("  ·  ")));
  for (size_t i = 0; i < all_.size(); ++i) {
    const bool on = job && job->call() == all_[i].call;
    all_[i].button->setChecked(on);
    if (on) list_->setCurrentIndex(static_cast<int>(i));
  }
}

void CallsRow::settle() {
  const int room = width() - 32 - callLabel_->sizeHint().width() - load_->sizeHint().width() - 32;
  const bool fits = chips_->sizeHint().width() <= room;
  chips_->setVisible(fits);
  list_->setVisible(!fits);
}

void CallsRow::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  settle();
}

void CallsRow::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  settle();
}

void CallsRow::showCall(int n) {
  if (n < 0 || n >= static_cast<int>(all_.size()) || !hand_.job()) return;
  hand_.job()->setCall(all_[static_cast<size_t>(n)].call);
}

void CallsRow::step(int by) {
  for (size_t i = 0; i < all_.size(); ++i)
    if (hand_.job() && all_[i].call == hand_.job()->call()) {
      const int count = static_cast<int>(all_.size());
      showCall((static_cast<int>(i) + by + count) % count);
      return;
    }
}

}  // namespace ww::wiring
