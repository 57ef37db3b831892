// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/text.h"

#include <gmock/gmock.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>

#include "quantity/canonical.h"

namespace ww::quantity {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;

TEST(ParseNumber, TakesDecimalsAndNothingElse) {
  EXPECT_EQ(parseNumber("12"), 12);
  EXPECT_EQ(parseNumber(" -0.5\t"), -0.5);
  EXPECT_EQ(parseNumber("+1e3"), 1000);
  for (const char* text : {"", " ", "+", "-", "1,5", "1 2", "12V", "0x10", "inf", "nan", "1e999", "--1"})
    EXPECT_EQ(parseNumber(text), std::nullopt) << text;
}

TEST(PrintNumber, IsShortAndReadsBack) {
  EXPECT_EQ(printNumber(0.1), "0.1");
  EXPECT_EQ(printNumber(24), "24");
  EXPECT_EQ(printNumber(-27.6), "-27.6");
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> exponent(-300, 300), sign(-1, 1);
  for (int i = 0; i < 2000; ++i) {
    const double value = sign(random) * std::pow(10.0, exponent(random));
    EXPECT_EQ(parseNumber(printNumber(value)), value);
  }
}

TEST(PrintFixed, RoundsAndKnowsNoNegativeZero) {
  EXPECT_EQ(printFixed(27.6449, 2), "27.64");
  EXPECT_EQ(printFixed(27.65, 0), "28");
  EXPECT_EQ(printFixed(-0.004, 2), "0.00");
  EXPECT_EQ(printFixed(-0.006, 2), "-0.01");
  EXPECT_EQ(printFixed(1e300, 1).size(), 303u);
}

TEST(Pieces, SplitJoinTrim) {
  EXPECT_THAT(split("a,,b,", ','), ElementsAre("a", "", "b", ""));
  EXPECT_THAT(split("", ','), ElementsAre(""));
  EXPECT_EQ(joined({"a", "b"}), "a, b");
  EXPECT_EQ(joined({}), "");
  EXPECT_EQ(trimmed(" \t a b \r\n"), "a b");
  EXPECT_EQ(trimmed(" \n"), "");
}

TEST(LengthOf, KnowsMetresAndFeet) {
  EXPECT_EQ(lengthOf(15, "m"), Metres(15));
  EXPECT_EQ(lengthOf(50, "ft"), Metres(15.24));
  EXPECT_EQ(lengthOf(1, "yd"), std::nullopt);
}

TEST(CanonicalText, IsOneSpelling) {
  EXPECT_EQ(canonicalText(json::parse(R"( {"b": [1, 2.50, true, null], "a": {"é": "\u00e9\n"}} )")),
            "{\"a\":{\"é\":\"é\\n\"},\"b\":[1,2.5,true,null]}\n");
  EXPECT_EQ(canonicalText(json::parse(R"({"x":1e2,"y":0.1})")),
            canonicalText(json::parse(R"({"y":1e-1,"x":100.0})")));
  EXPECT_EQ(canonicalText(json::array()), "[]\n");
  EXPECT_EQ(canonicalText(json::object()), "{}\n");
}

TEST(CanonicalText, SpellsWhatJsonCannotAsNull) {
  EXPECT_EQ(canonicalText(json::array({std::numeric_limits<double>::infinity(), std::nan("")})),
            "[null,null]\n");
}

TEST(CanonicalText, ReadsBackTheSame) {
  const json value =
      json::parse(R"([0.30000000000000004, 1e-7, 123456789012345678, -5, {"k": ["", "\\ \" /"]}])");
  EXPECT_EQ(json::parse(canonicalText(value)), value);
}

}  // namespace
}  // namespace ww::quantity
