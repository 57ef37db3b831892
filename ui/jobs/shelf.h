// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

#include "jobs/entry.h"

namespace ww::jobs {

/// Where the jobs stand. Answers later, by signal, on the thread that asked; of several questions only the
/// latest is answered. Acts are done at once or told with a sentence elsewhere.
class Shelf : public QObject {
  Q_OBJECT
 public:
  using QObject::QObject;
  /// The matches from number `from` on, `count` of them.
  virtual void search(const QString& query, size_t from, size_t count) = 0;
  virtual void preview(const std::string& id) = 0;
  virtual std::vector<Choice> dates() const = 0;
  virtual std::vector<Choice> states() const = 0;
  virtual std::vector<Choice> systems() const = 0;
  virtual std::vector<Choice> installers() const = 0;

 Q_SIGNALS:
  void found(const ww::jobs::Answer& answer);
  void previewed(const ww::jobs::Preview& preview);
};

}  // namespace ww::jobs
