// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "job/document_file.h"
#include "job/job_json.h"

// Whatever the bytes: a job or problems, never both and never neither; an accepted job writes and reads back
// equal, with the same hash.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto& library = ww::equipment::standardLibrary();
  const auto document = ww::job::readDocument(text, library);
  if (document.value.has_value() != document.problems.empty()) std::abort();
  const auto job = ww::job::readJob(text, library);
  if (job.value.has_value() != job.problems.empty()) std::abort();
  if (!job.value) return 0;
  const auto again = ww::job::readJob(ww::job::writeJob(*job.value), library);
  if (again.value != job.value || ww::job::hashOf(*again.value) != ww::job::hashOf(*job.value)) std::abort();
  return 0;
}
