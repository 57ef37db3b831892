// SPDX-License-Identifier: GPL-3.0-or-later
// The commands' results as JSON: ids and figures, with `text` in the chosen language where a sentence
// belongs.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "opened.h"

namespace ww::app {

/// "F.Y", "F.XF", "cable 1 YE end B".
std::string nameOf(const Opened& opened, const verify::Place& place);
std::string nameOf(const Opened& opened, const sheet::TerminalRef& terminal);
std::string nameOf(const Opened& opened, sheet::ConductorId id);
std::string tagOf(const Opened& opened, sheet::UnitId unit);
nlohmann::json findingJson(const Opened& opened, const verify::Finding& finding);
void printJson(const nlohmann::json& value);

nlohmann::json checkJson(const Opened& opened);
nlohmann::json callJson(const Opened& opened, const operation::CallResult& call);
nlohmann::json stepsJson(const Opened& opened, const std::vector<checklist::Step>& steps);

}  // namespace ww::app
