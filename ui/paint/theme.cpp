// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/theme.h"

#include <QPainter>
#include <cmath>

namespace ww::paint {

Severity shapeOf(verify::Severity severity) {
  switch (severity) {
    case verify::Severity::stop: return Severity::stop;
    case verify::Severity::fail: return Severity::fail;
    case verify::Severity::warn: return Severity::warn;
    case verify::Severity::note: break;
  }
  return Severity::note;
}

namespace {

Theme lightTheme() {
  Theme t;
  t.name = ThemeName::light;
  t.ground = "#F4F3EF";
  t.panel = "#FFFFFF";
  t.sunk = "#E9E8E2";
  t.ink = "#1B1E21";
  t.ink2 = "#50565C";
  t.ink3 = "#62686E";
  t.hairline = "#D3D1C9";
  t.controlEdge = "#7C8187";
  t.accent = "#0B5F6B";
  t.accentSoft = "#D9ECEE";
  t.textOnAccent = "#FFFFFF";
  t.casing = "#3A3F44";
  t.severities = {{{"#A81E2B", "#F9DEDF"},
                   {"#8A3B00", "#FBE6D0"},
                   {"#7A5200", "#F8E9C4"},
                   {"#3A5A73", "#DFE8EF"},
                   {"#226238", "#DDEEE1"},
                   {"#62686E", "#E9E8E2"}}};
  return t;
}

Theme darkTheme() {
  Theme t;
  t.name = ThemeName::dark;
  t.ground = "#16191C";
  t.panel = "#1F2327";
  t.sunk = "#0F1113";
  t.ink = "#ECEAE4";
  t.ink2 = "#B4B8BC";
  t.ink3 = "#8F959A";
  t.hairline = "#363B40";
  t.controlEdge = "#7A8187";
  t.accent = "#6CC7D2";
  t.accentSoft = "#17383D";
  t.textOnAccent = "#16191C";
  t.casing = "#C2C6CA";
  t.severities = {{{"#FF8F93", "#4A2225"},
                   {"#FFB169", "#47301A"},
                   {"#EBC15C", "#42361A"},
                   {"#9DC1DC", "#22323E"},
                   {"#8CCF9F", "#1E3826"},
                   {"#8F959A", "#0F1113"}}};
  return t;
}

/// White ground, black casing of 0.2 mm.
Theme paperTheme() {
  Theme t = lightTheme();
  t.name = ThemeName::paper;
  t.ground = "#FFFFFF";
  t.sunk = "#F2F1EC";
  t.casing = "#000000";
  t.casingWidth = 0.2 / 25.4 * 96;
  return t;
}

double linear(double channel) {
  return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& c) {
  return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
}

QPen roundPen(const QColor& colour, double width) {
  return QPen(colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
}

/// Below the severity's shape: the mark that tells it from others without colour.
void paintMark(QPainter& painter, Severity severity, const QRectF& box, const QColor& mark,
               const QColor& inside) {
  const double s = box.width() / 16;
  const QPointF c = box.center();
  if (severity == Severity::stop) {
    painter.fillRect(QRectF(c.x() - 4.5 * s, c.y() - 1.25 * s, 9 * s, 2.5 * s), inside);
  } else if (severity == Severity::warn) {
    QPainterPath half;
    half.moveTo(c.x(), box.top() + 1.5 * s);
    half.lineTo(box.right() - 1 * s, box.bottom() - 1.5 * s);
    half.lineTo(c.x(), box.bottom() - 1.5 * s);
    half.closeSubpath();
    painter.fillPath(half, mark);
  } else if (severity == Severity::note) {
    QPainterPath dot;
    dot.addEllipse(c, 2 * s, 2 * s);
    painter.fillPath(dot, mark);
  } else if (severity == Severity::right) {
    painter.setPen(roundPen(mark, 1.75 * s));
    painter.drawPolyline(
        QPolygonF({c + QPointF(-3 * s, 0), c + QPointF(-0.8 * s, 2.4 * s), c + QPointF(3.4 * s, -2.6 * s)}));
  }
}

}  // namespace

const Theme& theme(ThemeName name) {
  static const Theme light = lightTheme(), dark = darkTheme(), paper = paperTheme();
  return name == ThemeName::dark ? dark : name == ThemeName::paper ? paper : light;
}

QColor Theme::dimmed(const QColor& colour) const {
  constexpr double kTowards = 0.65;
  const auto mix = [&](int own, int base) {
    return static_cast<int>(std::lround(own + (base - own) * kTowards));
  };
  return QColor(mix(colour.red(), ground.red()), mix(colour.green(), ground.green()),
                mix(colour.blue(), ground.blue()));
}

QColor body(sheet::Insulation insulation) {
  using sheet::Insulation;
  switch (insulation) {
    case Insulation::rd: return "#DB3A3F";
    case Insulation::wh: return "#FFFFFF";
    case Insulation::ye: return "#F2C81E";
    case Insulation::gn: return "#157F45";
    case Insulation::bu: return "#2A62C4";
    case Insulation::og: return "#EE7F1A";
    case Insulation::bn: return "#5A371C";
    case Insulation::bk: return "#1A1A1A";
    case Insulation::gy: return "#8C9196";
    case Insulation::vt: return "#A463CE";
    case Insulation::pk: return "#F09ABF";
    case Insulation::tn: return "#CDAE82";
    case Insulation::unknown: break;
  }
  return {};
}

double contrast(const QColor& a, const QColor& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

QPainterPath severityOutline(Severity severity, const QRectF& box) {
  const double s = box.width() / 16;
  const QPointF c = box.center();
  QPainterPath path;
  switch (severity) {
    case Severity::stop:
      for (int i = 0; i < 8; ++i) {
        const double angle = M_PI / 8 + i * M_PI / 4;
        const QPointF p = c + 8 * s * QPointF(std::cos(angle), std::sin(angle));
        i == 0 ? path.moveTo(p) : path.lineTo(p);
      }
      path.closeSubpath();
      break;
    case Severity::fail:
      path.addPolygon(QPolygonF(
          {c + QPointF(0, -7 * s), c + QPointF(7 * s, 0), c + QPointF(0, 7 * s), c + QPointF(-7 * s, 0)}));
      path.closeSubpath();
      break;
    case Severity::warn:
      path.addPolygon(QPolygonF({{c.x(), box.top() + 1.5 * s},
                                 {box.right() - 1 * s, box.bottom() - 1.5 * s},
                                 {box.left() + 1 * s, box.bottom() - 1.5 * s}}));
      path.closeSubpath();
      break;
    case Severity::note: path.addEllipse(c, 6.5 * s, 6.5 * s); break;
    case Severity::right:
    case Severity::notMeasured: path.addRoundedRect(box.adjusted(2 * s, 2 * s, -2 * s, -2 * s), s, s); break;
  }
  return path;
}

void paintSeverity(QPainter& painter, Severity severity, const QRectF& box, const Theme& theme) {
  painter.save();
  const QColor colour = theme.severity(severity).text;
  const QPainterPath outline = severityOutline(severity, box);
  const double s = box.width() / 16;
  painter.setBrush(Qt::NoBrush);
  if (severity == Severity::stop || severity == Severity::fail) {
    painter.fillPath(outline, colour);
  } else {
    QPen pen(colour, 1.5 * s, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
    if (severity == Severity::notMeasured) pen.setDashPattern({2, 1.6});
    painter.setPen(pen);
    painter.drawPath(outline);
  }
  paintMark(painter, severity, box, colour, theme.panel);
  painter.restore();
}

QFont font(double px, bool bold) {
  QFont font(QStringLiteral("Noto Sans"));
  font.setPixelSize(static_cast<int>(std::lround(px)));
  font.setWeight(bold ? QFont::Bold : QFont::Normal);
  font.setHintingPreference(QFont::PreferNoHinting);
  return font;
}

}  // namespace ww::paint
