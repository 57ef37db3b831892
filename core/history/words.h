// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ww::history {

/// A word of a text, and how it compares.
struct FoldedWord {
  size_t begin = 0, length = 0;  ///< bytes of the text
  std::string folded;            ///< letters and digits alone
};

/// The words of a text: runs of letters and digits in any script; an apostrophe inside does not part them.
/// Folded by NFKC case folding without marks, so that "São", "SAO" and "sao" are one. Bytes that are no UTF-8
/// part words.
std::vector<FoldedWord> wordsOf(std::string_view text);

/// A text folded as one word, whatever parts it: for the values of filters.
std::string foldedWhole(std::string_view text);

/// Street suffixes, directions and unit designators: any spelling -> the short one ("avenue" -> "ave"). From
/// resources/street-words.json, which names its sources.
const std::map<std::string, std::string, std::less<>>& streetWords();

/// The short spelling of a folded word; the word itself when it is none of an address.
const std::string& streetWord(const std::string& folded);

/// Words with their short spelling behind them where it differs, parted by blanks: what an address is indexed
/// as, so that both what stands there and what it means are found.
std::string addressText(std::string_view address);

/// Short spellings only: equal for two spellings of the same place.
std::string placeOf(std::string_view address, std::string_view unit, std::string_view city);

}  // namespace ww::history
