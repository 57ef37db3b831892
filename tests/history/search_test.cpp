// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "history/reader.h"
#include "history/search_text.h"
#include "history/typing_error.h"
#include "history/words.h"
#include "support/sample_job.h"
#include "support/stores.h"

namespace {

using namespace ww::testing;
namespace history = ww::history;
namespace job = ww::job;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

class SearchTest : public ::testing::Test {
 protected:
  TemporaryFolder folder_;
  history::Store store_ = openedStore(optionsFor(folder_.path()));
  history::Reader reader_{store_};

  job::Job add(const std::string& address, const std::string& unit = {}, const std::string& customer = {}) {
    job::Job job = draftAt(++last_, address, unit);
    job.site.customer = customer;
    store_.import({job});
    return job;
  }
  std::vector<history::Row> rows(const std::string& text, size_t from = 0, size_t count = 200) {
    return reader_.find(text, from, count).value().rows;
  }
  std::vector<std::string> addresses(const std::string& text) {
    std::vector<std::string> found;
    for (const auto& row : rows(text))
      found.push_back(row.site.address + (row.site.unit.empty() ? "" : ", " + row.site.unit));
    return found;
  }
  static std::vector<std::string> marked(const history::Row& row) {
    std::vector<std::string> pieces;
    for (const auto& match : row.matches) {
      const std::string& text = match.field == history::Match::Field::address ? row.site.address
                                : match.field == history::Match::Field::unit  ? row.site.unit
                                : match.field == history::Match::Field::city  ? row.site.city
                                                                              : row.site.customer;
      pieces.push_back(text.substr(match.begin, match.length));
    }
    return pieces;
  }

