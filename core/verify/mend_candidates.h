// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "verify/check.h"
#include "verify/edit.h"

namespace ww::verify {

/// An edit worth trying. Lower ranks are nearer to what looks wrong: 0 puts an end where the other end of its
/// conductor says, 1 touches an end that lies oddly, 2 touches what the findings name, 3 the rest.
struct Candidate {
  Edit edit;
  int rank = 3;
};

/// Every single edit of the sheet that is not forbidden by its kind alone, by rank, then kind, then ids. No
/// larger fuse, no transformer beyond Class 2, no jumper setting in a safety's place; at dry, sense,
/// millivolt, line or data screws nothing but what belongs there, and what a finding names there taken away.
std::vector<Candidate> candidatesOf(const sheet::Sheet& sheet, const equipment::Library& library,
                                    const SheetCheck& check);

}  // namespace ww::verify
