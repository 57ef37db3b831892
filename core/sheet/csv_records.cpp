// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/csv_records.h"

#include <algorithm>
#include <optional>

#include "quantity/text.h"
#include "sheet/landing_check.h"

namespace ww::sheet {

namespace {

constexpr size_t kKeptCells = 64;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// Bytes of the UTF-8 character that starts here (RFC 3629: no overlong forms, no surrogates); 0 for a wrong
/// one.
size_t characterAt(std::string_view text, size_t at) {
  const auto byte = [&](size_t i) -> unsigned {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u;
  };
  const auto follows = [&](size_t i, unsigned least = 0x80, unsigned most = 0xBF) {
    return byte(i) >= least && byte(i) <= most;
  };
  const unsigned first = byte(at);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return follows(at + 1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned least = first == 0xE0 ? 0xA0 : 0x80, most = first == 0xED ? 0x9F : 0xBF;
    return follows(at + 1, least, most) && follows(at + 2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned least = first == 0xF0 ? 0x90 : 0x80, most = first == 0xF4 ? 0x8F : 0xBF;
    return follows(at + 1, least, most) && follows(at + 2) && follows(at + 3) ? 4 : 0;
  }
  return 0;
}

std::optional<size_t> wrongCharacterAt(std::string_view text) {
  for (size_t at = 0; at < text.size();) {
    const size_t bytes = characterAt(text, at);
    if (bytes == 0) return at;
    at += bytes;
  }
  return std::nullopt;
}

bool isLineEnd(char c) { return c == '\n' || c == '\r'; }

/// Walks the text cell by cell.
class CellReader {
 public:
  CellReader(std::string_view text, char separator, quantity::Problems& problems)
      : text_(text), separator_(separator), problems_(problems) {}

  bool atEnd() const { return at_ >= text_.size(); }

  CsvRecord record() {
    CsvRecord record;
    record.row = ++row_;
    for (bool more = true; more;) {
      ++record.cellCount;
      std::string cell = this->cell(record.cellCount);
      if (record.cells.size() < kKeptCells) record.cells.push_back(std::move(cell));
      more = !atEnd() && text_[at_] == separator_;
      if (more) ++at_;
    }
    skipLineEnd();
    return record;
  }

 private:
  bool cellEndsHere() const { return atEnd() || text_[at_] == separator_ || isLineEnd(text_[at_]); }

  std::string cell(size_t number) {
    if (!atEnd() && text_[at_] == '"') return quotedCell(number);
    const size_t start = at_;
    while (!cellEndsHere()) ++at_;
    const std::string_view cell = text_.substr(start, at_ - start);
    if (cell.find('"') != std::string_view::npos) complain("stray-quote", number);
    return std::string(cell);
  }

  std::string quotedCell(size_t number) {
    std::string cell;
    for (++at_; !atEnd(); ++at_) {
      if (text_[at_] != '"') {
        cell += text_[at_];
      } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
        cell += text_[++at_];
      } else {
        ++at_;
        if (!cellEndsHere()) complain("stray-quote", number);
        while (!cellEndsHere()) ++at_;
        return cell;
      }
    }
    complain("quote-not-closed", number);
    return cell;
  }

  void skipLineEnd() {
    if (atEnd()) return;
    const bool carriage = text_[at_++] == '\r';
    if (carriage && !atEnd() && text_[at_] == '\n') ++at_;
  }

  void complain(std::string key, size_t cell) {
    if (!enough(problems_))
      problems_.push_back({"row " + std::to_string(row_), std::move(key), {{"cell", std::to_string(cell)}}});
  }

  std::string_view text_;
  char separator_;
  quantity::Problems& problems_;
  size_t at_ = 0;
  int row_ = 0;
};

bool isBlank(const CsvRecord& record) {
  return std::ranges::all_of(record.cells,
                             [](const std::string& cell) { return quantity::trimmed(cell).empty(); });
}

/// The first line, counted outside quotes, that is neither blank nor a '#' line.
std::string_view headerLine(std::string_view text) {
  bool quoted = false;
  size_t start = 0;
  for (size_t at = 0; at <= text.size(); ++at) {
    if (at < text.size() && text[at] == '"') quoted = !quoted;
    if (at < text.size() && (quoted || !isLineEnd(text[at]))) continue;
    const std::string_view line = text.substr(start, at - start);
    const size_t first = line.find_first_not_of(" \t,;\"");
    if (first != std::string_view::npos && line[first] != '#') return line;
    start = at + 1;
  }
  return {};
}

char separatorOf(std::string_view text) {
  const std::string_view header = headerLine(text);
  const bool semicolons =
      header.find(';') != std::string_view::npos && header.find(',') == std::string_view::npos;
  return semicolons ? ';' : ',';
}

quantity::Problems unreadable(std::string_view text, size_t maxBytes) {
  using std::to_string;
  if (text.size() > maxBytes)
    return {{"", "csv-too-large", {{"bytes", to_string(text.size())}, {"limit", to_string(maxBytes)}}}};
  if (const size_t zero = text.find('\0'); zero != std::string_view::npos)
    return {{"", "zero-byte", {{"byte", to_string(zero)}}}};
  if (const auto wrong = wrongCharacterAt(text)) return {{"", "not-utf8", {{"byte", to_string(*wrong)}}}};
  return {};
}

}  // namespace

quantity::Loaded<std::vector<CsvRecord>> csvRecords(std::string_view text, size_t maxBytes, size_t maxRows) {
  using Records = quantity::Loaded<std::vector<CsvRecord>>;
  quantity::Problems problems = unreadable(text, maxBytes);
  if (!problems.empty()) return Records::failed(std::move(problems));
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());

  std::vector<CsvRecord> records;
  CellReader reader(text, separatorOf(text), problems);
  while (!reader.atEnd()) {
    CsvRecord record = reader.record();
    if (record.row > static_cast<int>(maxRows)) {
      problems.push_back({"", "too-many-rows", {{"limit", std::to_string(maxRows)}}});
      break;
    }
    if (!isBlank(record)) records.push_back(std::move(record));
  }
  if (!problems.empty()) return Records::failed(std::move(problems));
  return Records::ok(std::move(records));
}

std::string csvCell(std::string_view text) {
  const bool needsQuotes =
      text.find_first_of(",;\"\r\n\t") != std::string_view::npos || quantity::trimmed(text) != text ||
      (!text.empty() && std::string_view("=+-@#").find(text.front()) != std::string_view::npos);
  if (!needsQuotes) return std::string(text);
  std::string cell = "\"";
  for (const char c : text) {
    if (c == '"') cell += '"';
    cell += c;
  }
  return cell + '"';
}

}  // namespace ww::sheet
