// SPDX-License-Identifier: GPL-3.0-or-later
#include "control/value_entry.h"

#include <QLineEdit>
#include <QSignalBlocker>
#include <cmath>

#include "fittings/number_entry.h"
#include "quantity/text.h"
#include "recommend/form.h"
#include "wording/settings_text.h"

namespace ww::control {

namespace {

constexpr double kMinute = 60;

double stored(const wording::Language& language, std::string_view unit, double typed) {
  const bool fahrenheit = language.measuresInFahrenheit();
  if (unit == "C") return fahrenheit ? recommend::fromFahrenheit(typed) : typed;
  if (unit == "K") return fahrenheit ? recommend::fromFahrenheitSteps(typed) : typed;
  return unit == "s" ? typed * kMinute : typed;
}

double shown(const wording::Language& language, std::string_view unit, double value) {
  const bool fahrenheit = language.measuresInFahrenheit();
  if (unit == "C") return fahrenheit ? value * 1.8 + 32 : value;
  if (unit == "K") return fahrenheit ? value * 1.8 : value;
  return unit == "s" ? value / kMinute : value;
}

QString plain(const wording::Language& language, double value) {
  return language.number(value, std::abs(value - std::round(value)) < 0.05 ? 0 : 1);
}

/// The number alone: what stands around it ("41 °F", "5 min") a person may type or leave out.
QString numberIn(const QString& text) {
  QString number;
  for (const QChar c : text.trimmed()) {
    if (!c.isDigit() && !QStringLiteral("+-.,").contains(c)) break;
    number += c;
  }
  return number;
}

}  // namespace

ValueEntry::ValueEntry(const wording::Language& language, QWidget* parent)
    : QComboBox(parent), language_(language) {
  setInsertPolicy(QComboBox::NoInsert);
  setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  setMinimumContentsLength(8);
}

void ValueEntry::setSetting(const std::string& key, const std::string& value, const QString& unsaid) {
  const QSignalBlocker quiet(this);
  key_ = key;
  unsaid_ = !unsaid.isEmpty();
  shown_ = value;
  clear();
  const recommend::Form* form = recommend::formOf(key);
  if (form == nullptr) return;
  if (unsaid_) addItem(unsaid, QString());
  for (const auto& word : form->words)
    addItem(wording::settingValue(language_, key, std::string(word)),
            QString::fromStdString(std::string(word)));
  setEditable(!form->unit.empty());
  if (lineEdit() != nullptr) lineEdit()->setAccessibleName(accessibleName());
  const int at = findData(QString::fromStdString(value));
  setCurrentIndex(at);
  const auto number = quantity::parseNumber(value);
  const bool measured = form->unit == "C" || form->unit == "K" || form->unit == "s";
  if (isEditable() && number)
    setEditText(measured ? wording::settingValue(language_, key, value)
                         : plain(language_, shown(language_, form->unit, *number)));
  text_ = currentText();
}

std::optional<std::string> ValueEntry::value() const {
  if (currentText() == text_) return shown_;
  if (const int at = findText(currentText().trimmed()); at >= 0) return itemData(at).toString().toStdString();
  if (unsaid_ && currentText().trimmed().isEmpty()) return std::string();
  const recommend::Form* form = recommend::formOf(key_);
  const auto typed = fittings::decimalOf(numberIn(currentText()));
  if (form == nullptr || !typed) return std::nullopt;
  return recommend::valueFor(key_, quantity::printNumber(stored(language_, form->unit, *typed)));
}

QString ValueEntry::takes() const {
  const recommend::Form* form = recommend::formOf(key_);
  if (form == nullptr || form->unit.empty()) return {};
  const auto bound = [&](double value) { return plain(language_, shown(language_, form->unit, value)); };
  return language_.sentence(
      QStringLiteral("control.view.range"),
      {{QStringLiteral("least"), bound(form->least)}, {QStringLiteral("most"), bound(form->most)}});
}

}  // namespace ww::control
