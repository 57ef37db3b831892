// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "drawing/overlay.h"
#include "wording/language.h"

namespace ww::paint {

/// The texts of an overlay's rows in a language: "Y to C" and "26.4 V", "indoor blower" and "RUNS". The
/// language must outlive the function.
drawing::SayRow rowWords(const wording::Language& language);

}  // namespace ww::paint
