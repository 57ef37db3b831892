// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/qt_words.h"

#include <string_view>

namespace ww::fittings {

QtWords::QtWords(const wording::Language& language, QObject* parent)
    : QTranslator(parent), language_(language) {}

QString QtWords::translate(const char* context, const char* source, const char*, int) const {
  const std::string_view from(context);
  if (from != "QShortcut" && from != "QPlatformTheme") return {};
  const QString key = QStringLiteral("qt.") + QString::fromUtf8(source).remove(u'&');
  return language_.has(key) ? language_.templateOf(key) : QString();
}

}  // namespace ww::fittings
