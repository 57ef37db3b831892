// SPDX-License-Identifier: GPL-3.0-or-later
// What is derived from the bodies: the list, the search index, readings and findings. Private to the room.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "history/connection.h"
#include "job/job.h"

namespace ww::history {

/// A finding of a job's sheet, as it is kept.
struct KeptFinding {
  std::string key;
  int severity = 0;
  bool accepted = false;
};

/// One stored job, as the tables around it know it.
struct Stored {
  std::int64_t key = 0;
  std::string created;  ///< ISO 8601, UTC
  bool inWork = true;
  bool binned = false;
};

class Projection {
 public:
  Projection(Statements& statements, const equipment::Library& library)
      : sql_(statements), library_(library) {}
  /// Brings what is derived in line with the job. Inside the caller's transaction.
  void write(const Stored& stored, const job::Job& job);
  /// Derives everything anew from the bodies. A body that cannot be read keeps its place in the list by
  /// nothing but its id.
  void rebuild();

 private:
  std::optional<std::int64_t> siteOf(const job::Site& site);
  std::string letterOf(const Stored& stored, const job::Job& job);
  void list(const Stored& stored, const job::Job& job, const std::string& system, int open);
  void index(const Stored& stored, const job::Job& job, std::optional<std::int64_t> before,
             std::int64_t recency, const std::string& letter, const std::string& system, int open);
  void keepWords(const std::string& text);
  void keepReadings(const Stored& stored, const job::Job& job);
  int keepFindings(const Stored& stored, const job::Job& job);
  const std::vector<verify::Finding>& findingsOf(const job::Job& job);

  Statements& sql_;
  const equipment::Library& library_;
  // The sheet checked last: a save that changes no landing has its findings already.
  std::optional<sheet::Sheet> checked_;
  std::map<std::string, std::string> profiles_;
  double low_ = 0, high_ = 0;
  std::vector<verify::Finding> findings_;
};

}  // namespace ww::history
