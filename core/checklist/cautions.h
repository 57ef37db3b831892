// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "asbuilt/as_built.h"
#include "checklist/step.h"

namespace ww::checklist {

/// Adds the cautions that the units' profiles carry, each to the step that it concerns: what stays live
/// before that unit is proved dead, meters before its first reading, licences before anything is opened. One
/// that no step is known for stands before the first step at its unit, else before the first of all.
void addProfileCautions(const asbuilt::AsBuilt& circuit, std::vector<Step>& steps);

}  // namespace ww::checklist
