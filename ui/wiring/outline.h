// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <vector>

#include "wiring/in_hand.h"

namespace ww::wiring {

/// The diagram in words: unit, terminal, landing. For screen readers and the listing.
struct Outline {
  struct Landing {
    EndRef end;
    QString text;
  };
  struct Terminal {
    sheet::TerminalRef ref;  ///< an empty terminal: the splices and the ends in the air of the unit
    QString text;
    std::vector<Landing> landings;
  };
  struct Unit {
    sheet::UnitId unit{};
    QString text;
    std::vector<Terminal> terminals;
  };
  std::vector<Unit> units;
};

Outline outlineOf(const InHand& hand);
/// The outline as lines, each level indented, and below it the findings that are open.
QString listingOf(const InHand& hand);

}  // namespace ww::wiring
