// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/picture_file.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>
#include <QSaveFile>
#include <QSvgGenerator>
#include <cmath>
#include <functional>

namespace ww::paint {

namespace {

constexpr int kMostPixels = 20000;  ///< along one side

using Paint = std::function<void(QPainter&)>;

QByteArray pngOf(const QRectF& bounds, const Paint& paint, const Theme& theme, double scale) {
  const QSize size(static_cast<int>(std::ceil(bounds.width() * scale)),
                   static_cast<int>(std::ceil(bounds.height() * scale)));
  if (size.isEmpty() || size.width() > kMostPixels || size.height() > kMostPixels) return {};
  QImage image(size, QImage::Format_RGB32);
  image.fill(theme.ground);
  image.setDotsPerMeterX(static_cast<int>(std::lround(scale * 96 / 0.0254)));
  image.setDotsPerMeterY(image.dotsPerMeterX());
  QPainter painter(&image);
  painter.scale(scale, scale);
  painter.translate(-bounds.topLeft());
  paint(painter);
  painter.end();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  return image.save(&buffer, "PNG") ? bytes : QByteArray();
}

QByteArray svgOf(const QRectF& bounds, const Paint& paint, const Theme& theme) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QSvgGenerator generator;
  generator.setOutputDevice(&buffer);
  generator.setResolution(96);
  generator.setSize(bounds.size().toSize());
  generator.setViewBox(QRectF(QPointF(0, 0), bounds.size()));
  QPainter painter(&generator);
  painter.fillRect(QRectF(QPointF(0, 0), bounds.size()), theme.ground);
  painter.translate(-bounds.topLeft());
  paint(painter);
  painter.end();
  return bytes;
}

std::optional<PictureError> write(const QString& path, PictureKind kind, const QRectF& bounds,
                                  const Paint& paint, const Theme& theme, double scale) {
  const QByteArray bytes =
      kind == PictureKind::svg ? svgOf(bounds, paint, theme) : pngOf(bounds, paint, theme, scale);
  if (bytes.isEmpty()) return PictureError{PictureFault::tooLarge, {}};
  QSaveFile file(path);
  if (!file.open(QIODevice::WriteOnly)) return PictureError{PictureFault::cannotOpen, file.errorString()};
  if (file.write(bytes) != bytes.size()) return PictureError{PictureFault::cannotWrite, file.errorString()};
  if (!file.commit()) return PictureError{PictureFault::cannotReplace, file.errorString()};
  return std::nullopt;
}

Paint painting(const drawing::Diagram& diagram, const drawing::Overlay* overlay, const Theme& theme) {
  return [&diagram, overlay, &theme](QPainter& painter) { paintDiagram(painter, diagram, overlay, theme); };
}

}  // namespace

QByteArray svgPicture(const drawing::Diagram& diagram, const drawing::Overlay* overlay, const Theme& theme) {
  return svgOf(pictureBounds(diagram, overlay), painting(diagram, overlay, theme), theme);
}

std::optional<PictureError> writePicture(const QString& path, PictureKind kind,
                                         const drawing::Diagram& diagram, const drawing::Overlay* overlay,
                                         const Theme& theme, double scale) {
  return write(path, kind, pictureBounds(diagram, overlay), painting(diagram, overlay, theme), theme, scale);
}

std::optional<PictureError> writePicture(const QString& path, PictureKind kind, const drawing::Inner& inner,
                                         const Theme& theme, double scale) {
  const QRectF bounds(inner.bounds.x, inner.bounds.y, inner.bounds.w, inner.bounds.h);
  return write(
      path, kind, bounds, [&](QPainter& painter) { paintInner(painter, inner, theme); }, theme, scale);
}

std::optional<PictureError> writePicture(const QString& path, PictureKind kind,
                                         const drawing::Timeline& timeline, const Theme& theme,
                                         double scale) {
  const QRectF bounds(timeline.bounds.x, timeline.bounds.y, timeline.bounds.w, timeline.bounds.h);
  return write(
      path, kind, bounds, [&](QPainter& painter) { paintTimeline(painter, timeline, theme); }, theme, scale);
}

}  // namespace ww::paint
