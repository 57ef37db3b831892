// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "shell/stage_rail.h"

namespace ww::shell {

/// The stages of a job in order, each with its place, made for these surroundings as children of `parent`.
std::vector<Stage> makeStages(const session::Surroundings& around, QWidget* parent);

}  // namespace ww::shell
