// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/sentences.h"

namespace ww::wording {

namespace {

QString keyOf(history::StoreProblem::Kind kind) {
  using Kind = history::StoreProblem::Kind;
  switch (kind) {
    case Kind::readOnly: return QStringLiteral("store.readOnly");
    case Kind::full: return QStringLiteral("store.full");
    case Kind::corrupt: return QStringLiteral("store.corrupt");
    case Kind::notAStore: return QStringLiteral("store.notAStore");
    case Kind::newer: return QStringLiteral("store.newer");
    case Kind::network: return QStringLiteral("store.network");
    case Kind::locked: return QStringLiteral("store.locked");
    case Kind::frozen: return QStringLiteral("store.frozen");
    case Kind::broken: break;
  }
  return QStringLiteral("store.broken");
}

}  // namespace

QString storeProblemText(const Language& language, const history::StoreProblem& problem) {
  QStringList names;
  if (!problem.backup.empty()) names << QStringLiteral("backup");
  const QString plain = keyOf(problem.kind);
  const QString variant = language.variant(plain, names);
  return language.sentence(variant.isEmpty() ? plain : variant,
                           {{"path", QString::fromStdString(problem.path)},
                            {"detail", QString::fromStdString(problem.detail)},
                            {"backup", QString::fromStdString(problem.backup)}});
}

}  // namespace ww::wording
