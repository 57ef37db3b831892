// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/close_sheet.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "fittings/pieces.h"
#include "fittings/severity_badge.h"
#include "fittings/style.h"

namespace ww::report {

namespace {

constexpr int kWidth = 680;

/// A severity's shape alone; the sentence beside it says the same.
class Shape : public QWidget {
 public:
  Shape(paint::Severity severity, const paint::Theme& theme) : severity_(severity), theme_(theme) {
    setFixedSize(16, 20);
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    paint::paintSeverity(painter, severity_, {0, 2, 16, 16}, theme_);
  }

 private:
  paint::Severity severity_;
  const paint::Theme& theme_;
};

}  // namespace

CloseSheet::CloseSheet(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), around_(around) {
  auto* sheet = new QWidget;
  sheet->setMaximumWidth(kWidth);
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(32, 24, 32, 24);
  column->setSpacing(12);
  title_ = fittings::label({}, "title");
  column->addWidget(title_);
  lead_ = fittings::paragraph({});
  column->addWidget(lead_);
  list_ = new QWidget;
  column->addWidget(list_);
  read_ = new QCheckBox(words("reportview.close.read"));
  column->addWidget(read_);
  column->addSpacing(8);
  auto* form = new QGridLayout;
  form->setHorizontalSpacing(12);
  form->setVerticalSpacing(8);
  form->setColumnStretch(1, 1);
  for (const char* role : {"installer", "owner"}) {
    auto* name = new QLineEdit;
    name->setMaxLength(200);
    const QString title =
        words(role == std::string("owner") ? "reportview.close.owner" : "reportview.close.installer");
    name->setAccessibleName(title);
    auto* how = new QComboBox;
    how->addItem(words("reportview.close.typed"), QStringLiteral("drawn"));
    how->addItem(words("reportview.close.paper"), QStringLiteral("on paper"));
    how->setAccessibleName(words("reportview.close.form"));
    QLabel* label = fittings::label(title);
    label->setBuddy(name);
    const int row = form->rowCount();
    form->addWidget(label, row, 0);
    form->addWidget(name, row, 1);
    form->addWidget(how, row, 2);
    connect(name, &QLineEdit::returnPressed, this, &CloseSheet::take);
    signers_.push_back({role, name, how});
  }
  column->addLayout(form);
  complaint_ = fittings::complaint(around.theme);
  column->addWidget(complaint_);
  auto* buttons = new QHBoxLayout;
  close_ = fittings::button({}, "sign", around.theme, {}, "primary");
  back_ = fittings::button(words("reportview.close.back"), {}, around.theme, Qt::Key_Escape);
  buttons->addWidget(close_);
  buttons->addWidget(back_);
  buttons->addStretch(1);
  column->addLayout(buttons);
  column->addStretch(1);
  QScrollArea* area = fittings::scrolled(sheet);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(area);
  new QVBoxLayout(list_);
  list_->layout()->setContentsMargins(0, 0, 0, 0);
  connect(close_, &QPushButton::clicked, this, &CloseSheet::take);
  connect(back_, &QPushButton::clicked, this, &CloseSheet::left);
}

QString CloseSheet::words(const char* key) const { return around_.language.sentence(QLatin1String(key)); }

void CloseSheet::setOpen(const std::vector<Line>& open, bool closed) {
  anyOpen_ = !open.empty() && !closed;
  closed_ = closed;
  title_->setText(words(closed ? "reportview.close.sign" : "reportview.close.title"));
  lead_->setText(words(closed         ? "reportview.close.lead-closed"
                       : open.empty() ? "reportview.close.lead-clean"
                                      : "reportview.close.lead-open"));
  close_->setText(words(closed ? "reportview.close.sign" : "reportview.close.do"));
  close_->setAccessibleName(close_->text());
  while (QLayoutItem* item = list_->layout()->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (const Line& line : open) {
    auto* row = new QWidget;
    auto* across = new QHBoxLayout(row);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(12);
    across->addWidget(new Shape(line.severity, around_.theme), 0, Qt::AlignTop);
    across->addWidget(fittings::paragraph(line.text), 1);
    list_->layout()->addWidget(row);
  }
  list_->setVisible(!open.empty());
  read_->setVisible(anyOpen_);
  read_->setChecked(false);
  complaint_->hide();
  for (const Signer& signer : signers_) signer.name->clear();
}

QString CloseSheet::openText() const {
  QStringList lines;
  for (const QLabel* label : list_->findChildren<QLabel*>()) lines << label->text();
  return lines.join(u'\n');
}

std::vector<job::Signature> CloseSheet::signatures() const {
  std::vector<job::Signature> result;
  for (const Signer& signer : signers_) {
    const QString name = signer.name->text().trimmed();
    if (name.isEmpty()) continue;
    result.push_back(
        {{}, signer.role, name.toStdString(), {}, signer.form->currentData().toString().toStdString()});
  }
  return result;
}

QString CloseSheet::complaint() const { return complaint_->isHidden() ? QString() : complaint_->text(); }

void CloseSheet::take() {
  const bool unread = anyOpen_ && !read_->isChecked();
  const bool unsigned_ = closed_ && signatures().empty();
  complaint_->setVisible(unread || unsigned_);
  complaint_->setText(words(unread ? "reportview.close.unread" : "reportview.close.no-name"));
  if (unread) return read_->setFocus();
  if (unsigned_) return signers_.front().name->setFocus();
  Q_EMIT confirmed();
}

QLineEdit* CloseSheet::name(const std::string& role) const {
  return role == signers_.front().role ? signers_.front().name : signers_.back().name;
}

QComboBox* CloseSheet::form(const std::string& role) const {
  return role == signers_.front().role ? signers_.front().form : signers_.back().form;
}

}  // namespace ww::report
