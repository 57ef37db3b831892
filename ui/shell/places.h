// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "shell/stage_rail.h"

namespace ww::shell {

/// The stages of a job in order, their places not made yet.
std::vector<Stage> stagesOf(const wording::Language& language);
/// The place of a stage, made for these surroundings as a child of `parent`.
fittings::Place* makePlace(const Stage& stage, const session::Surroundings& around, QWidget* parent);

}  // namespace ww::shell
