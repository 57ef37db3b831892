// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/settings_dialog.h"

#include <QComboBox>
#include <QDate>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "fittings/pieces.h"
#include "fittings/style.h"

namespace ww::shell {

namespace {

enum Column { nameColumn, serialColumn, dueColumn, accuracyColumn, columns };

QString text(const std::string& utf8) { return QString::fromStdString(utf8); }
QString key(const char* name) { return QStringLiteral("window.settings.") + QLatin1String(name); }

int indexOf(const std::vector<std::string>& all, const std::string& one) {
  const auto at = std::find(all.begin(), all.end(), one);
  return at == all.end() ? 0 : static_cast<int>(at - all.begin());
}

const std::vector<std::string> kLanguages{"", "en", "es"}, kThemes{"", "light", "dark"},
    kPapers{"letter", "a4"};

std::optional<double> numberIn(const QString& entered, const QLocale& locale) {
  bool fits = false;
  double value = locale.toDouble(entered, &fits);
  if (!fits) value = QLocale::c().toDouble(QString(entered).replace(u',', u'.'), &fits);
  return fits ? std::optional(value) : std::nullopt;
}

}  // namespace

SettingsDialog::SettingsDialog(const session::Surroundings& around, QWidget* parent)
    : QDialog(parent), around_(around) {
  const auto& language = around.language;
  setWindowTitle(language.sentence(key("title")));
  auto* tabs = new QTabWidget(this);
  tabs->setAccessibleName(windowTitle());
  tabs->addTab(generalPage(), language.sentence(key("general")));
  tabs->addTab(metersPage(), language.sentence(key("meters")));
  problem_ = fittings::paragraph({});
  problem_->hide();
  auto* box = new QDialogButtonBox(this);
  auto* keep = box->addButton(language.sentence(key("keep")), QDialogButtonBox::AcceptRole);
  fittings::setRole(keep, "primary");
  box->addButton(language.sentence(key("leave")), QDialogButtonBox::RejectRole);
  connect(box, &QDialogButtonBox::accepted, this, &SettingsDialog::accept);
  connect(box, &QDialogButtonBox::rejected, this, &SettingsDialog::reject);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 16, 16, 16);
  column->addWidget(tabs, 1);
  column->addWidget(problem_);
  column->addWidget(box);
  resize(640, 560);
}

QComboBox* SettingsDialog::choice(QGridLayout* form, const char* name, const QStringList& keys, int chosen) {
  auto* made = new QComboBox;
  for (const QString& one : keys) made->addItem(around_.language.sentence(key("choice.") + one));
  made->setCurrentIndex(chosen);
  fittings::addRow(form, around_.language.sentence(key(name)), made);
  return made;
}

QWidget* SettingsDialog::generalPage() {
  const session::Preferences& kept = around_.preferences;
  auto* page = new QWidget;
  auto* form = new QGridLayout(page);
  form->setContentsMargins(16, 16, 16, 16);
  form->setHorizontalSpacing(24);
  form->setColumnStretch(1, 1);
  lengths_ = choice(form, "lengths", {"feet", "metres"}, kept.feet ? 0 : 1);
  gauges_ = choice(form, "gauges", {"awg", "mm2"}, kept.awg ? 0 : 1);
  warmth_ = choice(form, "warmth", {"fahrenheit", "celsius"}, kept.fahrenheit ? 0 : 1);
  language_ = choice(form, "language", {"system", "en", "es"}, indexOf(kLanguages, kept.language));
  theme_ = choice(form, "theme", {"system", "light", "dark"}, indexOf(kThemes, kept.theme));
  paper_ = choice(form, "paper", {"letter", "a4"}, indexOf(kPapers, kept.paper));
  const auto line = [&](const char* name, const std::string& value) {
    auto* field = new QLineEdit(text(value));
    field->setMaxLength(120);
    fittings::addRow(form, around_.language.sentence(key(name)), field);
    return field;
  };
  installer_ = line("installer", kept.installer);
  company_ = line("company", kept.company.name);
  phone_ = line("phone", kept.company.phone);
  form->setRowStretch(form->rowCount(), 1);
  return page;
}

QWidget* SettingsDialog::metersPage() {
  const auto& language = around_.language;
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(16, 16, 16, 16);
  table_ = new QTableWidget(0, columns, page);
  table_->setAccessibleName(language.sentence(key("meters")));
  table_->setHorizontalHeaderLabels(
      {language.sentence(key("meter.name")), language.sentence(key("meter.serial")),
       language.sentence(key("meter.due")), language.sentence(key("meter.accuracy"))});
  table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  table_->verticalHeader()->hide();
  table_->verticalHeader()->setDefaultSectionSize(fittings::kSettingsRow);
  table_->setTabKeyNavigation(false);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  for (const job::Meter& meter : around_.preferences.meters) addMeter(meter);
  auto* add = fittings::button(language.sentence(key("meter.add")), QStringLiteral("plus"), around_.theme);
  auto* remove =
      fittings::button(language.sentence(key("meter.remove")), QStringLiteral("minus"), around_.theme);
  connect(add, &QPushButton::clicked, this, [this] {
    job::Meter made;
    made.id = around_.newId();
    addMeter(made);
    listMeters();
    table_->setCurrentCell(table_->rowCount() - 1, nameColumn);
    table_->setFocus();
    table_->editItem(table_->currentItem());
  });
  connect(remove, &QPushButton::clicked, this, &SettingsDialog::removeMeter);
  auto* row = new QHBoxLayout;
  row->addWidget(add);
  row->addWidget(remove);
  row->addStretch();
  auto* form = new QGridLayout;
  inHand_ = new QComboBox;
  fittings::addRow(form, language.sentence(key("meter.in-hand")), inHand_);
  form->setColumnStretch(1, 1);
  column->addWidget(table_, 1);
  column->addLayout(row);
  column->addLayout(form);
  inHand_->addItem(language.sentence(key("meter.none")), QString());
  listMeters();
  inHand_->setCurrentIndex(std::max(0, inHand_->findData(text(around_.preferences.meterInHand))));
  connect(table_, &QTableWidget::itemChanged, this, &SettingsDialog::listMeters);
  return page;
}

