// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractScrollArea>

#include "fittings/key_map.h"
#include "wiring/picture.h"

namespace ww::wiring {

/// The diagram on screen: zoom, hover, choosing, and landing ends by mouse (press on an end, move, release on
/// a screw) and by keyboard (arrows from screw to screw, Enter picks and drops).
class DiagramView : public QAbstractScrollArea {
  Q_OBJECT
 public:
  explicit DiagramView(InHand& hand, QWidget* parent = nullptr);

  Picture& picture() { return picture_; }
  const Picture& picture() const { return picture_; }
  InHand& hand() const { return hand_; }
  fittings::KeyMap& keyMap() const { return *keys_; }

  double zoom() const { return zoom_; }
  void zoomTo(double zoom);  ///< around the middle; ends fitting
  void fit();
  bool fitting() const { return fitting_; }
  QPointF onScreen(QPointF inDiagram) const;
  QPointF inDiagram(QPointF onScreen) const;

  /// The screw or loose end that has the keyboard.
  const std::optional<Spot>& focus() const { return focus_; }
  void focusOn(const Spot& spot);
  void focusOn(EndRef end);
  const std::optional<EndRef>& picked() const { return picked_; }
  const std::optional<sheet::TerminalRef>& jumperFrom() const { return jumperFrom_; }
  /// Starts a jumper at the screw in focus; the next screw dropped on ends it.
  void startJumper();
  /// Lets go of what is picked up; false when nothing was.
  bool letGo();
  void setPreview(const std::optional<sheet::Sheet>& sheet);
  /// Puts the keyboard on a screw where there is none yet.
  void ensureFocus();

 Q_SIGNALS:
  void say(const QString& sentence);
  void zoomed();
  void openUnit(sheet::UnitId unit);
  void pictureChanged();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void contextMenuEvent(QContextMenuEvent* event) override;
  void leaveEvent(QEvent* event) override;
  bool viewportEvent(QEvent* event) override;
  void scrollContentsBy(int dx, int dy) override;

 private:
  void takeSheet();
  void takeCall();
  void bindKeys();
  void placeBars();
  void zoomAround(double zoom, QPointF onScreen);
  double reach() const;
  void move(Towards towards);
  void enter();
  void choose();
  void pick(EndRef end);
  void dropOn(const Spot& spot);
  QString sentenceOf(const Under& under) const;
  void tellFocus();
  std::optional<sheet::UnitId> unitUnder(const Under& under) const;
  /// The unit of the screw or end that has the keyboard.
  std::optional<sheet::UnitId> unitInFocus() const;
  void showSpot();
  void scrollTo(QPointF inDiagram);
  void selectUnder(const Under& under, bool more);
  std::optional<EndRef> endToPick(const Spot& spot) const;
  void paintMarks(QPainter& painter) const;
  void paintFocus(QPainter& painter) const;
  void paintPicked(QPainter& painter) const;
  void paintUnitFrames(QPainter& painter) const;

  InHand& hand_;
  Picture picture_;
  fittings::KeyMap* keys_;
  double zoom_ = 1;
  bool fitting_ = true;
  std::optional<Spot> focus_;
  std::optional<EndRef> picked_;
  std::optional<sheet::TerminalRef> jumperFrom_;
  std::optional<sheet::ConductorId> hovered_;
  std::optional<QPointF> pressed_, pointer_;  ///< on screen; in the diagram
  std::optional<QPoint> panFrom_;
  bool dragging_ = false;
  QString pointedAt_;  ///< what the pointer shows, said once
};

}  // namespace ww::wiring
