// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/keys_dialog.h"

#include <QApplication>
#include <QDialogButtonBox>
#include <QFile>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QTextBrowser>
#include <QVBoxLayout>

#include "fittings/pieces.h"
#include "fittings/style.h"

// Resources of a static library stay out of the program unless they are asked for; the macro wants no
// namespace.
static void loadNotices() { Q_INIT_RESOURCE(notices); }

namespace ww::shell {

namespace {

QDialogButtonBox* closeButton(QDialog* dialog, const wording::Language& language) {
  auto* box = new QDialogButtonBox(dialog);
  auto* close =
      box->addButton(language.sentence(QStringLiteral("window.close")), QDialogButtonBox::RejectRole);
  close->setDefault(true);
  QObject::connect(box, &QDialogButtonBox::rejected, dialog, &QDialog::reject);
  return box;
}

void addLines(QTableWidget* table, const QString& heading, const std::vector<fittings::KeyLine>& lines) {
  if (lines.empty()) return;
  const int at = table->rowCount();
  table->insertRow(at);
  auto* head = new QTableWidgetItem(heading);
  QFont bold = table->font();
  bold.setBold(true);
  head->setFont(bold);
  table->setItem(at, 0, head);
  table->setSpan(at, 0, 1, 2);
  for (const fittings::KeyLine& line : lines) {
    const int row = table->rowCount();
    table->insertRow(row);
    table->setItem(row, 0, new QTableWidgetItem(fittings::keyText(line.keys)));
    table->setItem(row, 1, new QTableWidgetItem(line.does));
  }
}

}  // namespace

KeysDialog::KeysDialog(const session::Surroundings& around, const QString& screen,
                       const std::vector<fittings::KeyLine>& here,
                       const std::vector<fittings::KeyLine>& everywhere, QWidget* parent)
    : QDialog(parent) {
  const auto& language = around.language;
  setWindowTitle(language.sentence(QStringLiteral("window.keys-dialog.title")));
  auto* table = new QTableWidget(0, 2, this);
  table->setAccessibleName(windowTitle());
  table->setHorizontalHeaderLabels({language.sentence(QStringLiteral("window.keys-dialog.keys")),
                                    language.sentence(QStringLiteral("window.keys-dialog.does"))});
  table->verticalHeader()->hide();
  table->horizontalHeader()->setStretchLastSection(true);
  table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setShowGrid(false);
  table->setTabKeyNavigation(false);
  // Cells begin where the headings do.
  table->setStyleSheet(
      QStringLiteral("QTableView::item { border: none; padding-left: 12px; } QHeaderView::section, "
                     "QHeaderView::section:first { padding-left: 15px; }"));
  addLines(table, screen, here);
  addLines(table, language.sentence(QStringLiteral("window.keys-dialog.everywhere")), everywhere);
  table->resizeColumnToContents(0);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 16, 16, 16);
  column->addWidget(table);
  column->addWidget(closeButton(this, language));
  resize(640, 560);
}

AboutDialog::AboutDialog(const session::Surroundings& around, QWidget* parent) : QDialog(parent) {
  loadNotices();
  const auto& language = around.language;
  setWindowTitle(language.sentence(QStringLiteral("window.about-dialog.title")));
  auto* notices = new QTextBrowser(this);
  notices->setAccessibleName(language.sentence(QStringLiteral("window.about-dialog.notices")));
  QFile file(QStringLiteral(":/notices.md"));
  if (file.open(QIODevice::ReadOnly)) notices->setMarkdown(QString::fromUtf8(file.readAll()));
  notices->setOpenLinks(false);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 16, 16, 16);
  column->setSpacing(8);
  column->addWidget(fittings::label(language.sentence(QStringLiteral("window.about-dialog.version"),
                                                      {{"version", QApplication::applicationVersion()}}),
                                    "heading"));
  column->addWidget(fittings::paragraph(language.sentence(QStringLiteral("window.about-dialog.what"))));
  column->addWidget(notices, 1);
  column->addWidget(closeButton(this, language));
  resize(720, 560);
}

}  // namespace ww::shell
