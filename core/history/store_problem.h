// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <exception>
#include <string>

namespace ww::history {

/// Why a store cannot be opened, written or read. The sentence is made by ui/wording.
struct StoreProblem {
  enum class Kind {
    readOnly,   ///< the folder or the file cannot be written
    full,       ///< no room left on the disk
    corrupt,    ///< the file is damaged; it was left as it is
    notAStore,  ///< a file of that name is something else; it was left as it is
    newer,      ///< a later version of the program wrote it; it was left as it is
    network,    ///< the folder lies on a network file system, where several writers damage the file
    locked,     ///< another program keeps it locked
    broken,     ///< the disk or the database failed otherwise
    frozen,     ///< a closed job was to be changed
  };
  Kind kind = Kind::broken;
  std::string path;    ///< file, or folder for readOnly and network
  std::string detail;  ///< what the system said; kind of file system for network; version found for newer
  std::string backup;  ///< with corrupt: the newest backup beside it; empty without any
  friend bool operator==(const StoreProblem&, const StoreProblem&) = default;
};

/// The one exception of the store, for faults of disk and database in a store that was open. The operation
/// did not happen; what was stored before still is.
class StoreFault : public std::exception {
 public:
  explicit StoreFault(StoreProblem problem) : problem_(std::move(problem)) {}
  const StoreProblem& problem() const { return problem_; }
  const char* what() const noexcept override { return problem_.detail.c_str(); }

 private:
  StoreProblem problem_;
};

}  // namespace ww::history
