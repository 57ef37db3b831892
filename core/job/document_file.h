// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "equipment/profile.h"
#include "job/job.h"
#include "quantity/loaded.h"

namespace ww::job {

/// Reads whatever a person hands over: a job, a wiring sheet as JSON, or one as CSV; told apart by the
/// content. A sheet alone becomes a draft with that sheet as planned and no site. Problems: those of the
/// reader that fits, and "empty-file", "unknown-format" {found, known} for JSON that is neither.
quantity::Loaded<Job> readDocument(std::string_view text, const equipment::Library& library);

/// Why a file was not saved; nothing is left half-written, and what stood there before still does.
struct SaveFailure {
  enum class Step { open, write, rename } step = Step::open;
  std::string detail;  ///< what the system said
};

/// Writes beside the target ("name.part"), flushes to the disk, then renames over it. Nothing on success. A
/// target that is a folder, a device or a pipe is refused.
std::optional<SaveFailure> saveFile(const std::string& path, std::string_view bytes);

}  // namespace ww::job
