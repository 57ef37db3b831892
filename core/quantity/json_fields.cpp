// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <nlohmann/json.hpp>

#include "quantity/json.h"
#include "quantity/text.h"

namespace ww::quantity {

namespace {

using nlohmann::json;

std::string kindOf(const json& value) {
  switch (value.type()) {
    case json::value_t::object: return "object";
    case json::value_t::array: return "list";
    case json::value_t::string: return "text";
    case json::value_t::boolean: return "true-or-false";
    case json::value_t::number_integer:
    case json::value_t::number_unsigned:
    case json::value_t::number_float: return "number";
    default: return "null";
  }
}

void wrongType(const json& value, const std::string& where, std::string want, Problems& problems) {
  problems.push_back({where, "wrong-type", {{"want", std::move(want)}, {"found", kindOf(value)}}});
}

bool countedWithin(const json& value, const std::string& where, Problems& problems, size_t maxItems) {
  if (value.size() <= maxItems) return true;
  problems.push_back({where,
                      "too-many-items",
                      {{"count", std::to_string(value.size())}, {"limit", std::to_string(maxItems)}}});
  return false;
}

}  // namespace

std::string cited(std::string_view text) {
  constexpr size_t kShown = 60;
  if (text.size() <= kShown) return std::string(text);
  size_t end = kShown;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) --end;  // not inside a character
  return std::string(text.substr(0, end)) + "...";
}

std::optional<std::string> textOf(const json& value, const std::string& where, Problems& problems,
                                  size_t maxBytes) {
  if (!value.is_string()) {
    wrongType(value, where, "text", problems);
    return std::nullopt;
  }
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() > maxBytes) {
    problems.push_back({where,
                        "text-too-long",
                        {{"bytes", std::to_string(text.size())}, {"limit", std::to_string(maxBytes)}}});
    return std::nullopt;
  }
  return text;
}

std::optional<double> numberOf(const json& value, const std::string& where, Problems& problems, double least,
                               double most) {
  if (!value.is_number()) {
    wrongType(value, where, "number", problems);
    return std::nullopt;
  }
  const auto number = value.get<double>();
  if (std::isfinite(number) && number >= least && number <= most) return number;
  problems.push_back(
      {where,
       "out-of-range",
       {{"value", printNumber(number)}, {"least", printNumber(least)}, {"most", printNumber(most)}}});
  return std::nullopt;
}

std::optional<bool> truthOf(const json& value, const std::string& where, Problems& problems) {
  if (value.is_boolean()) return value.get<bool>();
  wrongType(value, where, "true-or-false", problems);
  return std::nullopt;
}

std::vector<JsonItem> listItems(const json& value, const std::string& where, Problems& problems,
                                size_t maxItems) {
  std::vector<JsonItem> items;
  if (!value.is_array()) {
    wrongType(value, where, "list", problems);
    return items;
  }
  if (!countedWithin(value, where, problems, maxItems)) return items;
  for (size_t i = 0; i < value.size(); ++i) items.push_back({"", pointerTo(where, i), value[i]});
  return items;
}

std::vector<JsonItem> objectItems(const json& value, const std::string& where, Problems& problems,
                                  size_t maxItems) {
  std::vector<JsonItem> items;
  if (!value.is_object()) {
    wrongType(value, where, "object", problems);
    return items;
  }
  if (!countedWithin(value, where, problems, maxItems)) return items;
  for (auto at = value.begin(); at != value.end(); ++at)
    items.push_back({at.key(), pointerTo(where, at.key()), at.value()});
  return items;
}

Fields::Fields(const json& object, std::string where, Problems& problems)
    : where_(std::move(where)), problems_(problems) {
  if (object.is_object())
    object_ = &object;
  else
    wrongType(object, where_, "object", problems_);
}

const json* Fields::value(std::string_view member, bool required) {
  asked_.emplace(member);
  if (!object_) return nullptr;
  const auto at = object_->find(std::string(member));
  if (at != object_->end()) return &*at;
  if (required) problems_.push_back({where_, "missing-member", {{"member", std::string(member)}}});
  return nullptr;
}

bool Fields::has(std::string_view member) { return value(member, false) != nullptr; }

std::string Fields::text(std::string_view member, size_t maxBytes) {
  const json* found = value(member, true);
  return found ? textOf(*found, whereOf(member), problems_, maxBytes).value_or("") : "";
}

std::string Fields::textOr(std::string_view member, std::string fallback, size_t maxBytes) {
  const json* found = value(member, false);
  if (found)
    if (auto text = textOf(*found, whereOf(member), problems_, maxBytes)) return *std::move(text);
  return fallback;
}

double Fields::number(std::string_view member, double least, double most) {
  const json* found = value(member, true);
  return found ? numberOf(*found, whereOf(member), problems_, least, most).value_or(least) : least;
}

