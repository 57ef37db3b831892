// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QCoreApplication>
#include <QGuiApplication>
#include <cstdio>
#include <string>
#include <vector>

#include "drawing/overlay.h"
#include "equipment/profile.h"
#include "operation/solution.h"
#include "paint/diagram_painter.h"
#include "support/sheet_edits.h"

namespace ww::testing {

/// The one application of a test program that measures or paints text.
inline void application() {
  if (QCoreApplication::instance()) return;
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  static int count = 1;
  static char name[] = "paint_test";
  static char* arguments[] = {name, nullptr};
  static auto* kept = new QGuiApplication(count, arguments);
  (void)kept;
}

struct NamedSheet {
  std::string name;
  sheet::Sheet sheet;
  std::string call;  ///< the call that is shown live
};

inline std::vector<NamedSheet> namedSheets() {
  return {{"furnace", rowA(), "cool1"},
          {"furnaceSwapped", rowASwapped(), "fan"},
          {"airHandler", rowB(), "cool1"},
          {"heatPump", rowG(), "cool1"},
          {"heatPumpLoose", rowGLoose(), "cool1"},
          {"crowded", rowACrowded(), "heat1"}};
}

struct Painted {
  drawing::Diagram diagram;
  drawing::Overlay overlay;
};

/// Plain words for the rows below a unit, enough for a test's picture.
inline drawing::RowWords plainWords(const drawing::Row& row, bool spanish) {
  char volts[32] = "-";
  if (row.volts) std::snprintf(volts, sizeof volts, "%.1f V", row.volts->si());
  if (row.kind == drawing::Row::Kind::volts) return {row.from + (spanish ? " a " : " to ") + row.to, volts};
  switch (row.state) {
    case drawing::DutyState::off: return {row.duty, spanish ? "parado" : "off"};
    case drawing::DutyState::runs: return {row.duty, spanish ? "FUNCIONA" : "RUNS"};
    case drawing::DutyState::offMustRun:
      return {row.duty, spanish ? "parado, debe funcionar" : "off, must run"};
    case drawing::DutyState::runsMustNot:
      return {row.duty, spanish ? "FUNCIONA y no debe" : "RUNS, must not"};
    case drawing::DutyState::runsOtherSpeed: return {row.duty, spanish ? "otra velocidad" : "other speed"};
  }
  return {};
}

inline Painted painted(const NamedSheet& named, const std::string& language) {
  const equipment::Library& library = equipment::standardLibrary();
  drawing::LayoutOptions options;
  options.language = language;
  Painted made;
  made.diagram = drawing::layout(named.sheet, library, paint::textMeasure(), options);
  const operation::Solution solution = operation::solveSheet(named.sheet, library);
  const operation::SolvedCall* solved = solution.call(named.call);
  const operation::CallDemand* demand = nullptr;
  for (const operation::CallDemand& entry : solution.table)
    if (entry.call == named.call) demand = &entry;
  if (solved)
    made.overlay =
        drawing::overlay(made.diagram, named.sheet, library, solved->result, demand, paint::textMeasure(),
                         [&](const drawing::Row& row) { return plainWords(row, language == "es"); });
  return made;
}

}  // namespace ww::testing
