// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/conflicts.h"

#include <algorithm>
#include <cmath>

#include "quantity/text.h"
#include "recommend/cycling.h"
#include "verify/check.h"

namespace ww::recommend {

namespace {

using quantity::printNumber;
using verify::Severity;

constexpr double kCustomaryOff = 300;  // s, common practice, no source
constexpr double kSame = 1e-9;         // K: what is typed in one scale and compared in the other

class Search {
 public:
  Search(const Sheet& sheet, const Wishes& wishes, const Installation& found)
      : sheet_(sheet), wishes_(wishes), found_(found) {}

  std::vector<Conflict> conflicts() {
    lockOuts();
    valve();
    fan();
    setPoints();
    power();
    offTime();
    for (const Setting& setting : sheet_.settings)
      if (setting.key.starts_with("cycles.compressor")) rate(setting);
    unfitWishes();
    std::stable_sort(conflicts_.begin(), conflicts_.end(),
                     [](const auto& a, const auto& b) { return a.severity > b.severity; });
    return std::move(conflicts_);
  }

 private:
  void add(const char* rule, Severity severity, std::vector<std::string> keys, std::vector<Term> terms = {}) {
    conflicts_.push_back({rule, severity, std::move(keys), std::move(terms)});
  }
  /// The number a setting stands at; nothing without the setting, or where a word stands.
  std::optional<double> figure(std::string_view key) const {
    const Setting* setting = sheet_.find(key);
    return setting != nullptr ? quantity::parseNumber(setting->value) : std::nullopt;
  }
  bool says(std::string_view key, std::string_view word) const {
    const Setting* setting = sheet_.find(key);
    return setting != nullptr && setting->value == word;
  }
  static Term degrees(const char* name, double value) { return {name, "auxiliaryAbove", printNumber(value)}; }

  void lockOuts() {
    const auto above = figure("auxiliaryAbove"), below = figure("compressorBelow");
    if (above && below && verify::lockOutGap(*above, *below)) {
      add("lock-out-gap", Severity::stop, {"auxiliaryAbove", "compressorBelow"},
          {degrees("above", *above), degrees("below", *below)});
    } else if (above && found_.balancePoint && *above < *found_.balancePoint - kSame) {
      add("lock-out-short", Severity::warn, {"auxiliaryAbove"},
          {degrees("above", *above), degrees("balance", *found_.balancePoint)});
    }
  }

  void valve() {
    const Setting* sense = sheet_.find("rvSense");
    if (sense == nullptr || sense->value == sense->derived) return;
    add("valve-sense", Severity::fail, {"rvSense"},
        {{"set", "rvSense", sense->value}, {"unit", "rvSense", sense->derived}});
  }

  void fan() {
    const Setting* starter = sheet_.find("fanWithHeat");
    if (starter == nullptr || starter->value == starter->derived || found_.fan == FanStarter::unseen) return;
    if (starter->value == "control") return add("fan-starter", Severity::note, {"fanWithHeat"});
    add(found_.glows ? "fan-starter-element" : "fan-starter-none",
        found_.glows ? Severity::stop : Severity::fail, {"fanWithHeat"});
  }

  void setPoints() {
    const auto band = figure("deadBand"), most = figure("heatMost"), least = figure("coolLeast");
    const auto &heat = wishes_.heatAt, &cool = wishes_.coolAt;
    if (heat && cool && band && *cool - *heat < *band - kSame)
      add("set-points-cross", Severity::fail, {"wish.heatAt", "wish.coolAt", "deadBand"},
          {degrees("heat", *heat), degrees("cool", *cool), {"band", "deadBand", printNumber(*band)}});
    if (heat && most && *heat > *most + kSame)
      add("set-point-outside", Severity::warn, {"wish.heatAt", "heatMost"},
          {degrees("point", *heat), degrees("limit", *most)});
    if (cool && least && *cool < *least - kSame)
      add("set-point-outside", Severity::warn, {"wish.coolAt", "coolLeast"},
          {degrees("point", *cool), degrees("limit", *least)});
  }

  void power() {
    const Setting* fed = sheet_.find("power");
    if (fed != nullptr && fed->value != fed->derived)
      add("fed-otherwise", Severity::warn, {"power"},
          {{"set", "power", fed->value}, {"unit", "power", fed->derived}});
  }

  void offTime() {
    const auto off = figure("minimumOff");
    if (!off || std::max(*off, found_.ownOffSeconds.value_or(0)) >= kCustomaryOff) return;
    add("off-time-short", Severity::warn, {"minimumOff"},
        {{"off", "minimumOff", printNumber(*off)}, {"custom", "minimumOff", printNumber(kCustomaryOff)}});
  }

  void rate(const Setting& setting) {
    const auto most = quantity::parseNumber(setting.value);
    const auto off = figure("minimumOff");
    if (!most || !off) return;
    const quantity::Seconds least(std::max(*off, found_.ownOffSeconds.value_or(0)));
    const auto held = heldAbove(*most, least);
    if (!held) return;
    add("rate-held", Severity::note, {setting.key, "minimumOff"},
        {{"most", "cycles", setting.value},
         {"share", "share", printNumber(*held)},
         {"busiest", "starts", printNumber(busiest(*most, least).perHour)},
         {"off", "minimumOff", printNumber(least.si())}});
  }

  /// Wishes for what the equipment does not do.
  void unfitWishes() {
    const auto unfit = [&](bool said, const char* key) {
      if (said) add("wish-unfit", Severity::note, {std::string("wish.") + key});
    };
    unfit(!wishes_.changeover.empty() && sheet_.find("changeover") == nullptr, "changeover");
    unfit(wishes_.heatAt && !found_.heats(), "heatAt");
    unfit(wishes_.heatMost && !found_.heats(), "heatMost");
    unfit(wishes_.coolAt && !found_.cools(), "coolAt");
    unfit(wishes_.coolLeast && !found_.cools(), "coolLeast");
    unfit(wishes_.auxiliaryWhenMild && !found_.auxiliary(), "auxiliaryWhenMild");
  }

  const Sheet& sheet_;
  const Wishes& wishes_;
  const Installation& found_;
  std::vector<Conflict> conflicts_;
};

}  // namespace

std::vector<Conflict> conflictsOf(const Sheet& sheet, const Wishes& wishes, const Installation& found) {
  return Search(sheet, wishes, found).conflicts();
}

}  // namespace ww::recommend