std::optional<double> Fields::numberIfAny(std::string_view member, double least, double most) {
  const json* found = value(member, false);
  return found ? numberOf(*found, whereOf(member), problems_, least, most) : std::nullopt;
}

double Fields::numberOr(std::string_view member, double fallback, double least, double most) {
  return numberIfAny(member, least, most).value_or(fallback);
}

std::optional<long long> Fields::wholeIn(std::string_view member, bool required, long long least,
                                         long long most) {
  const json* found = value(member, required);
  if (!found) return std::nullopt;
  const auto number =
      numberOf(*found, whereOf(member), problems_, static_cast<double>(least), static_cast<double>(most));
  if (!number) return std::nullopt;
  if (*number != std::floor(*number)) {
    wrongType(*found, whereOf(member), "whole-number", problems_);
    return std::nullopt;
  }
  return static_cast<long long>(*number);
}

long long Fields::whole(std::string_view member, long long least, long long most) {
  return wholeIn(member, true, least, most).value_or(least);
}

long long Fields::wholeOr(std::string_view member, long long fallback, long long least, long long most) {
  return wholeIn(member, false, least, most).value_or(fallback);
}

bool Fields::truth(std::string_view member) {
  const json* found = value(member, true);
  return found && truthOf(*found, whereOf(member), problems_).value_or(false);
}

bool Fields::truthOr(std::string_view member, bool fallback) {
  const json* found = value(member, false);
  return found ? truthOf(*found, whereOf(member), problems_).value_or(fallback) : fallback;
}

int Fields::indexOfWord(const json& found, std::string_view member,
                        const std::vector<std::string_view>& names) {
  const auto text = textOf(found, whereOf(member), problems_);
  if (!text) return -1;
  for (size_t i = 0; i < names.size(); ++i)
    if (names[i] == *text) return static_cast<int>(i);
  complain(
      member, "unknown-word",
      {{"found", cited(*text)}, {"known", joined(std::vector<std::string>(names.begin(), names.end()))}});
  return -1;
}

std::vector<JsonItem> Fields::items(std::string_view member, bool required, bool ofObject, size_t maxItems) {
  const json* found = value(member, required);
  if (!found) return {};
  return ofObject ? objectItems(*found, whereOf(member), problems_, maxItems)
                  : listItems(*found, whereOf(member), problems_, maxItems);
}

std::vector<JsonItem> Fields::list(std::string_view member, size_t maxItems) {
  return items(member, true, false, maxItems);
}
std::vector<JsonItem> Fields::listIfAny(std::string_view member, size_t maxItems) {
  return items(member, false, false, maxItems);
}
std::vector<JsonItem> Fields::members(std::string_view member, size_t maxItems) {
  return items(member, true, true, maxItems);
}
std::vector<JsonItem> Fields::membersIfAny(std::string_view member, size_t maxItems) {
  return items(member, false, true, maxItems);
}

std::vector<std::string> Fields::textItems(std::string_view member, bool required, size_t maxItems) {
  std::vector<std::string> texts;
  for (const JsonItem& item : items(member, required, false, maxItems))
    if (auto text = textOf(item.value, item.where, problems_)) texts.push_back(std::move(*text));
  return texts;
}

std::map<std::string, std::string> Fields::textMembers(std::string_view member, bool required,
                                                       size_t maxItems) {
  std::map<std::string, std::string> texts;
  for (const JsonItem& item : items(member, required, true, maxItems))
    if (auto text = textOf(item.value, item.where, problems_)) texts[item.name] = std::move(*text);
  return texts;
}

std::vector<std::string> Fields::texts(std::string_view member, size_t maxItems) {
  return textItems(member, true, maxItems);
}
std::vector<std::string> Fields::textsIfAny(std::string_view member, size_t maxItems) {
  return textItems(member, false, maxItems);
}
std::map<std::string, std::string> Fields::textMap(std::string_view member, size_t maxItems) {
  return textMembers(member, true, maxItems);
}
std::map<std::string, std::string> Fields::textMapIfAny(std::string_view member, size_t maxItems) {
  return textMembers(member, false, maxItems);
}

void Fields::complain(std::string_view member, std::string key,
                      std::vector<std::pair<std::string, std::string>> args) {
  problems_.push_back({whereOf(member), std::move(key), std::move(args)});
}

void Fields::finish() {
  if (!object_) return;
  for (auto at = object_->begin(); at != object_->end(); ++at) {
    if (asked_.contains(at.key())) continue;
    if (enough(problems_)) return;
    complain(at.key(), "unknown-member",
             {{"member", cited(at.key())},
              {"known", joined(std::vector<std::string>(asked_.begin(), asked_.end()))}});
  }
}

}  // namespace ww::quantity
