// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/logic_tokens.h"

#include "equipment/words.h"

namespace ww::equipment {

namespace {

// The C library's classes follow the locale; the language is ASCII.
bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isLetter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

}  // namespace

Token Tokens::next() {
  const Token token = ahead_;
  ahead_ = read();
  return token;
}

Token Tokens::nextChoice() {
  const size_t start = ahead_.position - 1;
  size_t end = start;
  while (end < text_.size() && isChoice(text_.substr(end, 1))) ++end;
  if (end == start) return next();
  at_ = end;
  ahead_ = read();
  return {Token::Kind::word, text_.substr(start, end - start), start + 1};
}

Token Tokens::read() {
  while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t' || text_[at_] == '\n')) ++at_;
  const size_t start = at_;
  const auto piece = [&](Token::Kind kind) {
    return Token{kind, text_.substr(start, at_ - start), start + 1};
  };
  if (at_ == text_.size()) return piece(Token::Kind::end);
  const char c = text_[at_++];
  if (isLetter(c)) {
    while (at_ < text_.size() && (isLetter(text_[at_]) || isDigit(text_[at_]))) ++at_;
    return piece(Token::Kind::word);
  }
  if (isDigit(c)) {
    while (at_ < text_.size() && (isDigit(text_[at_]) || text_[at_] == '.')) ++at_;
    return piece(Token::Kind::number);
  }
  if (c == ':' && at_ < text_.size() && text_[at_] == '=') {
    ++at_;
    return piece(Token::Kind::symbol);
  }
  if (std::string_view("&|!()=;,.").find(c) != std::string_view::npos) return piece(Token::Kind::symbol);
  // Whole UTF-8 characters, so that what was found can be quoted.
  while (at_ < text_.size() && (static_cast<unsigned char>(text_[at_]) & 0xc0) == 0x80) ++at_;
  return piece(Token::Kind::unknown);
}

}  // namespace ww::equipment
