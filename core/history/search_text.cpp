// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/search_text.h"

#include <algorithm>
#include <array>
#include <optional>

#include "quantity/text.h"

namespace ww::history {

namespace {

constexpr std::string_view kBlanks = " \t\r\n";
constexpr size_t kShortPrefix = 2;  // bytes of an initial or "o", "mc"

enum class Fit { whole, beginning };

struct Field {
  std::string_view name;
  Fit fit;
};
// A value of one letter or of digits is whole; a word may be typed in part.
constexpr std::array kFields{Field{"state", Fit::beginning},    Field{"stage", Fit::beginning},
                             Field{"system", Fit::whole},       Field{"installer", Fit::beginning},
                             Field{"findings", Fit::beginning}, Field{"unit", Fit::beginning},
                             Field{"day", Fit::whole}};

// Values typed to their end: a beginning so long would be gathered whole before the first row.
constexpr std::array<std::string_view, 12> kWholeValues{"draft", "closed", "amended",  "open",
                                                        "none",  "site",   "wiring",   "dead",
                                                        "live",  "run",    "settings", "report"};

/// Words parted by blanks; quotes keep blanks inside.
std::vector<std::string> pieces(std::string_view text) {
  std::vector<std::string> result;
  std::string piece;
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && kBlanks.find(c) != std::string_view::npos) {
      if (!piece.empty()) result.push_back(std::move(piece));
      piece.clear();
    } else {
      piece += c;
    }
  }
  if (!piece.empty()) result.push_back(std::move(piece));
  return result;
}

std::string quoted(std::string_view token) { return '"' + std::string(token) + '"'; }

/// True when the piece is a filter, complete or not.
bool takeFilter(const std::string& piece, Asked& asked) {
  const size_t colon = piece.find(':');
  if (colon == std::string::npos) return false;
  const std::string name = foldedWhole(std::string_view(piece).substr(0, colon));
  const auto field =
      std::find_if(kFields.begin(), kFields.end(), [&](const Field& f) { return f.name == name; });
  if (field == kFields.end()) return false;
  std::string value = foldedWhole(std::string_view(piece).substr(colon + 1));
  if (value.size() > kMostTermBytes) value.resize(kMostTermBytes);
  if (value.empty()) return true;
  if (name == "state" && (value == "bin" || value == "binned")) {
    asked.bin = true;
    return true;
  }
  const bool whole = field->fit == Fit::whole ||
                     std::find(kWholeValues.begin(), kWholeValues.end(), value) != kWholeValues.end();
  asked.filters.push_back(quoted(facet(field->name, value)) + (whole ? "" : "*"));
  return true;
}

bool isLetters(const std::string& word) {
  return std::none_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string alternatives(const std::vector<std::string>& expressions) {
  std::string text;
  for (const std::string& expression : expressions) text += (text.empty() ? "" : " OR ") + expression;
  return expressions.size() > 1 ? '(' + text + ')' : text;
}

std::string expressionOf(const Asked::Term& term, bool whole) {
  std::vector<std::string> ways;
  if (!term.instead.empty()) {
    for (const std::string& word : term.instead) ways.push_back(quoted(word));
    return alternatives(ways);
  }
  if (whole || term.beginnings.empty())
    ways.push_back(quoted(term.typed) + (whole ? "" : "*"));
  else
    for (const std::string& word : term.beginnings) ways.push_back(quoted(word));
  if (!term.brief.empty()) ways.push_back(quoted(term.brief));
  return alternatives(ways);
}

}  // namespace

std::string facet(std::string_view field, std::string_view value) {
  return std::string(kFacetMark) + std::string(field) + foldedWhole(value);
}

Asked askedBy(std::string_view text) {
  Asked asked;
  for (const std::string& piece : pieces(text)) {
    if (takeFilter(piece, asked)) continue;
    for (FoldedWord& word : wordsOf(piece)) {
      if (asked.terms.size() == kMostTerms) return asked;
      if (word.folded.size() > kMostTermBytes) continue;
      Asked::Term term;
      if (const std::string& brief = streetWord(word.folded); brief != word.folded) term.brief = brief;
      term.typed = std::move(word.folded);
      if (!asked.terms.empty()) {
        const std::string& before = asked.terms.back().typed;
        if (before.size() <= kShortPrefix && isLetters(before) && isLetters(term.typed))
          term.joined = before + term.typed;
      }
      asked.terms.push_back(std::move(term));
    }
  }
  return asked;
}

std::string expressionOf(const Asked& asked, bool whole) {
  std::vector<std::string> wanted;
  for (const Asked::Term& term : asked.terms) {
    std::string expression = expressionOf(term, whole);
    if (!term.joined.empty() && term.instead.empty()) {
      expression.insert(0, "((" + wanted.back() + " AND ")
          .append(") OR ")
          .append(quoted(term.joined))
          .append(whole ? ")" : "*)");
      wanted.pop_back();
    }
    wanted.push_back(std::move(expression));
  }
  wanted.insert(wanted.end(), asked.filters.begin(), asked.filters.end());
  const std::string binned = quoted(facet("state", "binned"));
  if (asked.bin) wanted.push_back(binned);
  if (wanted.empty()) return {};
  std::string text;
  for (const std::string& expression : wanted) text += (text.empty() ? "" : " AND ") + expression;
  return asked.bin ? text : '(' + text + ") NOT " + binned;
}

bool answers(const Asked& asked, const std::string& folded) {
  const std::string& brief = streetWord(folded);
  return std::any_of(asked.terms.begin(), asked.terms.end(), [&](const Asked::Term& term) {
    if (!term.instead.empty())
      return std::find(term.instead.begin(), term.instead.end(), folded) != term.instead.end();
    return folded.starts_with(term.typed) || brief == term.typed ||
           (!term.brief.empty() && brief == term.brief) ||
           (!term.joined.empty() && folded.starts_with(term.joined));
  });
}

}  // namespace ww::history
