// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/preview_reader.h"

#include <algorithm>
#include <limits>
#include <map>

#include "document/functions.h"
#include "job/job.h"
#include "job/profiles.h"
#include "session/checker.h"
#include "sheet/systems.h"
#include "shell/store_words.h"
#include "wording/sentences.h"

namespace ww::shell {

namespace {

constexpr qsizetype kMostChanges = 6;
constexpr size_t kMostFindings = 6;

using history::VisitReading;

/// A stored job has all it needs beside what ships with the program.
equipment::Library libraryOf(const job::Job& job) {
  return job::libraryOf(job, equipment::standardLibrary());
}

QString text(const std::string& utf8) { return QString::fromStdString(utf8); }

QString stateName(const wording::Language& language, job::State state) {
  switch (state) {
    case job::State::closed: return language.sentence(QStringLiteral("jobs.row.closed"));
    case job::State::amended: return language.sentence(QStringLiteral("jobs.row.amended"));
    case job::State::binned: return language.sentence(QStringLiteral("jobs.row.binned"));
    case job::State::draft: break;
  }
  return language.sentence(QStringLiteral("jobs.row.draft"));
}

bool outside(const VisitReading& reading) {
  return reading.value &&
         ((reading.low && *reading.value < *reading.low) || (reading.high && *reading.value > *reading.high));
}

/// How far the newest value lies from the oldest, in widths of its band.
double moved(const std::vector<VisitReading>& series) {
  const VisitReading& last = series.back();
  const double width = last.low && last.high ? std::max(*last.high - *last.low, 1e-9) : 1;
  return std::abs(*last.value - *series.front().value) / width + (outside(last) ? 1000 : 0);
}

/// The step whose reading moved most between visits, its newest reading in the job itself.
std::vector<VisitReading> mostMoved(const std::vector<VisitReading>& readings, const history::JobRef& ref) {
  std::map<std::string, std::vector<VisitReading>> bySteps;
  for (const VisitReading& reading : readings)
    if (reading.value) bySteps[reading.step].push_back(reading);
  const std::vector<VisitReading>* best = nullptr;
  for (const auto& [step, series] : bySteps)
    if (series.size() >= 2 && series.back().ref == ref && (!best || moved(series) > moved(*best)))
      best = &series;
  return best ? *best : std::vector<VisitReading>{};
}

std::optional<jobs::Drift> driftOf(const std::vector<VisitReading>& series,
                                   const std::vector<history::Visit>& visits,
                                   const std::vector<checklist::Step>& steps,
                                   const wording::Language& language, const wording::Context& context) {
  if (series.empty()) return std::nullopt;
  const auto step = std::find_if(steps.begin(), steps.end(),
                                 [&](const checklist::Step& one) { return one.key == series.back().step; });
  if (step == steps.end()) return std::nullopt;
  jobs::Drift drift;
  drift.title = wording::stepTitle(language, *step, context);
  const VisitReading& last = series.back();
  for (const history::Visit& visit : visits) {
    const auto read = std::find_if(series.begin(), series.end(),
                                   [&](const VisitReading& one) { return one.ref == visit.ref; });
    const bool has = read != series.end();
    drift.values.push_back(has ? *read->value : std::numeric_limits<double>::quiet_NaN());
    drift.worded << (has ? language.quantity(*read->value, read->unit, 1) : QString());
  }
  drift.low = last.low;
  drift.high = last.high;
  if (last.low && last.high)
    drift.bandText = language.sentence(
        QStringLiteral("jobs.band"),
        {{"low", language.number(*last.low, 1)}, {"high", language.quantity(*last.high, last.unit, 1)}});
  drift.outside = outside(last);
  drift.verdict =
      wording::verdictName(language, drift.outside ? checklist::Verdict::fault : checklist::Verdict::good);
  return drift;
}

/// Conductors whose ends lie elsewhere than at the visit before; the same conductor is that of the same cable
/// and colour.
QStringList changesOf(const sheet::Sheet& before, const wording::Context& then, const sheet::Sheet& now,
                      const wording::Context& context, const wording::Language& language) {
  QStringList result;
  const auto keyOf = [](const sheet::Sheet& sheet, const sheet::Conductor& wire) {
    const sheet::Cable* cable = wire.cable ? sheet.cables.find(*wire.cable) : nullptr;
    return (cable ? cable->name : std::string()) + "/" + sheet::print(wire.colour);
  };
  std::multimap<std::string, const sheet::Conductor*> former;
  for (const sheet::Conductor& wire : before.conductors) former.emplace(keyOf(before, wire), &wire);
  for (const sheet::Conductor& wire : now.conductors) {
    const auto at = former.find(keyOf(now, wire));
    if (wire.isJumper() || at == former.end()) continue;
    for (const bool endA : {true, false}) {
      const sheet::Landing& was = endA ? at->second->endA : at->second->endB;
      const sheet::Landing& is = endA ? wire.endA : wire.endB;
      if (sheet::print(before, was) == sheet::print(now, is)) continue;
      result << language.sentence(QStringLiteral("jobs.change.landing"),
                                  {{"conductor", wording::conductorName(language, context, wire.id)},
                                   {"before", wording::landingName(language, then, was)},
                                   {"now", wording::landingName(language, context, is)}});
    }
    former.erase(at);
  }
  if (result.size() > kMostChanges) {
    const int more = static_cast<int>(result.size() - kMostChanges);
    result = result.mid(0, kMostChanges);
    result << language.sentence(QStringLiteral("jobs.change.more"), {}, more);
  }
  return result;
}

QString beneathOf(const wording::Language& language, const job::Job& job, const sheet::Sheet* sheet,
                  const equipment::Library& library) {
  QStringList parts;
  for (const std::string& part : {job.site.customer, job.site.city, job.site.phone})
    if (!part.empty()) parts << text(part);
  const std::string system = job::systemOf(job, library);
  if (system == job::kRefusedSystem || (sheet && !sheet->units.empty()))
    parts << systemName(language, system);
  return parts.join(QStringLiteral(" · "));
}

void addFindings(jobs::Preview& preview, const job::Job& job, const session::Checked& checked,
                 const wording::Language& language, const wording::Context& context) {
  int more = 0;
  for (const verify::Finding& finding : checked.check.findings)
    if (finding.severity != verify::Severity::note && !document::acceptanceOf(job, finding)) {
      if (preview.findings.size() < kMostFindings)
        preview.findings.push_back(
            {paint::shapeOf(finding.severity), wording::findingTitle(language, finding, context)});
      else
        ++more;
    }
  if (more > 0) preview.furtherFindings = language.sentence(QStringLiteral("jobs.change.more"), {}, more);
}

int notMeasured(const job::Job& job, const std::vector<checklist::Step>& steps) {
  int missing = 0;
  for (const checklist::Step& step : steps) {
    if (checklist::isMeasured(step) && !job::standing(job, step.key)) ++missing;
  }
  return missing;
}

void fill(jobs::Preview& preview, history::Reader& reader, const history::JobRef& ref, const job::Job& job,
          const session::Surroundings& around) {
  const auto& language = around.language;
  const std::vector<history::Visit> visits = reader.visits(ref);
  const history::Visit* before = nullptr;
  for (const history::Visit& visit : visits) {
    const bool inFront = visit.ref == ref;
    preview.visits.push_back({language.day(visit.day), stateName(language, visit.state), inFront});
    if (inFront && &visit != &visits.front()) before = &visit - 1;
  }
  const sheet::Sheet* sheet = job::currentSheet(job);
  if (!sheet || sheet->units.empty()) return;
  const equipment::Library library = libraryOf(job);
  const wording::Context context{*sheet, library};
  const session::Checked checked = session::checkJob(job, *sheet, library);
  const auto steps = session::stepsOf(job, *sheet, checked);
  addFindings(preview, job, checked, language, context);
  if (const int missing = notMeasured(job, steps))
    preview.notMeasured = language.sentence(QStringLiteral("jobs.not-measured"), {}, missing);
  preview.drift = driftOf(mostMoved(reader.readings(ref), ref), visits, steps, language, context);
  if (!before) return;
  const auto former = reader.load(before->ref);
  const sheet::Sheet* was = former.value ? job::currentSheet(former.value->job) : nullptr;
  if (!was) return;
  const equipment::Library formerLibrary = libraryOf(former.value->job);
  preview.changes = changesOf(*was, {*was, formerLibrary}, *sheet, context, language);
}

}  // namespace

jobs::Preview readPreview(history::Reader& reader, const history::JobRef& ref,
                          const session::Surroundings& around) {
  jobs::Preview preview;
  const auto& language = around.language;
  try {
    const auto loaded = reader.load(ref);
    if (!loaded.value) {
      preview.title = language.sentence(QStringLiteral("jobs.unreadable"));
      if (!loaded.problems.empty()) preview.problem = wording::problemText(language, loaded.problems.front());
      return preview;
    }
    const job::Job& job = loaded.value->job;
    preview.title = addressOf(language, job.site, job.number);
    preview.beneath = beneathOf(language, job, job::currentSheet(job), libraryOf(job));
    preview.binned = loaded.value->binned;
    preview.closed = job.state == job::State::closed;
    fill(preview, reader, ref, job, around);
  } catch (const history::StoreFault& fault) {
    preview.problem = wording::storeProblemText(language, fault.problem());
  }
  return preview;
}

}  // namespace ww::shell
