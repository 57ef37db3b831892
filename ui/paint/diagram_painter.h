// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <set>

#include "drawing/diagram.h"
#include "drawing/overlay.h"
#include "paint/theme.h"

class QPainter;

namespace ww::paint {

/// What the surface knows beyond the sheet: who points at what, and what is compared.
struct DiagramState {
  std::optional<ww::sheet::ConductorId> hovered, focused;
  std::set<ww::sheet::ConductorId> selected;
  std::set<ww::sheet::ConductorId> foundOtherwise;  ///< zigzag under the tags
  std::set<ww::sheet::ConductorId> preview;         ///< drawn dashed
  double zoom = 1;  ///< of the painter; below 0.6 runs thin to 2 px and tags keep 11 px
};

/// Paints a diagram in its own px coordinates; place it with the painter's transformation. Without an overlay
/// every conductor is drawn in full; with one, what is at rest is dimmed and the overlay's rows are painted.
void paintDiagram(QPainter& painter, const ww::drawing::Diagram& diagram, const ww::drawing::Overlay* overlay,
                  const Theme& theme);
void paintDiagram(QPainter& painter, const ww::drawing::Diagram& diagram, const ww::drawing::Overlay* overlay,
                  const Theme& theme, const DiagramState& state);

/// A screw: a circle with a slot at 45 degrees, open when empty, filled when it holds an end, a bar more for
/// each further.
void paintScrew(QPainter& painter, const ww::drawing::Screw& screw, const Theme& theme);

/// What paintDiagram covers: the diagram's bounds and the overlay's.
QRectF pictureBounds(const ww::drawing::Diagram& diagram, const ww::drawing::Overlay* overlay);

/// Text widths of the program's font at a fixed 96 dpi. Needs a QGuiApplication.
ww::drawing::TextMeasure textMeasure();

}  // namespace ww::paint
