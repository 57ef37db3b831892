// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "checklist/step.h"

namespace ww::checklist {

/// What a person saw and heard at a look step.
struct Sighting {
  std::vector<std::string> runs;  ///< duties, as the step writes them; empty: nothing runs
  bool hum = false;               ///< something hums and does not come in
  friend bool operator==(const Sighting&, const Sighting&) = default;
};

/// "runs compressor1 blower:cool1", "runs nothing", "runs nothing, hum": how a job keeps it.
std::string print(const Sighting& sighting);
/// Reads what print() wrote; nothing for any other text.
std::optional<Sighting> parseSighting(std::string_view text);

/// Good when all that must run runs, nothing that must stand still does, and nothing hums; else fault.
Verdict judge(const Step& step, const Sighting& sighting);

}  // namespace ww::checklist
