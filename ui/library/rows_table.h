// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTableWidget>
#include <string>
#include <vector>

#include "library/draft.h"
#include "session/surroundings.h"

class QLabel;

namespace ww::library {

/// A member of the rows of a list.
struct RowColumn {
  enum class Kind { text, number, flag, list, part, choice };
  std::string member;
  Kind kind = Kind::text;
  std::vector<std::string> choices;  ///< ids; with `wordKind` they are worded
  std::string wordKind;
};

/// A list of objects in a draft, one row each: typing changes a cell, Insert adds a row, Delete takes one
/// away. Cells that something is wrong with are marked, and say what.
class RowsTable : public QTableWidget {
  Q_OBJECT
 public:
  RowsTable(const session::Surroundings& around, std::string pointer, std::vector<RowColumn> columns,
            const QString& title, QWidget* parent = nullptr);
  void setDraft(Draft* draft);
  /// Marks the cells of the draft's problems; gives those that are of this list.
  std::vector<const quantity::Problem*> markProblems();
  void addRow();
  void removeRow();

 Q_SIGNALS:
  void changed();

 private:
  void fill();
  void keep(int row, int column);
  void fitHeight();
  QString shown(const RowColumn& column, const Json& value) const;
  Json typed(const RowColumn& column, const QTableWidgetItem& item) const;
  std::string pointerTo(int row) const { return pointer_ + "/" + std::to_string(row); }

  const session::Surroundings& around_;
  std::string pointer_;
  std::vector<RowColumn> columns_;
  Draft* draft_ = nullptr;
};

}  // namespace ww::library
