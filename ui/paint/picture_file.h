// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>
#include <QString>
#include <optional>

#include "paint/diagram_painter.h"
#include "paint/inner_painter.h"
#include "paint/timeline_painter.h"

namespace ww::paint {

enum class PictureKind { svg, png };

/// Why a picture was not written.
enum class PictureFault { cannotOpen, cannotWrite, cannotReplace, tooLarge };

struct PictureError {
  PictureFault fault = PictureFault::cannotWrite;
  QString detail;  ///< the system's words
};

/// A diagram with its overlay as SVG text; deterministic.
QByteArray svgPicture(const ww::drawing::Diagram& diagram, const ww::drawing::Overlay* overlay,
                      const Theme& theme);

/// Writes the picture beside the target and renames it over; PNG at `scale` device px per px. Nothing on
/// success.
std::optional<PictureError> writePicture(const QString& path, PictureKind kind,
                                         const ww::drawing::Diagram& diagram,
                                         const ww::drawing::Overlay* overlay, const Theme& theme,
                                         double scale = 1);
/// The same of a unit's inner circuit.
std::optional<PictureError> writePicture(const QString& path, PictureKind kind, const drawing::Inner& inner,
                                         const Theme& theme, double scale = 1);
/// The same of what moves in calls.
std::optional<PictureError> writePicture(const QString& path, PictureKind kind,
                                         const drawing::Timeline& timeline, const Theme& theme,
                                         double scale = 1);

}  // namespace ww::paint
