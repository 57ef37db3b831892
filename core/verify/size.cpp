// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/size.h"

#include <algorithm>
#include <array>

#include "verify/check.h"
#include "verify/edit.h"

namespace ww::verify {

namespace {

constexpr std::array kAwg{24.0, 22.0, 20.0, 18.0, 16.0, 14.0};
constexpr int kMostMetres = 1000;
constexpr double kClass2VoltAmps = 100;

class Sizer {
 public:
  Sizer(const sheet::Sheet& sheet, const equipment::Library& library, operation::LineRange lines)
      : sheet_(sheet), library_(library), lines_(lines) {}

  Sizes all() {
    Sizes sizes;
    for (const sheet::Cable& cable : sheet_.cables)
      for (const double awg : kAwg) sizes.runs.push_back(longest(cable, {quantity::Gauge::System::awg, awg}));
    const auto solution = operation::solveSheet(sheet_, library_, lines_);
    for (const auto& device : solution.circuit->devices)
      if (const auto* part = std::get_if<equipment::TransformerPart>(&device.part))
        sizes.transformers.push_back(smallest(solution, device, *part));
    return sizes;
  }

 private:
  /// The first thing above a note that size has to do with; nothing where it does. Faults of the wiring are
  /// told by the check and would hide every size.
  std::optional<Limit> limitOf(const sheet::Sheet& sheet) const {
    const SheetCheck checked = check(sheet, operation::solveSheet(sheet, library_, lines_));
    constexpr std::array kRules{"pull-in-late",  "pull-in-never", "va-high",       "va-over",
                                "short-in-call", "short-at-rest", "supply-starves"};
    for (const Finding& finding : checked.findings) {
      if (std::find(kRules.begin(), kRules.end(), finding.rule) == kRules.end()) continue;
      Limit limit{finding.rule, {}, finding.places.empty() ? Place{} : finding.places.front()};
      limit.call = std::exchange(limit.place.call, {});
      return limit;
    }
    for (const CallVerdict& call : checked.calls)
      if (!call.ok) return Limit{"call-dead", call.call, {}};
    return std::nullopt;
  }

  sheet::Sheet with(sheet::Cable cable, const quantity::Gauge& gauge, int metres) const {
    sheet::Sheet changed = sheet_;
    cable.gauge = gauge;
    cable.length = quantity::Metres(metres);
    changed.cables.put(std::move(cable));
    return changed;
  }

  LongestRun longest(const sheet::Cable& cable, const quantity::Gauge& gauge) const {
    LongestRun run{cable.id, gauge, quantity::Metres(0), {}};
    int good = 0;
    int bad = kMostMetres + 1;
    while (bad - good > 1) {
      const int metres = (good + bad) / 2;
      auto limit = limitOf(with(cable, gauge, metres));
      if (limit) {
        bad = metres;
        run.limit = std::move(limit);
      } else {
        good = metres;
      }
    }
    run.longest = quantity::Metres(good);
    return run;
  }

  SmallestTransformer smallest(const operation::Solution& solution, const asbuilt::Device& device,
                               const equipment::TransformerPart& part) const {
    const auto& circuit = *solution.circuit;
    const auto& placed = circuit.units[size_t(device.unit)];
    const auto& element = circuit.element(device);
    SmallestTransformer found;
    found.unit = placed.id;
    found.part = element.id;
    found.present = part.rating;
    for (const auto& call : solution.calls)
      for (const auto& source : call.result.sources)
        if (source.unit == placed.id && source.part == element.id &&
            (found.call.empty() || source.shown > found.heaviest)) {
          found.heaviest = source.shown;
          found.call = call.result.call;
        }
    const auto* setting = placed.profile->setting(element.partSetting);
    if (setting == nullptr) return found;
    std::vector<std::pair<quantity::VoltAmps, std::string>> choices;
    for (const std::string& choice : setting->choices)
      if (const auto at = library_.parts.find(choice); at != library_.parts.end())
        if (const auto* one = std::get_if<equipment::TransformerPart>(&at->second);
            one != nullptr && one->rating.si() <= kClass2VoltAmps)
          choices.emplace_back(one->rating, choice);
    std::sort(choices.begin(), choices.end());
    for (const auto& [rating, choice] : choices) {
      auto limit = limitOf(edited(
          sheet_, Edit{.kind = Edit::Kind::part, .unit = placed.id, .key = setting->key, .value = choice}));
      if (limit) {
        found.limit = std::move(limit);
        continue;
      }
      found.smallest = choice;
      found.rating = rating;
      break;
    }
    return found;
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  operation::LineRange lines_;
};

}  // namespace

Sizes sizesOf(const sheet::Sheet& sheet, const equipment::Library& library, operation::LineRange lines) {
  return Sizer(sheet, library, lines).all();
}

}  // namespace ww::verify
