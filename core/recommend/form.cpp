// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/form.h"

#include <algorithm>

#include "quantity/text.h"

namespace ww::recommend {

const std::vector<Form>& forms() {
  static const std::vector<Form> all{
      {"system",
       Group::connected,
       {"none", "cooling", "heating", "heatCool", "heatPump", "dualFuel"},
       "",
       0,
       0},
      {"coolStages", Group::connected, {}, "count", 0, 4},
      {"heatStages", Group::connected, {}, "count", 0, 6},
      {"heatKind", Group::connected, {"none", "gas", "electric", "water", "gravity", "pump"}, "", 0, 0},
      {"rvSense", Group::connected, {"cooling", "heating"}, "", 0, 0},
      {"compressorStages", Group::connected, {"1", "2"}, "", 0, 0},
      {"fanWithHeat", Group::connected, {"equipment", "control"}, "", 0, 0},
      {"dualFuel", Group::connected, {"off", "outdoor"}, "", 0, 0},
      {"emergencyBy", Group::connected, {"W2", "E", "W2+E"}, "", 0, 0},
      {"stagedBy", Group::connected, {"control", "board"}, "", 0, 0},
      {"power", Group::connected, {"common", "battery", "series", "thermopile"}, "", 0, 0},
      {"minimumOff", Group::protect, {}, "s", 0, 1800},
      {"cycles", Group::protect, {}, "per-hour", 1, 12},
      {"auxiliaryAbove", Group::protect, {"never"}, "C", kLeastTemperature, kMostTemperature},
      {"compressorBelow", Group::protect, {"never"}, "C", kLeastTemperature, kMostTemperature},
      {"filterDays", Group::protect, {"never"}, "d", 7, 730},
      {"serviceMonths", Group::protect, {"never"}, "months", 1, 60},
      {"changeover", Group::comfort, {"occupant", "switchable", "automatic"}, "", 0, 0},
      {"heatMost", Group::comfort, {}, "C", 5, 40},
      {"coolLeast", Group::comfort, {}, "C", 5, 40},
      {"deadBand", Group::comfort, {}, "K", 0.5, 8},
      {"scale", Group::comfort, {"fahrenheit", "celsius"}, "", 0, 0},
      {"access", Group::access, {"everything", "temperature", "nothing"}, "", 0, 0},
      {"keeper", Group::access, {"owner", "manager"}, "", 0, 0},
  };
  return all;
}

const Form* formOf(std::string_view key) {
  const std::string_view shown = key.starts_with("cycles.") ? std::string_view("cycles") : key;
  const auto found =
      std::find_if(forms().begin(), forms().end(), [&](const Form& f) { return f.key == shown; });
  return found == forms().end() ? nullptr : &*found;
}

std::optional<std::string> valueFor(std::string_view key, std::string_view text) {
  const Form* form = formOf(key);
  if (form == nullptr) return std::nullopt;
  if (std::find(form->words.begin(), form->words.end(), text) != form->words.end()) return std::string(text);
  const auto number = form->unit.empty() ? std::nullopt : quantity::parseNumber(text);
  if (!number || *number < form->least || *number > form->most) return std::nullopt;
  return quantity::printNumber(*number);
}

std::string choicesOf(std::string_view key) {
  const Form* form = formOf(key);
  if (form == nullptr) return {};
  std::vector<std::string> choices(form->words.begin(), form->words.end());
  if (!form->unit.empty())
    choices.push_back(quantity::printNumber(form->least) + " - " + quantity::printNumber(form->most));
  return quantity::joined(choices);
}

}  // namespace ww::recommend
