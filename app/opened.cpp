// SPDX-License-Identifier: GPL-3.0-or-later
#include "opened.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iterator>

#include "checklist/checklist.h"
#include "job/document_file.h"
#include "wording/sentences.h"

namespace ww::app {

namespace {

constexpr std::streamsize kMostBytes = 16 << 20;

std::optional<std::string> contentOf(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  std::string text(static_cast<size_t>(kMostBytes) + 1, '\0');
  file.read(text.data(), kMostBytes + 1);
  if (file.bad()) return std::nullopt;
  text.resize(static_cast<size_t>(file.gcount()));
  return text;
}

bool isAccepted(const job::Job& job, const verify::Finding& finding) {
  const std::string key = verify::keyOf(finding);
  return std::any_of(job.acceptances.begin(), job.acceptances.end(),
                     [&](const auto& a) { return a.finding == key; });
}

}  // namespace

const wording::Language& languageOf(const Request& request) {
  const auto* language = wording::Language::byCode(request.language);
  return language != nullptr ? *language : wording::Language::english();
}

void print(const QString& text) {
  const QByteArray bytes = text.toUtf8();
  std::fwrite(bytes.constData(), 1, size_t(bytes.size()), stdout);
  std::fputc('\n', stdout);
}

Exit complain(const QString& sentence, Exit exit) {
  std::fprintf(stderr, "ww: %s\n", sentence.toUtf8().constData());
  return exit;
}

std::variant<Opened, Exit> open(const Request& request) {
  const auto& language = languageOf(request);
  const QString name = QString::fromStdString(request.file);
  const auto text = contentOf(request.file);
  if (!text) return complain(language.sentence("ww-cannot-read", {{"file", name}}), Exit::unreadable);
  const auto& library = equipment::standardLibrary();
  auto job = job::readDocument(*text, library);
  if (!job) {
    for (const auto& problem : job.problems)
      complain(wording::problemText(language, problem, name), Exit::wrongInput);
    return Exit::wrongInput;
  }
  if (job::currentSheet(*job.value) == nullptr)
    return complain(language.sentence("ww-no-sheet", {{"file", name}}), Exit::wrongInput);
  const sheet::Sheet& sheet = *job::currentSheet(*job.value);
  auto solution = operation::solveSheet(sheet, library, {job.value->lowLine, job.value->highLine});
  auto check = verify::check(sheet, solution);
  return Opened{std::move(*job.value), library, language, std::move(solution), std::move(check)};
}

std::vector<checklist::Step> stepsOf(const Opened& opened) {
  std::vector<checklist::Observation> observations;
  for (const auto& reading : opened.job.readings)
    if (const auto* standing = job::standing(opened.job, reading.step);
        standing != nullptr && standing->id == reading.id && standing->value)
      observations.push_back({reading.step, *standing->value});
  checklist::MeterFigures meter;
  if (!opened.job.meters.empty()) meter.accuracyPercent = opened.job.meters.front().accuracyPercent;
  return checklist::checklistFor(opened.sheet(), opened.solution, meter, observations);
}

Exit verdict(const Opened& opened, bool strict) {
  for (const auto& finding : opened.check.findings) {
    const bool marginal = finding.severity == verify::Severity::warn && !isAccepted(opened.job, finding);
    if (finding.severity >= verify::Severity::fail || (strict && marginal)) return Exit::faults;
  }
  return Exit::fine;
}

}  // namespace ww::app
