// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/typing_error.h"

#include <algorithm>
#include <functional>
#include <set>

namespace ww::history {

namespace {

constexpr size_t kShortest = 4;

bool isBegin(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }

/// Where the letters of UTF-8 begin, and the end.
std::vector<size_t> bounds(std::string_view word) {
  std::vector<size_t> at;
  for (size_t i = 0; i < word.size(); ++i)
    if (isBegin(word[i])) at.push_back(i);
  at.push_back(word.size());
  return at;
}

std::u32string lettersOf(std::string_view word) {
  std::u32string letters;
  for (const char byte : word) {
    const auto bits = static_cast<unsigned char>(byte);
    if (isBegin(byte))
      letters += bits;
    else if (!letters.empty())
      letters.back() = letters.back() << 8 | bits;
  }
  return letters;
}

std::uint64_t hashOf(std::string_view text) { return std::hash<std::string_view>{}(text); }

/// The word itself and the word less each of its letters.
template <class Take>
void neighbourhood(std::string_view word, Take take) {
  take(hashOf(word));
  const auto at = bounds(word);
  for (size_t i = 0; i + 1 < at.size(); ++i) {
    std::string less(word.substr(0, at[i]));
    less += word.substr(at[i + 1]);
    take(hashOf(less));
  }
}

}  // namespace

bool isOneErrorApart(std::string_view a, std::string_view b) {
  std::u32string left = lettersOf(a);
  std::u32string right = lettersOf(b);
  if (left.size() > right.size()) std::swap(left, right);
  if (right.size() - left.size() > 1 || left == right) return false;
  const auto [l, r] = std::mismatch(left.begin(), left.end(), right.begin());
  const auto restL = left.substr(static_cast<size_t>(l - left.begin()));
  const auto restR = right.substr(static_cast<size_t>(r - right.begin()));
  if (left.size() < right.size()) return restL == restR.substr(1);
  if (restL.substr(1) == restR.substr(1)) return true;
  return restL.size() >= 2 && restL[0] == restR[1] && restL[1] == restR[0] &&
         restL.substr(2) == restR.substr(2);
}

void Spelling::add(std::string_view word) {
  if (bounds(word).size() - 1 < kShortest) return;
  const auto index = static_cast<std::uint32_t>(words_.size());
  words_.emplace_back(word);
  neighbourhood(word, [&](std::uint64_t hash) { entries_.emplace_back(hash, index); });
}

void Spelling::settle() const {
  if (settled_ == entries_.size()) return;
  const auto middle = entries_.begin() + static_cast<std::ptrdiff_t>(settled_);
  std::sort(middle, entries_.end());
  std::inplace_merge(entries_.begin(), middle, entries_.end());
  settled_ = entries_.size();
}

std::vector<std::string> Spelling::near(std::string_view word) const {
  if (bounds(word).size() - 1 < kShortest) return {};
  settle();
  std::set<std::string> found;
  neighbourhood(word, [&](std::uint64_t hash) {
    auto at = std::lower_bound(entries_.begin(), entries_.end(), Entry{hash, 0});
    for (; at != entries_.end() && at->first == hash; ++at)
      if (isOneErrorApart(word, words_[at->second])) found.insert(words_[at->second]);
  });
  return {found.begin(), found.end()};
}

}  // namespace ww::history
