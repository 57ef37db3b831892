// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/sighting.h"

#include <algorithm>

#include "quantity/text.h"

namespace ww::checklist {

namespace {

constexpr std::string_view kRuns = "runs ", kNothing = "nothing", kHum = ", hum";

}  // namespace

std::string print(const Sighting& sighting) {
  std::string text(kRuns.substr(0, kRuns.size() - 1));
  for (const std::string& duty : sighting.runs) text += " " + duty;
  if (sighting.runs.empty()) text += " " + std::string(kNothing);
  return sighting.hum ? text + std::string(kHum) : text;
}

std::optional<Sighting> parseSighting(std::string_view text) {
  if (!text.starts_with(kRuns)) return std::nullopt;
  text.remove_prefix(kRuns.size());
  Sighting sighting;
  if (text.ends_with(kHum)) {
    sighting.hum = true;
    text.remove_suffix(kHum.size());
  }
  if (text == kNothing) return sighting;
  for (const std::string_view duty : quantity::split(text, ' ')) {
    const bool word = !duty.empty() && std::ranges::all_of(duty, [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ':' ||
             c == '.';
    });
    if (!word) return std::nullopt;
    sighting.runs.emplace_back(duty);
  }
  return sighting;
}

Verdict judge(const Step& step, const Sighting& sighting) {
  const auto runs = [&](const std::string& duty) {
    return std::ranges::find(sighting.runs, duty) != sighting.runs.end();
  };
  const bool right =
      std::ranges::all_of(step.mustRun, runs) && std::ranges::none_of(step.mustNotRun, runs) && !sighting.hum;
  return right ? Verdict::good : Verdict::fault;
}

}  // namespace ww::checklist
