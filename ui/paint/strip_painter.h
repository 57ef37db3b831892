// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointF>
#include <QSizeF>
#include <QString>
#include <string>
#include <vector>

#include "equipment/profile.h"
#include "paint/theme.h"
#include "sheet/sheet.h"

class QPainter;

namespace ww::paint {

/// A unit's terminals in the order of its strip, seen from the front: letters, screws, the flags of the
/// conductors landed, and the two probes of a meter where they are put.
struct StripPicture {
  struct Screw {
    QString letters;
    std::vector<QString> flags;  ///< two-letter codes
    bool probe1 = false, probe2 = false;
  };
  std::vector<Screw> screws;
  bool low = false;  ///< where two strips stand one above the other: less high, without flags
};

StripPicture stripOf(const sheet::Sheet& sheet, const equipment::Library& library, sheet::UnitId unit,
                     const sheet::TerminalRef& probe1, const sheet::TerminalRef& probe2);

/// What paintStrip() covers, px.
QSizeF stripSize(const StripPicture& strip);
void paintStrip(QPainter& painter, QPointF at, const StripPicture& strip, const Theme& theme);
/// The mark of a probe: 1 is filled, 2 is hollow.
void paintProbe(QPainter& painter, QPointF centre, int probe, const Theme& theme);

}  // namespace ww::paint