 private:
  std::uint64_t last_ = 0;
};

TEST(Words, areFoldedAndKeepTheirPlace) {
  const auto words = history::wordsOf("14 N\u00FAñez-Stra\u00DFe, O\u2019Fenn's \uFB01n");
  std::vector<std::string> folded;
  for (const auto& word : words) folded.push_back(word.folded);
  EXPECT_THAT(folded, ElementsAre("14", "nunez", "strasse", "ofenns", "fin"));
  EXPECT_EQ(words[0].begin, 0u);
  EXPECT_EQ(words[1].begin, 3u);
  EXPECT_EQ(words[1].length, 7u);
}

// Computed with Python 3: NFKD, marks dropped, full case folding.
TEST(Words, compareAsUnicodeFoldsThem) {
  EXPECT_EQ(history::foldedWhole("STRASSE"), history::foldedWhole("Stra\u00DFe"));
  EXPECT_EQ(history::foldedWhole("\u0130stanbul"), "istanbul");
  EXPECT_EQ(history::foldedWhole("\u038C\u03A3\u039F\u03A3"), "\u03BF\u03C3\u03BF\u03C3");
  EXPECT_EQ(history::foldedWhole("S\u00E3o"), history::foldedWhole("Sa\u0303o"));
}

TEST(Words, bytesThatAreNoTextPartWords) {
  const auto words = history::wordsOf(std::string_view("a\xFF\xC3 b\0c", 7));
  ASSERT_EQ(words.size(), 3u);
  EXPECT_EQ(words[2].folded, "c");
}

TEST(Words, streetWordsHaveOneShortSpelling) {
  EXPECT_EQ(history::placeOf("14 North Oak Avenue", "Unit 4", ""),
            history::placeOf("14 N. OAK AV", "unit #4", ""));
  EXPECT_EQ(history::streetWord("boulv"), "blvd");
  EXPECT_EQ(history::streetWord("southwest"), "sw");
  EXPECT_EQ(history::streetWord("suite"), "ste");
  EXPECT_EQ(history::streetWord("oak"), "oak");
  EXPECT_GT(history::streetWords().size(), 350u);
}

TEST(Spelling, forgivesOneErrorOfEachKind) {
  history::Spelling spelling;
  for (const char* word : {"larkmoor", "larkmere", "oak", "quillmoor"}) spelling.add(word);
  EXPECT_EQ(spelling.size(), 3u);
  for (const char* typed : {"larkmor", "larkmooor", "lerkmoor", "lrakmoor", "arkmoor"})
    EXPECT_THAT(spelling.near(typed), ElementsAre("larkmoor")) << typed;
  for (const char* typed : {"larkmoor", "lerkmor", "oek", "xy"}) EXPECT_THAT(spelling.near(typed), IsEmpty());
}

TEST(Spelling, countsLettersNotBytes) {
  EXPECT_TRUE(history::isOneErrorApart("\u03BF\u03C3\u03BF\u03C3", "\u03BF\u03C3\u03B1\u03C3"));
  EXPECT_FALSE(history::isOneErrorApart("ab", "ba\u03B1"));
}

// Every word that is one error away by the definition is found, and no other.
TEST(Spelling, agreesWithTheDefinition) {
  const std::string letters = "abc";
  std::vector<std::string> all;
  for (int n = 0; n < 81; ++n) {
    std::string word;
    for (int rest = n, i = 0; i < 4; ++i, rest /= 3) word += letters[static_cast<size_t>(rest % 3)];
    all.push_back(word);
  }
  history::Spelling spelling;
  for (const auto& word : all) spelling.add(word);
  for (const auto& typed : all) {
    std::set<std::string> wanted;
    for (size_t i = 0; i < 4; ++i) {
      for (const char letter : letters) {
        std::string other = typed;
        other[i] = letter;
        wanted.insert(other);
      }
      if (i + 1 < 4) {
        std::string other = typed;
        std::swap(other[i], other[i + 1]);
        wanted.insert(other);
      }
    }
    wanted.erase(typed);
    const auto near = spelling.near(typed);
    EXPECT_EQ(std::set<std::string>(near.begin(), near.end()), wanted) << typed;
  }
}

TEST_F(SearchTest, piecesOfAnAddressInAnySpelling) {
  add("14 North Oak Avenue", "Unit 4");
  add("41 North Oak Avenue");
  add("4 Noakes Lane");
  add("14 South Elm Street");
  EXPECT_EQ(addresses("n oak 4").front(), "14 North Oak Avenue, Unit 4");
  EXPECT_THAT(addresses("n oak 4"),
              UnorderedElementsAre("14 North Oak Avenue, Unit 4", "41 North Oak Avenue", "4 Noakes Lane"));
  EXPECT_THAT(addresses("north oak av 14"), ElementsAre("14 North Oak Avenue, Unit 4"));
  EXPECT_THAT(addresses("OAK AVE N 41"), ElementsAre("41 North Oak Avenue"));
  EXPECT_THAT(addresses("oak avenue unit 4"), ElementsAre("14 North Oak Avenue, Unit 4"));
  EXPECT_THAT(addresses("street"), ElementsAre("14 South Elm Street"));
  EXPECT_THAT(addresses("oak elm"), IsEmpty());
}

TEST_F(SearchTest, houseNumberThenWholeWordsThenAge) {
  add("7 Fennmoor Lane");
  add("70 Fenn Lane");
  add("12 Fenn Lane", "Unit 7");
  add("7 Fenn Lane");
  add("9 Fennby Lane", "", "F. Seven");
  EXPECT_THAT(addresses("fenn 7"),
              ElementsAre("7 Fenn Lane", "7 Fennmoor Lane", "12 Fenn Lane, Unit 7", "70 Fenn Lane"));
}

TEST_F(SearchTest, newestFirst) {
  job::Job older = draftAt(50, "1 Ullmere Road");
  older.visit = "2024-01-01";
  job::Job newer = draftAt(51, "2 Ullmere Road");
  newer.visit = "2025-06-30";
  store_.import({newer, older});
  EXPECT_THAT(addresses("ullmere"), ElementsAre("2 Ullmere Road", "1 Ullmere Road"));
  EXPECT_THAT(addresses(""), ElementsAre("2 Ullmere Road", "1 Ullmere Road"));
  // Another day moves it.
  older.visit = "2026-01-01";
  store_.saveDraft(older, {{older.id}, 1});
  EXPECT_THAT(addresses("ullmere"), ElementsAre("1 Ullmere Road", "2 Ullmere Road"));
  EXPECT_THAT(addresses("day:2026"), ElementsAre("1 Ullmere Road"));
  EXPECT_THAT(addresses("day:2024"), IsEmpty());
  EXPECT_THAT(store_.faults(), IsEmpty());
}

TEST_F(SearchTest, oneTypingErrorIsForgivenWhereNothingFits) {
  add("14 Quillridge Road");
  add("15 Quillridge Road");
  const auto found = reader_.find("quilridge 14");
  ASSERT_EQ(found->rows.size(), 1u);
  EXPECT_EQ(found->corrected, "quilridge");
  EXPECT_THAT(marked(found->rows.front()), ElementsAre("14", "Quillridge"));
  EXPECT_EQ(reader_.count("quilridge")->matching, 2u);
  EXPECT_THAT(addresses("qilridge"), IsEmpty());
  EXPECT_EQ(reader_.find("quill")->corrected, "");
  // A word that came later is known too.
  add("16 Vernhope Road");
  EXPECT_THAT(addresses("vernhpoe"), ElementsAre("16 Vernhope Road"));
}

TEST_F(SearchTest, marksAndLettersOfOtherScripts) {
  add("3 Calle Nu\u00F1ez", "", "A. Pe\u00F1afiel");
  add("5 \u03A3\u03C4\u03BF\u03AC");
  add("9 O\u2019Fenn Court");
  EXPECT_THAT(addresses("nunez"), ElementsAre("3 Calle Nu\u00F1ez"));
  EXPECT_THAT(addresses("PEN\u0303AFIEL"), ElementsAre("3 Calle Nu\u00F1ez"));
  EXPECT_THAT(addresses("\u03C3\u03C4\u03BF\u03B1"), ElementsAre("5 \u03A3\u03C4\u03BF\u03AC"));
  EXPECT_THAT(addresses("o'fenn"), ElementsAre("9 O\u2019Fenn Court"));
  EXPECT_THAT(addresses("ofenn"), ElementsAre("9 O\u2019Fenn Court"));
  EXPECT_THAT(addresses("o fenn"), ElementsAre("9 O\u2019Fenn Court"));
}

TEST_F(SearchTest, whatFitsIsMarked) {
  add("14 North Oak Avenue", "Unit 4", "M. Oakley");
  const auto row = reader_.find("n oak 4")->rows.front();
  EXPECT_THAT(marked(row), ElementsAre("North", "Oak", "4", "Oakley"));
}

TEST_F(SearchTest, filtersStandAmongTheWords) {
  job::Job closed = sampleJob();
  job::Job open = draftAt(90, "9 Larkmoor Terrace");
  open.installer = "Ada Pennick";
  open.stage = "live";
  open.planned = rowASwapped();
  store_.import({closed, open});
  const std::vector<std::string> both = addresses("larkmoor terrace");
  EXPECT_EQ(both.size(), 2u);
  const auto is = [&](const std::string& text, const job::Job& wanted) {
    const auto answers = rows(text);
    ASSERT_EQ(answers.size(), 1u) << text;
    EXPECT_EQ(answers.front().ref.id, wanted.id) << text;
  };
  is("state:open", open);
  is("terrace STATE:draft", open);
  is("state:clo", closed);
  is("stage:live", open);
  is("installer:pennick", open);
  is("installer:\"J. Tamsin\"", closed);
  is("findings:open", open);
  is("findings:none", closed);
  EXPECT_EQ(rows("system:A").size(), 2u);
  EXPECT_THAT(rows("system:G"), IsEmpty());
  EXPECT_EQ(rows("unit:furnace").size(), 2u);
  EXPECT_EQ(rows("state:").size(), 2u);  // not typed to its end
  EXPECT_EQ(rows("day:2026-03 system:A").size(), 2u);
  is("day:2026-03-12 9", open);
  const auto choices = reader_.choices();
  EXPECT_THAT(choices.years, ElementsAre("2026"));
  EXPECT_THAT(choices.systems, ElementsAre("A"));
  EXPECT_THAT(choices.installers, ElementsAre("Ada Pennick", "J. Tamsin"));
  EXPECT_GT(reader_.find("state:open")->rows.front().open, 0);
}

TEST_F(SearchTest, whatIsRefusedIsOfARowOfItsOwn) {
  job::Job refused = draftAt(91, "11 Larkmoor Terrace");
  refused.surveys.push_back(
      {sampleId(92), ww::survey::refusedWith("lineVoltage"), "A. Pennick", "2026-03-12T09:00:00-05:00"});
  job::Job unit = draftAt(93, "13 Larkmoor Terrace");
  unit.planned = rowASwapped();
  ww::sheet::Unit stranger;
  stranger.tag = "X";
  stranger.profile = "refused-data-bus";
  unit.planned->addUnit(stranger);
  store_.import({sampleJob(), refused, unit});
  EXPECT_THAT(rows("system:S").size(), 2u);
  EXPECT_EQ(rows("system:A").size(), 1u);
}

TEST_F(SearchTest, aFilterIsNoWordOfAnAddress) {
  add("1 Thornshaw Court");
  for (const char* text : {"draft", "state", "statedraft", "z", "zstate", "\uE000statedraft"})
    EXPECT_THAT(addresses(text), IsEmpty()) << text;
}

// The index has a language of its own; a person's text never speaks it.
TEST_F(SearchTest, nothingTypedIsTakenForTheIndexsLanguage) {
  add("7 And Or Near Lane");
  for (const char* text : {"\"",
                           "\"\"\"",
                           "a AND",
                           "OR",
                           "NOT near",
                           "lane*",
                           "^lane",
                           "address:lane",
                           "{address}:lane",
                           "lane)",
                           "(",
                           "NEAR(",
                           "a + b",
                           "lane -or",
                           "'; DROP TABLE job; --",
                           "%",
                           "_",
                           "\\",
                           "lane:",
                           ":",
                           "::",
                           "state:\"",
                           "\t\n"})
    EXPECT_NO_THROW(reader_.find(text)) << text;
  EXPECT_THAT(addresses("and or"), ElementsAre("7 And Or Near Lane"));
  EXPECT_THAT(addresses("lane) OR (\"near\""), ElementsAre("7 And Or Near Lane"));
  EXPECT_THAT(addresses("not"), IsEmpty());
}

TEST_F(SearchTest, aHundredThousandLettersAreNoTrouble) {
  add("7 Larkmoor Terrace");
  EXPECT_NO_THROW(reader_.find(std::string(100'000, 'a')));
  std::string many;
  for (int i = 0; i < 10'000; ++i) many += "larkmoor ";
  EXPECT_EQ(rows(many).size(), 1u);
}

TEST_F(SearchTest, phoneAndSerialNumbers) {
  job::Job job = draftAt(60, "1 Bramley Road");
  job.site.phone = "555-0142";
  job.planned = rowA();
  auto furnace = *job.planned->unitByTag("F");
  furnace.nameplate["serial"] = "QX-7781";
  job.planned->units.put(furnace);
  store_.import({job});
  for (const char* text : {"5550142", "555-0142", "0142", "qx-7781", "7781", "2026-0312-60"})
    EXPECT_THAT(addresses(text), ElementsAre("1 Bramley Road")) << text;
}

// Scrolling through shows every match once.
TEST_F(SearchTest, pagesTogetherAreTheWholeList) {
  MadeUpTown town(5);
  std::vector<job::Job> jobs;
  for (std::uint64_t i = 1; i <= 700; ++i) {
    jobs.push_back(town.draft(i));
    if (i % 2 == 0) jobs.back().site.address = std::to_string(i % 90 + 1) + " Oak Street";
  }
  store_.import(jobs);
  const size_t matching = reader_.count("oak 1")->matching;
  std::set<std::string> ids;
  size_t shown = 0;
  for (size_t from = 0;; from += 37) {
    const auto page = rows("oak 1", from, 37);
    for (const auto& row : page) ids.insert(row.ref.id);
    shown += page.size();
    if (page.size() < 37) break;
  }
  EXPECT_EQ(shown, matching);
  EXPECT_EQ(ids.size(), matching);
  EXPECT_GT(matching, 30u);
  std::string day = "9999";
  size_t all = 0;
  for (size_t from = 0; from < 700; from += 100)
    for (const auto& row : rows("", from, 100)) {
      EXPECT_LE(row.day, day);
      day = row.day;
      ++all;
    }
  EXPECT_EQ(all, 700u);
  EXPECT_EQ(rows("o", 0, 600).size(), reader_.count("o")->matching);
}

// What a plain reading of all addresses finds, the index finds.
TEST_F(SearchTest, agreesWithReadingAllAddresses) {
  MadeUpTown town(11);
  std::vector<job::Job> jobs;
  for (std::uint64_t i = 1; i <= 400; ++i) jobs.push_back(town.draft(i));
  store_.import(jobs);
  size_t nonEmpty = 0;
  for (int round = 0; round < 300; ++round) {
    const auto& picked = jobs[town.below(jobs.size())];
    const auto words = history::wordsOf(picked.site.address);
    std::string text;
    std::vector<std::string> terms;
    for (const auto& word : words) {
      if (town.below(3) == 0) continue;
      std::string term = word.folded.substr(0, 3 + town.below(6));
      terms.push_back(term);
      text += term + " ";
    }
    if (terms.empty()) continue;
    std::set<std::string> wanted;
    for (const auto& job : jobs) {
      bool all = true;
      const std::string index =
          ' ' + history::addressText(job.site.address) + ' ' + history::addressText(job.site.unit) + ' ' +
          history::addressText(job.site.city) + ' ' + history::addressText(job.site.customer) + ' ' +
          history::addressText(job.number);
      for (const auto& term : terms)
        all = all && (index.find(' ' + term) != std::string::npos ||
                      (history::streetWord(term) != term &&
                       (index + ' ').find(' ' + history::streetWord(term) + ' ') != std::string::npos));
      if (all) wanted.insert(job.id);
    }
    std::set<std::string> found;
    for (const auto& row : rows(text, 0, 1000)) found.insert(row.ref.id);
    for (const auto& id : wanted) EXPECT_TRUE(found.contains(id)) << text;
    nonEmpty += wanted.empty() ? 0 : 1;
  }
  EXPECT_GT(nonEmpty, 200u);
}

}  // namespace
