// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/language.h"

#include <QDateTime>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStringList>
#include <cmath>

// Resources of a static library stay out of the program unless they are asked for; the macro wants no
// namespace.
static void loadResources() { Q_INIT_RESOURCE(translations); }

namespace ww::wording {
namespace {

constexpr QChar kThinSpace(0x202F);  // narrow no-break space

bool isPlural(const QJsonObject& object) {
  return object.size() == 2 && object.contains(u"one") && object.contains(u"other");
}

void flatten(const QJsonObject& object, const QString& prefix, QHash<QString, QString>& texts) {
  for (auto it = object.begin(); it != object.end(); ++it) {
    const QString key = prefix + it.key();
    if (it->isString()) {
      texts.insert(key, it->toString());
    } else if (const QJsonObject inner = it->toObject(); isPlural(inner)) {
      texts.insert(key + "#one", inner[u"one"].toString());
      texts.insert(key + "#other", inner[u"other"].toString());
    } else {
      flatten(inner, key + u'.', texts);
    }
  }
}

QHash<QString, QString> readCatalogue(const QString& resource) {
  loadResources();
  QFile file(resource);
  QHash<QString, QString> texts;
  if (file.open(QIODevice::ReadOnly))
    flatten(QJsonDocument::fromJson(file.readAll()).object(), QString(), texts);
  return texts;
}

QString accented(const QString& text) {
  static const QString plain = QStringLiteral("aeiouAEIOUncsyz");
  static const QString marked = QStringLiteral("åéïôüÅÉÏÔÜñçšýž");
  QString out;
  bool inName = false;
  int letters = 0;
  for (const QChar c : text) {
    if (c == u'{') inName = true;
    const auto at = inName ? -1 : plain.indexOf(c);
    out += at < 0 ? c : marked[at];
    letters += inName ? 0 : 1;
    if (c == u'}') inName = false;
  }
  // 40 % more width, in pieces that a line may break between.
  for (int added = 0; added * 10 < letters * 4; added += 4) out += " ~ö~";
  return out;
}

/// Fills {names}; what no argument fills vanishes.
QString filled(const QString& pattern, const Args& args, const std::optional<QString>& count) {
  QString out;
  qsizetype from = 0;
  for (;;) {
    const auto open = pattern.indexOf(u'{', from);
    const auto close = open < 0 ? -1 : pattern.indexOf(u'}', open);
    if (close < 0) return out + pattern.mid(from);
    out += pattern.mid(from, open - from);
    const QString name = pattern.mid(open + 1, close - open - 1);
    const bool counted = count && name == u"n";
    if (counted) out += *count;
    for (const auto& [key, value] : args)
      if (key == name && !counted) {
        out += value;
        break;
      }
    from = close + 1;
  }
}

QString unitSign(std::string_view unit) {
  if (unit == "ohm") return QStringLiteral("Ω");
  return QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size()));
}

QString fromUtf8(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

}  // namespace

Language::Language(QString code, const QLocale& locale, const QString& resource)
    : code_(std::move(code)), locale_(locale), texts_(readCatalogue(resource)) {}

const Language& Language::english() {
  static const Language language(QStringLiteral("en"), QLocale(QLocale::English, QLocale::UnitedStates),
                                 QStringLiteral(":/translations/en.json"));
  return language;
}

const Language& Language::spanish() {
  static const Language language(QStringLiteral("es"), QLocale(QLocale::Spanish, QLocale::Spain),
                                 QStringLiteral(":/translations/es.json"));
  return language;
}

const Language& Language::pseudo() {
  static const Language language = [] {
    Language made = english();
    made.code_ = QStringLiteral("pseudo");
    for (auto it = made.texts_.begin(); it != made.texts_.end(); ++it)
      if (!it.key().startsWith(u"format.")) *it = accented(*it);
    return made;
  }();
  return language;
}

const Language* Language::byCode(std::string_view code) {
  if (code == "en") return &english();
  if (code == "es") return &spanish();
  if (code == "pseudo") return &pseudo();
  return nullptr;
}

bool Language::has(const QString& key) const {
  return texts_.contains(key) || texts_.contains(key + "#other");
}

QString Language::templateOf(const QString& key, std::optional<int> count) const {
  if (count) {
    const auto form = texts_.constFind(key + (std::abs(*count) == 1 ? "#one" : "#other"));
    if (form != texts_.constEnd()) return *form;
  }
  return texts_.value(key);
}

