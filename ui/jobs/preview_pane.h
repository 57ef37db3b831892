// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "jobs/entry.h"
#include "session/surroundings.h"

class QLabel;
class QPushButton;
class QVBoxLayout;
class QScrollArea;

namespace ww::jobs {

/// What is known of the job in front, and what can be done with it. Never takes the focus of itself.
class PreviewPane : public QWidget {
  Q_OBJECT
 public:
  PreviewPane(const session::Surroundings& around, QWidget* parent);
  /// Nothing: no job is in front.
  void show(const std::optional<Preview>& preview);
  const std::optional<Preview>& shown() const { return preview_; }

  QPushButton *open, *callBack, *duplicate, *print, *restore;

 private:
  QWidget* body(const Preview& preview);

  const session::Surroundings& around_;
  std::optional<Preview> preview_;
  QScrollArea* scroll_;
  QLabel* nothing_;
  QWidget* buttons_;
};

}  // namespace ww::jobs