void SettingsDialog::addMeter(const job::Meter& meter) {
  const int row = table_->rowCount();
  table_->insertRow(row);
  auto* name = new QTableWidgetItem(text(meter.name));
  name->setData(Qt::UserRole, text(meter.id));
  name->setData(Qt::UserRole + 1, meter.counts);
  table_->setItem(row, nameColumn, name);
  table_->setItem(row, serialColumn, new QTableWidgetItem(text(meter.serial)));
  table_->setItem(row, dueColumn, new QTableWidgetItem(text(meter.calibrationDue)));
  const int decimals = meter.accuracyPercent == static_cast<int>(meter.accuracyPercent) ? 0 : 2;
  table_->setItem(row, accuracyColumn,
                  new QTableWidgetItem(around_.language.number(meter.accuracyPercent, decimals)));
}

void SettingsDialog::removeMeter() {
  if (table_->currentRow() < 0) return;
  table_->removeRow(table_->currentRow());
  listMeters();
}

void SettingsDialog::listMeters() {
  const QString chosen = inHand_->currentData().toString();
  while (inHand_->count() > 1) inHand_->removeItem(1);
  for (int row = 0; row < table_->rowCount(); ++row)
    if (const QTableWidgetItem* name = table_->item(row, nameColumn))
      inHand_->addItem(name->text(), name->data(Qt::UserRole));
  inHand_->setCurrentIndex(std::max(0, inHand_->findData(chosen)));
}

std::vector<job::Meter> SettingsDialog::meters() const {
  std::vector<job::Meter> result;
  const auto cell = [&](int row, int column) {
    const QTableWidgetItem* item = table_->item(row, column);
    return item ? item->text().trimmed() : QString();
  };
  for (int row = 0; row < table_->rowCount(); ++row) {
    const QTableWidgetItem* name = table_->item(row, nameColumn);
    if (!name || cell(row, nameColumn).isEmpty()) continue;
    job::Meter meter;
    meter.id = name->data(Qt::UserRole).toString().toStdString();
    meter.counts = name->data(Qt::UserRole + 1).toDouble();
    meter.name = cell(row, nameColumn).toStdString();
    meter.serial = cell(row, serialColumn).toStdString();
    meter.calibrationDue = cell(row, dueColumn).toStdString();
    meter.accuracyPercent =
        numberIn(cell(row, accuracyColumn), around_.language.locale()).value_or(meter.accuracyPercent);
    result.push_back(std::move(meter));
  }
  return result;
}

QString SettingsDialog::wrong() const {
  const auto& language = around_.language;
  for (int row = 0; row < table_->rowCount(); ++row) {
    const QString due = table_->item(row, dueColumn)->text().trimmed();
    const QString accuracy = table_->item(row, accuracyColumn)->text().trimmed();
    if (!due.isEmpty() && !QDate::fromString(due, Qt::ISODate).isValid())
      return language.sentence(key("wrong.date"), {{"found", due}});
    const auto percent = numberIn(accuracy, language.locale());
    if (!accuracy.isEmpty() &&
        !(percent && *percent >= job::kLeastAccuracy && *percent <= job::kMostAccuracy))
      return language.sentence(key("wrong.accuracy"), {{"found", accuracy},
                                                       {"least", language.number(job::kLeastAccuracy, 2)},
                                                       {"most", language.number(job::kMostAccuracy, 0)}});
  }
  return {};
}

session::Preferences SettingsDialog::preferences() const {
  session::Preferences next = around_.preferences;
  next.feet = lengths_->currentIndex() == 0;
  next.awg = gauges_->currentIndex() == 0;
  next.fahrenheit = warmth_->currentIndex() == 0;
  next.language = kLanguages[static_cast<size_t>(language_->currentIndex())];
  next.theme = kThemes[static_cast<size_t>(theme_->currentIndex())];
  next.paper = kPapers[static_cast<size_t>(paper_->currentIndex())];
  next.installer = installer_->text().trimmed().toStdString();
  next.company = {company_->text().trimmed().toStdString(), phone_->text().trimmed().toStdString()};
  next.meters = meters();
  next.meterInHand = inHand_->currentData().toString().toStdString();
  return next;
}

void SettingsDialog::accept() {
  // A cell that is still being typed in counts.
  table_->setFocus();
  const QString problem = wrong();
  problem_->setText(problem);
  problem_->setVisible(!problem.isEmpty());
  if (problem.isEmpty()) QDialog::accept();
}

}  // namespace ww::shell
