// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/colour.h"

#include <gmock/gmock.h>

namespace ww::sheet {
namespace {

using ::testing::ElementsAre;

std::vector<std::string> customary(int conductors) {
  std::vector<std::string> codes;
  for (const Colour& colour : customaryColours(conductors)) codes.push_back(print(colour));
  return codes;
}

TEST(Colours, readAndPrint) {
  for (const char* text : {"RD", "WH/RD", "??", "TN/??", "VT"}) {
    const auto colour = parseColour(text);
    ASSERT_TRUE(colour) << text;
    EXPECT_EQ(print(*colour), text);
  }
  EXPECT_EQ(parseColour(" wh / rd "), (Colour{Insulation::wh, Insulation::rd}));
}

TEST(Colours, refuseWhatIsNone) {
  for (const char* text : {"", "RDD", "R", "XX", "RD/", "/RD", "RD/XX", "RD/WH/BK", "red"})
    EXPECT_FALSE(parseColour(text)) << text;
}

TEST(Colours, everyCodeIsListedInComplaints) {
  size_t codes = 0;
  for (int i = 0; i <= static_cast<int>(Insulation::unknown); ++i, ++codes) {
    const auto text = code(static_cast<Insulation>(i));
    EXPECT_EQ(insulationOf(text), static_cast<Insulation>(i));
    EXPECT_NE(kColourCodes.find(text), std::string_view::npos) << text;
  }
  EXPECT_EQ(codes, 13u);
}

// Common practice of control cable, no source.
TEST(Colours, ofANewCable) {
  EXPECT_THAT(customary(2), ElementsAre("RD", "WH"));
  EXPECT_THAT(customary(3), ElementsAre("RD", "WH", "GN"));
  EXPECT_THAT(customary(4), ElementsAre("RD", "YE", "GN", "WH"));
  EXPECT_THAT(customary(5), ElementsAre("RD", "BU", "YE", "GN", "WH"));
  EXPECT_THAT(customary(7), ElementsAre("RD", "BU", "YE", "GN", "WH", "OG", "BN"));
  EXPECT_THAT(customary(8), ElementsAre("RD", "BU", "YE", "GN", "WH", "OG", "BN", "BK"));
  EXPECT_EQ(customary(10).back(), "??");
  EXPECT_TRUE(customary(-1).empty());
}

}  // namespace
}  // namespace ww::sheet
