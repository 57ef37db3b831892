// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QMouseEvent>
#include <algorithm>
#include <memory>

#include "sheet/systems.h"
#include "support/sheet_edits.h"
#include "support/window.h"
#include "wiring/wiring_place.h"

namespace ww::testing {

inline job::Job jobWith(const sheet::Sheet& sheet, job::SheetState state) {
  job::Job job;
  job.id = "0190c1d0-0000-7000-8000-000000000001";
  job.number = "2025-0312-01";
  job.installer = "M. Ode";
  job.site.address = "14 Larkmoor Terrace";
  if (state == job::SheetState::planned) job.planned = sheet;
  if (state == job::SheetState::asFound) job.asFound = sheet;
  if (state == job::SheetState::asLeft) job.asLeft = sheet;
  return job;
}

/// A furnace with cooling as a new sheet starts: units, customary cables, nothing landed.
inline sheet::Sheet emptyA() { return sheet::withSystem({}, sheet::standardSystems().front()); }

/// Landings as "1 RD: T.R - F.R", one a line, whatever the ids.
inline std::string landings(const sheet::Sheet& sheet) {
  std::string text;
  for (const sheet::Conductor& wire : sheet.conductors) {
    const sheet::Cable* cable = wire.cable ? sheet.cables.find(*wire.cable) : nullptr;
    text += (cable ? cable->name : std::string("J")) + " " + sheet::print(wire.colour) + ": " +
            sheet::print(sheet, wire.endA) + " - " + sheet::print(sheet, wire.endB) + "\n";
  }
  return text;
}

/// Counts presses of keys that are more than a modifier held; auto-repeat counts as well.
class KeyCount : public QObject {
 public:
  KeyCount() { qApp->installEventFilter(this); }
  int keys = 0;
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (event->type() == QEvent::KeyPress && watched->isWindowType()) ++keys;
    return false;
  }
};

/// The stage on a desk of its own, shown in the size it has in the window.
struct WiringDesk {
  explicit WiringDesk(const sheet::Sheet& sheet, job::SheetState state = job::SheetState::planned,
                      const std::string& language = "en")
      : desk(language), job(jobWith(sheet, state), desk.around.library), place(desk.around) {
    place.setJob(&job);
    place.resize(1112, 648);
    place.show();
    place.activateWindow();
    EXPECT_TRUE(QTest::qWaitForWindowActive(&place));
    place.enter();
    QObject::connect(&place, &fittings::Place::say, [this](const QString& text) { said = text; });
  }
  void key(int key, Qt::KeyboardModifiers held = Qt::NoModifier) {
    QWidget* focus = QApplication::focusWidget();
    QTest::keyClick(focus ? focus : &place, static_cast<Qt::Key>(key), held);
  }
  void type(const QString& text) {
    for (const QChar letter : text) {
      ASSERT_TRUE(QApplication::focusWidget());
      QTest::keyClick(QApplication::focusWidget(), letter.toLatin1());
    }
  }
  const sheet::Sheet& sheet() const { return job.sheet(); }
  wiring::ConductorTable& table() { return place.table(); }
  wiring::DiagramView& diagram() { return place.diagram(); }
  /// The n-th conductor of a cable by name.
  sheet::ConductorId wire(const char* cable, size_t n) const {
    return sheet::conductorsOf(sheet(), sheet().cableByName(cable)->id).at(n)->id;
  }
  void goTo(sheet::ConductorId conductor, int column) {
    table().setFocus();
    const QModelIndex cell = table().model().index(table().model().rowOf(conductor), column);
    table().selectionModel()->setCurrentIndex(cell, QItemSelectionModel::ClearAndSelect);
  }
  /// Press on an end, move, release on a screw.
  void drag(wiring::EndRef end, const sheet::TerminalRef& to) {
    const auto& spots = diagram().picture().spots();
    const auto target =
        std::find_if(spots.begin(), spots.end(), [&](const auto& spot) { return spot.terminal == to; });
    ASSERT_NE(target, spots.end());
    const auto from = diagram().picture().anchorOf(end);
    ASSERT_TRUE(from);
    const QPoint a = diagram().onScreen(*from).toPoint(), b = diagram().onScreen(target->at).toPoint();
    QWidget* surface = diagram().viewport();
    QTest::mousePress(surface, Qt::LeftButton, {}, a);
    moveTo(a + (b - a) / 2);
    moveTo(b);
    QTest::mouseRelease(surface, Qt::LeftButton, {}, b);
  }
  void moveTo(QPoint at) {
    QWidget* surface = diagram().viewport();
    QMouseEvent event(QEvent::MouseMove, at, surface->mapToGlobal(at), Qt::NoButton, Qt::LeftButton,
                      Qt::NoModifier);
    QApplication::sendEvent(surface, &event);
  }

  Desk desk;
  session::OpenJob job;
  wiring::WiringPlace place;
  QString said;
};

}  // namespace ww::testing
