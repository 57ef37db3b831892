// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/field.h"

#include <QEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPlainTextEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "fittings/key_map.h"
#include "fittings/pieces.h"

namespace ww::site {

namespace {

/// Takes of a paste what a text may hold and a little more, so that leaving the field tells that it is too
/// long; a megabyte without a blank would be set in lines for half a minute.
class Lines : public QPlainTextEdit {
 public:
  using QPlainTextEdit::QPlainTextEdit;

 protected:
  void insertFromMimeData(const QMimeData* source) override {
    const qsizetype room = kMostText + 2 - document()->characterCount();
    insertPlainText(source->text().left(std::max<qsizetype>(room, 0)));
    ensureCursorVisible();
  }
};

}  // namespace

Field::Field(const QString& name, Binding binding, const paint::Theme& theme, int lines, QWidget* parent)
    : QWidget(parent), binding_(std::move(binding)), complaint_(fittings::complaint(theme, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  if (lines > 1) {
    lines_ = new Lines(this);
    lines_->setTabChangesFocus(true);
    lines_->setFixedHeight(lines_->fontMetrics().lineSpacing() * lines + 20);
  } else {
    line_ = new QLineEdit(this);
    line_->setMaxLength(1000);
    connect(line_, &QLineEdit::returnPressed, this, [this] {
      if (leave()) focusNextChild();
    });
  }
  setAccessibleName(name);
  editor()->setAccessibleName(name);
  editor()->installEventFilter(this);
  setFocusProxy(editor());
  column->addWidget(editor());
  column->addWidget(complaint_);
  auto* keys = new fittings::KeyMap(this);
  keys->add(
      Qt::Key_Escape, {}, [this] { restore(); },
      [this] { return text() != binding_.shown() || !complaint().isEmpty(); });
  restore();
}

QWidget* Field::editor() const {
  if (line_) return line_;
  return lines_;
}

QString Field::text() const { return line_ ? line_->text() : lines_->toPlainText(); }

void Field::setText(const QString& text) {
  if (text == this->text()) return;
  if (line_)
    line_->setText(text);
  else
    lines_->setPlainText(text);
}

void Field::setReadOnly(bool readOnly) {
  if (line_)
    line_->setReadOnly(readOnly);
  else
    lines_->setReadOnly(readOnly);
}

void Field::refresh() {
  if (editor()->hasFocus() || !complaint().isEmpty()) return;
  restore();
}

void Field::restore() {
  setText(binding_.shown());
  if (line_) line_->setCursorPosition(0);
  complain({});
}

void Field::letGo() {
  binding_ = {[this] { return text(); }, [](const QString&) { return QString(); }};
}

bool Field::leave() {
  const QString before = binding_.shown();
  if (text() == before) {
    complain({});
    return true;
  }
  complain(binding_.keep(text()));
  if (!complaint().isEmpty()) return false;
  setText(binding_.shown());
  return true;
}

bool Field::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::FocusOut) leave();
  return QWidget::eventFilter(watched, event);
}

QString Field::complaint() const { return complaint_->isHidden() ? QString() : complaint_->text(); }

void Field::complain(const QString& sentence) {
  complaint_->setText(sentence);
  complaint_->setVisible(!sentence.isEmpty());
  editor()->setAccessibleDescription(sentence);
}

}  // namespace ww::site
