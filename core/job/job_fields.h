// SPDX-License-Identifier: GPL-3.0-or-later
// The words of the job format, shared by its reader and its writer. Private to the room.
#pragma once

#include "job/job.h"
#include "quantity/json.h"

namespace ww::job {

inline const quantity::Fields::Words<State> kStateWords{{"draft", State::draft},
                                                        {"closed", State::closed},
                                                        {"amended", State::amended},
                                                        {"binned", State::binned}};

}  // namespace ww::job
