// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace ww::quantity {

/// One thing that is wrong with an input. The sentence is made by ui/wording from `key` and `args`.
struct Problem {
  std::string where;  ///< file-relative place: JSON pointer ("/units/0/profile"), "row 7, end_b", or empty
                      ///< for the whole
  std::string key;    ///< names what is wrong and what would be right, e.g. "unknown-terminal"
  std::vector<std::pair<std::string, std::string>> args;  ///< named figures of the sentence, C locale
  friend bool operator==(const Problem&, const Problem&) = default;
};

using Problems = std::vector<Problem>;

/// Result of reading something from outside: a value, or all the problems found; never half of either.
template <class T>
struct Loaded {
  std::optional<T> value;
  Problems problems;

  explicit operator bool() const { return value.has_value(); }
  static Loaded ok(T t) { return {std::move(t), {}}; }
  static Loaded failed(Problems p) { return {std::nullopt, std::move(p)}; }
};

}  // namespace ww::quantity
