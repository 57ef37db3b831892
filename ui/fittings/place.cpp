// SPDX-License-Identifier: GPL-3.0-or-later
// The signals of a place are built with this source.
#include "fittings/place.h"
