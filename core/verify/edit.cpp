// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/edit.h"

#include <algorithm>

namespace ww::verify {

namespace {

constexpr int kHardware = 10;

sheet::Landing& landing(sheet::Conductor& wire, char end) { return end == 'B' ? wire.endB : wire.endA; }

void put(sheet::Sheet& sheet, End end, sheet::Landing where) {
  const auto* row = sheet.conductors.find(end.conductor);
  if (row == nullptr) return;
  sheet::Conductor wire = *row;
  landing(wire, end.end) = std::move(where);
  sheet.conductors.put(std::move(wire));
}

void swapEnds(sheet::Sheet& sheet, const Edit& edit) {
  const auto* first = sheet.conductors.find(edit.end.conductor);
  const auto* second = sheet.conductors.find(edit.other.conductor);
  if (first == nullptr || second == nullptr) return;
  sheet::Landing one = landingOf(*first, edit.end.end);
  sheet::Landing two = landingOf(*second, edit.other.end);
  put(sheet, edit.end, std::move(two));
  put(sheet, edit.other, std::move(one));
}

void setValue(sheet::Sheet& sheet, const Edit& edit) {
  const auto* unit = sheet.units.find(edit.unit);
  // A value common to the sheet stays common where the unit has none of its own.
  const std::string own = unit == nullptr ? edit.key : unit->tag + "." + edit.key;
  const bool common = !sheet.settings.all().contains(own) && sheet.settings.all().contains(edit.key);
  sheet.settings.set(common ? edit.key : own, edit.value);
}

}  // namespace

const sheet::Landing& landingOf(const sheet::Conductor& wire, char end) {
  return end == 'B' ? wire.endB : wire.endA;
}

int costOf(const Edit& edit) {
  switch (edit.kind) {
    case Edit::Kind::move:
    case Edit::Kind::swap:
    case Edit::Kind::offJumper: return 1;
    case Edit::Kind::land:
    case Edit::Kind::jumper: return 2;
    case Edit::Kind::takeOff: return std::max(1, edit.ends);
    case Edit::Kind::setting: return edit.key.rfind("jumper", 0) == 0 ? 2 : 1;
    case Edit::Kind::part:
    case Edit::Kind::gauge:
    case Edit::Kind::exchange: return kHardware;
  }
  return kHardware;
}

sheet::Sheet edited(sheet::Sheet sheet, const Edit& edit) {
  switch (edit.kind) {
    case Edit::Kind::move: put(sheet, edit.end, edit.to); break;
    case Edit::Kind::swap: swapEnds(sheet, edit); break;
    case Edit::Kind::land:
      put(sheet, {edit.end.conductor, 'A'}, edit.from);
      put(sheet, {edit.end.conductor, 'B'}, edit.to);
      break;
    case Edit::Kind::takeOff:
      put(sheet, {edit.end.conductor, 'A'}, sheet::Capped{});
      put(sheet, {edit.end.conductor, 'B'}, sheet::Capped{});
      break;
    case Edit::Kind::jumper: {
      sheet::Conductor wire;
      wire.endA = edit.from;
      wire.endB = edit.to;
      sheet.addConductor(std::move(wire));
      break;
    }
    case Edit::Kind::offJumper: sheet.conductors.erase(edit.end.conductor); break;
    case Edit::Kind::setting:
    case Edit::Kind::part: setValue(sheet, edit); break;
    case Edit::Kind::gauge:
      if (const auto* row = sheet.cables.find(edit.cable)) {
        sheet::Cable cable = *row;
        cable.gauge = edit.gauge;
        sheet.cables.put(std::move(cable));
      }
      break;
    case Edit::Kind::exchange:
      if (const auto* row = sheet.units.find(edit.unit)) {
        sheet::Unit unit = *row;
        unit.profile = edit.value;
        sheet.units.put(std::move(unit));
      }
      break;
  }
  return sheet;
}

sheet::Sheet edited(sheet::Sheet sheet, const std::vector<Edit>& edits) {
  for (const Edit& edit : edits) sheet = edited(std::move(sheet), edit);
  return sheet;
}

bool namesPart(const equipment::Profile& profile, std::string_view key) {
  return std::any_of(profile.elements.begin(), profile.elements.end(),
                     [&](const equipment::Element& element) { return element.partSetting == key; });
}

}  // namespace ww::verify
