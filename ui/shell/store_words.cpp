// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/store_words.h"

#include "sheet/systems.h"

namespace ww::shell {

namespace {

QString keyOf(history::StoreProblem::Kind kind) {
  using Kind = history::StoreProblem::Kind;
  switch (kind) {
    case Kind::readOnly: return QStringLiteral("read-only");
    case Kind::full: return QStringLiteral("full");
    case Kind::corrupt: return QStringLiteral("corrupt");
    case Kind::notAStore: return QStringLiteral("not-a-store");
    case Kind::newer: return QStringLiteral("newer");
    case Kind::network: return QStringLiteral("network");
    case Kind::locked: return QStringLiteral("locked");
    case Kind::frozen: return QStringLiteral("frozen");
    case Kind::broken: break;
  }
  return QStringLiteral("broken");
}

}  // namespace

QString storeSentence(const wording::Language& language, const history::StoreProblem& problem) {
  QString key = QStringLiteral("window.store.") + keyOf(problem.kind);
  if (!problem.backup.empty()) key += QStringLiteral("-backup");
  return language.sentence(key, {{"path", QString::fromStdString(problem.path)},
                                 {"detail", QString::fromStdString(problem.detail)},
                                 {"backup", QString::fromStdString(problem.backup)}});
}

QString addressOf(const wording::Language& language, const job::Site& site, const std::string& number) {
  const QString address = QString::fromStdString(site.address);
  const QString unit = QString::fromStdString(site.unit);
  if (address.isEmpty())
    return language.sentence(QStringLiteral("window.no-address"),
                             {{"number", QString::fromStdString(number)}});
  if (unit.isEmpty()) return address;
  return language.sentence(QStringLiteral("window.address-unit"), {{"address", address}, {"unit", unit}});
}

QString systemName(const wording::Language& language, const std::string& letter) {
  for (const sheet::SystemKind& kind : sheet::standardSystems())
    if (kind.id == letter) {
      const auto own = kind.title.find(language.code().toStdString());
      const std::string& title = own != kind.title.end() ? own->second : kind.title.at("en");
      return language.sentence(QStringLiteral("jobs.row.system"), {{"letter", QString::fromStdString(letter)},
                                                                   {"title", QString::fromStdString(title)}});
    }
  return letter.empty() ? language.sentence(QStringLiteral("jobs.row.other-system"))
                        : QString::fromStdString(letter);
}

}  // namespace ww::shell
