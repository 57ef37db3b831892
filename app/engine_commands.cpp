// SPDX-License-Identifier: GPL-3.0-or-later
// The commands that ask the engine what could be done and what could go wrong.
#include <nlohmann/json.hpp>

#include "job/document_file.h"
#include "json_output.h"
#include "sheet/sheet_json.h"
#include "wording/engine_text.h"
#include "wording/sentences.h"

namespace ww::app {

namespace {

using nlohmann::json;

constexpr size_t kMostCauses = 8;  // of one kind of harm, in lines; JSON has all

const char* word(verify::Edit::Kind kind) {
  constexpr const char* kWords[] = {"move",       "swap",    "land", "take-off", "jumper",
                                    "off-jumper", "setting", "part", "gauge",    "exchange"};
  return kWords[static_cast<size_t>(kind)];
}

const char* word(verify::CommonWay::Kind kind) {
  constexpr const char* kWords[] = {"spare",       "fan-conductor",   "new-cable",
                                    "sharing-kit", "own-transformer", "isolation-relay"};
  return kWords[static_cast<size_t>(kind)];
}

const char* word(verify::Harm::Kind kind) {
  constexpr const char* kWords[] = {"against-safety", "sources-tied", "foreign-volts", "without-air",
                                    "stays-on"};
  return kWords[static_cast<size_t>(kind)];
}

const char* word(verify::Harm::Cause cause) {
  constexpr const char* kWords[] = {"landing", "bridge", "stuck"};
  return kWords[static_cast<size_t>(cause)];
}

json endJson(const Opened& opened, const verify::End& end) {
  return {{"conductor", nameOf(opened, end.conductor)},
          {"id", number(end.conductor)},
          {"end", std::string(1, end.end)}};
}

json editJson(const Opened& opened, const verify::Edit& edit) {
  using Kind = verify::Edit::Kind;
  json entry{{"kind", word(edit.kind)},
             {"cost", verify::costOf(edit)},
             {"text", wording::editText(opened.language, edit, opened.context()).toStdString()}};
  if (edit.end.conductor != sheet::ConductorId{}) entry["end"] = endJson(opened, edit.end);
  if (edit.kind == Kind::swap) entry["other"] = endJson(opened, edit.other);
  if (edit.kind < Kind::setting) {
    entry["from"] = sheet::print(opened.sheet(), edit.from);
    entry["to"] = sheet::print(opened.sheet(), edit.to);
  } else if (edit.kind == Kind::gauge) {
    entry["cable"] = opened.sheet().cables.find(edit.cable)->name;
    entry["gauge"] = quantity::printGauge(edit.gauge);
  } else {
    entry["unit"] = tagOf(opened, edit.unit);
    if (edit.kind != Kind::exchange) entry["key"] = edit.key;
    entry["value"] = edit.value;
  }
  return entry;
}

json mendJson(const Opened& opened, const verify::Mend& mend) {
  json edits = json::array();
  for (const auto& edit : mend.edits) edits.push_back(editJson(opened, edit));
  json remains = json::array();
  for (const auto& finding : mend.remains) remains.push_back(findingJson(opened, finding));
  json entry{{"edits", edits},
             {"cost", mend.cost},
             {"clears", mend.clears},
             {"of", mend.of},
             {"allCallsRight", mend.allCallsRight},
             {"calls", mend.calls},
             {"remains", remains},
             {"text", wording::mendText(opened.language, mend, opened.context()).toStdString()},
             {"effect", wording::mendEffect(opened.language, mend, opened.context()).toStdString()}};
  if (mend.findWhy) entry["findWhy"] = nameOf(opened, *mend.findWhy);
  if (mend.way) entry["way"] = word(mend.way->way.kind);
  return entry;
}

QString sentence(const Opened& opened, const char* key, const wording::Args& args = {}) {
  return opened.language.sentence(QLatin1String(key), args);
}

operation::LineRange linesOf(const Opened& opened) { return {opened.job.lowLine, opened.job.highLine}; }

size_t aboveNote(const verify::SheetCheck& check) {
  return size_t(std::count_if(check.findings.begin(), check.findings.end(),
                              [](const auto& f) { return f.severity > verify::Severity::note; }));
}

/// Writes a sheet; what cannot be written is told.
Exit write(const Opened& opened, const std::string& path, const sheet::Sheet& sheet) {
  const auto failed = job::saveFile(path, sheet::writeSheetFile(sheet));
  if (!failed) return Exit::fine;
  return complain(
      opened.language.sentence("ww-cannot-write", {{"file", QString::fromStdString(path)},
                                                   {"detail", QString::fromStdString(failed->detail)}}),
      Exit::unreadable);
}

struct Planned {
  verify::Plan plan;
  sheet::Sheet landed;
  verify::SheetCheck check;
  std::vector<std::pair<verify::Wanting, std::vector<verify::CommonWay>>> ways;
  std::vector<verify::SaferSetting> safer;
};

Planned plannedFor(const Opened& opened) {
  Planned planned{verify::plan(opened.sheet(), opened.library), {}, {}, {}, {}};
  planned.landed = verify::landed(opened.sheet(), planned.plan);
  planned.check =
      verify::check(planned.landed, operation::solveSheet(planned.landed, opened.library, linesOf(opened)));
  for (const auto& wanting : planned.plan.wanting)
    if (wanting.purpose == "common")
      planned.ways.emplace_back(wanting, verify::waysToCommon(opened.sheet(), opened.library, wanting));
  planned.safer = verify::saferSettings(planned.landed, opened.library);
  return planned;
}

json planJson(const Opened& opened, const Planned& planned) {
  json landings = json::array();
  for (const auto& each : planned.plan.landings)
    landings.push_back({{"conductor", nameOf(opened, each.conductor)},
                        {"id", number(each.conductor)},
                        {"endA", sheet::print(opened.sheet(), each.endA)},
                        {"endB", sheet::print(opened.sheet(), each.endB)},
                        {"purpose", each.purpose}});
  json wanting = json::array();
  for (const auto& each : planned.plan.wanting)
    wanting.push_back({{"purpose", each.purpose},
                       {"a", nameOf(opened, each.a)},
                       {"b", nameOf(opened, each.b)},
                       {"why", each.why == verify::Wanting::Why::noCable ? "no-cable" : "no-conductor"}});
  json ways = json::array();
  for (const auto& [missing, list] : planned.ways)
    for (const auto& way : list) {
      json entry{{"way", word(way.kind)}, {"from", nameOf(opened, missing.a)}, {"lost", way.lost}};
      if (way.conductor != sheet::ConductorId{}) entry["conductor"] = nameOf(opened, way.conductor);
      ways.push_back(std::move(entry));
    }
  json safer = json::array();
  for (const auto& each : planned.safer)
    safer.push_back({{"unit", tagOf(opened, each.unit)},
                     {"key", each.key},
                     {"value", each.value},
                     {"harmfulBreaksBefore", each.harmfulBefore},
                     {"harmfulBreaksAfter", each.harmfulAfter}});
  return {{"landings", landings},
          {"wanting", wanting},
          {"commonWays", ways},
          {"safer", safer},
          {"aboveNote", aboveNote(planned.check)}};
}

QString planText(const Opened& opened, const Planned& planned) {
  const auto& language = opened.language;
  const auto context = opened.context();
  QStringList lines;
  if (planned.plan.landings.empty()) lines << sentence(opened, "plan.nothing");
  for (const auto& each : planned.plan.landings) lines << wording::proposalText(language, each, context);
  for (const auto& each : planned.plan.wanting) lines << wording::wantingText(language, each, context);
  for (const auto& [missing, ways] : planned.ways) {
    lines << sentence(opened, "plan.ways",
                      {{"unit", wording::unitInSentence(language, context, missing.a.unit)}});
    for (const auto& way : ways) lines << "  - " + wording::commonWayText(language, way, context);
  }
  for (const auto& each : planned.safer) lines << wording::saferText(language, each, context);
  const size_t open = aboveNote(planned.check);
  lines << (open == 0 ? sentence(opened, "plan.right")
                      : language.sentence("plan.open", {{"n", QString::number(open)}}, int(open)));
  return lines.join(u'\n');
}

json harmJson(const Opened& opened, const verify::Harm& harm) {
  json entry{{"kind", word(harm.kind)},
             {"cause", word(harm.cause)},
             {"calls", harm.calls},
             {"duties", harm.duties},
             {"place", nameOf(opened, harm.place)},
             {"text", wording::harmCause(opened.language, harm, opened.context()).toStdString()}};
  if (harm.cause == verify::Harm::Cause::landing) entry["end"] = endJson(opened, harm.edit.end);
  if (harm.cause == verify::Harm::Cause::stuck) {
    entry["contact"] = nameOf(opened, harm.contact);
  } else {
    entry["from"] = sheet::print(opened.sheet(), harm.edit.from);
    entry["to"] = sheet::print(opened.sheet(), harm.edit.to);
  }
  return entry;
}

QString harmText(const Opened& opened, const std::vector<verify::Harm>& harms) {
  if (harms.empty()) return sentence(opened, "harm.none");
  QStringList lines;
  for (size_t i = 0; i < harms.size();) {
    size_t end = i;
    while (end < harms.size() && harms[end].kind == harms[i].kind) ++end;
    lines << wording::harmKind(opened.language, harms[i].kind);
    for (size_t k = i; k < std::min(end, i + kMostCauses); ++k) {
      QStringList cells{wording::harmCause(opened.language, harms[k], opened.context())};
      QStringList calls;
      for (const auto& call : harms[k].calls) calls << wording::callName(opened.language, call);
      if (!calls.empty()) cells << opened.language.list(calls);
      if (!harms[k].duties.empty()) cells << wording::dutyList(opened.language, harms[k].duties);
      lines << "  " + cells.join(QStringLiteral(" · "));
    }
    if (end - i > kMostCauses)
      lines << "  " + opened.language.sentence("harm.more", {{"n", QString::number(end - i - kMostCauses)}},
                                               int(end - i - kMostCauses));
    i = end;
  }
  return lines.join(u'\n');
}

QString timelineText(const Opened& opened, const operation::SolvedCall& call) {
  const auto& language = opened.language;
  QStringList lines{wording::callName(language, call.result.call)};
  for (const auto& event : call.events) {
    const QString name = wording::eventName(language, *opened.solution.circuit, event);
    if (name.isEmpty()) continue;
    const auto unit = opened.solution.circuit->units[size_t(event.unit)].id;
    lines << "  " + language.quantity(double(event.at - call.start) / 1000, "s", 2).rightJustified(12) +
                 "  " + wording::unitName(language, opened.context(), unit).leftJustified(32) + ' ' +
                 name.leftJustified(28) + ' ' + sentence(opened, event.on ? "timeline.on" : "timeline.off");
  }
  if (lines.size() == 1) lines << "  " + sentence(opened, "timeline.nothing");
  return lines.join(u'\n') + u'\n';
}

json timelineJson(const Opened& opened, const operation::SolvedCall& call) {
  json events = json::array();
  for (const auto& event : call.events)
    events.push_back(
        {{"seconds", double(event.at - call.start) / 1000},
         {"unit", opened.solution.circuit->units[size_t(event.unit)].tag},
         {"what", event.name},
         {"on", event.on},
         {"text", wording::eventName(opened.language, *opened.solution.circuit, event).toStdString()}});
  return {{"call", call.result.call}, {"events", events}};
}

json limitJson(const Opened& opened, const std::optional<verify::Limit>& limit) {
  if (!limit) return nullptr;
  return {{"rule", limit->rule}, {"call", limit->call}, {"place", nameOf(opened, limit->place)}};
}

json sizesJson(const Opened& opened, const verify::Sizes& sizes) {
  json runs = json::array();
  for (const auto& run : sizes.runs)
    runs.push_back({{"cable", opened.sheet().cables.find(run.cable)->name},
                    {"gauge", quantity::printGauge(run.gauge)},
                    {"metres", run.longest.si()},
                    {"limit", limitJson(opened, run.limit)}});
  json transformers = json::array();
  for (const auto& found : sizes.transformers)
    transformers.push_back({{"unit", tagOf(opened, found.unit)},
                            {"part", found.part},
                            {"presentVa", found.present.si()},
                            {"heaviestVa", std::round(found.heaviest.si() * 100) / 100},
                            {"call", found.call},
                            {"smallest", found.smallest},
                            {"limit", limitJson(opened, found.limit)}});
  return {{"runs", runs}, {"transformers", transformers}};
}

}  // namespace

Exit mend(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    verify::MendLimits limits;
    limits.lines = linesOf(opened);
    const auto mends = verify::searchMends(opened.sheet(), opened.library, opened.check, limits);
    if (request.json) {
      json list = json::array();
      for (const auto& mend : mends) list.push_back(mendJson(opened, mend));
      printJson({{"mends", list}, {"findings", aboveNote(opened.check)}});
      return Exit::fine;
    }
    if (mends.empty()) print(sentence(opened, aboveNote(opened.check) == 0 ? "mend.none" : "mend.no-way"));
    for (size_t i = 0; i < mends.size(); ++i) {
      print(sentence(opened, "mend.number",
                     {{"n", QString::number(i + 1)},
                      {"act", wording::mendText(opened.language, mends[i], opened.context())}}));
      print("   " + wording::mendEffect(opened.language, mends[i], opened.context()));
      for (const auto& finding : mends[i].remains)
        print("   " +
              sentence(opened, "mend.remains",
                       {{"what", wording::findingTitle(opened.language, finding, opened.context())}}));
    }
    return Exit::fine;
  });
}

