// SPDX-License-Identifier: GPL-3.0-or-later
// The commands' results as lines for a terminal.
#pragma once

#include "opened.h"

namespace ww::app {

QString checkText(const Opened& opened);
QString callText(const Opened& opened, const operation::CallResult& call);
QString stepsText(const Opened& opened, const std::vector<checklist::Step>& steps);

}  // namespace ww::app
