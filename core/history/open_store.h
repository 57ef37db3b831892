// SPDX-License-Identifier: GPL-3.0-or-later
// Finding out what lies in the folder, and bringing it up to date. Private to the room.
#pragma once

#include <memory>
#include <string>
#include <variant>

#include "history/connection.h"

namespace ww::history {

struct Opened {
  std::unique_ptr<SQLite::Database> database;
  std::string migrationBackup;
};

/// Opens the writing connection. A file that is refused is left as it is, byte for byte.
std::variant<Opened, StoreProblem> openStore(const OpenOptions& options, const equipment::Library& library);

}  // namespace ww::history
