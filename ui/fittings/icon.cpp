// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/icon.h"

#include <QFile>
#include <QIconEngine>
#include <QPainter>
#include <QPixmap>
#include <QSvgRenderer>

// Resources of a static library stay out of the program unless they are asked for; the macro wants no
// namespace.
static void loadIcons() { Q_INIT_RESOURCE(icons); }

namespace ww::fittings {

namespace {

QByteArray sourceOf(const QString& name) {
  loadIcons();
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
  VectorIcon(QByteArray source, const paint::Theme& theme, const QColor& ink)
      : source_(std::move(source)), theme_(theme), ink_(ink) {}

  void paint(QPainter* painter, const QRect& box, QIcon::Mode mode, QIcon::State state) override {
    const QColor& colour = mode == QIcon::Disabled ? theme_.ink3 : state == QIcon::On ? theme_.accent : ink_;
    paintSvg(*painter, box, source_, colour);
  }
  QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
    QPixmap picture(size);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    paint(&painter, {{}, size}, mode, state);
    return picture;
  }
  QIconEngine* clone() const override { return new VectorIcon(source_, theme_, ink_); }

 private:
  QByteArray source_;
  const paint::Theme& theme_;
  QColor ink_;
};

}  // namespace

QIcon icon(const QString& name, const paint::Theme& theme) { return icon(name, theme, theme.ink); }

QIcon icon(const QString& name, const paint::Theme& theme, const QColor& ink) {
  return QIcon(new VectorIcon(sourceOf(name), theme, ink));
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
