// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/words.h"

#include <algorithm>

namespace ww::equipment {

namespace {

constexpr size_t kMaxName = 40;

bool isSmall(char c) { return c >= 'a' && c <= 'z'; }
bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isLetter(char c) { return isSmall(c) || (c >= 'A' && c <= 'Z'); }

}  // namespace

bool isName(std::string_view text) {
  return !text.empty() && text.size() <= kMaxName && isLetter(text.front()) &&
         std::all_of(text.begin(), text.end(), [](char c) { return isLetter(c) || isDigit(c) || c == '_'; });
}

bool isChoice(std::string_view text) {
  return !text.empty() && text.size() <= kMaxName && std::all_of(text.begin(), text.end(), [](char c) {
    return isLetter(c) || isDigit(c) || c == '_' || c == '.' || c == '+';
  });
}

bool isPartName(std::string_view text) {
  return isChoice(text) && isLetter(text.front()) && text.find('+') == std::string_view::npos;
}

bool isHyphenated(std::string_view text) {
  if (text.empty() || text.size() > kMaxName || !isSmall(text.front()) || text.back() == '-') return false;
  for (size_t i = 0; i < text.size(); ++i) {
    if (!isSmall(text[i]) && !isDigit(text[i]) && text[i] != '-') return false;
    if (text[i] == '-' && text[i - 1] == '-') return false;
  }
  return true;
}

void readFormat(quantity::Fields& fields, std::string_view format, int known) {
  const bool formatThere = fields.has("format");
  const std::string found = fields.text("format");
  if (formatThere && found != format)
    fields.complain("format", "wrong-format",
                    {{"want", std::string(format)}, {"found", quantity::cited(found)}});
  const long long version = fields.whole("version", 1, 1'000'000);
  if (version > known)
    fields.complain("version", "version-newer",
                    {{"found", std::to_string(version)}, {"known", std::to_string(known)}});
}

}  // namespace ww::equipment
