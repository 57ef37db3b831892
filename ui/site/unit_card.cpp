// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/unit_card.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <algorithm>

#include "fittings/number_entry.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "quantity/text.h"
#include "sheet/landing_check.h"
#include "wording/names.h"

namespace ww::site {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

constexpr int kColumns = 2;

}  // namespace

std::string settingKey(const sheet::Sheet& sheet, const equipment::Library& library, const sheet::Unit& unit,
                       const std::string& setting) {
  const std::string own = unit.tag + "." + setting;
  if (sheet.settings.all().contains(own)) return own;
  const bool shared = std::any_of(sheet.units.begin(), sheet.units.end(), [&](const sheet::Unit& other) {
    const equipment::Profile* profile = library.find(other.profile);
    return other.id != unit.id && profile && profile->setting(setting);
  });
  return shared ? own : setting;
}

UnitCard::UnitCard(const session::Surroundings& around, session::OpenJob& job, sheet::UnitId unit,
                   QWidget* parent)
    : QFrame(parent), around_(around), job_(job), unit_(unit) {
  fittings::setRole(this, "panel");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 12, 16, 16);
  column->setSpacing(8);
  auto* head = new QHBoxLayout;
  const QString title = wording::unitName(around.language, {job.sheet(), job.library()}, unit);
  const equipment::Profile* known = profile();
  const QString kind = known ? wording::inLanguage(around.language, known->title) : title;
  head->addWidget(fittings::label(kind, "heading"), 1);
  remove_ = fittings::button(say("site.unit.remove"), {}, around.theme, {}, "quiet");
  remove_->setAccessibleName(say("site.unit.remove-named", {{"unit", title}}));
  connect(remove_, &QPushButton::clicked, this, [this] { Q_EMIT remove(number(unit_)); });
  head->addWidget(remove_);
  column->addLayout(head);
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(8);
  for (int at = 0; at < kColumns; ++at) {
    grid->setColumnStretch(at * 2, 4);
    grid->setColumnStretch(at * 2 + 1, 5);
  }
  column->addLayout(grid);
  int next = 0;
  const auto cell = [&](auto add) {
    add(next / kColumns, (next % kColumns) * 2);
    ++next;
  };
  const auto plain = [&](const QString& name, std::string sheet::Unit::*member) {
    cell([&](int row, int at) {
      addField(
          grid, row, at, name, [member](const sheet::Unit& u) { return u.*member; },
          [member](sheet::Unit& u, const std::string& text) {
            u.*member = text;
            return QString();
          });
    });
  };
  plain(say("site.unit.label"), &sheet::Unit::label);
  plain(say("site.unit.place"), &sheet::Unit::place);
  if (!known) return;
  for (const auto& setting : known->settings)  // those with a unit are set with the control
    if (setting.unit.empty()) cell([&](int row, int at) { addSetting(grid, row, at, setting); });
  if (next % kColumns) ++next;
  grid->addWidget(fittings::label(say("site.unit.nameplate"), "caption"), next / kColumns, 0, 1,
                  2 * kColumns);
  next += kColumns;
  for (const std::string& name : known->nameplate)
    cell([&](int row, int at) {
      addField(
          grid, row, at, wording::word(around.language, "nameplate", name),
          [name](const sheet::Unit& u) {
            const auto found = u.nameplate.find(name);
            return found == u.nameplate.end() ? std::string() : found->second;
          },
          [name](sheet::Unit& u, const std::string& text) {
            if (text.empty())
              u.nameplate.erase(name);
            else
              u.nameplate[name] = text;
            return QString();
          });
    });
  refresh();
}

void UnitCard::letGo() {
  hide();
  for (Field* field : fields_) field->letGo();
  deleteLater();
}

const sheet::Unit* UnitCard::placed() const { return job_.sheet().units.find(unit_); }

const equipment::Profile* UnitCard::profile() const {
  return placed() ? job_.library().find(placed()->profile) : nullptr;
}

