// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/cautions.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace ww::checklist {

namespace {

/// The steps that a caution concerns, the first that there is; at the unit itself or once for all.
struct Concern {
  std::string_view caution;
  std::array<std::string_view, 2> instructions;
  bool atUnit;
};
constexpr std::array kConcerns{
    Concern{"separate-disconnects", {"isolate-and-lock", ""}, false},
    Concern{"licensed-work", {"isolate-and-lock", ""}, false},
    Concern{"makers-instructions", {"isolate-and-lock", ""}, false},
    Concern{"isolate-lock-off", {"isolate-and-lock", ""}, false},
    Concern{"single-pole-contactor", {"prove-dead", ""}, true},
    Concern{"capacitors-charged", {"prove-dead", ""}, true},
    Concern{"door-switch-live", {"prove-dead", ""}, true},
    Concern{"prove-meter", {"prove-dead", ""}, true},
    Concern{"no-insulation-tester", {"open-fuse-lift-hot", "terminal-ohms"}, true},
    Concern{"live-cabinet", {"restore-power", ""}, false},
    Concern{"compressor-off-time", {"wait-off-time", ""}, false},
    Concern{"no-jumper-left", {"close-up", ""}, false},
    Concern{"class-2-apart", {"close-up", ""}, false},
};

template <class Which>
Step* firstOf(std::vector<Step>& steps, Which which) {
  const auto at = std::find_if(steps.begin(), steps.end(), which);
  return at == steps.end() ? nullptr : &*at;
}

Step& concerned(std::vector<Step>& steps, const std::string& caution, sheet::UnitId unit) {
  const auto known = std::find_if(kConcerns.begin(), kConcerns.end(),
                                  [&](const Concern& each) { return each.caution == caution; });
  if (known != kConcerns.end())
    for (const std::string_view instruction : known->instructions)
      if (Step* step = firstOf(steps,
                               [&](const Step& each) {
                                 return each.instruction == instruction &&
                                        (!known->atUnit || each.standAt == unit);
                               });
          step != nullptr)
        return *step;
  // The first step stands at some unit, but is for all of them.
  Step* step = firstOf(steps, [&](const Step& each) {
    return each.standAt == unit && each.instruction != "isolate-and-lock";
  });
  return step != nullptr ? *step : steps.front();
}

}  // namespace

void addProfileCautions(const asbuilt::AsBuilt& circuit, std::vector<Step>& steps) {
  if (steps.empty()) return;
  for (const auto& unit : circuit.units)
    for (const std::string& caution : unit.profile->cautions) {
      auto& told = concerned(steps, caution, unit.id).cautions;
      if (std::find(told.begin(), told.end(), caution) == told.end()) told.push_back(caution);
    }
}

}  // namespace ww::checklist
