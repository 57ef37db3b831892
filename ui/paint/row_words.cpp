// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/row_words.h"

#include "wording/names.h"

namespace ww::paint {

namespace {

QString stateKey(drawing::DutyState state) {
  switch (state) {
    case drawing::DutyState::off: return QStringLiteral("row.duty.off");
    case drawing::DutyState::runs: return QStringLiteral("row.duty.runs");
    case drawing::DutyState::offMustRun: return QStringLiteral("row.duty.offMustRun");
    case drawing::DutyState::runsMustNot: return QStringLiteral("row.duty.runsMustNot");
    case drawing::DutyState::runsOtherSpeed: return QStringLiteral("row.duty.runsOtherSpeed");
  }
  return {};
}

}  // namespace

drawing::SayRow rowWords(const wording::Language& language) {
  return [&language](const drawing::Row& row) -> drawing::RowWords {
    if (row.kind == drawing::Row::Kind::duty) {
      QString name = wording::dutyName(language, row.duty);
      name.replace(0, 1, name.left(1).toUpper());
      return {name.toStdString(), language.sentence(stateKey(row.state)).toStdString()};
    }
    const wording::Args args{{"from", QString::fromStdString(row.from)},
                             {"to", QString::fromStdString(row.to)}};
    const QString volts =
        row.volts ? language.quantity(row.volts->si(), "V", 1) : language.sentence("row.floating");
    return {language.sentence("row.volts", args).toStdString(), volts.toStdString()};
  };
}

}  // namespace ww::paint
