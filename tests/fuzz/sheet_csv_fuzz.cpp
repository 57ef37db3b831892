// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "sheet/sheet_csv.h"

// Whatever the bytes: a sheet or problems, never both and never neither; an accepted sheet writes and reads
// back equal.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto& library = ww::equipment::standardLibrary();
  const auto sheet = ww::sheet::readCsv(text, library);
  if (sheet.value.has_value() != sheet.problems.empty()) std::abort();
  if (!sheet.value) return 0;
  const auto again = ww::sheet::readCsv(ww::sheet::writeCsv(*sheet.value), library);
  if (again.value != sheet.value) std::abort();
  return 0;
}
