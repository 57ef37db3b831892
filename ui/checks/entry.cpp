// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/entry.h"

#include <QRegularExpression>

#include "fittings/number_entry.h"
#include "job/job.h"

namespace ww::checks {

namespace {

/// Figure, then a prefix, then the unit, each with or without a blank.
const QRegularExpression& form() {
  static const QRegularExpression form(
      QStringLiteral("^([-+\\x{2212}]?[0-9.,]+)\\s*([kKmM]?)\\s*(v|vac|ohms?|\\x{3a9}|\\x{2126})?$"),
      QRegularExpression::CaseInsensitiveOption | QRegularExpression::UseUnicodePropertiesOption);
  return form;
}

/// "m" alone is milli, as on a meter; "M" mega.
double factorOf(const QString& prefix) {
  if (prefix.isEmpty()) return 1;
  if (prefix == u'm') return 1e-3;
  return prefix == u'M' ? 1e6 : 1e3;
}

}  // namespace

Entry parseEntry(const QString& text) {
  const QString typed = text.trimmed();
  if (typed.isEmpty()) return {};
  if (QString::compare(typed, QStringLiteral("o"), Qt::CaseInsensitive) == 0 ||
      QString::compare(typed, QStringLiteral("ol"), Qt::CaseInsensitive) == 0)
    return {Entry::Kind::openLine, 0};
  const auto match = form().match(typed);
  const auto figure = match.hasMatch() ? fittings::decimalOf(match.captured(1)) : std::nullopt;
  if (!figure) return {Entry::Kind::noNumber, 0};
  const double value = *figure * factorOf(match.captured(2));
  if (value < 0) return {Entry::Kind::negative, 0};
  if (value > job::kMostReading) return {Entry::Kind::tooLarge, 0};
  return {Entry::Kind::value, value};
}

std::optional<double> probablyMeant(const checklist::Step& step, const Entry& entry) {
  if (entry.kind != Entry::Kind::value || !step.band || step.band->open || entry.value == 0)
    return std::nullopt;
  if (judge(step, entry.value, false) == checklist::Verdict::good) return std::nullopt;
  for (const double factor : {10.0, 0.1, 1000.0, 0.001})
    if (judge(step, entry.value * factor, false) == checklist::Verdict::good) return entry.value * factor;
  return std::nullopt;
}

}  // namespace ww::checks
