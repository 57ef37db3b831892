// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>

#include "wording/sentences.h"

namespace ww::wording {
namespace {

/// The named parameters that a finding offers to its templates.
class Parameters {
 public:
  Parameters(const Language& language, const verify::Finding& finding, const Context& context)
      : language_(language), context_(context) {
    for (const verify::Argument& argument : finding.arguments)
      add(QString::fromStdString(argument.name), worded(argument));
    addPlaces(finding.places);
  }

  QString sentence(const QString& key) const {
    QStringList names;
    Args args;
    for (const auto& [name, text] : values_) {
      names << name;
      args.emplace_back(name, text);
    }
    const QString best = language_.variant(key, names);
    return best.isEmpty() ? QString() : language_.sentence(best, args);
  }

  bool has(const QString& name) const { return values_.count(name) > 0; }

 private:
  void add(const QString& name, const QString& text) {
    if (!text.isEmpty()) values_.emplace(name, text);
  }

  void addPlaces(const std::vector<verify::Place>& places) {
    QStringList all;
    int terminals = 0, conductors = 0, units = 0;
    for (const verify::Place& place : places) {
      if (const QString name = placeName(language_, context_, place); !name.isEmpty()) {
        all << name;
        add(numbered(u"place", int(all.size())), name);
      }
      if (!place.call.empty()) add(QStringLiteral("call"), callName(language_, place.call));
      if (place.conductor != sheet::ConductorId{})
        add(numbered(u"conductor", ++conductors), placeName(language_, context_, place));
      if (place.unit == sheet::UnitId{}) continue;
      add(numbered(u"unit", ++units), unitInSentence(language_, context_, place.unit));
      if (!place.terminal.empty())
        add(numbered(u"terminal", ++terminals),
            terminalAtUnit(language_, context_, {place.unit, place.terminal}));
      if (!place.part.empty())
        add(QStringLiteral("part"), placeName(language_, context_, {place.unit, {}, place.part, {}, 0, {}}));
    }
    if (!all.isEmpty()) add(QStringLiteral("places"), language_.list(all));
  }

  static QString numbered(QStringView name, int n) {
    return n == 1 ? name.toString() : name.toString() + QString::number(n);
  }

  QString worded(const verify::Argument& argument) const {
    struct Visitor {
      const Parameters& self;
      const std::string& name;
      QString operator()(quantity::Volts v) const { return self.language_.quantity(v.si(), "V", 1); }
      QString operator()(quantity::Amps a) const { return self.language_.quantity(a.si(), "A", 2); }
      QString operator()(quantity::VoltAmps s) const { return self.language_.quantity(s.si(), "VA", 1); }
      QString operator()(quantity::Ohms r) const { return self.language_.quantity(r.si(), "ohm", 1); }
      QString operator()(quantity::Seconds s) const {
        return self.language_.quantity(s.si(), "s", s.si() < 1 ? 2 : 0);
      }
      QString operator()(quantity::Celsius t) const { return self.language_.quantity(t.si(), "C", 1); }
      QString operator()(const verify::Percent& p) const { return self.language_.quantity(p.value, "%", 0); }
      QString operator()(const verify::DutyList& list) const {
        return list.duties.empty() ? QString() : dutyList(self.language_, list.duties);
      }
      QString operator()(const verify::CallName& call) const { return callName(self.language_, call.call); }
      QString operator()(const verify::Word& found) const {
        for (const char* kind : {name.c_str(), "value", "part", "colour"}) {
          const QString text = word(self.language_, kind, found.word);
          if (text != QString::fromStdString(found.word)) return text;
        }
        return QString::fromStdString(found.word);
      }
      QString operator()(const verify::Place& place) const {
        return placeName(self.language_, self.context_, place);
      }
      QString operator()(const verify::Path& path) const {
        QStringList names;
        for (const verify::Place& place : path)
          if (const QString text = placeName(self.language_, self.context_, place); !text.isEmpty())
            if (names.isEmpty() || names.back() != text) names << text;
        return names.join(QStringLiteral(" › "));
      }
    };
    return std::visit(Visitor{*this, argument.name}, argument.figure);
  }

  const Language& language_;
  const Context& context_;
  std::map<QString, QString> values_;
};

/// A sentence that begins with the name of a part or a unit begins with a capital all the same.
QString begun(QString sentence) {
  if (!sentence.isEmpty()) sentence[0] = sentence[0].toUpper();
  return sentence;
}

}  // namespace

QString findingTitle(const Language& language, const verify::Finding& finding, const Context& context) {
  const QString title =
      Parameters(language, finding, context)
          .sentence(QStringLiteral("finding.%1.title").arg(QString::fromStdString(finding.rule)));
  return title.isEmpty() ? language.sentence(QStringLiteral("finding-unknown")) : begun(title);
}

QString findingWhat(const Language& language, const verify::Finding& finding, const Context& context) {
  const QString what =
      Parameters(language, finding, context)
          .sentence(QStringLiteral("finding.%1.what").arg(QString::fromStdString(finding.rule)));
  return what.isEmpty() ? language.sentence(QStringLiteral("finding-unknown")) : begun(what);
}

QString findingWhy(const Language& language, const verify::Finding& finding, const Context& context) {
  const Parameters parameters(language, finding, context);
  // Each is a whole sentence or more of its own: the figures, the way of the current.
  QStringList sentences;
  for (const QString& key :
       {QStringLiteral("finding.%1.why").arg(QString::fromStdString(finding.rule)),
        QStringLiteral("finding-path"), QStringLiteral("finding-return"), QStringLiteral("finding-reach"),
        QStringLiteral("finding-open"), QStringLiteral("finding-bond")})
    if (const QString text = parameters.sentence(key); !text.isEmpty()) sentences << text;
  return sentences.join(QChar(u' '));
}

QString findingText(const Language& language, const verify::Finding& finding, const Context& context) {
  const QString why = findingWhy(language, finding, context);
  const QString what = findingWhat(language, finding, context);
  return why.isEmpty() ? what : what + QChar(u' ') + why;
}

}  // namespace ww::wording
