// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <nlohmann/json.hpp>

#include "quantity/json.h"

namespace ww::quantity {

namespace {

using nlohmann::json;

/// Line and column (both from 1) of a byte.
struct Place {
  size_t line = 1, column = 1;
};

Place placeOf(std::string_view text, size_t offset) {
  Place place;
  for (const char c : text.substr(0, std::min(offset, text.size()))) {
    ++place.column;
    if (c == '\n') place = {place.line + 1, 1};
  }
  return place;
}

void complainAt(std::string_view text, size_t offset, std::string key,
                std::vector<std::pair<std::string, std::string>> args, Problems& problems) {
  const Place place = placeOf(text, offset);
  args.emplace_back("line", std::to_string(place.line));
  args.emplace_back("column", std::to_string(place.column));
  problems.push_back({"", std::move(key), std::move(args)});
}

/// Offset of the bracket that opens one level too many; nothing when the text stays within the limit.
std::optional<size_t> tooDeepAt(std::string_view text) {
  int depth = 0;
  bool inText = false;
  for (size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (inText) {
      if (c == '\\') ++i;
      if (c == '"') inText = false;
    } else if (c == '"') {
      inText = true;
    } else if (c == '[' || c == '{') {
      if (++depth > kMaxJsonDepth) return i;
    } else if (c == ']' || c == '}') {
      --depth;
    }
  }
  return std::nullopt;
}

/// Walks the text once for what a built value no longer shows: keys that stand twice, and the place of an
/// error.
class Inspector : public json::json_sax_t {
 public:
  Inspector(std::string_view text, Problems& problems) : text_(text), problems_(problems) {}

  bool null() override { return scalar(); }
  bool boolean(bool) override { return scalar(); }
  bool number_integer(number_integer_t) override { return scalar(); }
  bool number_unsigned(number_unsigned_t) override { return scalar(); }
  bool number_float(number_float_t, const string_t&) override { return scalar(); }
  bool string(string_t&) override { return scalar(); }
  bool binary(binary_t&) override { return scalar(); }
  bool start_object(std::size_t) override { return open(false); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(true); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    Level& level = levels_.back();
    level.member = name;
    if (level.seen.insert(name).second) return true;
    if (enough(problems_)) return false;
    problems_.push_back({pointer(), "json-duplicate-key", {{"member", name}}});
    return true;
  }

  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::detail::exception&) override {
    constexpr size_t kShown = 40;
    std::string found;
    for (const char c : token.substr(token.size() > kShown ? token.size() - kShown : 0))
      found += static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) >= 0x7f ? '?' : c;
    complainAt(text_, position == 0 ? 0 : position - 1, "json-syntax", {{"found", found}}, problems_);
    return false;
  }

 private:
  struct Level {
    bool isList = false;
    size_t index = 0;
    std::string member;
    std::set<std::string> seen;
  };
  bool scalar() {
    if (!levels_.empty()) ++levels_.back().index;
    return true;
  }
  bool open(bool isList) {
    levels_.emplace_back().isList = isList;
    return true;
  }
  bool close() {
    levels_.pop_back();
    return scalar();
  }
  std::string pointer() const {
    std::string where;
    for (const Level& level : levels_)
      where = level.isList ? pointerTo(where, level.index) : pointerTo(where, level.member);
    return where;
  }

  std::string_view text_;
  Problems& problems_;
  std::vector<Level> levels_;
};

}  // namespace

Loaded<json> parseJson(std::string_view text, size_t maxBytes) {
  Problems problems;
  if (text.size() > maxBytes) {
    problems.push_back({"",
                        "json-too-large",
                        {{"bytes", std::to_string(text.size())}, {"limit", std::to_string(maxBytes)}}});
    return Loaded<json>::failed(std::move(problems));
  }
  if (const auto offset = tooDeepAt(text)) {
    complainAt(text, *offset, "json-too-deep", {{"limit", std::to_string(kMaxJsonDepth)}}, problems);
    return Loaded<json>::failed(std::move(problems));
  }
  Inspector inspector(text, problems);
  json::sax_parse(text, &inspector);
  if (!problems.empty()) return Loaded<json>::failed(std::move(problems));
  json value = json::parse(text, nullptr, false);
  if (value.is_discarded()) {
    complainAt(text, text.size(), "json-syntax", {{"found", ""}}, problems);
    return Loaded<json>::failed(std::move(problems));
  }
  return Loaded<json>::ok(std::move(value));
}

std::string pointerTo(std::string_view parent, std::string_view member) {
  std::string pointer(parent);
  pointer += '/';
  for (const char c : member) {
    if (c == '~')
      pointer += "~0";
    else if (c == '/')
      pointer += "~1";
    else
      pointer += c;
  }
  return pointer;
}

std::string pointerTo(std::string_view parent, size_t index) {
  return std::string(parent) + "/" + std::to_string(index);
}

}  // namespace ww::quantity
