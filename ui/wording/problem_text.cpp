// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "quantity/text.h"
#include "wording/sentences.h"

namespace ww::wording {
namespace {

/// Parameters that the reader counted or that bound a value: printed as the language prints numbers. What was
/// found in the file is printed as it stands there.
bool isFigure(const std::string& name) {
  constexpr std::array kFigures{"bytes", "limit", "line", "column", "least", "most", "count", "position"};
  for (const char* figure : kFigures)
    if (name == figure) return true;
  return false;
}

QString worded(const Language& language, const std::string& name, const std::string& value) {
  if (isFigure(name)) {
    if (const auto number = quantity::parseNumber(value)) {
      const std::string printed = quantity::printNumber(*number);
      const auto point = printed.find('.');
      const int decimals = point == std::string::npos ? 0 : static_cast<int>(printed.size() - point - 1);
      return language.number(*number, printed.find('e') == std::string::npos ? decimals : 6);
    }
  }
  return word(language, name == "want" || name == "found" ? "json-type" : name, value);
}

/// A place in a file: pointers and column names stay as they stand there, the row is a word.
QString placed(const Language& language, const QString& where) {
  if (!where.startsWith(QStringLiteral("row "))) return where;
  return language.sentence(QStringLiteral("problem-in.row"), {{"row", where.mid(4)}});
}

}  // namespace

QString problemText(const Language& language, const quantity::Problem& problem, const QString& file) {
  Args args;
  QStringList names;
  for (const auto& [name, value] : problem.args) {
    if (value.empty()) continue;
    args.emplace_back(QString::fromStdString(name), worded(language, name, value));
    names << args.back().first;
  }
  const QString key =
      language.variant(QStringLiteral("problem.") + QString::fromStdString(problem.key), names);
  const QString what = language.sentence(key.isEmpty() ? QStringLiteral("problem-unknown") : key, args);
  const QString where = placed(language, QString::fromStdString(problem.where));
  const Args parts{{"file", file}, {"where", where}, {"what", what}};
  if (file.isEmpty() && where.isEmpty()) return what;
  if (where.isEmpty()) return language.sentence(QStringLiteral("problem-in.file"), parts);
  if (file.isEmpty()) return language.sentence(QStringLiteral("problem-in.place"), parts);
  return language.sentence(QStringLiteral("problem-in.file-place"), parts);
}

}  // namespace ww::wording
