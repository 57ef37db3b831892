// SPDX-License-Identifier: GPL-3.0-or-later
// Room wiring: the stage where the sheet is made - diagram, conductor table, calls, findings and their mends.
// Knows the session and fittings; no other stage, no store.
#pragma once

#include <QLabel>
#include <QPlainTextEdit>
#include <QStackedWidget>

#include "fittings/key_map.h"
#include "fittings/place.h"
#include "wiring/calls_row.h"
#include "wiring/conductor_table.h"
#include "wiring/diagram_view.h"
#include "wiring/entry_line.h"
#include "wiring/findings_strip.h"
#include "wiring/in_hand.h"

class QToolButton;

namespace ww::fittings {
class UndoBar;
}

namespace ww::wiring {

class WiringPlace : public fittings::Place {
  Q_OBJECT
 public:
  WiringPlace(const session::Surroundings& surroundings, QWidget* parent = nullptr);
  ~WiringPlace() override;

  void setJob(session::OpenJob* job) override;
  void enter() override;
  std::vector<fittings::KeyLine> keys() const override;
  fittings::StageMark mark() const override;
  QWidget* topBar() override { return top_; }
  bool stepOut() override;
  void bring(const QString& finding) override;
  void setLarge(bool large) override;
  std::vector<QWidget*> panes() override;

  InHand& hand() const { return *hand_; }
  CallsRow& calls() const { return *calls_; }
  DiagramView& diagram() const { return *diagram_; }
  ConductorTable& table() const { return *table_; }
  EntryLine& entry() const { return *entry_; }
  FindingsStrip& findings() const { return *findings_; }
  QPlainTextEdit& listing() const { return *listing_; }
  fittings::UndoBar& undoBar() const { return *undoBar_; }
  fittings::KeyMap& keyMap() const { return *keys_; }
  bool showsListing() const;
  void showListing(bool listing);
  /// Lands everything that the plan proposes.
  void propose();

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  QWidget* diagramPane();
  QWidget* tablePane();
  void buildTop();
  void bindKeys();
  void insert();
  void jumper();
  void tell(const QString& sentence);
  void told(const QString& wrong);
  void placeUndoBar();
  void refresh();

  InHand* hand_;
  fittings::KeyMap* keys_;
  QWidget* top_ = nullptr;
  QToolButton *diagramButton_ = nullptr, *listingButton_ = nullptr;
  QWidget* proposeButton_ = nullptr;
  CallsRow* calls_;
  DiagramView* diagram_;
  QLabel* zoom_ = nullptr;
  QPlainTextEdit* listing_;
  QStackedWidget* left_ = nullptr;
  ConductorTable* table_;
  EntryLine* entry_;
  QWidget* tablePane_ = nullptr;
  FindingsStrip* findings_;
  fittings::UndoBar* undoBar_;
  QWidget *legend_ = nullptr, *foot_ = nullptr;
};

}  // namespace ww::wiring
