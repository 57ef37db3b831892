// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "session/open_job.h"
#include "session/surroundings.h"
#include "site/field.h"

class QPushButton;
class QVBoxLayout;

namespace ww::site {

/// What is left to do after the visit: text, by whom, until when. Added, changed and taken away with undo.
class OpenItemList : public QWidget {
  Q_OBJECT
 public:
  explicit OpenItemList(const session::Surroundings& around, QWidget* parent = nullptr);
  void setJob(session::OpenJob* job);
  void refresh();

  QPushButton* addButton() const { return add_; }
  struct Line {
    std::string id;
    QWidget* row;
    Field *text, *owner, *due;
    QPushButton* remove;
  };
  const std::vector<Line>& lines() const { return lines_; }

 private:
  void rebuild();
  Line line(const std::string& id);
  Field* field(const std::string& id, const char* name, std::string job::OpenItem::*member);
  const job::OpenItem* find(const std::string& id) const;
  bool change(const QString& name, const std::function<void(std::vector<job::OpenItem>&)>& edit);
  QString say(const QString& key, const wording::Args& args = {}) const;

  const session::Surroundings& around_;
  session::OpenJob* job_ = nullptr;
  std::vector<Line> lines_;
  QVBoxLayout* column_;
  QPushButton* add_;
};

}  // namespace ww::site
