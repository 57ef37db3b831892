// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ww::wiring {

/// Lets screen readers walk a DiagramView: units, in them terminals, in those landings. Call it before the
/// first window opens; calling it again does nothing.
void installDiagramAccessibility();

}  // namespace ww::wiring
