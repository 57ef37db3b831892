// SPDX-License-Identifier: GPL-3.0-or-later
// Files built into the program. Private to the room.
#pragma once

#include <string_view>
#include <vector>

namespace ww::history {

struct ShippedFile {
  std::string_view name, text;
};
const std::vector<ShippedFile>& shippedStreetWords();
const std::vector<ShippedFile>& shippedDemoJobs();

}  // namespace ww::history
