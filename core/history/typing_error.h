// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ww::history {

/// Finds the known words that a mistyped one may stand for: one letter wrong, too many, missing, or two
/// neighbours swapped. Method: every known word is filed under itself and under itself less one letter; two
/// words one error apart meet in one of those (deletion neighbourhood). Letters are code points.
class Spelling {
 public:
  /// Words of less than four letters are not taken.
  void add(std::string_view word);
  /// In alphabetical order; without the word itself.
  std::vector<std::string> near(std::string_view word) const;
  size_t size() const { return words_.size(); }

 private:
  using Entry = std::pair<std::uint64_t, std::uint32_t>;  ///< hash of a spelling, index of the word
  void settle() const;
  std::vector<std::string> words_;
  mutable std::vector<Entry> entries_;  ///< sorted up to settled_
  mutable size_t settled_ = 0;
};

/// Whether two words differ by exactly one such error.
bool isOneErrorApart(std::string_view a, std::string_view b);

}  // namespace ww::history
