// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/strip_painter.h"

#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>

#include "paint/diagram_painter.h"
#include "wording/names.h"

namespace ww::paint {

namespace {

constexpr double kPad = 10, kLowPad = 5, kProbeRadius = 12, kFlagHeight = 16, kFlagWidth = 26;
constexpr size_t kMostFlags = 2;

double pitchOf(const StripPicture& strip) { return strip.screws.size() > 8 ? 50 : 64; }
double squareOf(const StripPicture& strip) { return strip.low ? 28 : 36; }
double padOf(const StripPicture& strip) { return strip.low ? kLowPad : kPad; }
double plateOf(const StripPicture& strip) {
  return squareOf(strip) + 2 * padOf(strip) + (strip.low ? 20 : 22);
}

/// The largest size of the program in which the letters fit the square.
QFont lettersFont(const QString& letters, double room, bool low) {
  for (const double px : {low ? 14.0 : 18.0, 13.0, 11.0, 9.0}) {
    const QFont face = font(px, true);
    if (QFontMetricsF(face).horizontalAdvance(letters) <= room || px < 10) return face;
  }
  return font(9, true);
}

void paintFlag(QPainter& painter, QPointF centre, const QString& code, const Theme& theme) {
  painter.setFont(font(11, true));
  const double wide = std::max(kFlagWidth, painter.fontMetrics().horizontalAdvance(code) + 10.0);
  const QRectF box(centre.x() - wide / 2, centre.y() - kFlagHeight / 2, wide, kFlagHeight);
  painter.setPen(QPen(theme.casing, 1));
  painter.setBrush(theme.panel);
  painter.drawRoundedRect(box, kFlagHeight / 2, kFlagHeight / 2);
  painter.setPen(theme.ink);
  painter.drawText(box, Qt::AlignCenter, code);
}

void paintTerminal(QPainter& painter, QPointF top, const StripPicture& strip,
                   const StripPicture::Screw& screw, const Theme& theme) {
  const double side = squareOf(strip);
  const double letters = QFontMetricsF(font(11, true)).horizontalAdvance(screw.letters) + 6;
  const double wide = std::clamp(letters, side, pitchOf(strip) - 4);
  const QRectF square(top.x() - wide / 2, top.y() + padOf(strip), wide, side);
  const bool probed = screw.probe1 || screw.probe2;
  painter.setPen(QPen(probed ? theme.ink : theme.controlEdge, probed ? 2 : 1));
  painter.setBrush(theme.sunk);
  painter.drawRoundedRect(square, 2, 2);
  painter.setPen(theme.ink);
  painter.setFont(lettersFont(screw.letters, wide - 3, strip.low));
  painter.drawText(square, Qt::AlignCenter, screw.letters);
  drawing::Screw drawn;
  drawn.centre = {top.x(), square.bottom() + (strip.low ? 13 : 18)};
  drawn.ends = int(screw.flags.size());
  paintScrew(painter, drawn, theme);
  const double plate = plateOf(strip);
  if (probed) {
    painter.setPen(QPen(theme.ink, 2));
    painter.drawLine(QPointF(top.x(), drawn.centre.y + 8), QPointF(top.x(), top.y() + plate + 4));
    paintProbe(painter, {top.x(), top.y() + plate + kProbeRadius + 2}, screw.probe1 ? 1 : 2, theme);
  }
  if (strip.low) return;
  double y = top.y() + plate + 2 * kProbeRadius + kFlagHeight / 2 + 8;
  for (size_t i = 0; i < std::min(screw.flags.size(), kMostFlags); ++i, y += kFlagHeight + 2)
    paintFlag(painter, {top.x(), y}, screw.flags[i], theme);
}

size_t flagRows(const StripPicture& strip) {
  if (strip.low) return 0;
  size_t most = 0;
  for (const auto& screw : strip.screws) most = std::max(most, screw.flags.size());
  return std::min(most, kMostFlags);
}

}  // namespace

StripPicture stripOf(const sheet::Sheet& sheet, const equipment::Library& library, sheet::UnitId unit,
                     const sheet::TerminalRef& probe1, const sheet::TerminalRef& probe2) {
  StripPicture strip;
  const sheet::Unit* placed = sheet.units.find(unit);
  const equipment::Profile* profile = placed ? library.find(placed->profile) : nullptr;
  if (!profile) return strip;
  for (const auto& terminal : profile->terminals) {
    const sheet::TerminalRef ref{unit, terminal.id};
    StripPicture::Screw screw{
        wording::terminalLetters({sheet, library}, ref), {}, ref == probe1, ref == probe2};
    for (const auto& wire : sheet.conductors)
      for (const sheet::Landing* end : {&wire.endA, &wire.endB})
        if (*end == sheet::Landing(ref))
          screw.flags.push_back(QString::fromStdString(sheet::print(wire.colour)));
    strip.screws.push_back(std::move(screw));
  }
  return strip;
}

QSizeF stripSize(const StripPicture& strip) {
  const double below = 2 * kProbeRadius + (strip.low ? 4 : 8) + double(flagRows(strip)) * (kFlagHeight + 2);
  return {pitchOf(strip) * double(strip.screws.size()) + 2, plateOf(strip) + below + 2};
}

void paintStrip(QPainter& painter, QPointF at, const StripPicture& strip, const Theme& theme) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const double pitch = pitchOf(strip);
  painter.setPen(QPen(theme.controlEdge, 2));
  painter.setBrush(theme.panel);
  painter.drawRoundedRect(QRectF(at.x() + 1, at.y() + 1, pitch * double(strip.screws.size()), plateOf(strip)),
                          4, 4);
  for (size_t i = 0; i < strip.screws.size(); ++i)
    paintTerminal(painter, at + QPointF(1 + pitch * (double(i) + 0.5), 1), strip, strip.screws[i], theme);
  painter.restore();
}

void paintProbe(QPainter& painter, QPointF centre, int probe, const Theme& theme) {
  painter.setPen(QPen(theme.ink, 2));
  painter.setBrush(probe == 1 ? theme.ink : theme.panel);
  painter.drawEllipse(centre, kProbeRadius - 1, kProbeRadius - 1);
  painter.setFont(font(13, true));
  painter.setPen(probe == 1 ? theme.panel : theme.ink);
  painter.drawText(QRectF(centre.x() - 12, centre.y() - 12, 24, 24), Qt::AlignCenter, QString::number(probe));
}

}  // namespace ww::paint
