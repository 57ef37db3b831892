// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QWidget>

#include "wiring/in_hand.h"

namespace ww::wiring {

/// The calls of the sheet as chips, outdoor states apart, each with the worst of its findings; at the right
/// what the transformer carries in the call looked at. Where the chips do not fit, a list takes their place.
class CallsRow : public QWidget {
  Q_OBJECT
 public:
  explicit CallsRow(InHand& hand, QWidget* parent = nullptr);

  QPushButton* chip(const std::string& call) const;
  QComboBox* list() const { return list_; }
  QString load() const { return load_->text(); }
  /// The calls in the order of the chips.
  std::vector<std::string> calls() const;
  /// The n-th call, rest being 0; the next or the one before.
  void showCall(int n);
  void step(int by);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  struct Chip {
    std::string call;
    bool outdoors = false;
    QPushButton* button = nullptr;
  };
  void takeCalls();
  void takeMarks();
  void takeLoad();
  void settle();

  InHand& hand_;
  QWidget* chips_;
  QComboBox* list_;
  QLabel* load_;
  QLabel *callLabel_, *outdoorLabel_ = nullptr;
  std::vector<Chip> all_;
};

}  // namespace ww::wiring
