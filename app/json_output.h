// SPDX-License-Identifier: GPL-3.0-or-later
// The commands' results as JSON: ids and figures, with `text` in the chosen language where a sentence
// belongs.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "opened.h"

namespace ww::app {

nlohmann::json checkJson(const Opened& opened);
nlohmann::json callJson(const Opened& opened, const operation::CallResult& call);
nlohmann::json stepsJson(const Opened& opened, const std::vector<checklist::Step>& steps);

}  // namespace ww::app
