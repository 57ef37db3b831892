// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/geometry.h"
#include "operation/solution.h"

namespace ww::drawing {

/// One thing that moves in a call, a row: its names at the left, a bar for each time it is on.
struct TimelineTrack {
  int unit = 0;      ///< index into AsBuilt::units
  std::string what;  ///< as in operation::Event
  Text name, unitName;
  struct Bar {
    Box box;
    bool fromBefore = false, goesOn = false;  ///< on when the call began; on where the picture ends
    friend bool operator==(const Bar&, const Bar&) = default;
  };
  std::vector<Bar> bars;
  friend bool operator==(const TimelineTrack&, const TimelineTrack&) = default;
};

/// A moment at which something moves, a line down through the rows with its seconds above.
struct TimelineMoment {
  double seconds = 0;  ///< from the start of the call; of the first of what moves within a tenth
  double x = 0;
  Text label;
  friend bool operator==(const TimelineMoment&, const TimelineMoment&) = default;
};

/// What moves in one call.
struct TimelineOfCall {
  Text title;
  Text nothing;  ///< said where nothing moves
  std::vector<TimelineMoment> moments;
  std::vector<TimelineTrack> tracks;  ///< in the order in which they first move
  Box chart;                          ///< behind the bars
  Text more;                          ///< said below it where more moves later than is drawn
  friend bool operator==(const TimelineOfCall&, const TimelineOfCall&) = default;
};

struct Timeline {
  std::vector<TimelineOfCall> calls;
  Text scale;  ///< that long waits are drawn short
  Box bounds;  ///< around everything, with a margin of 16
  friend bool operator==(const Timeline&, const Timeline&) = default;
};

/// The words of a picture, from the language's room. `event` is empty for what means nothing to a person.
struct TimelineWords {
  std::function<std::string(const operation::Event&)> event;
  std::function<std::string(sheet::UnitId)> unit;
  std::function<std::string(const std::string& call)> call;
  std::function<std::string(double seconds)> seconds;
  std::string nothing, more, scale;
};

/// Lays out what moves in these calls, one below the other. Seconds stand in order and not to scale: a wait
/// of t seconds is as wide as the logarithm of 1 + t, so that fractions of a second and ten minutes both
/// show. At most 40 moments of a call are drawn.
Timeline layoutTimeline(const std::vector<const operation::SolvedCall*>& calls,
                        const asbuilt::AsBuilt& circuit, const TimelineWords& words,
                        const TextMeasure& measure);

}  // namespace ww::drawing
