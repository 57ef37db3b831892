// SPDX-License-Identifier: GPL-3.0-or-later
// What a job is found by, and how a typed text asks for it. Private to the room.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "history/words.h"

namespace ww::history {

/// Filters are tokens of the same index. They begin with a letter of the private use area, which the
/// tokenizer keeps and folding removes from anything typed.
inline constexpr std::string_view kFacetMark = "\xEE\x80\x80";  // U+E000
std::string facet(std::string_view field, std::string_view value);

/// A typed text, taken apart.
struct Asked {
  struct Term {
    std::string typed;   ///< folded
    std::string brief;   ///< the short spelling of a street word; empty for none
    std::string joined;  ///< together with the word before, where that is an initial or "o'": "noak"
    /// All words that begin so, where that is known: reading them in turn stops at the newest, while a long
    /// beginning would be gathered whole first.
    std::vector<std::string> beginnings;
    /// Instead of `typed`, after a typing error: words that are there.
    std::vector<std::string> instead;
  };
  std::vector<Term> terms;
  std::vector<std::string> filters;  ///< expressions over facets
  bool bin = false;                  ///< asks for the bin
};

/// Takes apart at most kMostTerms words of at most kMostTermBytes; the rest is not looked at.
inline constexpr size_t kMostTerms = 12;
inline constexpr size_t kMostTermBytes = 64;
Asked askedBy(std::string_view text);

/// The index's expression; `whole`: words must stand there as they are, not as beginnings. Empty when nothing
/// is asked.
std::string expressionOf(const Asked& asked, bool whole);

/// Whether a folded word of a shown text answers one of the terms.
bool answers(const Asked& asked, const std::string& folded);

}  // namespace ww::history
