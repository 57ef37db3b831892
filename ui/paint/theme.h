// SPDX-License-Identifier: GPL-3.0-or-later
// Room paint: what is seen on every surface - screen, SVG, PNG, PDF - drawn
// through QPainter from plain data. Opaque colours only. Knows no widgets.
#pragma once

#include <QColor>
#include <QFont>
#include <QPainterPath>
#include <QRectF>
#include <array>

#include "sheet/colour.h"
#include "verify/finding.h"

class QPainter;

namespace ww::paint {

enum class ThemeName { light, dark, paper };

/// Shape, word and colour of a judgement.
enum class Severity { stop, fail, warn, note, right, notMeasured };

/// The shape of a finding's severity.
Severity shapeOf(verify::Severity severity);

struct SeverityColours {
  QColor text, soft;
};

/// Every colour and line width that is drawn with; all opaque.
struct Theme {
  ThemeName name = ThemeName::light;
  QColor ground, panel, sunk;
  QColor ink, ink2, ink3;
  QColor hairline;  ///< decoration only, never carries meaning
  QColor controlEdge;
  QColor accent, accentSoft, textOnAccent;
  std::array<SeverityColours, 6> severities;
  QColor casing;              ///< edge of a conductor; carries the contrast
  double casingWidth = 1.25;  ///< on each side, px
  double bodyWidth = 4;       ///< px

  const SeverityColours& severity(Severity severity) const {
    return severities[static_cast<size_t>(severity)];
  }
  /// The colour mixed 65 % towards the ground: a solid, for what is not in focus.
  QColor dimmed(const QColor& colour) const;
};

/// The shared instance of a theme.
const Theme& theme(ThemeName name);

/// Insulation colour; the same in every theme. Unknown gives an invalid colour: the body stays hollow.
QColor body(ww::sheet::Insulation insulation);

/// WCAG 2.1 contrast ratio of two opaque colours, 1 to 21.
double contrast(const QColor& a, const QColor& b);

/// Fills a severity's shape into a square box: octagon with bar, diamond, half-filled triangle, circle with
/// dot, tick in an open square, dashed open square.
void paintSeverity(QPainter& painter, Severity severity, const QRectF& box, const Theme& theme);

/// The outline of a severity's shape in a square box.
QPainterPath severityOutline(Severity severity, const QRectF& box);

/// Noto Sans at a size in px of 96 dpi; weight 400 or 700, tabular digits as the font has them.
QFont font(double px, bool bold = false);

}  // namespace ww::paint
