// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "equipment/logic.h"

namespace ww::equipment {
namespace {

using quantity::Problem;
using quantity::Problems;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// Fully bracketed text of a node, so that binding shows.
std::string shown(const Logic& logic, int index) {
  const LogicNode& node = logic.nodes.at(static_cast<size_t>(index));
  const auto list = [&](const std::string& between) {
    std::string text;
    for (const int arg : node.args) text += (text.empty() ? "" : between) + shown(logic, arg);
    return text;
  };
  const std::string hard = node.hard ? " hard" : "";
  const std::string number = std::to_string(static_cast<int>(node.number));
  switch (node.op) {
    case Op::constant: return node.number != 0 ? "true" : "false";
    case Op::signal: return node.name;
    case Op::seen: return "seen(" + node.name + ")";
    case Op::in: return "in(" + node.name + ")";
    case Op::powered: return "powered(" + node.name + ")";
    case Op::hot: return "hot(" + node.name + ")";
    case Op::shut: return "shut(" + node.name + ")";
    case Op::live: return "live(" + node.name + ")";
    case Op::line: return "line";
    case Op::world: return "world." + node.name;
    case Op::call: return "call." + node.name;
    case Op::duty: return "duty." + node.name;
    case Op::setting: return node.name + "=" + node.value;
    case Op::negation: return "!" + list("");
    case Op::conjunction: return "(" + list(" & ") + ")";
    case Op::disjunction: return "(" + list(" | ") + ")";
    case Op::onDelay: return "(" + list("") + " on " + number + hard + ")";
    case Op::offDelay: return "(" + list("") + " off " + number + hard + ")";
    case Op::minOn: return "minOn[" + node.name + "](" + number + ")" + hard;
    case Op::minOff: return "minOff[" + node.name + "](" + number + ")" + hard;
    case Op::latch: return "latch(" + list("; ") + (node.keep ? "; keep)" : ")");
    case Op::tally: return "tally(" + list("; ") + "; " + number + ")";
    case Op::ran: return "ran(" + list("; ") + "; " + number + ")";
    case Op::first: return "first(" + list("; ") + ")";
  }
  return "?";
}

std::string parsed(const std::string& text) {
  Logic logic;
  Problems problems;
  const int node = parseExpression(text, "", logic, problems);
  return node < 0 ? problems.at(0).key : shown(logic, node);
}

std::string stated(const std::string& text) {
  Logic logic;
  Problems problems;
  parseStatement(text, "", logic, problems);
  return problems.empty() ? shown(logic, logic.statements.at(0).expression) : problems.at(0).key;
}

TEST(Expression, readsEveryAtom) {
  for (const char* text :
       {"true", "false", "line", "a", "seen(W)", "in(CC)", "powered(GV)", "hot(H1)", "shut(ES)", "live(B)",
        "world.gas", "call.cool1", "fanWithHeat=control", "defrostInterval=1800", "interlock=on"})
    EXPECT_EQ(parsed(text), text);
  EXPECT_EQ(parsed("live"), "live()");
}

TEST(Expression, comparesWithEveryChoiceASettingMayHave) {
  for (const char* text : {"emergencyBy=W2+E", "size=1.5x", "size=2_5", "size=0.75"})
    EXPECT_EQ(parsed(text), text);
  EXPECT_EQ(parsed("by=W2+E&a"), "(by=W2+E & a)");
  EXPECT_EQ(parsed("by = W2+E | a"), "(by=W2+E | a)");
  EXPECT_EQ(parsed("!(by=E)"), "!by=E");
  EXPECT_EQ(parsed("by=W2 +E"), "logic-syntax");
}

TEST(Expression, bindsDelaysTighterThanAndTighterThanOr) {
  EXPECT_EQ(parsed("a off 15 | b"), "((a off 15) | b)");
  EXPECT_EQ(parsed("a & b off 15 | c & d"), "((a & (b off 15)) | (c & d))");
  EXPECT_EQ(parsed("(inducer on 3) off 2"), "((inducer on 3) off 2)");
  EXPECT_EQ(parsed("a on 3 off 2"), "((a on 3) off 2)");
  EXPECT_EQ(parsed("!a on 3"), "(!a on 3)");
  EXPECT_EQ(parsed("!(a | b) & !!c"), "(!(a | b) & !!c)");
  EXPECT_EQ(parsed("interlock=on off 5"), "(interlock=on off 5)");
}

TEST(Expression, readsMemories) {
  EXPECT_EQ(parsed("latch(a & b; !a | c)"), "latch((a & b); (!a | c))");
  EXPECT_EQ(parsed("latch(a; b; keep)"), "latch(a; b; keep)");
  EXPECT_EQ(parsed("tally(a, 3; b on 30)"), "tally(a; (b on 30); 3)");
  EXPECT_EQ(parsed("ran(a & b, 3600; c)"), "ran((a & b); c; 3600)");
}

TEST(Expression, readsHardTimers) {
  EXPECT_EQ(parsed("a off 180 hard | b on 5"), "((a off 180 hard) | (b on 5))");
  EXPECT_EQ(stated("K := a & minOff(300) hard"), "(a & minOff[K](300) hard)");
  EXPECT_EQ(stated("K := minOff(300) & minOn(60) & a hard"), "(minOff[K](300) hard & minOn[K](60) hard & a)");
  EXPECT_EQ(stated("K := a hard"), "logic-hard-without-timer");
}

TEST(Expression, keepsSecondsAsWritten) {
  Logic logic;
  Problems problems;
  const int node = parseExpression("a on 2.5", "", logic, problems);
  ASSERT_GE(node, 0);
  EXPECT_EQ(logic.nodes[static_cast<size_t>(node)].number, 2.5);
}

TEST(Statement, appendsToTheLogic) {
  Logic logic;
  Problems problems;
  parseStatement("a := seen(W)", "/logic/0", logic, problems);
  parseStatement("heat, cool := first(a; !a)", "/logic/1", logic, problems);
  EXPECT_THAT(problems, IsEmpty());
  ASSERT_THAT(logic.statements, SizeIs(2));
  EXPECT_THAT(logic.statements[0].names, ElementsAre("a"));
  EXPECT_THAT(logic.statements[1].names, ElementsAre("heat", "cool"));
  EXPECT_EQ(shown(logic, logic.statements[1].expression), "first(a; !a)");
}

struct Refusal {
  const char* text;
  const char* key;
  const char* position;  ///< as the problem gives it; "" when it has none
  const char* want = "";
};

class RefusedStatement : public testing::TestWithParam<Refusal> {};

std::string argument(const Problem& problem, const std::string& name) {
  for (const auto& [key, value] : problem.args)
    if (key == name) return value;
  return "";
}

TEST_P(RefusedStatement, isToldWithPlaceAndCure) {
  Logic logic;
  Problems problems;
  parseStatement("known := seen(W)", "", logic, problems);
  const Logic before = logic;
  parseStatement(GetParam().text, "/logic/7", logic, problems);
  ASSERT_THAT(problems, SizeIs(1));
  EXPECT_EQ(problems[0].where, "/logic/7");
  EXPECT_EQ(problems[0].key, GetParam().key);
  EXPECT_EQ(argument(problems[0], "position"), GetParam().position);
  EXPECT_EQ(argument(problems[0], "want"), GetParam().want);
  EXPECT_EQ(logic, before) << "half a statement stayed behind";
}

INSTANTIATE_TEST_SUITE_P(
    Each, RefusedStatement,
    testing::Values(
        Refusal{"", "logic-syntax", "1", "name"}, Refusal{"a", "logic-syntax", "2", ":="},
        Refusal{"a = b", "logic-syntax", "3", ":="}, Refusal{"a :=", "logic-syntax", "5", "expression"},
        Refusal{"a := b &", "logic-syntax", "9", "expression"}, Refusal{"a := (b", "logic-syntax", "8", ")"},
        Refusal{"a := b)", "logic-syntax", "7", "end"}, Refusal{"a := b c", "logic-syntax", "8", "end"},
        Refusal{"a := b on", "logic-syntax", "10", "number"},
        Refusal{"a := b on x", "logic-syntax", "11", "number"}, Refusal{"a := b on 0", "logic-number", "11"},
        Refusal{"a := b off 1000001", "logic-number", "12"}, Refusal{"a := b on 1.2.3", "logic-number", "11"},
        Refusal{"a := tally(b, 2.5; c)", "logic-number", "15"},
        Refusal{"a := tally(b; c)", "logic-syntax", "13", ","},
        Refusal{"a := tally(b, 3)", "logic-syntax", "16", ";"},
        Refusal{"a := latch(b)", "logic-syntax", "13", ";"},
        Refusal{"a := latch(b; c; d)", "logic-syntax", "18", "keep"},
        Refusal{"a := world", "logic-syntax", "11", "."},
        Refusal{"a := world.3", "logic-syntax", "12", "name"},
        Refusal{"a := seen()", "logic-syntax", "11", "name"},
        Refusal{"a := seen", "logic-syntax", "6", "expression"},
        Refusal{"a := key=", "logic-syntax", "10", "value"},
        Refusal{"a := key=(b)", "logic-syntax", "10", "value"},
        Refusal{"a := b $ c", "logic-syntax", "8", "end"},
        Refusal{"a := \xc3\xb1", "logic-syntax", "6", "expression"},
        Refusal{"a := wait(3)", "logic-unknown-function", "6"},
        Refusal{"on := b", "logic-reserved-name", "1"}, Refusal{"a := latch=b", "logic-reserved-name", "6"},
        Refusal{"known := b", "logic-assigned-twice", ""},
        Refusal{"a, a := first(b; c)", "logic-assigned-twice", ""},
        Refusal{"a, b := c", "logic-first-names", ""}, Refusal{"a := first(b; c)", "logic-first-names", ""},
        Refusal{"a, b := first(c; d; e)", "logic-first-names", ""},
        Refusal{"a, b, c, d, e := first(f; g; h; i; j)", "logic-first-names", ""},
        Refusal{"a, b := c & first(d; e)", "logic-first-place", "13"},
        Refusal{"a, b := first(c; d) & e", "logic-syntax", "21", "end"},
        Refusal{"a, b := minOff(3)", "logic-own-output", "9"},
        Refusal{"a := b hard", "logic-hard-without-timer", "8"}));

TEST(Expression, hasNoOutputOfItsOwn) {
  EXPECT_EQ(parsed("minOff(180)"), "logic-own-output");
  EXPECT_EQ(parsed("first(a; b)"), "logic-first-place");
}

TEST(Expression, isBounded) {
  EXPECT_EQ(parsed(std::string(kMaxLogicDepth + 1, '(') + "a" + std::string(kMaxLogicDepth + 1, ')')),
            "logic-too-deep");
  EXPECT_EQ(parsed(std::string(kMaxLogicDepth + 1, '!') + "a"), "logic-too-deep");
  EXPECT_EQ(parsed(std::string(kMaxLogicDepth - 1, '(') + "a" + std::string(kMaxLogicDepth - 1, ')')), "a");
  EXPECT_EQ(parsed(std::string(kMaxLogicText + 1, ' ')), "logic-too-long");
}

TEST(Expression, stopsBeforeOneUnitGrowsWithoutEnd) {
  Logic logic;
  Problems problems;
  std::string wide = "a";
  for (int i = 0; i < 400; ++i) wide += "&a";
  for (int i = 0; i < 20 && problems.empty(); ++i) parseExpression(wide, "", logic, problems);
  ASSERT_THAT(problems, SizeIs(1));
  EXPECT_EQ(problems[0].key, "logic-too-large");
  EXPECT_LE(logic.nodes.size(), kMaxLogicNodes);
}

}  // namespace
}  // namespace ww::equipment
