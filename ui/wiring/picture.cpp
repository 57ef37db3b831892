// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/picture.h"

#include <cmath>
#include <limits>

#include "paint/diagram_painter.h"
#include "paint/row_words.h"

namespace ww::wiring {

namespace {

QPointF q(const drawing::Point& p) { return {p.x, p.y}; }
QRectF q(const drawing::Box& b) { return {b.x, b.y, b.w, b.h}; }

double distance(QPointF a, QPointF b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

/// From a point to a stretch that runs level or upright.
double toSegment(QPointF p, QPointF a, QPointF b) {
  const double x = std::clamp(p.x(), std::min(a.x(), b.x()), std::max(a.x(), b.x()));
  const double y = std::clamp(p.y(), std::min(a.y(), b.y()), std::max(a.y(), b.y()));
  return distance(p, {x, y});
}

/// Widths of texts, each measured once: the same words stand on every layout.
drawing::TextMeasure remembered(drawing::TextMeasure measure) {
  using Key = std::tuple<std::string, double, bool>;
  auto known = std::make_shared<std::map<Key, drawing::Box>>();
  return [measure = std::move(measure), known](std::string_view text, drawing::TextStyle style) {
    const auto [at, fresh] = known->try_emplace(Key(text, style.px, style.bold));
    if (fresh) at->second = measure(text, style);
    return at->second;
  };
}

}  // namespace

Picture::Picture(InHand& hand) : hand_(hand), measure_(remembered(paint::textMeasure())) {}

const sheet::Sheet& Picture::shown() const { return preview_ ? *preview_ : hand_.sheet(); }

void Picture::takeSheet() {
  const auto& language = hand_.around().language;
  drawing::LayoutOptions options;
  options.language = language.code() == u"es" ? "es" : "en";
  options.lengths = language.measuresInFeet() ? drawing::LengthUnit::feet : drawing::LengthUnit::metres;
  options.kept = places_;
  options.keptSlots = slots_;
  const auto& units = shown().units;
  const bool same =
      units.size() == places_.size() &&
      std::all_of(units.begin(), units.end(), [&](const auto& u) { return places_.count(u.id); });
  if (!same) options.kept.clear(), options.keptSlots.clear();
  diagram_ = drawing::layout(shown(), hand_.around().library, measure_, options);
  if (!preview_) {
    places_ = drawing::places(diagram_);
    slots_ = drawing::slots(diagram_);
  }
  findSpots();
  takeCall();
}

void Picture::takeCall() {
  overlay_.reset();
  const session::OpenJob* job = hand_.job();
  const operation::SolvedCall* solved = job ? job->solution().call(job->call()) : nullptr;
  if (!solved) return;
  const operation::CallDemand* demand = nullptr;
  for (const auto& entry : job->solution().table)
    if (entry.call == job->call()) demand = &entry;
  overlay_ = drawing::overlay(diagram_, shown(), hand_.around().library, solved->result, demand, measure_,
                              paint::rowWords(hand_.around().language));
}

void Picture::preview(const std::optional<sheet::Sheet>& sheet) {
  preview_ = sheet;
  changed_.clear();
  if (preview_)
    for (const sheet::Conductor& wire : preview_->conductors) {
      const sheet::Conductor* now = hand_.sheet().conductors.find(wire.id);
      if (!now || *now != wire) changed_.insert(wire.id);
    }
  takeSheet();
}

QRectF Picture::bounds() const { return paint::pictureBounds(diagram_, overlay()); }

void Picture::findSpots() {
  spots_.clear();
  for (const drawing::Plate& plate : diagram_.plates)
    for (const drawing::Screw& screw : plate.screws) {
      Spot spot;
      spot.at = q(screw.centre);
      spot.side = screw.side;
      if (screw.splice)
        spot.splice = sheet::Splice{plate.unit, screw.terminal};
      else
        spot.terminal = sheet::TerminalRef{plate.unit, screw.terminal};
      spots_.push_back(spot);
    }
  for (const drawing::EndMark& end : diagram_.ends) {
    Spot spot;
    spot.at = q(end.at);
    spot.hanging = EndRef{end.conductor, end.part != drawing::RunPart::endB};
    spots_.push_back(spot);
  }
}

std::optional<QPointF> Picture::anchorOf(EndRef end) const {
  const drawing::Wire* wire = diagram_.wire(end.conductor);
  if (!wire) return std::nullopt;
  for (const drawing::Run& run : wire->runs) {
    if (run.points.empty()) continue;
    if (end.atA && run.part != drawing::RunPart::endB) return q(run.points.front());
    if (!end.atA && run.part != drawing::RunPart::endA) return q(run.points.back());
  }
  return std::nullopt;
}

std::vector<EndRef> Picture::endsAt(const Spot& spot) const {
  if (spot.hanging) return {*spot.hanging};
  std::vector<EndRef> near, far;
  for (const sheet::Conductor& wire : shown().conductors)
    for (const bool atA : {true, false}) {
      const sheet::Landing& landing = atA ? wire.endA : wire.endB;
      const auto* terminal = std::get_if<sheet::TerminalRef>(&landing);
      const auto* splice = std::get_if<sheet::Splice>(&landing);
      const bool here = (terminal && spot.terminal == *terminal) || (splice && spot.splice == *splice);
      if (!here) continue;
      const auto anchor = anchorOf({wire.id, atA});
      (anchor && std::abs(anchor->x() - spot.at.x()) < 12 ? near : far).push_back({wire.id, atA});
    }
  near.insert(near.end(), far.begin(), far.end());
  return near;
}

const Spot* Picture::spotOf(EndRef end) const {
  const auto anchor = anchorOf(end);
  const Spot* best = nullptr;
  for (const Spot& spot : spots_) {
    if (spot.hanging == end) return &spot;
    const auto ends = spot.hanging ? std::vector<EndRef>() : endsAt(spot);
    if (std::find(ends.begin(), ends.end(), end) == ends.end()) continue;
    if (!best || (anchor && distance(*anchor, spot.at) < distance(*anchor, best->at))) best = &spot;
  }
  return best;
}

std::optional<size_t> Picture::indexOf(const Spot& spot) const {
  for (size_t i = 0; i < spots_.size(); ++i)
    if (spots_[i].terminal == spot.terminal && spots_[i].splice == spot.splice &&
        spots_[i].hanging == spot.hanging && (spots_[i].hanging || spots_[i].side == spot.side))
      return i;
  return std::nullopt;
}

std::optional<size_t> Picture::next(QPointF from, Towards towards) const {
  std::optional<size_t> best;
  double least = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i < spots_.size(); ++i) {
    const QPointF d = spots_[i].at - from;
    const bool level = towards == Towards::left || towards == Towards::right;
    const double sign = towards == Towards::left || towards == Towards::up ? -1 : 1;
    const double along = sign * (level ? d.x() : d.y()), across = std::abs(level ? d.y() : d.x());
    if (along < 1 || (level && across > 3 * along) || (!level && across > 4 * along)) continue;
    if (const double cost = along + 3 * across; cost < least) least = cost, best = i;
  }
  return best;
}

Under Picture::under(QPointF point, double reach) const {
  Under found;
  double nearest = reach;
  for (size_t i = 0; i < spots_.size(); ++i)
    if (const double d = distance(point, spots_[i].at); d <= nearest) nearest = d, found.spot = i;
  if (found.spot) return found;
  for (const drawing::Tag& tag : diagram_.tags)
    if (q(tag.label.box).adjusted(-4, -6, 4, 6).contains(point)) {
      found.conductor = tag.conductor;
      return found;
    }
  for (const drawing::Sheath& sheath : diagram_.sheaths)
    if (q(sheath.box).contains(point)) {
      found.cable = sheath.cable;
      return found;
    }
  double closest = std::min(reach, 9.0);
  for (const drawing::Wire& wire : diagram_.wires)
    for (const drawing::Run& run : wire.runs)
      for (size_t i = 0; i + 1 < run.points.size(); ++i)
        if (const double d = toSegment(point, q(run.points[i]), q(run.points[i + 1])); d < closest)
          closest = d, found.conductor = wire.conductor;
  if (found.conductor) return found;
  for (const drawing::Plate& plate : diagram_.plates) {
    QRectF box = q(plate.box);
    for (const drawing::Text& line : plate.title) box |= q(line.box);
    if (box.contains(point)) found.unit = plate.unit;
  }
  return found;
}

}  // namespace ww::wiring
