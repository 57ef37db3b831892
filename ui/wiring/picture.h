// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointF>
#include <QRectF>
#include <functional>
#include <optional>
#include <variant>
#include <vector>

#include "drawing/overlay.h"
#include "wiring/in_hand.h"

namespace ww::wiring {

/// A place on the diagram that the keyboard goes to and an end is dropped on: a screw, or an end in the air.
struct Spot {
  QPointF at;
  std::optional<sheet::TerminalRef> terminal;  ///< a screw's
  std::optional<sheet::Splice> splice;
  drawing::Side side = drawing::Side::right;
  std::optional<EndRef> hanging;  ///< a loose or capped end
  friend bool operator==(const Spot&, const Spot&) = default;
};

/// What lies under a point of the diagram.
struct Under {
  std::optional<size_t> spot;
  std::optional<sheet::ConductorId> conductor;
  std::optional<sheet::CableId> cable;
  std::optional<sheet::UnitId> unit;
};

enum class Towards { left, right, up, down };

/// The sheet in hand laid out, with the call looked at on top; units and conductors keep their places through
/// edits. Coordinates are the diagram's.
class Picture {
 public:
  explicit Picture(InHand& hand);

  /// Lays out again; cheap parts only where the units are the same.
  void takeSheet();
  void takeCall();
  /// Shows another sheet in place of the one in hand, what differs dashed; nothing ends it.
  void preview(const std::optional<sheet::Sheet>& sheet);
  bool previewing() const { return preview_.has_value(); }
  const std::set<sheet::ConductorId>& previewed() const { return changed_; }

  const drawing::Diagram& diagram() const { return diagram_; }
  const drawing::Overlay* overlay() const { return overlay_ ? &*overlay_ : nullptr; }
  QRectF bounds() const;
  const std::vector<Spot>& spots() const { return spots_; }
  /// The ends that lie on a spot's screw on its side, those of the same screw's other side after them.
  std::vector<EndRef> endsAt(const Spot& spot) const;
  /// The spot an end lies on; null when it is not drawn.
  const Spot* spotOf(EndRef end) const;
  std::optional<size_t> indexOf(const Spot& spot) const;
  /// The nearest spot in a direction; nothing when there is none.
  std::optional<size_t> next(QPointF from, Towards towards) const;
  /// `reach`: how far a finger may miss, in the diagram's px.
  Under under(QPointF point, double reach) const;
  /// Where an end comes out: its screw or its own end in the air.
  std::optional<QPointF> anchorOf(EndRef end) const;

 private:
  const sheet::Sheet& shown() const;
  void findSpots();

  InHand& hand_;
  drawing::TextMeasure measure_;
  drawing::Diagram diagram_;
  std::optional<drawing::Overlay> overlay_;
  std::optional<sheet::Sheet> preview_;
  std::set<sheet::ConductorId> changed_;
  std::map<sheet::UnitId, drawing::Kept> places_;
  std::map<sheet::ConductorId, double> slots_;
  std::vector<Spot> spots_;
};

}  // namespace ww::wiring
