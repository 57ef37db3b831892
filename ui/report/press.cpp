// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/press.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

#include "document/functions.h"
#include "job/job_json.h"
#include "job/profiles.h"
#include "session/checker.h"

namespace ww::report {

namespace {

struct Ground {
  session::Checked checked;
  std::vector<checklist::Step> steps;
};

Ground groundOf(const Source& source, const equipment::Library& library, const sheet::Sheet& sheet) {
  Ground ground{session::checkJob(source.job, sheet, library), {}};
  ground.steps = session::stepsOf(source.job, sheet, ground.checked);
  return ground;
}

bool signedBy(const job::Job& job, const char* role) {
  return std::any_of(job.signatures.begin(), job.signatures.end(),
                     [&](const job::Signature& fact) { return fact.role == role; });
}

/// Readings outside their band, then those not taken; each line leads to its first step.
void openReadings(const Source& source, const std::vector<checklist::Step>& steps, Made& made) {
  using enum checklist::Verdict;
  for (const bool live : {false, true}) {
    const std::string stage = live ? "live" : "dead";
    OpenLine wrong{OpenLine::Kind::wrongReadings, paint::Severity::fail, 0, {}, {}, stage, {}};
    OpenLine missing{OpenLine::Kind::readings, paint::Severity::notMeasured, 0, {}, {}, stage, {}};
    for (const auto& step : steps) {
      if ((step.phase != checklist::Phase::dead) != live || !step.band) continue;
      const auto verdict = document::verdictOf(step, job::standing(source.job, step.key));
      if (verdict == good || verdict == notJudged) continue;
      OpenLine& line = verdict == notMeasured ? missing : wrong;
      if (line.count++ == 0) line.goTo = step.key;
    }
    made.missing += missing.count;
    for (const OpenLine& line : {wrong, missing})
      if (line.count > 0) made.open.push_back(line);
  }
}

void openFacts(const Source& source, Made& made) {
  for (const char* stage : {"dead", "live"}) {
    const auto& facts = source.job.acknowledgements;
    if (std::none_of(facts.begin(), facts.end(), [&](const auto& fact) { return fact.cautions == stage; }))
      made.open.push_back({OpenLine::Kind::cautions, paint::Severity::notMeasured, 0, stage, {}, stage, {}});
  }
  for (const auto& item : source.job.openItems)
    made.open.push_back({OpenLine::Kind::item, paint::Severity::note, 0, item.text, {}, "site", {}});
  for (const char* role : {"installer", "owner"})
    if (!signedBy(source.job, role))
      made.open.push_back({OpenLine::Kind::signature, paint::Severity::notMeasured, 0, role, {}, {}, {}});
}

void collectOpen(const Source& source, const Ground& ground, Made& made) {
  if (source.job.site.address.empty())
    made.open.push_back({OpenLine::Kind::address, paint::Severity::notMeasured, 0, {}, {}, "site", {}});
  if (made.sheet.units.empty())
    made.open.push_back({OpenLine::Kind::units, paint::Severity::notMeasured, 0, {}, {}, "site", {}});
  for (const auto& finding : ground.checked.check.findings) {
    if (finding.severity == verify::Severity::note || document::acceptanceOf(source.job, finding)) continue;
    ++made.openFindings;
    made.open.push_back({OpenLine::Kind::finding,
                         paint::shapeOf(finding.severity),
                         0,
                         {},
                         finding,
                         "wiring",
                         verify::keyOf(finding)});
  }
  openReadings(source, ground.steps, made);
  openFacts(source, made);
}

}  // namespace

std::shared_ptr<const Made> make(const Source& source) {
  auto made = std::make_shared<Made>();
  if (const sheet::Sheet* current = job::currentSheet(source.job)) made->sheet = *current;
  const equipment::Library library = job::libraryOf(source.job, *source.library);
  const Ground ground = groundOf(source, library, made->sheet);
  std::vector<operation::CallResult> results;
  for (const auto& call : ground.checked.solution.calls) results.push_back(call.result);
  made->all =
      document::build({source.job, library, ground.checked.solution.table, std::move(results),
                       ground.checked.check.findings, ground.steps, source.version, job::hashOf(source.job)});
  made->shown = made->all;
  std::erase_if(made->shown.sections,
                [&](const document::Section& section) { return source.leftOut.contains(section.id); });
  made->pages = std::make_shared<paint::PicturePages>();
  made->painted =
      paint::paintReport(*made->pages, made->shown, made->sheet, library, *source.language, source.paper);
  collectOpen(source, ground, *made);
  return made;
}

QImage pageImage(const Made& made, int page, int widthPixels) {
  const auto& pictures = made.pages->pictures();
  if (page < 0 || size_t(page) >= pictures.size() || widthPixels < 1) return {};
  const paint::PagePicture& picture = pictures[size_t(page)];
  const double scale = double(widthPixels) / picture.pageSize().width();
  QImage image(widthPixels, int(std::lround(picture.pageSize().height() * scale)), QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
  painter.scale(scale, scale);
  QPicture played(picture);  // playing reads through a cursor of its own copy
  played.play(&painter);
  return image;
}

paint::PaintedReport paintOn(QPagedPaintDevice& device, const Made& made, const Source& source) {
  paint::DevicePages pages(device);
  return paint::paintReport(pages, made.shown, made.sheet, job::libraryOf(source.job, *source.library),
                            *source.language, source.paper);
}

}  // namespace ww::report
