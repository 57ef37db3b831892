// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <QString>
#include <vector>

#include "paint/theme.h"
#include "recommend/cycling.h"
#include "wording/language.h"

class QPainter;

namespace ww::paint {

/// Starts an hour over load, as asked and as delivered under the off time.
struct CyclePicture {
  double most = 3;             ///< starts an hour asked for
  quantity::Seconds least;     ///< off time
  QString atHalf;              ///< told beside half load
  QString held;                ///< told where the off time holds back; empty where it never does
  QString halfLoad, fullLoad;  ///< words at the axis
};

/// The picture with its words.
CyclePicture cyclePicture(const wording::Language& language, double most, quantity::Seconds least);

/// Draws it into the box. Delivered is a solid line; asked, where it differs, is dashed: never colour alone.
void paintCycles(QPainter& painter, const QRectF& box, const CyclePicture& picture, const Theme& theme);

}  // namespace ww::paint
