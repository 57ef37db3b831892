// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <set>

#include "equipment/profile.h"
#include "quantity/json.h"

// Private to the room.
namespace ww::equipment {

/// A profile while it is read: where each node of its logic was written is kept for complaints.
struct Draft {
  const PartLibrary& parts;
  quantity::Problems& problems;
  Profile profile;
  std::vector<std::string> nodeWhere;  ///< by node: pointer of the text it stands in
  /// Elements and signals that were complained about: naming them elsewhere is no further mistake.
  std::set<std::string> broken;

  /// Parses a text of the logic language and remembers its place.
  int expression(std::string_view text, const std::string& where);
  void statement(std::string_view text, const std::string& where);
  void complain(std::string where, std::string key,
                std::vector<std::pair<std::string, std::string>> args = {}) {
    problems.push_back({std::move(where), std::move(key), std::move(args)});
  }
  /// "bad-name" {found} unless `good`.
  void requireName(bool good, const std::string& where, std::string_view found);
  /// "id-doubled" {id} when a row before this one has the same id.
  template <class Rows, class IdOf>
  void requireUnique(const Rows& rows, IdOf idOf, const std::string& where) {
    for (size_t i = 0; i + 1 < rows.size(); ++i)
      if (idOf(rows[i]) == idOf(rows.back()))
        return complain(where, "id-doubled", {{"id", idOf(rows.back())}});
  }
};

/// Reads the list "elements"; settings must have been read before.
void readElements(quantity::Fields& fields, Draft& draft);

/// What only the whole profile shows: nodes that lead nowhere, names of the logic that mean nothing, loops.
/// Resolves a bare `live` to the only supply.
void checkWhole(Draft& draft);

}  // namespace ww::equipment
