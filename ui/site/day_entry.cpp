// SPDX-License-Identifier: GPL-3.0-or-later
#include <QDate>

#include "site/site_place.h"

namespace ww::site {

std::optional<std::string> dayOf(const QString& text, const wording::Language& language) {
  const QString typed = text.trimmed();
  const QLocale& locale = language.locale();
  QDate day = QDate::fromString(typed, Qt::ISODate);
  // A year of two digits would be read as one of the last century, so only the long year counts.
  const QString order = locale.dateFormat(QLocale::ShortFormat);
  const bool dayFirst = order.indexOf(u'd') < order.indexOf(u'M');
  for (const QChar mark : {QChar(u'/'), QChar(u'-'), QChar(u'.')}) {
    const QString form = QString(dayFirst ? "d%1M%1yyyy" : "M%1d%1yyyy").arg(mark);
    if (!day.isValid()) day = locale.toDate(typed, form);
  }
  for (const QString& form : {language.sentence("format.day"), QStringLiteral("d MMM yyyy"),
                              QStringLiteral("MMMM d, yyyy"), QStringLiteral("MMM d, yyyy")})
    if (!day.isValid()) day = locale.toDate(typed, form);
  if (!day.isValid() || day.year() < 1900 || day.year() > 2200) return std::nullopt;
  return day.toString(Qt::ISODate).toStdString();
}

}  // namespace ww::site
