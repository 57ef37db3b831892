// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include "operation/solution.h"

namespace ww::testing {

/// Every call of the sheet ends at low and high line as at nominal, no transformer above 80 %.
inline void expectAlikeAcrossLines(const sheet::Sheet& sheet) {
  using namespace operation;
  const Solution solution = solveSheet(sheet, equipment::standardLibrary(), {0.92, 1.10}, Depth::across);
  for (const SolvedCall& call : solution.calls)
    for (const double line : {0.92, 1.10}) {
      const Variant* variant = call.at(line);
      ASSERT_NE(variant, nullptr);
      EXPECT_EQ(variant->duties, call.result.duties) << call.result.call << " at " << line;
      EXPECT_EQ(variant->state, CallState::ok) << call.result.call << " at " << line;
      for (const SourceResult& source : variant->sources)
        EXPECT_LT(source.loadPercent, 80) << call.result.call << " at " << line;
    }
}

}  // namespace ww::testing
