// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QLineEdit>
#include <QTableView>

#include "fittings/key_map.h"
#include "wiring/conductor_model.h"
#include "wiring/row_delegate.h"

namespace ww::wiring {

/// The conductor table: where every end lies, cable by cable. Typing into an end is type-ahead over the
/// screws of its unit; what is wrong is told under the row.
class ConductorTable : public QTableView {
  Q_OBJECT
 public:
  explicit ConductorTable(InHand& hand, QWidget* parent = nullptr);

  ConductorModel& model() const { return *model_; }
  fittings::KeyMap& keyMap() const { return *keys_; }
  QLineEdit* editor() const { return editor_; }
  bool editing() const { return editor_->isVisible(); }
  /// What is told under the row; empty when nothing is.
  QString complaint() const { return note_->isVisible() ? note_->text() : QString(); }
  void complain(const QString& sentence);

  /// Puts the cursor where work begins: the first loose end, else the first end.
  void startWork();
  void showEnd(EndRef end);
  /// The cable of the row under the cursor; of the conductor too where there is one.
  std::optional<sheet::CableId> cableHere() const;
  std::optional<sheet::ConductorId> conductorHere() const;
  std::optional<EndRef> endHere() const;
  void preview(const std::map<EndRef, QString>& ends);

  void beginEdit(const QString& typed);
  void cancelEdit();
  /// Takes what stands in the editor, or what the plan offers, and goes to the next end.
  void takeAndGoOn();
  /// Takes what stands in the editor; false, and told, when it is wrong.
  bool takeEdit();
  void paste(const QString& text);

 Q_SIGNALS:
  void say(const QString& sentence);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
  void selectionChanged(const QItemSelection& selected, const QItemSelection& deselected) override;

 private:
  void bindKeys();
  void spanHeadings();
  void placeColumns();
  void placeEditor();
  void completeTyped(const QString& typed);
  void goTo(const QModelIndex& index);
  QModelIndex nextEnd(const QModelIndex& from) const;
  QModelIndex nextCell(const QModelIndex& from, int step) const;
  void landHere(const sheet::Landing& landing);
  void tellSelection();
  void tellAgain();
  QString sentenceHere() const;
  void showSelection();
  QString takeEnd(EndRef end, const QString& text);
  QString takeColour(sheet::ConductorId conductor, const QString& text);
  QString takeCable(sheet::CableId cable, const QString& text);

  InHand& hand_;
  ConductorModel* model_;
  RowDelegate* delegate_;
  QLineEdit* editor_;
  QLabel* note_;
  fittings::KeyMap* keys_;
  bool following_ = false;  ///< the selection is being set from outside
  QString told_;            ///< what was last said of the cell in front
  size_t lastLength_ = 0;
};

}  // namespace ww::wiring
