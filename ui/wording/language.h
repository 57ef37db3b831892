// SPDX-License-Identifier: GPL-3.0-or-later
// Room wording: turns ids and figures into sentences, English and Spanish.
// Qt Core only. Computes nothing about the circuit and decides nothing.
#pragma once

#include <QHash>
#include <QLocale>
#include <QString>
#include <QStringList>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace ww::wording {

/// Named parameters of a template, already worded. `n` decides between singular and plural.
using Args = std::vector<std::pair<QString, QString>>;

/// How figures are shown to a person who chose.
struct Units {
  bool feet = true, awg = true, fahrenheit = true;
  friend bool operator==(const Units&, const Units&) = default;
};

/// A catalogue of sentence templates with the number and date habits of its language.
class Language {
 public:
  static const Language& english();
  static const Language& spanish();
  /// The English texts 40 % longer and accented, to find cut and untranslated text.
  static const Language& pseudo();
  /// "en", "es", "pseudo"; null for anything else.
  static const Language* byCode(std::string_view code);

  /// The same language, measuring as a person chose instead of as its country does.
  Language measuring(const Units& units) const;

  const QString& code() const { return code_; }
  const QLocale& locale() const { return locale_; }

  bool has(const QString& key) const;
  QStringList keys() const { return texts_.keys(); }
  /// The template as it stands in the catalogue; the one for `count` where it has a plural. Empty without
  /// one.
  QString templateOf(const QString& key, std::optional<int> count = {}) const;
  /// The worded sentence. {names} that no argument fills vanish; a key without text gives the word for
  /// "unknown".
  QString sentence(const QString& key, const Args& args = {}, std::optional<int> count = {}) const;
  /// Key, or the variant "key+a+b" that asks for most of the names given and for no other. Empty without any.
  QString variant(const QString& key, const QStringList& names) const;

  /// Localised figure; no negative zero.
  QString number(double value, int decimals) const;
  /// Figure, thin no-break space, unit ("V", "A", "VA", "ohm", "%", "m", "s", "C"); metres become feet
  /// and degrees Celsius Fahrenheit where the person, else the language's country, measures so.
  QString quantity(double si, std::string_view unit, int decimals) const;
  bool measuresInFeet() const;
  bool measuresInFahrenheit() const;
  /// Whether American gauge numbers stay as they are; else they are shown as areas.
  bool showsGauges() const { return !units_ || units_->awg; }
  QString day(std::string_view iso) const;
  QString moment(std::string_view iso) const;
  QString clock(std::string_view iso) const;  ///< the time of day alone
  /// "a", "a and b", "a, b and c".
  QString list(const QStringList& items) const;

 private:
  Language(QString code, const QLocale& locale, const QString& resource);
  QString code_;
  QLocale locale_;
  std::optional<Units> units_;
  QHash<QString, QString> texts_;  ///< plural forms as key "x#one", "x#other"
};

}  // namespace ww::wording
