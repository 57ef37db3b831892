// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/strip.h"

#include <set>
#include <sstream>

namespace ww::drawing {

namespace {

using Neighbours = std::map<std::string, std::vector<double>>;

/// Terminals and splices that conductors land on, by unit.
struct Landed {
  std::map<sheet::UnitId, std::set<std::string>> terminals, splices;
  std::map<sheet::UnitId, Neighbours> partners;  ///< terminal -> ranks of the terminals at the other ends
};

double rankOf(const sheet::Sheet& sheet, const equipment::Library& library, const sheet::Landing& landing) {
  const auto* at = std::get_if<sheet::TerminalRef>(&landing);
  const sheet::Unit* unit = at ? sheet.units.find(at->unit) : nullptr;
  const equipment::Profile* profile = unit ? library.find(unit->profile) : nullptr;
  if (!profile) return -1;
  for (size_t i = 0; i < profile->terminals.size(); ++i)
    if (profile->terminals[i].id == at->terminal) return static_cast<double>(i);
  return -1;
}

Landed landed(const sheet::Sheet& sheet, const equipment::Library& library) {
  Landed found;
  for (const sheet::Conductor& wire : sheet.conductors)
    for (const bool isA : {true, false}) {
      const sheet::Landing& end = isA ? wire.endA : wire.endB;
      if (const auto* at = std::get_if<sheet::TerminalRef>(&end)) {
        found.terminals[at->unit].insert(at->terminal);
        const double rank = rankOf(sheet, library, isA ? wire.endB : wire.endA);
        if (rank >= 0) found.partners[at->unit][at->terminal].push_back(rank);
      } else if (const auto* splice = std::get_if<sheet::Splice>(&end)) {
        found.splices[splice->unit].insert(splice->name);
      }
    }
  return found;
}

/// Median order of the partners, for strips whose order is free; terminals without partners go last.
std::vector<equipment::Terminal> ordered(const equipment::Profile& profile, const Neighbours& partners) {
  std::vector<equipment::Terminal> terminals = profile.terminals;
  if (profile.fixedOrder) return terminals;
  const auto median = [&](const equipment::Terminal& terminal) {
    const auto at = partners.find(terminal.id);
    if (at == partners.end()) return 1e9;
    std::vector<double> ranks = at->second;
    std::sort(ranks.begin(), ranks.end());
    return ranks[(ranks.size() - 1) / 2];
  };
  std::stable_sort(terminals.begin(), terminals.end(),
                   [&](const auto& a, const auto& b) { return median(a) < median(b); });
  return terminals;
}

std::string titleOf(const sheet::Unit& unit, const equipment::Profile* profile, const std::string& language) {
  if (!unit.label.empty()) return unit.label;
  if (profile) {
    if (const auto at = profile->title.find(language); at != profile->title.end()) return at->second;
    if (const auto at = profile->title.find("en"); at != profile->title.end()) return at->second;
  }
  return unit.tag;
}

void addRow(Strip& strip, StripRow row, int posts, const TextMeasure& measure) {
  const double tall = posts > 3 ? std::max(kPitch, kTrackGap * posts) : kPitch;
  if (!row.splice) row.squareWidth = std::max(24.0, std::ceil(measure(row.printed, kTerminal).w) + 8);
  row.y = (strip.rows.empty() ? 4 : strip.height) + tall / 2;
  strip.height = row.y + tall / 2;
  strip.width = std::max(strip.width, row.squareWidth + 24);
  strip.rows.push_back(std::move(row));
}

Strip makeStrip(const sheet::Sheet& sheet, const sheet::Unit& unit, const equipment::Library& library,
                const Landed& found, const TextMeasure& measure, const std::string& language) {
  Strip strip;
  strip.unit = &unit;
  strip.profile = library.find(unit.profile);
  std::set<std::string> known;
  if (strip.profile) {
    const auto partners = found.partners.find(unit.id);
    for (const equipment::Terminal& terminal :
         ordered(*strip.profile, partners == found.partners.end() ? Neighbours{} : partners->second)) {
      known.insert(terminal.id);
      addRow(strip,
             {terminal.id, printedTerminal(sheet, unit, *strip.profile, terminal), terminal.purpose, false,
              false},
             terminal.posts, measure);
    }
  }
  if (const auto at = found.terminals.find(unit.id); at != found.terminals.end())
    for (const std::string& id : at->second)
      if (!known.count(id)) addRow(strip, {id, id, "", false, true}, 2, measure);
  if (const auto at = found.splices.find(unit.id); at != found.splices.end())
    for (const std::string& name : at->second) addRow(strip, {name, name, "", true, false}, 2, measure);
  strip.height = strip.rows.empty() ? 40 : strip.height + 4;
  strip.title = broken(titleOf(unit, strip.profile, language), kTitle, kWidestLine, measure);
  strip.place = broken(unit.place, kPlace, kWidestLine, measure);
  strip.above = 8 + kTitleLine * static_cast<double>(strip.title.size());
  strip.below = strip.place.empty() ? 0 : 8 + kPlaceLine * static_cast<double>(strip.place.size());
  return strip;
}

}  // namespace

int Strip::row(const std::string& id, bool splice) const {
  for (size_t i = 0; i < rows.size(); ++i)
    if (rows[i].id == id && rows[i].splice == splice) return static_cast<int>(i);
  return -1;
}

std::vector<std::string> broken(const std::string& text, TextStyle style, double widest,
                                const TextMeasure& measure) {
  std::vector<std::string> lines;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (!lines.empty() && measure(lines.back() + " " + word, style).w <= widest)
      lines.back() += " " + word;
    else
      lines.push_back(word);
  }
  return lines;
}

std::vector<Strip> strips(const sheet::Sheet& sheet, const equipment::Library& library,
                          const TextMeasure& measure, const std::string& language) {
  const Landed found = landed(sheet, library);
  std::vector<Strip> all;
  for (const sheet::Unit& unit : sheet.units)
    all.push_back(makeStrip(sheet, unit, library, found, measure, language));
  std::sort(all.begin(), all.end(), [](const Strip& a, const Strip& b) { return a.unit->id < b.unit->id; });
  return all;
}

std::string printedTerminal(const sheet::Sheet& sheet, const sheet::Unit& unit,
                            const equipment::Profile& profile, const equipment::Terminal& terminal) {
  if (terminal.printedSetting.empty()) return terminal.id;
  std::string value;
  if (const auto set = sheet.settings.find(unit.tag, terminal.printedSetting))
    value = *set;
  else if (const equipment::Setting* setting = profile.setting(terminal.printedSetting))
    value = setting->standard;
  const auto at = terminal.printedFor.find(value);
  return at == terminal.printedFor.end() ? terminal.id : at->second;
}

}  // namespace ww::drawing
