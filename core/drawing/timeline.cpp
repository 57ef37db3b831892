// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/timeline.h"

#include <map>

namespace ww::drawing {

namespace {

constexpr double kMargin = 16, kRow = 28, kBar = 14, kGap = 8;
constexpr double kTitle = 32, kAxis = 24;
constexpr double kLeast = 12, kPerDecade = 34;  // width of a wait
constexpr double kLead = 12, kTail = 40;        // before the first moment, after the last
constexpr size_t kMostMoments = 40;
constexpr double kTogether = 0.1;  // s; what moves within is one moment to a person
constexpr TextStyle kName{13, true}, kQuiet{13, false}, kSmall{11, false}, kHead{16, true};

struct Track {
  int unit = 0;
  std::string what, name;
  struct Span {
    size_t from = 0, to = 0;  ///< moments
    bool fromBefore = false, goesOn = true;
  };
  std::vector<Span> spans;
};

/// One call's events as tracks and moments, nothing placed yet.
class Reading {
 public:
  Reading(const operation::SolvedCall& call, const TimelineWords& words) {
    for (const operation::Event& event : call.events) {
      const std::string name = words.event(event);
      if (name.empty()) continue;
      const double seconds = double(event.at - call.start) / 1000;
      if (moments.empty() || seconds - moments.back() > kTogether) {
        if (moments.size() == kMostMoments) {
          cut = true;
          break;
        }
        moments.push_back(seconds);
      }
      move(event, name);
    }
  }

  std::vector<double> moments;
  std::vector<Track> tracks;
  bool cut = false;

 private:
  void move(const operation::Event& event, const std::string& name) {
    const size_t moment = moments.size() - 1;
    const auto [found, isNew] = index_.try_emplace({event.unit, event.name}, tracks.size());
    if (isNew) tracks.push_back({event.unit, event.name, name, {}});
    Track& track = tracks[found->second];
    const bool on = !track.spans.empty() && track.spans.back().goesOn;
    if (event.on && !on) track.spans.push_back({moment, moment, false, true});
    if (event.on) return;
    if (on) {
      track.spans.back().to = moment;
      track.spans.back().goesOn = false;
    } else if (isNew) {
      track.spans.push_back({0, moment, true, false});
    }
  }

  std::map<std::pair<int, std::string>, size_t> index_;
};

class Layout {
 public:
  Layout(const asbuilt::AsBuilt& circuit, const TimelineWords& words, const TextMeasure& measure)
      : circuit_(circuit), words_(words), measure_(measure) {}

  Timeline lay(const std::vector<const operation::SolvedCall*>& calls) {
    std::vector<Reading> readings;
    readings.reserve(calls.size());
    for (const auto* call : calls) readings.emplace_back(*call, words_);
    double names = 0, units = 0;
    for (const Reading& reading : readings)
      for (const Track& track : reading.tracks) {
        names = std::max(names, measure_(track.name, kName).w);
        units = std::max(units, measure_(unitName(track), kQuiet).w);
      }
    unitsAt_ = kMargin + names + kGap;
    chartAt_ = unitsAt_ + units + 2 * kGap;
    Timeline timeline;
    double y = kMargin;
    for (size_t i = 0; i < calls.size(); ++i) {
      timeline.calls.push_back(call(readings[i], words_.call(calls[i]->result.call), y));
      y = bottom_ + kRow / 2;
    }
    timeline.scale = text(words_.scale, kSmall, kMargin, y);
    timeline.bounds = {0, 0, std::max(right_, timeline.scale.box.right()) + kMargin,
                       timeline.scale.box.bottom() + kMargin};
    return timeline;
  }

 private:
  std::string unitName(const Track& track) const {
    return words_.unit(circuit_.units[size_t(track.unit)].id);
  }

  Text text(const std::string& words, TextStyle style, double x, double y, Align align = Align::left) {
    const Box size = measure_(words, style);
    if (align == Align::centre) x -= size.w / 2;
    right_ = std::max(right_, x + size.w);
    return {words, style, {x, y, size.w, size.h}, align};
  }
  /// In the middle of a row.
  Text inRow(const std::string& words, TextStyle style, double x, double top) {
    return text(words, style, x, top + (kRow - measure_(words, style).h) / 2);
  }

  TimelineOfCall call(const Reading& reading, const std::string& title, double y) {
    TimelineOfCall call;
    call.title = text(title, kHead, kMargin, y);
    y += kTitle;
    if (reading.tracks.empty()) {
      call.nothing = text(words_.nothing, kQuiet, kMargin, y);
      bottom_ = call.nothing.box.bottom();
      return call;
    }
    call.moments = moments(reading, y);
    const double top = y + kAxis;
    const double end = call.moments.back().x + kTail;
    call.chart = {chartAt_, top, end - chartAt_, kRow * double(reading.tracks.size())};
    right_ = std::max(right_, end);
    for (size_t i = 0; i < reading.tracks.size(); ++i)
      call.tracks.push_back(track(reading.tracks[i], call, top + kRow * double(i)));
    bottom_ = call.chart.bottom();
    if (reading.cut) {
      call.more = text(words_.more, kSmall, kMargin, bottom_ + kGap);
      bottom_ = call.more.box.bottom();
    }
    return call;
  }

  /// Each as far from the one before as its wait wants and as the labels need.
  std::vector<TimelineMoment> moments(const Reading& reading, double y) {
    std::vector<TimelineMoment> placed;
    double x = chartAt_ + kLead, before = 0, half = 0;
    for (const double seconds : reading.moments) {
      TimelineMoment moment{seconds, x, {}};
      const std::string label = words_.seconds(seconds);
      const double width = measure_(label, kSmall).w;
      if (placed.empty())
        x = std::max(x, chartAt_ + width / 2);
      else
        x += std::max({kLeast, kPerDecade * std::log10(1 + seconds - before), half + width / 2 + kGap / 2});
      moment.x = x;
      moment.label = text(label, kSmall, x, y + kGap / 2, Align::centre);
      placed.push_back(std::move(moment));
      before = seconds;
      half = width / 2;
    }
    return placed;
  }

  TimelineTrack track(const Track& track, const TimelineOfCall& call, double top) {
    TimelineTrack placed{track.unit,
                         track.what,
                         inRow(track.name, kName, kMargin, top),
                         inRow(unitName(track), kQuiet, unitsAt_, top),
                         {}};
    for (const Track::Span& span : track.spans) {
      const double from = span.fromBefore ? call.chart.x : call.moments[span.from].x;
      const double to = span.goesOn ? call.chart.right() : call.moments[span.to].x;
      // What comes and goes in one moment is still seen.
      placed.bars.push_back(
          {{from, top + (kRow - kBar) / 2, std::max(to - from, 2.0), kBar}, span.fromBefore, span.goesOn});
    }
    return placed;
  }

  const asbuilt::AsBuilt& circuit_;
  const TimelineWords& words_;
  const TextMeasure& measure_;
  double unitsAt_ = 0, chartAt_ = 0, right_ = 0, bottom_ = 0;
};

}  // namespace

Timeline layoutTimeline(const std::vector<const operation::SolvedCall*>& calls,
                        const asbuilt::AsBuilt& circuit, const TimelineWords& words,
                        const TextMeasure& measure) {
  return Layout(circuit, words, measure).lay(calls);
}

}  // namespace ww::drawing
