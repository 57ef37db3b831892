// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/system_field.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QRegularExpression>
#include <QVBoxLayout>
#include <algorithm>

#include "fittings/style.h"
#include "survey/survey.h"
#include "wording/names.h"

namespace ww::site {

namespace {

constexpr int kRow = 28, kMostShown = 5;

QString q(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

/// Small letters without accents.
QString plain(const QString& text) {
  static const QRegularExpression marks(QStringLiteral("\\p{M}"));
  return text.normalized(QString::NormalizationForm_D).remove(marks).toLower();
}

QStringList wordsOf(const QString& text) {
  static const QRegularExpression between(QStringLiteral("[^\\p{L}\\p{N}]+"));
  return plain(text).split(between, Qt::SkipEmptyParts);
}

bool fits(const QStringList& typed, const QStringList& words) {
  return std::all_of(typed.begin(), typed.end(), [&](const QString& start) {
    return std::any_of(words.begin(), words.end(), [&](const QString& w) { return w.startsWith(start); });
  });
}

}  // namespace

std::vector<const sheet::SystemKind*> kindsFor(const QString& typed,
                                               const std::vector<sheet::SystemKind>& kinds,
                                               const wording::Language& language) {
  const QStringList words = wordsOf(typed);
  std::vector<const sheet::SystemKind*> exact, others;
  for (const auto& kind : kinds) {
    if (words.size() == 1 && words[0] == plain(QString::fromStdString(kind.id)))
      exact.push_back(&kind);
    else if (fits(words, wordsOf(wording::inLanguage(language, kind.title))))
      others.push_back(&kind);
  }
  exact.insert(exact.end(), others.begin(), others.end());
  return exact;
}

namespace {

/// Those that what was typed means: all by their letter, else by words of their titles.
std::vector<std::string> refusalsFor(const QString& typed, const wording::Language& language) {
  const QStringList words = wordsOf(typed);
  std::vector<std::string> fitting;
  for (const std::string_view refusal : survey::refusals())
    if (words == QStringList{QStringLiteral("s")} ||
        fits(words, wordsOf(language.sentence("site.survey.kind." + q(refusal)))))
      fitting.emplace_back(refusal);
  return fitting;
}

}  // namespace

SystemField::SystemField(const wording::Language& language, const std::vector<sheet::SystemKind>& kinds,
                         QWidget* parent)
    : QWidget(parent), language_(language), kinds_(kinds), line_(new QLineEdit), rows_(new QListWidget) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  column->addWidget(line_);
  column->addWidget(rows_);
  line_->setPlaceholderText(language.sentence("site.system.hint"));
  line_->setAccessibleName(language.sentence("site.system.label"));
  line_->setAccessibleDescription(language.sentence("site.system.hint"));
  line_->installEventFilter(this);
  rows_->setAccessibleName(language.sentence("site.system.rows"));
  rows_->setFocusPolicy(Qt::NoFocus);
  rows_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  rows_->setTextElideMode(Qt::ElideNone);
  rows_->setWordWrap(true);
  setFocusProxy(line_);
  connect(line_, &QLineEdit::textChanged, this, [this] { fill(); });
  connect(line_, &QLineEdit::returnPressed, this, [this] { take(rows_->currentRow()); });
  connect(rows_, &QListWidget::itemClicked, this, [this](QListWidgetItem* item) { take(rows_->row(item)); });
  fill();
}

void SystemField::clear() { line_->clear(); }

void SystemField::fill() {
  shown_ = kindsFor(line_->text(), kinds_, language_);
  refusals_ = refusalsFor(line_->text(), language_);
  // A letter by itself is meant as one: what is refused has S.
  if (wordsOf(line_->text()) == QStringList{QStringLiteral("s")}) shown_.clear();
  rows_->clear();
  const auto add = [this](const QString& letter, const QString& title) {
    rows_->addItem(language_.sentence("site.system.row", {{"letter", letter}, {"title", title}}));
  };
  for (const auto* kind : shown_)
    add(QString::fromStdString(kind->id), wording::inLanguage(language_, kind->title));
  for (const std::string& refusal : refusals_)
    add(QStringLiteral("S"), language_.sentence("site.survey.kind." + q(refusal)));
  if (rows_->count() == 0) {
    rows_->addItem(language_.sentence("site.system.none"));
    rows_->item(0)->setFlags(Qt::NoItemFlags);
  } else if (!line_->text().trimmed().isEmpty()) {
    rows_->setCurrentRow(0);
  }
  fitRows();
}

/// Rows of 28, more where a title wraps; five are seen at once.
void SystemField::fitRows() {
  int height = 6;
  for (int row = 0; row < rows_->count(); ++row) {
    QListWidgetItem* item = rows_->item(row);
    const QRect text = rows_->fontMetrics().boundingRect(QRect(0, 0, std::max(60, width() - 20), 1000),
                                                         Qt::TextWordWrap, item->text());
    const int high = std::max(kRow, text.height() + 8);
    item->setSizeHint({0, high});
    if (row < kMostShown) height += high;
  }
  rows_->setFixedHeight(height);
}

void SystemField::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  fitRows();
}

void SystemField::take(int row) {
  if (row < 0) return;
  const auto at = size_t(row);
  if (at < shown_.size()) {
    Q_EMIT chosen(*shown_[at]);
  } else if (at < shown_.size() + refusals_.size()) {
    Q_EMIT refused(std::string(refusals_[at - shown_.size()]));
  }
}

bool SystemField::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const int key = static_cast<QKeyEvent*>(event)->key();
  if ((key != Qt::Key_Down && key != Qt::Key_Up) || shown_.size() + refusals_.size() == 0)
    return QWidget::eventFilter(watched, event);
  const int step = key == Qt::Key_Down ? 1 : -1;
  rows_->setCurrentRow(std::clamp(rows_->currentRow() + step, 0, int(shown_.size() + refusals_.size()) - 1));
  return true;
}

}  // namespace ww::site
