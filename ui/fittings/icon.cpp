// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/icon.h"

#include <QFile>
#include <QIconEngine>
#include <QPainter>
#include <QPixmap>
#include <QSvgRenderer>

namespace ww::fittings {

namespace {

QByteArray sourceOf(const QString& name) {
  QFile file(QStringLiteral(":/icons/%1.svg").arg(name));
  return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void paintSvg(QPainter& painter, const QRectF& box, QByteArray source, const QColor& colour) {
  QSvgRenderer renderer(source.replace("currentColor", colour.name().toLatin1()));
  renderer.setAspectRatioMode(Qt::KeepAspectRatio);
  renderer.render(&painter, box);
}

/// Draws the vector again for every size and state, so that nothing is scaled.
class VectorIcon : public QIconEngine {
 public:
  VectorIcon(QByteArray source, const paint::Theme& theme) : source_(std::move(source)), theme_(theme) {}

  void paint(QPainter* painter, const QRect& box, QIcon::Mode mode, QIcon::State state) override {
    const QColor& colour = mode == QIcon::Disabled ? theme_.ink3
                           : state == QIcon::On    ? theme_.accent
                                                   : theme_.ink;
    paintSvg(*painter, box, source_, colour);
  }
  QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
    QPixmap picture(size);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    paint(&painter, {{}, size}, mode, state);
    return picture;
  }
  QIconEngine* clone() const override { return new VectorIcon(source_, theme_); }

 private:
  QByteArray source_;
  const paint::Theme& theme_;
};

}  // namespace

QIcon icon(const QString& name, const paint::Theme& theme) {
  return QIcon(new VectorIcon(sourceOf(name), theme));
}

QPixmap iconPixmap(const QString& name, const QColor& colour, double px, double devicePixelRatio) {
  QPixmap picture(QSizeF(px, px).toSize() * devicePixelRatio);
  picture.setDevicePixelRatio(devicePixelRatio);
  picture.fill(Qt::transparent);
  QPainter painter(&picture);
  paintSvg(painter, {0, 0, px, px}, sourceOf(name), colour);
  return picture;
}

}  // namespace ww::fittings
