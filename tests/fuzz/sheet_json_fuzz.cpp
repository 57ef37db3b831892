// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "sheet/sheet_csv.h"
#include "sheet/sheet_json.h"

// Whatever the bytes: a sheet or problems, never both and never neither; an accepted sheet writes and reads
// back equal, as JSON with its ids.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto& library = ww::equipment::standardLibrary();
  const auto sheet = ww::sheet::readSheetFile(text, library);
  if (sheet.value.has_value() != sheet.problems.empty()) std::abort();
  if (!sheet.value) return 0;
  const std::string written = ww::sheet::writeSheetFile(*sheet.value);
  const auto again = ww::sheet::readSheetFile(written, library);
  if (again.value != sheet.value || ww::sheet::writeSheetFile(*again.value) != written) std::abort();
  ww::sheet::writeCsv(*sheet.value);
  return 0;
}
