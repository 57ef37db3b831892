// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "quantity/loaded.h"

namespace ww::quantity {

inline constexpr size_t kMaxJsonBytes = size_t{1}
                                        << 20;  ///< what a file may weigh unless its reader says otherwise
inline constexpr int kMaxJsonDepth = 64;        ///< lists and objects inside each other
inline constexpr size_t kMaxJsonText = 4096;    ///< bytes of one text unless its reader says otherwise

inline constexpr size_t kMostProblems = 1'000;  ///< beyond it a list helps nobody: "more-problems" closes it

/// True once the list is so long that reading on is no use; adds the closing "more-problems" {count} the
/// first time.
inline bool enough(Problems& problems) {
  if (problems.size() < kMostProblems) return false;
  if (problems.back().key != "more-problems")
    problems.push_back({"", "more-problems", {{"count", std::to_string(problems.size())}}});
  return true;
}

/// Parses JSON text that came from outside. Size and depth are bounded by a scan of the bytes before any
/// parsing; duplicate keys are refused. Problems: "json-too-large" {bytes, limit}, "json-too-deep" {limit,
/// line, column}, "json-syntax" {line, column, found}, "json-duplicate-key" {member} at the member's pointer.
Loaded<nlohmann::json> parseJson(std::string_view text, size_t maxBytes = kMaxJsonBytes);

/// JSON pointer (RFC 6901) of a member or a list item below `parent`.
std::string pointerTo(std::string_view parent, std::string_view member);
std::string pointerTo(std::string_view parent, size_t index);

/// A foreign text as it is quoted in a complaint: at most 60 bytes, whole characters, "..." where it was cut.
std::string cited(std::string_view text);

/// A value of a list or object, with its pointer; `name` is the member's name, empty in a list.
struct JsonItem {
  std::string name;
  std::string where;
  std::reference_wrapper<const nlohmann::json> value;
};

/// Reports `value` as "wrong-type" {want, found} unless it is what the function asks for. Words for `want`:
/// "text", "number", "whole-number", "true-or-false", "list", "object".
std::optional<std::string> textOf(const nlohmann::json& value, const std::string& where, Problems& problems,
                                  size_t maxBytes = kMaxJsonText);
std::optional<double> numberOf(const nlohmann::json& value, const std::string& where, Problems& problems,
                               double least, double most);
std::optional<bool> truthOf(const nlohmann::json& value, const std::string& where, Problems& problems);

/// The members of one JSON object, read by name. Every complaint lands in `problems` with the member's
/// pointer and reading goes on, so that one pass finds everything. A required member that is absent is
/// "missing-member" {member}; a member nobody asked for is "unknown-member" {member, known}, said by
/// finish(). Further problems: "wrong-type" {want, found}, "out-of-range" {value, least, most},
/// "unknown-word" {found, known}, "text-too-long" {bytes, limit}, "too-many-items" {count, limit}.
class Fields {
 public:
  /// `object` and `problems` must outlive the reader. Anything but an object is "wrong-type" and reads as
  /// empty.
  Fields(const nlohmann::json& object, std::string where, Problems& problems);

  const std::string& where() const { return where_; }
  std::string whereOf(std::string_view member) const { return pointerTo(where_, member); }
  bool isObject() const { return object_ != nullptr; }
  /// True when the member stands there (null counts as there, and is then the wrong type). Counts as asked
  /// for.
  bool has(std::string_view member);

  std::string text(std::string_view member, size_t maxBytes = kMaxJsonText);
  std::string textOr(std::string_view member, std::string fallback, size_t maxBytes = kMaxJsonText);
  /// Finite number within [least, most].
  double number(std::string_view member, double least, double most);
  double numberOr(std::string_view member, double fallback, double least, double most);
  std::optional<double> numberIfAny(std::string_view member, double least, double most);
  long long whole(std::string_view member, long long least, long long most);
  long long wholeOr(std::string_view member, long long fallback, long long least, long long most);
  bool truth(std::string_view member);
  bool truthOr(std::string_view member, bool fallback);

  /// Text that must be one of the words; the first word's meaning stands in after a complaint.
  template <class Enum>
  using Words = std::vector<std::pair<std::string_view, Enum>>;
  template <class Enum>
  Enum word(std::string_view member, const Words<Enum>& words) {
    return find(member, true, words, words.front().second);
  }
  template <class Enum>
  Enum wordOr(std::string_view member, const Words<Enum>& words, Enum fallback) {
    return find(member, false, words, fallback);
  }

  /// Items of a list; empty after a complaint, and when an optional one is absent.
  std::vector<JsonItem> list(std::string_view member, size_t maxItems);
  std::vector<JsonItem> listIfAny(std::string_view member, size_t maxItems);
  /// Members of an object whose names are free (ids, languages).
  std::vector<JsonItem> members(std::string_view member, size_t maxItems);
  std::vector<JsonItem> membersIfAny(std::string_view member, size_t maxItems);
  std::vector<std::string> texts(std::string_view member, size_t maxItems);
  std::vector<std::string> textsIfAny(std::string_view member, size_t maxItems);
  /// Free-named texts, e.g. language -> words.
  std::map<std::string, std::string> textMap(std::string_view member, size_t maxItems);
  std::map<std::string, std::string> textMapIfAny(std::string_view member, size_t maxItems);
  /// The raw value; null when absent ("missing-member" when required).
  const nlohmann::json* value(std::string_view member, bool required);

  /// A complaint about a member.
  void complain(std::string_view member, std::string key,
                std::vector<std::pair<std::string, std::string>> args = {});
  /// Says which members nobody asked for. Call it last.
  void finish();

 private:
  template <class Enum>
  Enum find(std::string_view member, bool required, const Words<Enum>& words, Enum fallback) {
    const auto* found = value(member, required);
    if (!found) return fallback;
    std::vector<std::string_view> names;
    for (const auto& [name, meaning] : words) names.push_back(name);
    const int at = indexOfWord(*found, member, names);
    return at < 0 ? fallback : words[static_cast<size_t>(at)].second;
  }
  int indexOfWord(const nlohmann::json& found, std::string_view member,
                  const std::vector<std::string_view>& names);
  std::vector<JsonItem> items(std::string_view member, bool required, bool ofObject, size_t maxItems);
  std::vector<std::string> textItems(std::string_view member, bool required, size_t maxItems);
  std::map<std::string, std::string> textMembers(std::string_view member, bool required, size_t maxItems);
  std::optional<long long> wholeIn(std::string_view member, bool required, long long least, long long most);

  const nlohmann::json* object_ = nullptr;
  std::string where_;
  Problems& problems_;
  std::set<std::string, std::less<>> asked_;
};

/// Items of a JSON value that must be a list, e.g. the whole file. Problems as in Fields.
std::vector<JsonItem> listItems(const nlohmann::json& value, const std::string& where, Problems& problems,
                                size_t maxItems);
/// Members of a JSON value that must be an object with free names.
std::vector<JsonItem> objectItems(const nlohmann::json& value, const std::string& where, Problems& problems,
                                  size_t maxItems);

}  // namespace ww::quantity