QString Language::sentence(const QString& key, const Args& args, std::optional<int> count) const {
  const QString pattern = has(key) ? templateOf(key, count) : texts_.value(QStringLiteral("word.unknown"));
  return filled(pattern, args, count ? std::optional(number(*count, 0)) : std::nullopt);
}

QString Language::variant(const QString& key, const QStringList& names) const {
  QString best = has(key) ? key : QString();
  qsizetype most = 0;
  const QString start = key + u'+';
  for (auto it = texts_.constBegin(); it != texts_.constEnd(); ++it) {
    if (!it.key().startsWith(start)) continue;
    const QString full = it.key().section(u'#', 0, 0);
    const QStringList wanted = full.mid(start.size()).split(u'+');
    bool fits = true;
    for (const QString& name : wanted) fits = fits && names.contains(name);
    // Of two that ask for equally many, the alphabet decides, so that the choice never depends on a hash.
    if (fits && (wanted.size() > most || (wanted.size() == most && full < best))) {
      most = wanted.size();
      best = full;
    }
  }
  return best;
}

namespace {

/// Where a language leaves four digits whole, Qt 6.4 also leaves the first four of seven whole: "4194.304".
QString groupedThroughout(QString text, const QString& separator) {
  qsizetype start = 0;
  while (start < text.size() && !text[start].isDigit()) ++start;
  const qsizetype first = text.indexOf(separator);
  if (first - start > 3) text.insert(first - 3, separator);
  return text;
}

}  // namespace

QString Language::number(double value, int decimals) const {
  const double scale = std::pow(10.0, decimals);
  if (std::round(value * scale) == 0) value = 0;
  return groupedThroughout(locale_.toString(value, 'f', decimals), locale_.groupSeparator());
}

Language Language::measuring(const Units& units) const {
  Language made = *this;
  made.units_ = units;
  return made;
}

bool Language::measuresInFeet() const {
  return units_ ? units_->feet : locale_.measurementSystem() == QLocale::ImperialUSSystem;
}

bool Language::measuresInFahrenheit() const {
  return units_ ? units_->fahrenheit : locale_.measurementSystem() == QLocale::ImperialUSSystem;
}

QString Language::quantity(double si, std::string_view unit, int decimals) const {
  if (unit.empty()) return number(si, decimals);
  if (unit == "m" && measuresInFeet()) return number(si / 0.3048, decimals) + kThinSpace + "ft";
  if (unit == "C")
    return measuresInFahrenheit() ? number(si * 1.8 + 32, decimals) + kThinSpace + "°F"
                                  : number(si, decimals) + kThinSpace + "°C";
  if (unit == "ohm" && std::abs(si) >= 1000) return number(si / 1000, 1) + kThinSpace + "kΩ";
  return number(si, decimals) + kThinSpace + unitSign(unit);
}

QString Language::day(std::string_view iso) const {
  const QDate date = QDate::fromString(fromUtf8(iso).left(10), Qt::ISODate);
  return date.isValid() ? locale_.toString(date, texts_.value(QStringLiteral("format.day"))) : fromUtf8(iso);
}

QString Language::moment(std::string_view iso) const {
  const QDateTime at = QDateTime::fromString(fromUtf8(iso), Qt::ISODate);
  if (!at.isValid() || iso.size() <= 10) return day(iso);
  return locale_.toString(at, texts_.value(QStringLiteral("format.moment")));
}

QString Language::clock(std::string_view iso) const {
  const QDateTime at = QDateTime::fromString(fromUtf8(iso), Qt::ISODate);
  return at.isValid() ? locale_.toString(at, QStringLiteral("HH:mm")) : fromUtf8(iso);
}

QString Language::list(const QStringList& items) const {
  if (items.isEmpty()) return {};
  QString out = items.front();
  for (qsizetype i = 1; i < items.size(); ++i) {
    const bool last = i + 1 == items.size();
    out = filled(texts_.value(last ? QStringLiteral("format.list-last") : QStringLiteral("format.list-more")),
                 {{QStringLiteral("a"), out}, {QStringLiteral("b"), items[i]}}, {});
  }
  return out;
}

}  // namespace ww::wording
