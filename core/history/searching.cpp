// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <unordered_set>

#include "history/reader_state.h"
#include "history/state_words.h"

namespace ww::history {

namespace {

constexpr size_t kRanked = 200;          // of each kind, that rank beyond their age
constexpr size_t kLongBeginning = 4;     // bytes: the index has shorter beginnings of its own
constexpr size_t kMostBeginnings = 200;  // words looked for in turn
constexpr size_t kMostNear = 16;         // words taken for a mistyped one

struct Candidate {
  std::int64_t recency = 0;
  int score = 0;
};

// What a term counts in a place, whole or as a beginning: the house number before words of the address, those
// before the customer, whole words before beginnings.
struct Weight {
  int whole, beginning;
};
constexpr Weight kHouse{13, 2};
constexpr Weight kAddress{8, 4};
constexpr Weight kCustomer{5, 2};
constexpr Weight kNumbers{4, 1};

bool beginsWithDigit(std::string_view word) { return !word.empty() && word[0] >= '0' && word[0] <= '9'; }

/// Does for each word of an indexed text.
template <class Take>
void eachWord(std::string_view text, Take take) {
  while (!text.empty()) {
    const size_t blank = text.find(' ');
    take(text.substr(0, blank));
    text = blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1);
  }
}

int scoreOf(const Asked::Term& term, std::string_view word, Weight weight) {
  if (word == term.typed || (!term.brief.empty() && word == term.brief)) return weight.whole;
  for (const std::string& instead : term.instead)
    if (word == instead) return weight.whole;
  if (word.starts_with(term.typed)) return weight.beginning;
  if (!term.joined.empty() && word.starts_with(term.joined)) return weight.beginning;
  return 0;
}

/// Sum over the terms of the best that each finds.
int scoreOf(const Asked& asked, std::string_view address, std::string_view customer,
            std::string_view numbers) {
  int sum = 0;
  for (const Asked::Term& term : asked.terms) {
    int best = 0;
    bool house = true;  // the first number of an address
    eachWord(address, [&](std::string_view word) {
      const bool isHouse = house && beginsWithDigit(word);
      if (isHouse) house = false;
      best = std::max(best, scoreOf(term, word, isHouse ? kHouse : kAddress));
    });
    eachWord(customer, [&](std::string_view word) { best = std::max(best, scoreOf(term, word, kCustomer)); });
    eachWord(numbers, [&](std::string_view word) { best = std::max(best, scoreOf(term, word, kNumbers)); });
    sum += best;
  }
  return sum;
}

void markMatches(const Asked& asked, Row& row) {
  if (asked.terms.empty()) return;
  const auto mark = [&](Match::Field field, const std::string& text) {
    for (const FoldedWord& word : wordsOf(text))
      if (answers(asked, word.folded)) row.matches.push_back({field, word.begin, word.length});
  };
  mark(Match::Field::address, row.site.address);
  mark(Match::Field::unit, row.site.unit);
  mark(Match::Field::city, row.site.city);
  mark(Match::Field::customer, row.site.customer);
  mark(Match::Field::phone, row.site.phone);
  mark(Match::Field::number, row.number);
}

constexpr const char* kNewestMatching =
    "SELECT rowid, address, customer, numbers FROM search WHERE search MATCH ? ORDER BY rowid DESC LIMIT ?";

}  // namespace

std::vector<std::int64_t> Reader::State::newest(size_t from, size_t count) {
  std::vector<std::int64_t> all;
  auto rows =
      sql("SELECT recency FROM listing WHERE state <> 'binned' ORDER BY recency DESC LIMIT ? OFFSET ?", count,
          from);
  while (rows.next()) all.push_back(rows.whole(0));
  return all;
}

std::vector<std::int64_t> Reader::State::ranked(const Asked& asked, size_t from, size_t count) {
  std::vector<Candidate> best;
  std::unordered_set<std::int64_t> seen;
  const auto take = [&](const std::string& expression) {
    auto rows = sql(kNewestMatching, expression, kRanked);
    size_t taken = 0;
    for (; rows.next(); ++taken)
      if (seen.insert(rows.whole(0)).second)
        best.push_back({rows.whole(0), scoreOf(asked, rows.text(1), rows.text(2), rows.text(3))});
    return taken;
  };
  const std::string expression = expressionOf(asked, false);
  // With fewer than asked for, those with whole words are among them already.
  const bool all = take(expression) < kRanked;
  if (!all && !asked.terms.empty()) take(expressionOf(asked, true));
  std::sort(best.begin(), best.end(), [](const Candidate& a, const Candidate& b) {
    return a.score != b.score ? a.score > b.score : a.recency > b.recency;
  });
  std::vector<std::int64_t> result;
  for (size_t i = from; i < best.size() && result.size() < count; ++i) result.push_back(best[i].recency);
  if (all || result.size() == count) return result;
  // Beyond the ranked ones by age, without those that stood before.
  size_t toSkip = from > best.size() ? from - best.size() : 0;
  auto rest = sql("SELECT rowid FROM search WHERE search MATCH ? ORDER BY rowid DESC", expression);
  while (result.size() < count && rest.next()) {
    if (seen.contains(rest.whole(0))) continue;
    if (toSkip > 0)
      --toSkip;
    else
      result.push_back(rest.whole(0));
  }
  return result;
}

