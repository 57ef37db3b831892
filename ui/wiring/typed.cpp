// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/typed.h"

#include <QRegularExpression>
#include <algorithm>
#include <cmath>

#include "fittings/number_entry.h"
#include "quantity/text.h"
#include "sheet/landing_check.h"
#include "wording/names.h"

namespace ww::wiring {

namespace {

constexpr int kMostConductors = 40;
constexpr double kUsualMetres = 12;  ///< until the run is measured

QString q(const std::string& text) { return QString::fromStdString(text); }

QString bad(const wording::Language& language, const char* key, const wording::Args& args = {}) {
  return language.sentence(QStringLiteral("wiring.bad.") + QLatin1String(key), args);
}

/// "18" or "0.75 mm2": with a fraction it is an area.
std::optional<quantity::Gauge> gaugeTyped(QString text) {
  const bool area = text.contains(u'.') || text.contains(u',');
  text.replace(u',', u'.');
  return quantity::parseGauge(text.toStdString() + (area ? " mm2" : ""));
}

std::optional<sheet::UnitId> unitTyped(const QString& text, const sheet::Sheet& sheet) {
  for (const sheet::Unit& unit : sheet.units)
    if (q(unit.tag).compare(text, Qt::CaseInsensitive) == 0) return unit.id;
  return std::nullopt;
}

class CableReader {
 public:
  CableReader(const sheet::Sheet& sheet, const wording::Language& language)
      : sheet_(sheet), language_(language) {}

  Typed<TypedCable> read(const QString& text) {
    static const QRegularExpression blanks(QStringLiteral("[\\s;]+"));
    for (QString word : text.split(blanks, Qt::SkipEmptyParts)) {
      while (word.endsWith(u',')) word.chop(1);
      if (word.isEmpty() || length(word) || size(word) || named(word)) continue;
      return {std::nullopt, bad(language_, "cable-word", {{"word", word}})};
    }
    if (number_) typed_.length = metres(*number_, language_.measuresInFeet() ? "ft" : "m");
    if (typed_.length && !(typed_.length->si() > 0 && typed_.length->si() <= sheet::kMostMetres))
      return {std::nullopt,
              bad(language_, "length", {{"most", language_.quantity(sheet::kMostMetres, "m", 0)}})};
    const int colours = static_cast<int>(typed_.colours.size());
    if (typed_.count && colours > 0 && *typed_.count != colours)
      return {std::nullopt, bad(language_, "count",
                                {{"count", language_.number(*typed_.count, 0)},
                                 {"colours", language_.number(colours, 0)}})};
    if (typed_.count.value_or(colours) > kMostConductors)
      return {std::nullopt, bad(language_, "conductors", {{"most", language_.number(kMostConductors, 0)}})};
    return {typed_, {}};
  }

 private:
  static std::optional<quantity::Metres> metres(double number, std::string_view unit) {
    return quantity::lengthOf(number, unit);
  }

  /// A number, a unit, or both in one word.
  bool length(const QString& word) {
    static const QRegularExpression form(QStringLiteral("^([0-9][0-9.,]*)(ft|'|m)?$"),
                                         QRegularExpression::CaseInsensitiveOption);
    const QString lower = word.toLower();
    if (number_ && (lower == u"ft" || lower == u"'" || lower == u"m")) {
      typed_.length = metres(*number_, lower == u"m" ? "m" : "ft");
      number_.reset();
      return true;
    }
    const auto match = form.match(word);
    const auto number = match.hasMatch() ? fittings::decimalOf(match.captured(1)) : std::nullopt;
    if (!number) return false;
    if (match.captured(2).isEmpty())
      number_ = number;
    else
      typed_.length = metres(*number, match.captured(2).toLower() == u"m" ? "m" : "ft");
    return true;
  }

  bool size(const QString& word) {
    static const QRegularExpression form(QStringLiteral("^([0-9][0-9.,]*)/([0-9]+)$"));
    const auto match = form.match(word);
    const auto gauge = match.hasMatch() ? gaugeTyped(match.captured(1)) : std::nullopt;
    const int count = match.captured(2).toInt();
    if (!gauge || count < 1) return false;
    typed_.gauge = gauge;
    typed_.count = count;
    return true;
  }

  bool named(const QString& word) {
    if (const auto colour = sheet::parseColour(word.toStdString())) {
      typed_.colours.push_back(*colour);
      return true;
    }
    const auto unit = typed_.units.size() < 2 ? unitTyped(word, sheet_) : std::nullopt;
    if (unit) typed_.units.push_back(*unit);
    return unit.has_value();
  }

