// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "operation/solution.h"

namespace ww::operation {

/// Units that conductors join, however long the way; each a sheet of its own with the ids of the whole. Two
/// islands that are bonded meet in the earth alone, and one meeting point carries nothing. The same holds for
/// what hangs on the rest by the common of its transformer alone: the conductor between two such commons lies
/// in no island. `circuit`: the sheet compiled.
std::vector<sheet::Sheet> islandsOf(const sheet::Sheet& sheet, const asbuilt::AsBuilt& circuit);

/// Solves the islands one by one, each only in the calls of its own controls and the states that concern all,
/// and puts the answers together as if the whole had been solved: what a call leaves alone rests.
Solution solveIslands(const std::vector<sheet::Sheet>& islands, const equipment::Library& library,
                      std::shared_ptr<const asbuilt::AsBuilt> whole, LineRange lines, Depth depth);

/// Carries these calls of a circuit to their ends, "rest" always among them.
Solution solveCalls(std::shared_ptr<const asbuilt::AsBuilt> circuit, const asbuilt::Conditions& conditions,
                    const std::vector<std::string>& calls, LineRange lines, Depth depth);

}  // namespace ww::operation
