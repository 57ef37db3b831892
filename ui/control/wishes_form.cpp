// SPDX-License-Identifier: GPL-3.0-or-later
#include "control/wishes_form.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>

#include "fittings/pieces.h"
#include "quantity/text.h"
#include "wording/settings_text.h"

namespace ww::control {

namespace {

/// Wish, and the setting whose values it takes.
constexpr std::pair<const char*, const char*> kRows[] = {{"changeover", "changeover"},
                                                         {"heatAt", "heatMost"},
                                                         {"coolAt", "coolLeast"},
                                                         {"heatMost", "heatMost"},
                                                         {"coolLeast", "coolLeast"},
                                                         {"auxiliaryWhenMild", ""},
                                                         {"scale", "scale"},
                                                         {"access", "access"},
                                                         {"keeper", "keeper"},
                                                         {"filterDays", "filterDays"},
                                                         {"serviceMonths", "serviceMonths"}};

std::string* wordOf(recommend::Wishes& wishes, const std::string& wish) {
  if (wish == "changeover") return &wishes.changeover;
  if (wish == "scale") return &wishes.scale;
  if (wish == "access") return &wishes.access;
  if (wish == "keeper") return &wishes.keeper;
  return nullptr;
}

std::optional<double>* figureOf(recommend::Wishes& wishes, const std::string& wish) {
  if (wish == "heatAt") return &wishes.heatAt;
  if (wish == "coolAt") return &wishes.coolAt;
  if (wish == "heatMost") return &wishes.heatMost;
  if (wish == "coolLeast") return &wishes.coolLeast;
  if (wish == "filterDays") return &wishes.filterDays;
  if (wish == "serviceMonths") return &wishes.serviceMonths;
  return nullptr;
}

}  // namespace

WishesForm::WishesForm(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), around_(around) {
  auto* form = new QGridLayout(this);
  form->setContentsMargins(0, 0, 0, 0);
  form->setVerticalSpacing(8);
  form->setColumnStretch(1, 1);
  for (const auto& row : kRows) {
    const std::string wish = row.first;
    auto* entry = new ValueEntry(around_.language);
    fields_[wish] = entry;
    QLabel* label = fittings::addRow(form, wording::wishName(around_.language, wish), entry);
    label->setWordWrap(true);
    connect(entry, &QComboBox::activated, this, [this, wish] { take(wish); });
    if (figureOf(wishes_, wish) == nullptr) continue;
    entry->setSetting(row.second, {});  // makes its field
    connect(
        entry->lineEdit(), &QLineEdit::editingFinished, this, [this, wish] { take(wish); },
        Qt::QueuedConnection);  // what follows fills the field anew
  }
  form->setColumnMinimumWidth(0, 120);
  complaint_ = fittings::complaint(around_.theme);
  form->addWidget(complaint_, form->rowCount(), 0, 1, 2);
}

QString WishesForm::complaint() const { return complaint_->isHidden() ? QString() : complaint_->text(); }

void WishesForm::show(const recommend::Wishes& wishes, bool readOnly) {
  wishes_ = wishes;
  const auto sentence = [&](const char* key) { return around_.language.sentence(QLatin1String(key)); };
  const QString unsaid = sentence("control.view.unsaid");
  for (const auto& [wish, key] : kRows) {
    ValueEntry* entry = fields_[wish];
    entry->setEnabled(!readOnly);
    if (const std::string* word = wordOf(wishes_, wish)) {
      entry->setSetting(key, *word, unsaid);
    } else if (const auto* figure = figureOf(wishes_, wish)) {
      entry->setSetting(key, *figure ? quantity::printNumber(**figure) : std::string(), unsaid);
    } else {
      const QSignalBlocker quiet(entry);
      entry->clear();
      for (const QString& text : {unsaid, sentence("control.view.yes"), sentence("control.view.no")})
        entry->addItem(text);
      entry->setCurrentIndex(!wishes_.auxiliaryWhenMild ? 0 : *wishes_.auxiliaryWhenMild ? 1 : 2);
    }
  }
  complaint_->hide();
}

void WishesForm::take(const std::string& wish) {
  const ValueEntry* entry = fields_[wish];
  recommend::Wishes next = wishes_;
  if (wish == "auxiliaryWhenMild") {
    const int at = entry->currentIndex();
    next.auxiliaryWhenMild = at == 0 ? std::nullopt : std::optional(at == 1);
  } else {
    const auto value = entry->value();
    const auto number = value ? quantity::parseNumber(*value) : std::nullopt;
    std::string* word = wordOf(next, wish);
    if (!value || (word == nullptr && !value->empty() && !number)) {
      complaint_->setText(around_.language.sentence(QStringLiteral("control.view.bad.value"),
                                                    {{QStringLiteral("choices"), entry->takes()}}));
      complaint_->show();
      return;
    }
    if (word != nullptr)
      *word = *value;
    else
      *figureOf(next, wish) = number;
  }
  complaint_->hide();
  if (next == wishes_) return;
  wishes_ = next;
  Q_EMIT changed(next);
}

}  // namespace ww::control
