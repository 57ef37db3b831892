// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/inner_painter.h"

#include <QPainter>
#include <QPainterPath>

#include "paint/text_painter.h"

namespace ww::paint {

namespace {

constexpr double kWire = 1.5, kBody = 2;

QPointF q(const drawing::Point& point) { return {point.x, point.y}; }
QRectF q(const drawing::Box& box) { return {box.x, box.y, box.w, box.h}; }

/// Strokes one symbol about the middle of its box; leads come in at the left and right edge.
class Symbols {
 public:
  Symbols(QPainter& painter, const Theme& theme) : painter_(painter), theme_(theme) {}

  /// `turned`: its side a lies right, which the forms with an arrow show.
  void paint(drawing::Symbol symbol, const QRectF& box, bool turned) {
    box_ = box;
    middle_ = box.center();
    way_ = turned ? -1 : 1;
    painter_.setPen(QPen(theme_.ink, kBody, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter_.setBrush(Qt::NoBrush);
    using drawing::Symbol;
    switch (symbol) {
      case Symbol::transformer: return transformer();
      case Symbol::fuse: body(28, 11); return line({box_.left(), middle_.y()}, {box_.right(), middle_.y()});
      case Symbol::coil: return body(16, 26);
      case Symbol::thermal: return thermal();
      case Symbol::input: return input();
      case Symbol::makeContact: return contact(false);
      case Symbol::breakContact: return contact(true);
      case Symbol::electronicContact: return electronic();
      case Symbol::supply: return supply();
      case Symbol::resistor: return body(28, 11);
      case Symbol::sensor: return sensor();
      case Symbol::pile: return pile();
      case Symbol::diode: leads(8); return arrow(-8);
      case Symbol::rectifiedCoil: return rectifiedCoil();
    }
  }

 private:
  void line(const QPointF& from, const QPointF& to) { painter_.drawLine(from, to); }
  QPointF at(double dx, double dy) const { return middle_ + QPointF(dx, dy); }

  /// The wire up to where the symbol's own strokes begin, on both sides.
  void leads(double half) {
    const QPen body = painter_.pen();
    painter_.setPen(QPen(theme_.ink, kWire, Qt::SolidLine, Qt::SquareCap));
    line({box_.left(), middle_.y()}, at(-half, 0));
    line(at(half, 0), {box_.right(), middle_.y()});
    painter_.setPen(body);
  }
  void body(double width, double height) {
    leads(width / 2);
    painter_.setBrush(theme_.panel);
    painter_.drawRect(QRectF(middle_.x() - width / 2, middle_.y() - height / 2, width, height));
  }

  /// Two windings beside their core; the secondary carries the leads.
  void transformer() {
    leads(18);
    QPainterPath low, high;
    low.moveTo(at(-18, 0));
    high.moveTo(at(-18, -8));
    for (int turn = 0; turn < 3; ++turn) {
      low.arcTo(QRectF(middle_.x() - 18 + 12 * turn, middle_.y() - 1, 12, 12), 180, 180);
      high.arcTo(QRectF(middle_.x() - 18 + 12 * turn, middle_.y() - 14, 12, 12), 180, -180);
    }
    painter_.drawPath(low.translated(0, -1));
    painter_.drawPath(high);
    line(at(-18, -4.5), at(18, -4.5));
  }

  /// A coil with the bracket of one that works by heat.
  void thermal() {
    body(18, 26);
    QPainterPath bracket;
    bracket.moveTo(at(0, -13));
    bracket.lineTo(at(0, -5));
    bracket.lineTo(at(5, -5));
    bracket.lineTo(at(5, 5));
    bracket.lineTo(at(0, 5));
    bracket.lineTo(at(0, 13));
    painter_.drawPath(bracket);
  }

  /// A load with the arrow of what is read there.
  void input() {
    body(28, 11);
    line(at(-6, 13), at(6, 13));
    line(at(2, 10), at(6, 13));
    line(at(2, 16), at(6, 13));
  }

  void contact(bool closedAtRest) {
    leads(14);
    if (closedAtRest) {
      // A break contact: the fixed side reaches up to the blade.
      line(at(14, 0), at(14, -9));
      line(at(-14, 0), at(16, -7.5));
    } else {
      line(at(-14, 0), at(13, -11));
    }
  }

  /// A make contact in the frame of what switches without moving.
  void electronic() {
    leads(18);
    painter_.setBrush(theme_.panel);
    painter_.drawRect(QRectF(middle_.x() - 18, middle_.y() - 13, 36, 26));
    line(at(-18, 3), at(-9, 3));
    line(at(9, 3), at(18, 3));
    line(at(-9, 3), at(8, -7));
    line(at(-18, 0), at(-18, 3));
    line(at(18, 0), at(18, 3));
  }

  /// A converter: alternating in, direct out.
  void supply() {
    body(32, 26);
    line(at(-16, 13), at(16, -13));
    QPainterPath wave;
    wave.moveTo(at(-12, -5));
    wave.quadTo(at(-9, -10), at(-6, -5));
    wave.quadTo(at(-3, 0), at(0, -5));
    painter_.drawPath(wave);
    line(at(3, 4), at(12, 4));
    line(at(3, 8), at(12, 8));
  }

  void sensor() {
    body(28, 11);
    line(at(-14, 12), at(-9, 12));
    line(at(-9, 12), at(9, -12));
  }

  void pile() {
    leads(4);
    line(at(-4, -13), at(-4, 13));
    painter_.setPen(QPen(theme_.ink, 2 * kBody, Qt::SolidLine, Qt::FlatCap));
    line(at(4, -7), at(4, 7));
  }

  /// The triangle and bar of a diode, 16 wide, from there along the way its current goes.
  void arrow(double from) {
    painter_.setBrush(theme_.panel);
    const double tip = way_ * (from + 16);
    painter_.drawPolygon(QPolygonF({at(way_ * from, -8), at(way_ * from, 8), at(tip, 0)}));
    line(at(tip, -8), at(tip, 8));
  }

  void rectifiedCoil() {
    leads(20);
    line(at(way_ * -4, 0), at(way_ * 4, 0));
    arrow(-20);
    painter_.drawRect(QRectF(middle_.x() + (way_ > 0 ? 4 : -20), middle_.y() - 13, 16, 26));
  }

  QPainter& painter_;
  const Theme& theme_;
  QRectF box_;
  QPointF middle_;
  double way_ = 1;
};

}  // namespace

void paintInner(QPainter& painter, const drawing::Inner& inner, const Theme& theme,
                const std::string& chosen) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(theme.ink, kWire, Qt::SolidLine, Qt::SquareCap));
  for (const drawing::InnerWire& wire : inner.wires) painter.drawLine(q(wire.from), q(wire.to));
  painter.setPen(Qt::NoPen);
  painter.setBrush(theme.ink);
  for (const drawing::Point& joint : inner.joints) painter.drawEllipse(q(joint), 3, 3);
  Symbols symbols(painter, theme);
  for (const drawing::InnerElement& element : inner.elements) {
    symbols.paint(element.symbol, q(element.box), element.from.x > element.to.x);
    paintText(painter, element.name, theme.ink);
    paintText(painter, element.rating, theme.ink2);
  }
  for (const drawing::InnerTerminal& terminal : inner.terminals) {
    painter.setPen(QPen(theme.controlEdge, 1));
    painter.setBrush(theme.panel);
    painter.drawRoundedRect(q(terminal.square), 2, 2);
    paintText(painter, terminal.label, theme.ink);
  }
  painter.setPen(QPen(theme.accent, 2));
  painter.setBrush(Qt::NoBrush);
  for (const drawing::InnerElement& element : inner.elements)
    if (element.id == chosen) painter.drawRoundedRect(q(element.box).adjusted(-2, -2, 2, 2), 3, 3);
  painter.restore();
}

}  // namespace ww::paint
