// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/survey_row.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "fittings/pieces.h"
#include "fittings/style.h"
#include "job/survey_facts.h"
#include "wording/names.h"

namespace ww::site {

namespace {

QString q(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

}  // namespace

SurveyRow::SurveyRow(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent),
      around_(around),
      says_(fittings::paragraph({})),
      refused_(fittings::complaint(around.theme)),
      ask_(fittings::button(words("ask"), QStringLiteral("list"), around.theme)),
      take_(fittings::button(words("take"), QStringLiteral("tick"), around.theme, {}, "primary")),
      form_(new QWidget) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  refused_->setWordWrap(true);
  fittings::setRole(says_, "quiet");
  column->addWidget(refused_);
  column->addWidget(says_);
  buildForm();
  column->addWidget(form_);
  column->addWidget(take_, 0, Qt::AlignLeft);
  connect(ask_, &QPushButton::clicked, this, [this] { openForm(form_->isHidden()); });
  connect(take_, &QPushButton::clicked, this, [this] {
    survey::Answers answers;
    for (const auto& [question, box] : answers_)
      answers[question] = box->currentData().toString().toStdString();
    take(answers);
    openForm(false);
    ask_->setFocus();
  });
  openForm(false);
}

void SurveyRow::buildForm() {
  auto* grid = new QGridLayout(form_);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(6);
  grid->setColumnStretch(1, 1);
  for (const survey::Question& question : survey::questions()) {
    auto* box = new QComboBox;
    // Long answers do not widen the pane; the list is as wide as they are.
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(16);
    for (const std::string_view answer : question.answers)
      box->addItem(words(QStringLiteral("answer.%1.%2").arg(q(question.id), q(answer))), q(answer));
    fittings::addRow(grid, words(QStringLiteral("question.") + q(question.id)), box)->setWordWrap(true);
    answers_.emplace_back(question.id, box);
  }
}

void SurveyRow::openForm(bool open) {
  form_->setVisible(open);
  take_->setVisible(open);
  ask_->setText(words(open ? "leave" : "ask"));
  ask_->setAccessibleName(ask_->text());
  if (!open) return;
  survey::Answers now = survey::customary();
  if (job_ && !job_->job().surveys.empty()) now = job_->job().surveys.back().answers;
  for (const auto& [question, box] : answers_)
    box->setCurrentIndex(std::max(0, box->findData(q(now[question]))));
  answers_.front().second->setFocus();
}

void SurveyRow::setJob(session::OpenJob* job) {
  if (job_) job_->disconnect(this);
  job_ = job;
  openForm(false);
  if (job_) connect(job_, &session::OpenJob::factsChanged, this, &SurveyRow::refresh);
  refresh();
}

void SurveyRow::refresh() {
  const bool taken = job_ && !job_->job().surveys.empty();
  const bool open = job_ && !job_->readOnly();
  ask_->setVisible(open);
  if (!open) openForm(false);
  QStringList refusals;
  for (const std::string& word : job_ ? job::refusalsOf(job_->job()) : std::vector<std::string>())
    refusals << wording::word(around_.language, "refusal", word);
  refused_->setVisible(!refusals.isEmpty());
  if (!refusals.isEmpty())
    refused_->setText(words("refused", {{"refusal", around_.language.list(refusals)}}));
  if (!taken) {
    says_->setVisible(job_ && job::surveyDue(job_->job()));
    says_->setText(words("says"));
    return;
  }
  const survey::Answers& answers = job_->job().surveys.back().answers;
  QStringList told;
  for (const auto& [question, answer] : answers)
    if (answer != "none") told << wording::word(around_.language, "survey", question + "-" + answer);
  QStringList lines{words("answered", {{"answers", around_.language.list(told)}})};
  if (refusals.isEmpty())
    for (const std::string& note : survey::verdictOf(answers).notes)
      lines << words(QStringLiteral("note.") + q(note));
  says_->setVisible(true);
  says_->setText(lines.join(u'\n'));
}

void SurveyRow::take(const survey::Answers& answers) {
  if (!job_ || job_->readOnly()) return;
  const auto& taken = job_->job().surveys;
  if (!taken.empty() && taken.back().answers == answers) return;
  job_->takeSurvey({around_.newId(), answers, job_->job().installer, around_.now()});
  if (!refused_->isHidden()) around_.announce(refused_->text());
}

bool SurveyRow::takeImplied(const sheet::Sheet& sheet) {
  if (!job_ || job_->readOnly()) return false;
  if (job_->job().surveys.empty()) take(job::impliedBy(sheet, job_->library()));
  return job::refusalsOf(job_->job()).empty();
}

QComboBox* SurveyRow::answer(std::string_view question) const {
  for (const auto& [id, box] : answers_)
    if (id == question) return box;
  return nullptr;
}

QString SurveyRow::text() const {
  return (refused_->isHidden() ? QString() : refused_->text() + u'\n') +
         (says_->isHidden() ? QString() : says_->text());
}

QString SurveyRow::words(const QString& key, const wording::Args& args) const {
  return around_.language.sentence(QStringLiteral("site.survey.") + key, args);
}

}  // namespace ww::site
