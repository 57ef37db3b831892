// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "checks/band_bar.h"
#include "checks/strip_view.h"
#include "session/surroundings.h"

class QFrame;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ww::fittings {
class SeverityBadge;
}

namespace ww::checks {

/// All that is shown of one step, worded.
struct StepShown {
  QString head, call, cautionsRead;
  QString stand, what;
  QStringList cautions;
  std::vector<StripView::Strip> strips;
  QString probe1, probe2, meter;  ///< where the probes go, how the meter is set; empty: nothing is probed
  QString unit;                   ///< beside the field
  QString band, bandFrom;
  std::optional<checklist::Band> scale;
  QString scaleUnit;  ///< "V", "ohm"
  QString hint;       ///< in the empty field
  QStringList chips;
  std::vector<char> chosen;
  std::optional<double> former;  ///< read here at the visit before
  QString formerText;            ///< the same with its day; empty: nothing was
  QString earlier;               ///< what was read here before; empty: nothing
  QString last;
  std::optional<std::pair<paint::Severity, QString>> lastVerdict;
};

/// One step: where to stand, what to probe, the field for the reading. Shows; decides nothing. The focus
/// stays in the field whatever is clicked.
class StepPanel : public QWidget {
  Q_OBJECT
 public:
  StepPanel(const session::Surroundings& around, QWidget* parent = nullptr);

  void show(const StepShown& step);
  QLineEdit* reading() const { return reading_; }
  BandBar* bar() const { return bar_; }
  const std::vector<QPushButton*>& chips() const { return chips_; }
  /// The question after a reading that looks wrong, with the keys that answer it; empty: none is asked.
  void ask(paint::Severity severity, const QString& question, const QString& keys);
  QString asked() const;
  /// One sentence about what was typed; empty takes it away.
  void complain(const QString& sentence);
  QString complaint() const;
  /// The field takes a sentence instead of a figure: `wanted` says which; empty: a figure again.
  void wantReason(const QString& wanted);
  void setLarge(bool large);

  QString stand() const;
  QString band() const;
  QString last() const;
  QString earlier() const;
  QString former() const;

 Q_SIGNALS:
  void chip(int index);

 private:
  QWidget* headRow();
  QWidget* probeRow();
  QWidget* readingRow();
  QWidget* askRow();
  void setChips(const QStringList& names, const std::vector<char>& chosen);
  void setCautions(const QStringList& cautions);
  void fitField();

  const session::Surroundings& around_;
  QLabel *head_, *call_, *cautionsRead_, *stand_, *what_;
  QVBoxLayout* cautions_;
  QWidget* probes_;
  StripView* strips_;
  QLabel *probe1_, *probe2_, *meter_;
  QLineEdit* reading_;
  QLabel *unit_, *band_, *bandFrom_, *former_;
  BandBar* bar_;
  QFrame* askFrame_;
  QLabel *askShape_, *askText_, *askKeys_;
  QLabel* complaint_;
  QGridLayout* chipGrid_;
  QLabel* chipHead_;
  std::vector<QPushButton*> chips_;
  QLabel *earlier_, *last_, *paging_;
  fittings::SeverityBadge* lastBadge_;
  bool large_ = false, reason_ = false;
  bool hinted_ = false;  ///< the field says what to press, in a size that fits it
};

}  // namespace ww::checks
