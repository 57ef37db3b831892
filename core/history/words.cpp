// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/words.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "history/shipped.h"
#include "quantity/json.h"

namespace ww::history {

namespace {

constexpr UChar32 kRightQuote = 0x2019;

bool isMark(UChar32 c) { return (U_GET_GC_MASK(c) & U_GC_M_MASK) != 0; }
bool isOfWord(UChar32 c) { return u_isalnum(c) != 0 || isMark(c); }
bool isApostrophe(UChar32 c) { return c == '\'' || c == kRightQuote; }

bool isPlain(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

/// Case folded and decomposed; what is neither letter nor digit is left out.
std::string folded(std::string_view text) {
  std::string result;
  if (isPlain(text)) {
    for (const char c : text)
      if (u_isalnum(c) != 0) result += static_cast<char>(u_tolower(c));
    return result;
  }
  UErrorCode status = U_ZERO_ERROR;
  const icu::Normalizer2* fold = icu::Normalizer2::getNFKCCasefoldInstance(status);
  const icu::Normalizer2* parted = icu::Normalizer2::getNFDInstance(status);
  const auto whole = icu::UnicodeString::fromUTF8({text.data(), static_cast<int32_t>(text.size())});
  const auto pieces = parted->normalize(fold->normalize(whole, status), status);
  icu::UnicodeString kept;
  for (int32_t i = 0; i < pieces.length(); i = pieces.moveIndex32(i, 1))
    if (u_isalnum(pieces.char32At(i)) != 0) kept.append(pieces.char32At(i));
  kept.toUTF8String(result);
  return result;
}

void append(std::string& text, const std::string& word) {
  if (!text.empty()) text += ' ';
  text += word;
}

}  // namespace

std::vector<FoldedWord> wordsOf(std::string_view text) {
  std::vector<FoldedWord> words;
  const auto* bytes = reinterpret_cast<const std::uint8_t*>(text.data());
  const auto length = static_cast<int32_t>(text.size());
  int32_t begin = -1;
  int32_t end = 0;  // behind the last letter: an apostrophe at the end of a word does not belong to it
  const auto close = [&] {
    if (begin >= 0) {
      const auto from = static_cast<size_t>(begin);
      const auto size = static_cast<size_t>(end - begin);
      FoldedWord word{from, size, folded(text.substr(from, size))};
      if (!word.folded.empty()) words.push_back(std::move(word));
    }
    begin = -1;
  };
  for (int32_t at = 0; at < length;) {
    const int32_t start = at;
    UChar32 c = 0;
    U8_NEXT(bytes, at, length, c);
    if (c >= 0 && isOfWord(c)) {
      if (begin < 0) begin = start;
      end = at;
    } else if (begin < 0 || c < 0 || !isApostrophe(c)) {
      close();
    }
  }
  close();
  return words;
}

std::string foldedWhole(std::string_view text) {
  std::string whole;
  for (const FoldedWord& word : wordsOf(text)) whole += word.folded;
  return whole;
}

const std::map<std::string, std::string, std::less<>>& streetWords() {
  static const auto words = [] {
    std::map<std::string, std::string, std::less<>> result;
    quantity::Problems problems;
    const auto json = quantity::parseJson(shippedStreetWords().front().text);
    quantity::Fields top(json.value.value(), "", problems);
    for (const char* table : {"suffixes", "directions", "units"})
      for (const auto& item : top.members(table, 1'000))
        for (const auto& spelling : quantity::listItems(item.value, item.where, problems, 100))
          result.emplace(spelling.value.get().get<std::string>(), item.name);
    return result;
  }();
  return words;
}

const std::string& streetWord(const std::string& folded) {
  const auto found = streetWords().find(folded);
  return found == streetWords().end() ? folded : found->second;
}

std::string addressText(std::string_view address) {
  std::string text;
  for (const FoldedWord& word : wordsOf(address)) {
    append(text, word.folded);
    const std::string& brief = streetWord(word.folded);
    if (brief != word.folded) append(text, brief);
  }
  return text;
}

std::string placeOf(std::string_view address, std::string_view unit, std::string_view city) {
  std::string text;
  for (const std::string_view part : {address, unit, city})
    for (const FoldedWord& word : wordsOf(part)) append(text, streetWord(word.folded));
  return text;
}

}  // namespace ww::history
