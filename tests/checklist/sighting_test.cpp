// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/sighting.h"

#include <gtest/gtest.h>

namespace ww::checklist {
namespace {

Step look(std::vector<std::string> must, std::vector<std::string> mustNot) {
  Step step;
  step.measure = Measure::look;
  step.mustRun = std::move(must);
  step.mustNotRun = std::move(mustNot);
  return step;
}

TEST(Sighting, WhatIsWrittenReadsBack) {
  for (const Sighting& seen : {Sighting{}, Sighting{{}, true}, Sighting{{"compressor1"}, false},
                               Sighting{{"compressor1", "blower:cool1"}, true}})
    EXPECT_EQ(parseSighting(print(seen)), seen) << print(seen);
  EXPECT_EQ(print({{"compressor1", "blower:cool1"}, true}), "runs compressor1 blower:cool1, hum");
  for (const char* other : {"", "seen", "runs", "runs ", "runs a  b", "runs compressor1; x"})
    EXPECT_FALSE(parseSighting(other)) << other;
}

TEST(Sighting, AllThatMustRunsAndNothingElse) {
  const Step cooling = look({"compressor1", "blower:cool1"}, {"burner1"});
  EXPECT_EQ(judge(cooling, {{"compressor1", "blower:cool1"}, false}), Verdict::good);
  EXPECT_EQ(judge(cooling, {{"compressor1", "blower:cool1", "outdoorFan"}, false}), Verdict::good);
  EXPECT_EQ(judge(cooling, {{"compressor1"}, false}), Verdict::fault);
  EXPECT_EQ(judge(cooling, {{"compressor1", "blower:cool1", "burner1"}, false}), Verdict::fault);
  EXPECT_EQ(judge(cooling, {{"compressor1", "blower:cool1"}, true}), Verdict::fault);
  EXPECT_EQ(judge(look({}, {"burner1"}), {}), Verdict::good);
}

}  // namespace
}  // namespace ww::checklist
