// SPDX-License-Identifier: GPL-3.0-or-later
#include <SQLiteCpp/SQLiteCpp.h>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "history/schema.h"
#include "history/search_text.h"

namespace {

/// The index alone, in memory, with one address in it.
SQLite::Database& index() {
  static SQLite::Database database = [] {
    SQLite::Database made(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    for (const char* step : ww::history::schemaSteps()) made.exec(step);
    SQLite::Statement row(made, "INSERT INTO search(address, customer, numbers, facets) VALUES(?,?,?,?)");
    row.bind(1, ww::history::addressText("14 North Oak Avenue, Unit 4"));
    row.bind(2, ww::history::addressText("M. Ode 555-0142"));
    row.bind(3, ww::history::addressText("2026-0312-01"));
    row.bind(4, ww::history::facet("state", "draft") + ' ' + ww::history::facet("system", "A"));
    row.exec();
    return made;
  }();
  return database;
}

}  // namespace

// Whatever is typed: the index understands the expression, whole words are never more than beginnings, and a
// word of the text lies inside it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  std::size_t end = 0;
  for (const auto& word : ww::history::wordsOf(text)) {
    if (word.folded.empty() || word.begin < end || word.begin + word.length > size) std::abort();
    end = word.begin + word.length;
  }
  const auto asked = ww::history::askedBy(text);
  if (asked.terms.size() > ww::history::kMostTerms) std::abort();
  SQLite::Statement match(index(), "SELECT count(*) FROM search WHERE search MATCH ?");
  int matching[2] = {0, 0};
  for (const bool whole : {false, true}) {
    const std::string expression = ww::history::expressionOf(asked, whole);
    if (expression.empty()) return 0;
    match.reset();
    match.bind(1, expression);
    match.executeStep();  // a syntax error throws, and that ends the run
    matching[whole ? 1 : 0] = match.getColumn(0).getInt();
  }
  if (matching[1] > matching[0]) std::abort();
  return 0;
}
