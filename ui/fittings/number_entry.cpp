// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/number_entry.h"

#include <QRegularExpression>

namespace ww::fittings {

std::optional<double> decimalOf(const QString& text) {
  static const QRegularExpression form(QStringLiteral("^[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)$"));
  QString plain = text.trimmed();
  plain.replace(QChar(0x2212), u'-');
  if (!form.match(plain).hasMatch()) return std::nullopt;
  plain.replace(u',', u'.');
  return plain.toDouble();
}

}  // namespace ww::fittings
