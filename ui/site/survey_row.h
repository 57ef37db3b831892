// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "session/open_job.h"
#include "session/surroundings.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace ww::site {

/// What is there at all, before anything is drawn: what choosing a kind of system says, what was answered, or
/// why the job is refused; the questions one by one where they are asked for. In the place, never before it.
class SurveyRow : public QWidget {
  Q_OBJECT
 public:
  explicit SurveyRow(const session::Surroundings& around, QWidget* parent = nullptr);
  void setJob(session::OpenJob* job);
  void refresh();

  /// Appends the answers to the job's facts.
  void take(const survey::Answers& answers);
  /// Takes what placing a sheet's units says, where nothing was answered yet. False when that is refused.
  bool takeImplied(const sheet::Sheet& sheet);

  /// Opens and shuts the questions; whoever owns the row puts it beside the heading.
  QPushButton* askButton() const { return ask_; }
  QPushButton* takeButton() const { return take_; }
  QComboBox* answer(std::string_view question) const;
  QString text() const;

 private:
  void buildForm();
  void openForm(bool open);
  QString words(const QString& key, const wording::Args& args = {}) const;

  const session::Surroundings& around_;
  session::OpenJob* job_ = nullptr;
  QLabel *says_, *refused_;
  QPushButton *ask_, *take_;
  QWidget* form_;
  std::vector<std::pair<std::string, QComboBox*>> answers_;
};

}  // namespace ww::site