std::vector<Row> Reader::State::rowsOf(const std::vector<std::int64_t>& recencies, const Asked& asked) {
  std::vector<Row> rows;
  for (const std::int64_t recency : recencies) {
    auto found =
        sql("SELECT job.id, job.sibling, number || letter, address, unit, city, customer, phone, day, system,"
            " state, in_work, stage, installer, open,"
            " EXISTS(SELECT 1 FROM job AS other WHERE other.id = job.id AND other.sibling <> job.sibling)"
            " FROM listing JOIN job ON job.key = listing.job WHERE recency = ?",
            recency);
    if (!found.next()) continue;  // saved under another day between the two reads
    Row row;
    row.ref = {found.text(0), static_cast<int>(found.whole(1))};
    row.number = found.text(2);
    row.site = {found.text(3), found.text(4), found.text(5), found.text(6), found.text(7), {}};
    row.day = found.text(8);
    row.system = found.text(9);
    row.state = stateOf(found.text(10));
    row.inWork = found.whole(11) != 0;
    row.stage = found.text(12);
    row.installer = found.text(13);
    row.open = static_cast<int>(found.whole(14));
    row.hasSiblings = found.whole(15) != 0;
    markMatches(asked, row);
    rows.push_back(std::move(row));
  }
  return rows;
}

bool Reader::State::matches(const Asked& asked) {
  return sql("SELECT 1 FROM search WHERE search MATCH ? LIMIT 1", expressionOf(asked, false)).next();
}

void Reader::State::lookUpBeginnings(Asked& asked) {
  for (Asked::Term& term : asked.terms) {
    if (term.typed.size() < kLongBeginning) continue;
    auto words = sql("SELECT term FROM word WHERE term >= ?1 AND term < ?1 || char(1114111) LIMIT ?2",
                     term.typed, kMostBeginnings + 1);
    while (words.next()) term.beginnings.push_back(words.text(0));
    // So many have so few letters in common that the whole is no longer the smaller work.
    if (term.beginnings.size() > kMostBeginnings) term.beginnings.clear();
  }
}

void Reader::State::learnWords() {
  auto words = sql("SELECT key, term FROM word WHERE key > ? ORDER BY key", lastWord);
  while (words.next()) {
    lastWord = words.whole(0);
    const std::string word = words.text(1);
    if (std::none_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; }))
      spelling.add(word);
  }
}

std::optional<Asked> Reader::State::corrected(const Asked& asked, std::string& word) {
  learnWords();
  for (size_t i = 0; i < asked.terms.size(); ++i) {
    auto near = spelling.near(asked.terms[i].typed);
    if (near.empty()) continue;
    if (near.size() > kMostNear) near.resize(kMostNear);
    Asked other = asked;
    other.terms[i].instead = near;
    if (i + 1 < other.terms.size()) other.terms[i + 1].joined.clear();
    if (!matches(other)) continue;
    word = asked.terms[i].typed;
    return other;
  }
  return std::nullopt;
}

Found Reader::State::find(const std::string& text, size_t from, size_t count) {
  Asked asked = askedBy(text);
  lookUpBeginnings(asked);
  if (expressionOf(asked, false).empty()) return {rowsOf(newest(from, count), asked), {}};
  auto recencies = ranked(asked, from, count);
  Found found;
  if (recencies.empty() && (from == 0 || !matches(asked))) {
    if (auto other = corrected(asked, found.corrected)) {
      asked = std::move(*other);
      recencies = ranked(asked, from, count);
    }
  }
  found.rows = rowsOf(recencies, asked);
  return found;
}

Count Reader::State::count(const std::string& text, size_t most) {
  Asked asked = askedBy(text);
  lookUpBeginnings(asked);
  const auto counted = [&] {
    const std::string expression = expressionOf(asked, false);
    auto rows =
        expression.empty()
            ? sql("SELECT count(*) FROM (SELECT 1 FROM listing WHERE state <> 'binned' LIMIT ?)", most + 1)
            : sql("SELECT count(*) FROM (SELECT 1 FROM search WHERE search MATCH ? LIMIT ?)", expression,
                  most + 1);
    rows.next();
    return static_cast<size_t>(rows.whole(0));
  };
  size_t matching = counted();
  if (std::string word; matching == 0 && !asked.terms.empty())
    if (auto other = corrected(asked, word)) {
      asked = std::move(*other);
      matching = counted();
    }
  return {std::min(matching, most), matching > most};
}

}  // namespace ww::history
