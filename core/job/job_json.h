// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "equipment/profile.h"
#include "job/job.h"
#include "quantity/loaded.h"

namespace ww::job {

inline constexpr std::string_view kJobFormat = "wirewright-job";
inline constexpr int kJobVersion = 1;
inline constexpr size_t kMostJobBytes = size_t{16} << 20;

/// Reads a job. All problems found, `where` a JSON pointer: those of quantity::parseJson(), quantity::Fields
/// and sheet::readSheet(), "wrong-format" {found, known}, "newer-version" {version, known}, "not-a-uuid"
/// {found}, "not-a-date" {found}, "not-a-moment" {found}, "id-doubled" {id}, "reading-not-there" {reading},
/// "reading-of-another-step" {reading, step}, "strike-without-reading", "meter-not-there" {meter},
/// "line-order", those of recommend::readControl(). Profiles that travel inside stand before those of the
/// library; they have the problems of equipment::readProfile(), and "profile-other-id" {id}. Surveys:
/// "survey-refused" {found, want} where what is kept as refused is not what the answers come to.
quantity::Loaded<Job> readJob(std::string_view text, const equipment::Library& library);

/// Canonical bytes: readJob() reads them back equal, and they are what is hashed.
std::string writeJob(const Job& job);

/// Canonical bytes without the signatures, which stand beside a frozen revision; readJob() reads them.
std::string writeFrozen(const Job& job);

/// SHA-256 of writeFrozen(), hexadecimal.
std::string hashOf(const Job& job);

}  // namespace ww::job
