// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/wishes.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "quantity/text.h"
#include "recommend/form.h"

namespace ww::recommend {

namespace {

using nlohmann::json;
using quantity::Fields;

constexpr size_t kMostChoices = 200;

/// A wish in words of the setting of the same name; nothing said where it is absent.
std::string wished(Fields& f, std::string_view key) {
  Fields::Words<std::string_view> words;
  for (const std::string_view word : formOf(key)->words) words.emplace_back(word, word);
  return std::string(f.wordOr(key, words, std::string_view()));
}

std::optional<double> figure(Fields& f, std::string_view member, std::string_view key) {
  const Form& form = *formOf(key);
  return f.numberIfAny(member, form.least, form.most);
}

Wishes readWishes(Fields f) {
  Wishes wishes;
  wishes.changeover = wished(f, "changeover");
  wishes.scale = wished(f, "scale");
  wishes.access = wished(f, "access");
  wishes.keeper = wished(f, "keeper");
  wishes.heatAt = figure(f, "heatAt", "heatMost");
  wishes.coolAt = figure(f, "coolAt", "coolLeast");
  wishes.heatMost = figure(f, "heatMost", "heatMost");
  wishes.coolLeast = figure(f, "coolLeast", "coolLeast");
  if (f.has("auxiliaryWhenMild")) wishes.auxiliaryWhenMild = f.truth("auxiliaryWhenMild");
  wishes.filterDays = figure(f, "filterDays", "filterDays");
  wishes.serviceMonths = figure(f, "serviceMonths", "serviceMonths");
  f.finish();
  return wishes;
}

void readChoice(Fields f, Control& control) {
  Choice choice{f.text("key", 80), f.text("value", 80), f.textOr("note", ""), f.textOr("by", ""),
                f.textOr("at", "", 40)};
  f.finish();
  if (choice.key.empty()) return;
  if (formOf(choice.key) == nullptr || choice.key == "cycles") {
    std::vector<std::string> known;
    for (const Form& form : forms()) known.emplace_back(form.key);
    f.complain("key", "unknown-word",
               {{"found", quantity::cited(choice.key)}, {"known", quantity::joined(known)}});
  } else if (const auto value = valueFor(choice.key, choice.value); !value) {
    f.complain("value", "setting-value",
               {{"setting", choice.key},
                {"value", quantity::cited(choice.value)},
                {"choices", choicesOf(choice.key)}});
  } else if (control.find(choice.key) != nullptr) {
    f.complain("key", "id-doubled", {{"id", choice.key}});
  } else {
    control.put(std::move(choice));
  }
}

}  // namespace

const Choice* Control::find(std::string_view key) const {
  const auto found =
      std::find_if(choices.begin(), choices.end(), [&](const Choice& c) { return c.key == key; });
  return found == choices.end() ? nullptr : &*found;
}

void Control::put(Choice choice) {
  drop(choice.key);
  const auto at = std::find_if(choices.begin(), choices.end(),
                               [&](const Choice& other) { return other.key > choice.key; });
  choices.insert(at, std::move(choice));
}

void Control::drop(std::string_view key) {
  std::erase_if(choices, [&](const Choice& c) { return c.key == key; });
}

Control readControl(const json& value, const std::string& where, quantity::Problems& problems) {
  Control control;
  Fields fields(value, where, problems);
  if (const json* wishes = fields.value("wishes", false))
    control.wishes = readWishes(Fields(*wishes, fields.whereOf("wishes"), problems));
  for (const auto& item : fields.listIfAny("choices", kMostChoices))
    readChoice(Fields(item.value, item.where, problems), control);
  fields.finish();
  return control;
}

json writeControl(const Control& control) {
  const Wishes& w = control.wishes;
  json wishes = json::object();
  const auto word = [&](const char* key, const std::string& text) {
    if (!text.empty()) wishes[key] = text;
  };
  const auto number = [&](const char* key, const std::optional<double>& figure) {
    if (figure) wishes[key] = *figure;
  };
  word("changeover", w.changeover);
  word("scale", w.scale);
  word("access", w.access);
  word("keeper", w.keeper);
  number("heatAt", w.heatAt);
  number("coolAt", w.coolAt);
  number("heatMost", w.heatMost);
  number("coolLeast", w.coolLeast);
  if (w.auxiliaryWhenMild) wishes["auxiliaryWhenMild"] = *w.auxiliaryWhenMild;
  number("filterDays", w.filterDays);
  number("serviceMonths", w.serviceMonths);
  json choices = json::array();
  for (const Choice& c : control.choices)
    choices.push_back({{"key", c.key}, {"value", c.value}, {"note", c.note}, {"by", c.by}, {"at", c.at}});
  return {{"wishes", wishes}, {"choices", choices}};
}

}  // namespace ww::recommend
