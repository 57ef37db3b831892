// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QWidget>
#include <optional>
#include <set>

#include "fittings/elided_label.h"
#include "fittings/key_map.h"
#include "wiring/entry_line.h"
#include "wiring/in_hand.h"
#include "wiring/mend_finder.h"

class QHBoxLayout;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace ww::wiring {

/// What the sheet check says: one line when closed; open, the list of findings and, of the chosen one, what
/// happens, why, and the mends.
class FindingsStrip : public QWidget {
  Q_OBJECT
 public:
  FindingsStrip(InHand& hand, SearchMends search, QWidget* parent = nullptr);

  QString sentence() const { return sentence_->whole(); }
  bool open() const { return open_; }
  void setOpen(bool open);
  /// Opens, and chooses the next finding or the one before.
  void step(int by);
  void choose(const std::string& key);
  /// F4: into the list of mends.
  void toMends();
  /// Puts a preview away, else closes; false when there was neither.
  bool stepOut();

  QListWidget* list() const { return list_; }
  QListWidget* mends() const { return mends_; }
  QPushButton* acceptButton() const { return accept_; }
  QPushButton* previewButton() const { return preview_; }
  QPushButton* applyButton() const { return apply_; }
  EntryLine* entry() const { return entry_; }
  bool searching() const { return finder_->searching(); }
  const std::vector<Mend>& found() const { return found_; }
  /// Shows or hides the chosen mend on the diagram; does it.
  void previewMend();
  void applyMend();
  std::vector<fittings::KeyLine> keys() const;
  /// What is shown of the chosen finding, as text.
  QString shownText() const;

 Q_SIGNALS:
  void say(const QString& sentence);
  /// The sheet that a mend would give; nothing ends the preview.
  void preview(const std::optional<ww::sheet::Sheet>& sheet);
  void closed();

 private:
  void buildLine();
  void buildList();
  void buildDetail();
  void bindKeys();
  void takeFindings();
  void announceNewStops();
  void takeLine();
  void showChosen(bool byPerson);
  void askForMends();
  void takeMends(const std::vector<Mend>& mends);
  QHBoxLayout* mendRow(QWidget* parent);
  void showMends();
  void fitMendRow();
  void endPreview();
  void acceptChosen();
  const verify::Finding* chosen() const;
  Selection placesOf(const verify::Finding& finding) const;

  InHand& hand_;
  std::vector<fittings::KeyMap*> keyMaps_;
  MendFinder* finder_;
  bool open_ = false, filling_ = false;
  std::string key_;  ///< of the chosen finding
  std::vector<std::string> keysShown_;
  std::optional<std::set<std::string>> stops_;  ///< keys of those told; nothing before a job's first check
  std::optional<sheet::Sheet> asked_;           ///< the sheet whose mends were asked for
  std::vector<Mend> all_, found_;               ///< of that sheet; of the chosen finding
  int previewed_ = -1;

  QWidget* line_;
  QHBoxLayout* badges_ = nullptr;
  fittings::ElidedLabel* sentence_ = nullptr;
  QPushButton* openButton_ = nullptr;
  QStackedWidget* pages_;
  QLabel *count_ = nullptr, *what_ = nullptr, *why_ = nullptr, *whyCaption_ = nullptr, *mendState_ = nullptr;
  QLabel* accepted_ = nullptr;
  QListWidget *list_ = nullptr, *mends_ = nullptr;
  QPushButton *accept_ = nullptr, *preview_ = nullptr, *apply_ = nullptr;
  EntryLine* entry_ = nullptr;
};

}  // namespace ww::wiring
