// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <cmath>

#include "equipment/logic.h"
#include "equipment/logic_tokens.h"
#include "quantity/text.h"

namespace ww::equipment {

namespace {

using quantity::Problems;

constexpr int kFailed = -1;

struct Reader {
  std::string_view word;
  Op op;
};
/// Functions of one name: what they read is in Op's list.
constexpr std::array kReaders{Reader{"seen", Op::seen},       Reader{"in", Op::in},
                              Reader{"powered", Op::powered}, Reader{"hot", Op::hot},
                              Reader{"shut", Op::shut},       Reader{"live", Op::live}};
constexpr std::string_view kFunctions =
    "seen, in, powered, hot, shut, live, minOn, minOff, latch, tally, ran, first";

bool isReserved(std::string_view word) {
  static constexpr std::array<std::string_view, 22> words{
      "on",   "off", "hard",    "keep", "true", "false", "live",   "line",  "world", "call", "duty",
      "seen", "in",  "powered", "hot",  "shut", "minOn", "minOff", "latch", "tally", "ran",  "first"};
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool isTimer(Op op) { return op == Op::onDelay || op == Op::offDelay || op == Op::minOn || op == Op::minOff; }

/// Recursive descent over one text. After the first problem every step returns kFailed.
class Parser {
 public:
  Parser(std::string_view text, const std::string& where, Logic& logic, Problems& problems)
      : tokens_(text), where_(where), logic_(logic), problems_(problems), before_(logic.nodes.size()) {
    if (text.size() > kMaxLogicText)
      fail("logic-too-long",
           {{"bytes", std::to_string(text.size())}, {"limit", std::to_string(kMaxLogicText)}});
  }

  void statement() {
    Statement result;
    do {
      const Token name = tokens_.next();
      if (name.kind != Token::Kind::word) return drop(expected(name, "name"));
      if (isReserved(name.text)) return drop(fail("logic-reserved-name", at(name)));
      if (isAssigned(name.text) || isAmong(name.text, result.names))
        return drop(fail("logic-assigned-twice", {{"name", std::string(name.text)}}));
      result.names.emplace_back(name.text);
    } while (take(","));
    if (!take(":=")) return drop(expected(tokens_.peek(), ":="));
    outputs_ = result.names;
    inStatement_ = true;
    result.expression = expression();
    if (result.expression != kFailed) acceptHard();
    if (result.expression != kFailed && !failed_) acceptEnd();
    if (!failed_ && result.names.size() > 1 && !isFirst(result.expression))
      fail("logic-first-names", {{"names", std::to_string(result.names.size())}, {"arguments", "0"}});
    if (failed_) return drop(kFailed);
    logic_.statements.push_back(std::move(result));
  }

  int loose() {
    const int result = expression();
    if (result != kFailed) acceptEnd();
    if (failed_) drop(kFailed);
    return failed_ ? kFailed : result;
  }

 private:
  using Args = std::vector<std::pair<std::string, std::string>>;

  Args at(const Token& token) const {
    return {{"position", std::to_string(token.position)}, {"found", std::string(token.text)}};
  }
  int fail(std::string key, Args args) {
    if (!failed_) problems_.push_back({where_, std::move(key), std::move(args)});
    failed_ = true;
    return kFailed;
  }
  int expected(const Token& token, std::string want) {
    Args args = at(token);
    args.emplace_back("want", std::move(want));
    return fail("logic-syntax", std::move(args));
  }
  void drop(int) { logic_.nodes.resize(before_); }

  bool take(std::string_view symbol) {
    if (failed_ || tokens_.peek().kind != Token::Kind::symbol || tokens_.peek().text != symbol) return false;
    tokens_.next();
    return true;
  }
  bool takeWord(std::string_view word) {
    if (failed_ || tokens_.peek().kind != Token::Kind::word || tokens_.peek().text != word) return false;
    tokens_.next();
    return true;
  }
  bool need(std::string_view symbol) {
    if (take(symbol)) return true;
    expected(tokens_.peek(), std::string(symbol));
    return false;
  }
  void acceptEnd() {
    if (tokens_.peek().kind != Token::Kind::end) expected(tokens_.peek(), "end");
  }
  void acceptHard() {
    const Token token = tokens_.peek();
    if (!takeWord("hard")) return;
    bool any = false;
    for (size_t i = before_; i < logic_.nodes.size(); ++i)
      if (isTimer(logic_.nodes[i].op)) any = logic_.nodes[i].hard = true;
    if (!any) fail("logic-hard-without-timer", {{"position", std::to_string(token.position)}});
  }

  static bool isAmong(std::string_view name, const std::vector<std::string>& names) {
    return std::find(names.begin(), names.end(), name) != names.end();
  }
  bool isAssigned(std::string_view name) const {
    return std::any_of(logic_.statements.begin(), logic_.statements.end(),
                       [&](const Statement& statement) { return isAmong(name, statement.names); });
  }
  bool isFirst(int node) const { return logic_.nodes[static_cast<size_t>(node)].op == Op::first; }

  int add(LogicNode node) {
    if (failed_) return kFailed;
    if (logic_.nodes.size() >= kMaxLogicNodes)
      return fail("logic-too-large", {{"limit", std::to_string(kMaxLogicNodes)}});
    logic_.nodes.push_back(std::move(node));
    return static_cast<int>(logic_.nodes.size()) - 1;
  }
  int addNamed(Op op, std::string_view name) {
    LogicNode node;
    node.op = op;
    node.name = name;
    return add(std::move(node));
  }
  int addWith(Op op, std::vector<int> args, double number = 0) {
    LogicNode node;
    node.op = op;
    node.number = number;
    node.args = std::move(args);
    return add(std::move(node));
  }

  /// A list of equals under one operator, "a | b | c"; one alone stands for itself.
  template <class Part>
  int chain(std::string_view symbol, Op op, Part part) {
    std::vector<int> args{part()};
    while (take(symbol)) args.push_back(part());
    if (failed_) return kFailed;
    return args.size() == 1 ? args.front() : addWith(op, std::move(args));
  }
  int expression() {
    return chain("|", Op::disjunction,
                 [this] { return chain("&", Op::conjunction, [this] { return delayed(); }); });
  }

  int delayed() {
    int result = unary();
    while (!failed_) {
      const bool on = takeWord("on");
      if (!on && !takeWord("off")) break;
      const double seconds = number(1e-3, kMaxLogicSeconds, false);
      result = addWith(on ? Op::onDelay : Op::offDelay, {result}, seconds);
      if (takeWord("hard")) logic_.nodes[static_cast<size_t>(result)].hard = true;
    }
    return failed_ ? kFailed : result;
  }

  int unary() {
    if (failed_) return kFailed;
    if (++depth_ > kMaxLogicDepth)
      return fail("logic-too-deep", {{"position", std::to_string(tokens_.peek().position)},
                                     {"limit", std::to_string(kMaxLogicDepth)}});
    int result = kFailed;
    if (take("!")) {
      const int argument = unary();
      result = addWith(Op::negation, {argument});
    } else if (take("(")) {
      result = expression();
      need(")");
    } else {
      result = primary();
    }
    --depth_;
    return failed_ ? kFailed : result;
  }

  int primary() {
    const Token word = tokens_.next();
    if (word.kind != Token::Kind::word) return expected(word, "expression");
    if (word.text == "world") return fact(Op::world);
    if (word.text == "call") return fact(Op::call);
    if (word.text == "duty") return fact(Op::duty);
    if (take("=")) return comparison(word);
    if (word.text == "true" || word.text == "false")
      return addWith(Op::constant, {}, word.text == "true" ? 1 : 0);
    if (word.text == "line") return addNamed(Op::line, "");
    const bool called = take("(");
    if (word.text == "live" && !called) return addNamed(Op::live, "");
    if (called) return function(word);
    if (isReserved(word.text)) return expected(word, "expression");
    return addNamed(Op::signal, word.text);
  }

  int fact(Op op) {
    if (!need(".")) return kFailed;
    const Token name = tokens_.next();
    return name.kind == Token::Kind::word ? addNamed(op, name.text) : expected(name, "name");
  }

  int comparison(const Token& key) {
    if (isReserved(key.text)) return fail("logic-reserved-name", at(key));
    const Token value = tokens_.nextChoice();
    if (value.kind != Token::Kind::word) return expected(value, "value");
    LogicNode node;
    node.op = Op::setting;
    node.name = key.text;
    node.value = value.text;
    return add(std::move(node));
  }

  double number(double least, double most, bool whole) {
    if (failed_) return 0;
    const Token token = tokens_.next();
    if (token.kind != Token::Kind::number) return expected(token, "number"), 0.0;
    const auto value = quantity::parseNumber(token.text);
    if (value && *value >= least && *value <= most && (!whole || *value == std::floor(*value))) return *value;
    Args args = at(token);
    args.emplace_back("least", quantity::printNumber(least));
    args.emplace_back("most", quantity::printNumber(most));
    fail("logic-number", std::move(args));
    return 0;
  }

  /// After the opening bracket.
  int function(const Token& word) {
    for (const Reader& reader : kReaders)
      if (reader.word == word.text) return partReader(reader.op);
    if (word.text == "minOn" || word.text == "minOff") return minimum(word);
    if (word.text == "latch") return latch();
    if (word.text == "tally") return counted(Op::tally, 1, 1000, true);
    if (word.text == "ran") return counted(Op::ran, 1e-3, kMaxLogicSeconds, false);
    if (word.text == "first") return first(word);
    Args args = at(word);
    args.emplace_back("known", kFunctions);
    return fail("logic-unknown-function", std::move(args));
  }

  int partReader(Op op) {
    const Token name = tokens_.next();
    if (name.kind != Token::Kind::word) return expected(name, "name");
    need(")");
    return addNamed(op, name.text);
  }

  int minimum(const Token& word) {
    if (outputs_.size() != 1) return fail("logic-own-output", at(word));
    LogicNode node;
    node.op = word.text == "minOn" ? Op::minOn : Op::minOff;
    node.name = outputs_.front();
    node.number = number(1e-3, kMaxLogicSeconds, false);
    if (failed_ || !need(")")) return kFailed;
    node.hard = takeWord("hard");
    return add(std::move(node));
  }

  int latch() {
    const int set = expression();
    if (!need(";")) return kFailed;
    const int reset = expression();
    const bool keep = take(";");
    if (keep && !takeWord("keep")) return expected(tokens_.peek(), "keep");
    if (!need(")")) return kFailed;
    const int result = addWith(Op::latch, {set, reset});
    if (result != kFailed) logic_.nodes[static_cast<size_t>(result)].keep = keep;
    return result;
  }

  int counted(Op op, double least, double most, bool whole) {
    const int what = expression();
    if (!need(",")) return kFailed;
    const double limit = number(least, most, whole);
    if (failed_ || !need(";")) return kFailed;
    const int reset = expression();
    if (!need(")")) return kFailed;
    return addWith(op, {what, reset}, limit);
  }

  int first(const Token& word) {
    // It yields as many signals as it has arguments, so it can only be all of a statement.
    if (!inStatement_ || depth_ != 1 || logic_.nodes.size() != before_)
      return fail("logic-first-place", at(word));
    std::vector<int> args{expression()};
    while (take(";")) args.push_back(expression());
    if (!need(")")) return kFailed;
    if (tokens_.peek().kind != Token::Kind::end) return expected(tokens_.peek(), "end");
    if (args.size() != outputs_.size() || args.size() < 2 || args.size() > kMaxFirst)
      return fail("logic-first-names",
                  {{"names", std::to_string(outputs_.size())}, {"arguments", std::to_string(args.size())}});
    return addWith(Op::first, std::move(args));
  }

  Tokens tokens_;
  const std::string& where_;
  Logic& logic_;
  Problems& problems_;
  size_t before_;
  std::vector<std::string> outputs_;
  bool inStatement_ = false;
  bool failed_ = false;
  int depth_ = 0;
};

}  // namespace

void parseStatement(std::string_view text, const std::string& where, Logic& logic, Problems& problems) {
  Parser(text, where, logic, problems).statement();
}

int parseExpression(std::string_view text, const std::string& where, Logic& logic, Problems& problems) {
  return Parser(text, where, logic, problems).loose();
}

}  // namespace ww::equipment
