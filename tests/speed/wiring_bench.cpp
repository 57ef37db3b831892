// SPDX-License-Identifier: GPL-3.0-or-later
// One edit at the wiring stage until the picture is painted with the findings known then: the layout, the
// table, the calls, and the painting of the whole stage. Sheets of more than 400 conductors are checked
// beside.
#include <benchmark/benchmark.h>

#include <QImage>
#include <QPainter>
#include <algorithm>
#include <chrono>

#include "job/document_file.h"
#include "job/job_json.h"
#include "support/reference_sheets.h"
#include "support/whole_window.h"
#include "support/window.h"
#include "wiring/wiring_place.h"

namespace ww {

namespace {

/// A house with many furnaces and outdoor units on one control: row A once, its equipment again and again.
sheet::Sheet manySystems(int systems, const sheet::Sheet& one) {
  sheet::Sheet all;
  all.settings = one.settings;
  for (int n = 0; n < systems; ++n) {
    std::map<sheet::UnitId, sheet::UnitId> units;
    std::map<sheet::CableId, sheet::CableId> cables;
    for (sheet::Unit unit : one.units) {
      if (n > 0 && unit.tag == "T") continue;
      const sheet::UnitId before = unit.id;
      unit.tag += std::to_string(n);
      units[before] = all.addUnit(unit);
    }
    for (sheet::Cable cable : one.cables) {
      if (!units.count(cable.endA) || !units.count(cable.endB)) continue;
      const sheet::CableId before = cable.id;
      cable.name += "." + std::to_string(n);
      cable.endA = units[cable.endA];
      cable.endB = units[cable.endB];
      cables[before] = all.addCable(cable);
    }
    for (sheet::Conductor wire : one.conductors) {
      if (!wire.cable || !cables.count(*wire.cable)) continue;
      wire.cable = cables[*wire.cable];
      for (sheet::Landing* end : {&wire.endA, &wire.endB})
        if (auto* terminal = std::get_if<sheet::TerminalRef>(end)) terminal->unit = units[terminal->unit];
      all.addConductor(wire);
    }
  }
  return all;
}

void editUntilPainted(benchmark::State& state, const sheet::Sheet& sheet, bool beside) {
  testing::Desk desk;
  job::Job document;
  document.id = "0190c1d0-0000-7000-8000-000000000001";
  document.asFound = sheet;
  session::OpenJob job(document, desk.around.library, nullptr, beside ? 0 : 400);
  job.finishCheck();
  wiring::WiringPlace place(desk.around);
  place.setJob(&job);
  place.resize(1112, 648);
  place.show();
  QApplication::processEvents();
  job.setCall("cool1");
  QImage surface(place.size(), QImage::Format_ARGB32_Premultiplied);
  const auto wire = job.sheet().conductors.rows()[2];
  std::vector<double> times;
  bool loose = false;
  for (auto _ : state) {
    const auto begin = std::chrono::steady_clock::now();
    loose = !loose;
    place.hand().land({wire.id, false}, loose ? sheet::Landing(sheet::Loose{}) : wire.endB);
    place.render(&surface);
    times.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
  }
  std::sort(times.begin(), times.end());
  state.counters["p95_ms"] = times[times.size() * 95 / 100];
  state.counters["units"] = static_cast<double>(sheet.units.size());
  state.counters["conductors"] = static_cast<double>(sheet.conductors.size());
  job.finishCheck();
}

/// The same in the whole window, every stage of which has been seen: nothing that hides may work meanwhile.
void editInWindow(benchmark::State& state, const sheet::Sheet& sheet) {
  testing::WholeWindow whole;
  job::Job document;
  document.id = whole.desk.nextId();
  document.number = "2025-0312-01";
  document.visit = "2025-03-12";
  document.asFound = sheet;
  for (const char* cautions : {"dead", "live"})
    document.acknowledgements.push_back({whole.desk.nextId(), cautions, "M. Ode", whole.desk.time});
  const QString file = whole.folder + QStringLiteral("/sheet.json");
  if (job::saveFile(file.toStdString(), job::writeJob(document))) return state.SkipWithError("not written");
  whole.bench->openFile(file);
  for (size_t stage = 0; stage < whole.window->stages().size(); ++stage) {
    whole.window->showStage(stage);
    QApplication::processEvents();
  }
  whole.window->showStage(std::string("wiring"));
  auto& place = static_cast<wiring::WiringPlace&>(*whole.window->place());
  whole.bench->job()->setCall("cool1");
  QImage surface(whole.window->size(), QImage::Format_ARGB32_Premultiplied);
  const auto wire = whole.bench->job()->sheet().conductors.rows()[2];
  bool loose = false;
  for (auto _ : state) {
    loose = !loose;
    place.hand().land({wire.id, false}, loose ? sheet::Landing(sheet::Loose{}) : wire.endB);
    whole.window->render(&surface);
    state.PauseTiming();
    QApplication::processEvents();
    state.ResumeTiming();
  }
}

const auto registered = [] {
  const auto add = [](const char* name, sheet::Sheet sheet, bool beside) {
    benchmark::RegisterBenchmark(name, [sheet = std::move(sheet), beside](benchmark::State& state) {
      editUntilPainted(state, sheet, beside);
    })->Unit(benchmark::kMillisecond);
  };
  add("editUntilPainted/furnace", testing::rowA(), false);
  add("editUntilPainted/heatPump", testing::rowG(), false);
  add("editUntilPainted/units199", manySystems(99, testing::rowA()), true);
  benchmark::RegisterBenchmark("editUntilPainted/heatPumpInWindow", [](benchmark::State& state) {
    editInWindow(state, testing::rowG());
  })->Unit(benchmark::kMillisecond);
  return true;
}();

}  // namespace
}  // namespace ww
