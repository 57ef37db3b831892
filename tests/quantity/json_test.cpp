// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/json.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

namespace ww::quantity {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::ElementsAre;
using testing::Field;
using testing::IsEmpty;
using testing::Pair;

testing::Matcher<Problem> problem(const std::string& where, const std::string& key) {
  return AllOf(Field("where", &Problem::where, where), Field("key", &Problem::key, key));
}

std::string argument(const Problem& problem, const std::string& name) {
  for (const auto& [key, value] : problem.args)
    if (key == name) return value;
  return "(none)";
}

TEST(ParseJson, readsWhatIsSound) {
  const auto loaded = parseJson(R"({"a": [1, 2.5, "x", null, true], "b": {}})");
  ASSERT_TRUE(loaded);
  EXPECT_EQ((*loaded.value)["a"][1], 2.5);
}

TEST(ParseJson, namesThePlaceOfASyntaxError) {
  const auto loaded = parseJson("{\n  \"a\": 1,\n  \"b\": ,\n}");
  ASSERT_FALSE(loaded);
  ASSERT_THAT(loaded.problems, ElementsAre(problem("", "json-syntax")));
  EXPECT_EQ(argument(loaded.problems[0], "line"), "3");
  EXPECT_EQ(argument(loaded.problems[0], "column"), "8");
}

TEST(ParseJson, refusesTruncatedEmptyAndForeignText) {
  for (const char* text : {"", " ", "{", "[1,", "{\"a\"", "\"abc", "nul", "1 2", "{} x", "NaN", "[Infinity]",
                           "1e999", "\"\xff\"", "{'a': 1}", "// c\n{}"}) {
    const auto loaded = parseJson(text);
    EXPECT_FALSE(loaded) << text;
    EXPECT_THAT(loaded.problems, ElementsAre(problem("", "json-syntax"))) << text;
  }
}

TEST(ParseJson, boundsSizeBeforeParsing) {
  const auto loaded = parseJson("[1, 2, 3", 7);
  ASSERT_THAT(loaded.problems, ElementsAre(problem("", "json-too-large")));
  EXPECT_EQ(argument(loaded.problems[0], "bytes"), "8");
  EXPECT_TRUE(parseJson("[1, 2]", 7));
}

TEST(ParseJson, boundsDepthBeforeParsing) {
  const std::string deep(kMaxJsonDepth, '[');
  EXPECT_TRUE(parseJson(deep + std::string(kMaxJsonDepth, ']')));
  const auto loaded = parseJson(deep + "[");
  ASSERT_THAT(loaded.problems, ElementsAre(problem("", "json-too-deep")));
  EXPECT_EQ(argument(loaded.problems[0], "column"), std::to_string(kMaxJsonDepth + 1));
  EXPECT_THAT(parseJson(std::string(1'000'000, '[')).problems, ElementsAre(problem("", "json-too-deep")));
}

TEST(ParseJson, bracketsInsideTextAreNoDepth) {
  EXPECT_TRUE(parseJson("[\"" + std::string(500, '[') + "\\\"" + std::string(500, '{') + "\"]"));
}

TEST(ParseJson, findsEveryKeyThatStandsTwice) {
  const auto loaded = parseJson(R"({"a": 1, "a": 2, "l": [0, {"x/y": 1, "x/y": 1}], "b": {"a": 1}})");
  EXPECT_THAT(loaded.problems,
              ElementsAre(problem("/a", "json-duplicate-key"), problem("/l/1/x~1y", "json-duplicate-key")));
}

TEST(ParseJson, aFloodOfProblemsIsCutOff) {
  std::string text = "{\"a\": 0";
  for (size_t i = 0; i < 2 * kMostProblems; ++i) text += ", \"a\": 0";
  const auto loaded = parseJson(text + "}");
  ASSERT_EQ(loaded.problems.size(), kMostProblems + 1);
  EXPECT_THAT(loaded.problems.back(), problem("", "more-problems"));
  EXPECT_EQ(argument(loaded.problems.back(), "count"), std::to_string(kMostProblems));
}

TEST(Pointer, escapesAsTheStandardSays) {
  EXPECT_EQ(pointerTo("/a", "b~c/d"), "/a/b~0c~1d");
  EXPECT_EQ(pointerTo("", size_t{3}), "/3");
}

TEST(Cited, cutsBetweenCharacters) {
  EXPECT_EQ(cited("short"), "short");
  std::string text(59, 'a');
  text += "\xc3\xb1 and more";
  EXPECT_EQ(cited(text), std::string(59, 'a') + "...");
}

TEST(Fields, readsEveryKindOfMember) {
  const json object =
      json::parse(R"({"t": "x", "n": 2.5, "w": 3, "b": true, "l": ["p", "q"], "m": {"en": "E"}})");
  Problems problems;
  Fields fields(object, "/u", problems);
  EXPECT_EQ(fields.text("t"), "x");
  EXPECT_EQ(fields.number("n", 0, 10), 2.5);
  EXPECT_EQ(fields.whole("w", 0, 10), 3);
  EXPECT_TRUE(fields.truth("b"));
  EXPECT_THAT(fields.texts("l", 5), ElementsAre("p", "q"));
  EXPECT_THAT(fields.textMap("m", 5), ElementsAre(Pair("en", "E")));
  EXPECT_EQ(fields.textOr("absent", "d"), "d");
  EXPECT_EQ(fields.numberOr("absent", 7, 0, 10), 7);
  EXPECT_EQ(fields.wholeOr("absent", 8, 0, 10), 8);
  EXPECT_FALSE(fields.numberIfAny("absent", 0, 1));
  EXPECT_TRUE(fields.truthOr("absent", true));
  EXPECT_THAT(fields.listIfAny("absent", 5), IsEmpty());
  EXPECT_FALSE(fields.has("absent"));
  fields.finish();
  EXPECT_THAT(problems, IsEmpty());
}

TEST(Fields, findsEverythingThatIsWrongInOnePass) {
  const json object = json::parse(
      R"({"t": 1, "n": "x", "r": 11, "w": 1.5, "b": 0, "l": {}, "m": [], "e": "green", "stray": 1, "long": "abcdef"})");
  Problems problems;
  Fields fields(object, "/u", problems);
  fields.text("t");
  fields.number("n", 0, 10);
  fields.number("r", 0, 10);
  fields.whole("w", 0, 10);
  fields.truth("b");
  fields.texts("l", 5);
  fields.textMap("m", 5);
  EXPECT_EQ(fields.word<int>("e", {{"red", 1}, {"blue", 2}}), 1);
  fields.text("long", 5);
  fields.text("absent");
  fields.finish();
  EXPECT_THAT(problems, ElementsAre(problem("/u/t", "wrong-type"), problem("/u/n", "wrong-type"),
                                    problem("/u/r", "out-of-range"), problem("/u/w", "wrong-type"),
                                    problem("/u/b", "wrong-type"), problem("/u/l", "wrong-type"),
                                    problem("/u/m", "wrong-type"), problem("/u/e", "unknown-word"),
                                    problem("/u/long", "text-too-long"), problem("/u", "missing-member"),
                                    problem("/u/stray", "unknown-member")));
  EXPECT_EQ(argument(problems[0], "want"), "text");
  EXPECT_EQ(argument(problems[0], "found"), "number");
  EXPECT_EQ(argument(problems[3], "want"), "whole-number");
  EXPECT_EQ(argument(problems[7], "known"), "red, blue");
}

TEST(Fields, wordKeepsTheMeaning) {
  const json object = json::parse(R"({"e": "blue"})");
  Problems problems;
  Fields fields(object, "", problems);
  EXPECT_EQ(fields.word<int>("e", {{"red", 1}, {"blue", 2}}), 2);
  EXPECT_EQ(fields.wordOr<int>("f", {{"red", 1}}, 9), 9);
  EXPECT_THAT(problems, IsEmpty());
}

TEST(Fields, nothingButAnObjectWillDo) {
  const json list = json::array();
  Problems problems;
  Fields fields(list, "/x", problems);
  EXPECT_FALSE(fields.isObject());
  EXPECT_EQ(fields.text("t"), "");
  fields.finish();
  EXPECT_THAT(problems, ElementsAre(problem("/x", "wrong-type")));
}

TEST(Fields, aFloodOfUnknownMembersIsCutOff) {
  json object = json::object();
  for (size_t i = 0; i < 2 * kMostProblems; ++i) object[std::to_string(i)] = 0;
  Problems problems;
  Fields(object, "", problems).finish();
  ASSERT_EQ(problems.size(), kMostProblems + 1);
  EXPECT_THAT(problems.back(), problem("", "more-problems"));
}

TEST(Items, areCountedBeforeTheyAreRead) {
  const json list = json::parse("[1, 2, 3]");
  Problems problems;
  EXPECT_EQ(listItems(list, "/l", problems, 3).size(), 3u);
  EXPECT_EQ(listItems(list, "/l", problems, 3)[2].where, "/l/2");
  EXPECT_THAT(problems, IsEmpty());
  EXPECT_THAT(listItems(list, "/l", problems, 2), IsEmpty());
  EXPECT_THAT(problems, ElementsAre(problem("/l", "too-many-items")));
}

}  // namespace
}  // namespace ww::quantity
