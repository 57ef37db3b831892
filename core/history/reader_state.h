// SPDX-License-Identifier: GPL-3.0-or-later
// The inside of the reader. Private to the room.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "history/connection.h"
#include "history/reader.h"
#include "history/search_text.h"
#include "history/typing_error.h"

namespace ww::history {

struct Reader::State {
  State(std::string file, const OpenOptions& options, std::string writer, const equipment::Library& profiles);

  std::string path;
  Clock clock;
  std::string process;  ///< the writer that reads here, not to be named among the others
  const equipment::Library& library;
  std::unique_ptr<SQLite::Database> database;
  Statements sql;
  Spelling spelling;
  std::int64_t lastWord = 0;  ///< key of the last word in `spelling`

  Found find(const std::string& text, size_t from, size_t count);
  Count count(const std::string& text, size_t most);
  std::optional<std::int64_t> keyOf(const JobRef& ref);

 private:
  /// Rowids best first: the newest and those with whole words, ranked, then the rest by recency.
  std::vector<std::int64_t> ranked(const Asked& asked, size_t from, size_t count);
  std::vector<std::int64_t> newest(size_t from, size_t count);
  std::vector<Row> rowsOf(const std::vector<std::int64_t>& recencies, const Asked& asked);
  /// The same with one word taken for another that is there; nothing when that helps neither.
  std::optional<Asked> corrected(const Asked& asked, std::string& word);
  bool matches(const Asked& asked);
  /// Looks up the words that long beginnings stand for.
  void lookUpBeginnings(Asked& asked);
  void learnWords();
};

}  // namespace ww::history
