// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "asbuilt/as_built.h"

namespace ww::verify {

/// Why a call of a control cannot share a conductor with another through diodes.
struct Unshareable {
  enum class Why {
    electronic,   ///< an electronic output: what it lets through when open, and its own supply, come as half
                  ///< waves
    valve,        ///< a reversing valve stays energised for whole seasons, with the other call upon it
    transformers  ///< control and receiver are fed by different transformers
  };
  Why why = Why::electronic;
  sheet::TerminalRef screw;  ///< of the control
};

/// Whether what lies at this node of the wiring - a call of a control, landed or about to be - may share a
/// conductor; nothing where it may. The rule of the finding and of the offer of such a kit alike.
std::optional<Unshareable> unshareable(const asbuilt::AsBuilt& circuit, int node);

/// Transformers that feed a node while every contact is closed, by device index.
std::vector<size_t> feeding(const asbuilt::AsBuilt& circuit, int node);

/// "electronic", "valve", "transformers".
const char* idOf(Unshareable::Why why);

}  // namespace ww::verify