  const sheet::Sheet& sheet_;
  const wording::Language& language_;
  TypedCable typed_;
  std::optional<double> number_;  ///< a number whose unit may follow
};

}  // namespace

Typed<TypedCable> cableTyped(const QString& text, const sheet::Sheet& sheet,
                             const wording::Language& language) {
  return CableReader(sheet, language).read(text);
}

QStringList lettersOf(const sheet::Sheet& sheet, const equipment::Library& library, sheet::UnitId unit) {
  QStringList letters;
  if (const equipment::Profile* profile = profileAt(sheet, library, unit))
    for (const equipment::Terminal& terminal : profile->terminals)
      letters << wording::terminalLetters({sheet, library}, {unit, terminal.id});
  return letters;
}

QString completed(const QString& text, const QStringList& letters) {
  if (text.isEmpty()) return {};
  for (const QString& each : letters)
    if (each.compare(text, Qt::CaseInsensitive) == 0) return each;
  for (const QString& each : letters)
    if (each.startsWith(text, Qt::CaseInsensitive)) return each;
  return {};
}

Typed<sheet::Landing> landingTyped(const QString& typed, const sheet::Sheet& sheet,
                                   const equipment::Library& library, sheet::UnitId unit,
                                   const wording::Language& language) {
  const QString text = typed.trimmed();
  if (text.isEmpty() || text == u"-") return {sheet::Loose{}, {}};
  if (text == u"*") return {sheet::Capped{}, {}};
  if (text.startsWith(u'/')) {
    const std::string name = text.mid(1).trimmed().toStdString();
    if (!sheet::fitName(name)) return {std::nullopt, bad(language, "splice")};
    return {sheet::Splice{unit, name}, {}};
  }
  const wording::Context context{sheet, library};
  const equipment::Profile* profile = profileAt(sheet, library, unit);
  const QStringList letters = lettersOf(sheet, library, unit);
  const QString whole = completed(text, letters);
  if (profile && !whole.isEmpty())
    return {sheet::TerminalRef{unit, profile->terminals[static_cast<size_t>(letters.indexOf(whole))].id}, {}};
  if (profile)
    for (const equipment::Terminal& terminal : profile->terminals)
      if (q(terminal.id).compare(text, Qt::CaseInsensitive) == 0)
        return {sheet::TerminalRef{unit, terminal.id}, {}};
  return {std::nullopt, bad(language, "terminal",
                            {{"typed", text},
                             {"unit", wording::unitInSentence(language, context, unit)},
                             {"known", letters.join(QStringLiteral(", "))}})};
}

Typed<sheet::Sheet> withTypedCable(sheet::Sheet sheet, const TypedCable& typed,
                                   std::optional<std::pair<sheet::UnitId, sheet::UnitId>> usual,
                                   const wording::Language& language) {
  const int count = typed.count.value_or(static_cast<int>(typed.colours.size()));
  if (count < 1) return {std::nullopt, bad(language, "cable-empty")};
  if (typed.units.size() == 2) usual = {typed.units[0], typed.units[1]};
  if (!usual || typed.units.size() == 1) return {std::nullopt, bad(language, "cable-units")};
  if (usual->first == usual->second) return {std::nullopt, bad(language, "cable-one-unit")};
  sheet::Cable cable;
  cable.name = freeCableName(sheet);
  if (typed.gauge) cable.gauge = *typed.gauge;
  cable.length = typed.length.value_or(quantity::Metres(kUsualMetres));
  cable.endA = usual->first;
  cable.endB = usual->second;
  const sheet::CableId id = sheet.addCable(cable);
  for (const sheet::Colour& colour : typed.colours.empty() ? sheet::customaryColours(count) : typed.colours) {
    sheet::Conductor wire;
    wire.cable = id;
    wire.colour = colour;
    sheet.addConductor(wire);
  }
  return {std::move(sheet), {}};
}

Typed<sheet::Sheet> withCableRetyped(sheet::Sheet sheet, sheet::CableId id, const TypedCable& typed,
                                     const wording::Language& language) {
  const sheet::Cable* found = sheet.cables.find(id);
  if (!found) return {std::nullopt, bad(language, "nothing-there")};
  if (!typed.units.empty()) return {std::nullopt, bad(language, "cable-moved")};
  sheet::Cable cable = *found;
  if (typed.gauge) cable.gauge = *typed.gauge;
  if (typed.length) cable.length = *typed.length;
  sheet.cables.put(cable);
  std::vector<sheet::Conductor> wires;
  for (const sheet::Conductor* wire : sheet::conductorsOf(sheet, id)) wires.push_back(*wire);
  const size_t colours = typed.colours.size();
  const size_t count = typed.count ? static_cast<size_t>(*typed.count) : std::max(colours, wires.size());
  const auto customary = sheet::customaryColours(static_cast<int>(count));
  for (size_t i = 0; i < std::max(count, wires.size()); ++i) {
    if (i >= count) {
      if (!std::holds_alternative<sheet::Loose>(wires[i].endA) ||
          !std::holds_alternative<sheet::Loose>(wires[i].endB))
        return {std::nullopt, bad(language, "still-landed", {{"tag", q(sheet::print(wires[i].colour))}})};
      sheet.conductors.erase(wires[i].id);
    } else if (i >= wires.size()) {
      sheet::Conductor wire;
      wire.cable = id;
      wire.colour = i < colours ? typed.colours[i] : customary[i];
      sheet.addConductor(wire);
    } else if (i < colours) {
      wires[i].colour = typed.colours[i];
      sheet.conductors.put(wires[i]);
    }
  }
  return {std::move(sheet), {}};
}

QString typedForm(const sheet::Sheet& sheet, const sheet::Cable& cable, const wording::Language& language) {
  QString gauge = q(quantity::printGauge(cable.gauge));
  gauge.remove(QStringLiteral(" mm2"));
  if (cable.gauge.system == quantity::Gauge::System::squareMillimetres && !gauge.contains(u'.'))
    gauge += QStringLiteral(".0");
  const bool feet = language.measuresInFeet();
  const double length = cable.length.si() / (feet ? quantity::kMetresPerFoot : 1);
  const double rounded = std::round(length * 10) / 10;
  return QStringLiteral("%1/%2 %3 %4")
      .arg(gauge)
      .arg(sheet::conductorsOf(sheet, cable.id).size())
      .arg(q(quantity::printNumber(rounded)), feet ? QStringLiteral("ft") : QStringLiteral("m"));
}

}  // namespace ww::wiring
