// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string_view>

namespace ww::equipment {

/// One piece of a logic text. `position` counts bytes from 1.
struct Token {
  enum class Kind { word, number, symbol, unknown, end } kind = Kind::end;
  std::string_view text;
  size_t position = 1;
};

/// Cuts a logic text into words, numbers and symbols, one piece of look-ahead.
class Tokens {
 public:
  explicit Tokens(std::string_view text) : text_(text) { ahead_ = read(); }
  const Token& peek() const { return ahead_; }
  Token next();
  /// The value of a setting where the next piece begins: "control", "1800", "W2+E", as isChoice() has it.
  Token nextChoice();

 private:
  Token read();

  std::string_view text_;
  size_t at_ = 0;
  Token ahead_;
};

}  // namespace ww::equipment