Exit plan(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const Planned planned = plannedFor(opened);
    if (!request.output.empty())
      if (const Exit failed = write(opened, request.output, planned.landed); failed != Exit::fine)
        return failed;
    if (request.json)
      printJson(planJson(opened, planned));
    else
      print(planText(opened, planned));
    if (!request.json && !request.output.empty())
      print(sentence(opened, "plan.written", {{"path", QString::fromStdString(request.output)}}));
    return Exit::fine;
  });
}

Exit size(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto sizes = verify::sizesOf(opened.sheet(), opened.library, linesOf(opened));
    if (request.json) {
      printJson(sizesJson(opened, sizes));
      return Exit::fine;
    }
    for (const auto& run : sizes.runs) print(wording::longestRunText(opened.language, run, opened.context()));
    for (const auto& found : sizes.transformers)
      print(wording::transformerText(opened.language, found, opened.context()));
    return Exit::fine;
  });
}

Exit harm(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto harms = verify::harmsOf(opened.sheet(), opened.library, linesOf(opened));
    if (request.json) {
      json list = json::array();
      for (const auto& each : harms) list.push_back(harmJson(opened, each));
      printJson({{"harms", list}});
    } else {
      print(harmText(opened, harms));
    }
    return Exit::fine;
  });
}

Exit timeline(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto chosen = chosenCalls(opened, request);
    if (const Exit* failed = std::get_if<Exit>(&chosen)) return *failed;
    if (!request.output.empty())
      if (const Exit failed = drawTimeline(opened, request, std::get<0>(chosen)); failed != Exit::fine)
        return failed;
    json list = json::array();
    for (const auto* call : std::get<0>(chosen)) {
      if (request.json)
        list.push_back(timelineJson(opened, *call));
      else
        print(timelineText(opened, *call));
    }
    if (request.json) printJson({{"calls", list}});
    return Exit::fine;
  });
}

}  // namespace ww::app
