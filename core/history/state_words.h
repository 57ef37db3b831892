// SPDX-License-Identifier: GPL-3.0-or-later
// The states of a job as words of the tables. Private to the room.
#pragma once

#include <array>
#include <string_view>
#include <utility>

#include "job/job.h"

namespace ww::history {

inline constexpr std::array<std::pair<std::string_view, job::State>, 4> kStates{
    {{"draft", job::State::draft},
     {"closed", job::State::closed},
     {"amended", job::State::amended},
     {"binned", job::State::binned}}};

inline std::string_view wordOf(job::State state) {
  for (const auto& [word, meaning] : kStates)
    if (meaning == state) return word;
  return {};
}

inline job::State stateOf(std::string_view word) {
  for (const auto& [known, meaning] : kStates)
    if (known == word) return meaning;
  return job::State::draft;
}

}  // namespace ww::history
