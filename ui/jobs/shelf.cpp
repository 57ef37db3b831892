// SPDX-License-Identifier: GPL-3.0-or-later
// The signals of a shelf are built with this source.
#include "jobs/shelf.h"
