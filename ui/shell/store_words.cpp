// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/store_words.h"

#include "job/job.h"
#include "sheet/systems.h"
#include "wording/names.h"

namespace ww::shell {

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
      return language.sentence(
          QStringLiteral("jobs.row.system"),
          {{"letter", QString::fromStdString(letter)}, {"title", wording::inLanguage(language, kind.title)}});
    }
  if (letter == job::kRefusedSystem) return language.sentence(QStringLiteral("jobs.row.refused"));
  return letter.empty() ? language.sentence(QStringLiteral("jobs.row.other-system"))
                        : QString::fromStdString(letter);
}

}  // namespace ww::shell