QString UnitCard::say(const char* key, const wording::Args& args) const {
  return around_.language.sentence(QString::fromLatin1(key), args);
}

void UnitCard::addField(QGridLayout* grid, int row, int column, const QString& name,
                        std::function<std::string(const sheet::Unit&)> read,
                        std::function<QString(sheet::Unit&, const std::string&)> write) {
  const auto keep = [this, name, write = std::move(write)](const QString& text) {
    if (!placed()) return QString();
    sheet::Sheet next = job_.sheet();
    sheet::Unit unit = *placed();
    const QString wrong = write(unit, text.trimmed().toStdString());
    if (!wrong.isEmpty()) return wrong;
    next.units.put(unit);
    job_.edit(say("site.edit", {{"field", name}}), next);
    return QString();
  };
  const auto shown = [this, read = std::move(read)] { return placed() ? q(read(*placed())) : QString(); };
  auto* field = new Field(name, {shown, keep}, around_.theme);
  QLabel* label = fittings::label(name);
  label->setWordWrap(true);
  label->setBuddy(field->editor());
  grid->addWidget(label, row, column);
  grid->addWidget(field, row, column + 1);
  fields_.push_back(field);
}

std::string UnitCard::keyOf(const std::string& setting) const {
  return settingKey(job_.sheet(), job_.library(), *placed(), setting);
}

std::string UnitCard::valueOf(const equipment::Setting& setting) const {
  return job_.sheet().settings.find(placed()->tag, setting.key).value_or(setting.standard);
}

void UnitCard::set(const std::string& setting, const std::string& value, const QString& name) {
  sheet::Sheet next = job_.sheet();
  next.settings.set(keyOf(setting), value);
  job_.edit(say("site.edit", {{"field", name}}), next);
}

void UnitCard::addSetting(QGridLayout* grid, int row, int column, const equipment::Setting& setting) {
  const QString name = wording::word(around_.language, "setting", setting.key);
  if (setting.choices.empty()) return addNumber(grid, row, column, setting, name);
  auto* combo = new QComboBox;
  combo->setAccessibleName(name);
  combo->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  combo->setMinimumContentsLength(8);
  combo->setFocusPolicy(Qt::StrongFocus);
  for (const std::string& choice : setting.choices) {
    const QString text = wording::word(around_.language, "value", choice);
    combo->addItem(text, q(choice));
  }
  connect(combo, &QComboBox::activated, this, [this, combo, key = setting.key, name] {
    set(key, combo->currentData().toString().toStdString(), name);
  });
  QLabel* label = fittings::label(name);
  label->setWordWrap(true);
  label->setBuddy(combo);
  grid->addWidget(label, row, column);
  grid->addWidget(combo, row, column + 1);
  choices_.push_back({setting.key, combo});
}

void UnitCard::addNumber(QGridLayout* grid, int row, int column, const equipment::Setting& setting,
                         const QString& name) {
  const auto shown = [this, setting] { return placed() ? q(valueOf(setting)) : QString(); };
  const auto keep = [this, name, key = setting.key](const QString& text) {
    const auto value = fittings::decimalOf(text);
    if (!value) return say("site.bad.number");
    set(key, quantity::printNumber(*value), name);
    return QString();
  };
  auto* field = new Field(name, {shown, keep}, around_.theme);
  QLabel* label = fittings::label(name);
  label->setBuddy(field->editor());
  grid->addWidget(label, row, column);
  grid->addWidget(field, row, column + 1);
  fields_.push_back(field);
}

void UnitCard::refresh() {
  if (!placed()) return;
  const bool readOnly = job_.readOnly();
  for (Field* field : fields_) {
    field->setReadOnly(readOnly);
    field->refresh();
  }
  for (const Choice& choice : choices_) {
    choice.combo->setEnabled(!readOnly);
    if (const auto* setting = profile()->setting(choice.key))
      choice.combo->setCurrentIndex(choice.combo->findData(q(valueOf(*setting))));
  }
  remove_->setVisible(!readOnly);
}

}  // namespace ww::site
