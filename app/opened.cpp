// SPDX-License-Identifier: GPL-3.0-or-later
#include "opened.h"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "checklist/checklist.h"
#include "document/functions.h"
#include "equipment/own_profiles.h"
#include "history/data_folder.h"
#include "history/profile_folder.h"
#include "job/document_file.h"
#include "job/profiles.h"
#include "job/survey_facts.h"
#include "quantity/json.h"
#include "wording/sentences.h"

namespace ww::app {

namespace {

constexpr std::streamsize kMostBytes = 16 << 20;

}  // namespace

std::optional<std::string> contentOf(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  std::string text(static_cast<size_t>(kMostBytes) + 1, '\0');
  file.read(text.data(), kMostBytes + 1);
  if (file.bad()) return std::nullopt;
  text.resize(static_cast<size_t>(file.gcount()));
  return text;
}

const equipment::Library& libraryOf(const Request& request) {
  static const equipment::OwnProfiles own = [&] {
    const history::ProfileFolder folder(
        history::dataFolder(request.data.empty() ? std::nullopt : std::optional(request.data)));
    auto read = folder.read(equipment::standardLibrary());
    for (const auto& file : read.refused)
      complainAll(request, file.problems, QString::fromStdString(folder.path() + "/" + file.name));
    return read;
  }();
  return own.library;
}

void complainAll(const Request& request, const quantity::Problems& problems, const QString& file) {
  for (const auto& problem : problems)
    complain(wording::problemText(languageOf(request), problem, file), Exit::wrongInput);
}

std::optional<quantity::Loaded<equipment::Profile>> profileIn(const Request& request, bool own) {
  const auto text = contentOf(request.file);
  if (!text) return std::nullopt;
  const auto parsed = quantity::parseJson(*text);
  if (!parsed || !parsed.value->is_object()) return std::nullopt;
  const auto format = parsed.value->find("format");
  if (format == parsed.value->end() || *format != equipment::kProfileFormat) return std::nullopt;
  const equipment::Library& shipped = equipment::standardLibrary();
  auto read = own ? equipment::readOwnProfile(*text, shipped) : equipment::readProfile(*text, shipped.parts);
  complainAll(request, read.problems, QString::fromStdString(request.file));
  return read;
}

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

std::variant<job::Job, Exit> readFile(const Request& request) {
  const auto& language = languageOf(request);
  const QString name = QString::fromStdString(request.file);
  const auto text = contentOf(request.file);
  if (!text) return complain(language.sentence("ww-cannot-read", {{"file", name}}), Exit::unreadable);
  // Of a longer file only the beginning was read; what is told is its whole size.
  std::error_code none;
  if (const auto bytes = std::filesystem::file_size(request.file, none);
      !none && bytes > static_cast<std::uintmax_t>(kMostBytes)) {
    const quantity::Problem large{
        "", "json-too-large", {{"bytes", std::to_string(bytes)}, {"limit", std::to_string(kMostBytes)}}};
    return complain(wording::problemText(language, large, name), Exit::wrongInput);
  }
  const equipment::Library& library = libraryOf(request);
  auto job = job::readDocument(*text, library);
  if (!job) {
    complainAll(request, job.problems, name);
    return Exit::wrongInput;
  }
  return job::withProfiles(std::move(*job.value), library);
}

std::variant<Opened, Exit> open(const Request& request) {
  auto read = readFile(request);
  if (const Exit* failed = std::get_if<Exit>(&read)) return *failed;
  job::Job& job = std::get<job::Job>(read);
  const auto& language = languageOf(request);
  if (job::currentSheet(job) == nullptr)
    return complain(language.sentence("ww-no-sheet", {{"file", QString::fromStdString(request.file)}}),
                    Exit::wrongInput);
  const sheet::Sheet& sheet = *job::currentSheet(job);
  auto kept = std::make_shared<const equipment::Library>(job::libraryOf(job, libraryOf(request)));
  const equipment::Library& library = *kept;
  auto refused = job::refusalFindings(job);
  if (!refused.empty() && !request.refusedToo) {
    for (const auto& finding : refused)
      complain(wording::findingText(language, finding, {sheet, library}), Exit::faults);
    return Exit::faults;
  }
  // A refused job has no check, no run and no bands.
  auto solution =
      operation::solveSheet(refused.empty() ? sheet : sheet::Sheet(), library, {job.lowLine, job.highLine});
  auto check = refused.empty() ? verify::check(sheet, solution) : verify::check({}, solution);
  if (!refused.empty()) check.findings = std::move(refused);
  return Opened{std::move(job), std::move(kept), library, language, std::move(solution), std::move(check)};
}

std::vector<checklist::Step> stepsOf(const Opened& opened) {
  if (!job::refusalsOf(opened.job).empty()) return {};
  return checklist::checklistFor(opened.sheet(), opened.solution, job::meterFiguresOf(opened.job),
                                 job::observationsOf(opened.job));
}

Exit unknownCall(const Opened& opened, const Request& request) {
  QStringList known;
  for (const auto& call : opened.solution.calls) known << QString::fromStdString(call.result.call);
  return complain(opened.language.sentence("ww-unknown-call", {{"call", QString::fromStdString(request.call)},
                                                               {"known", known.join(QStringLiteral(", "))}}),
                  Exit::wrongInput);
}

std::variant<std::vector<const operation::SolvedCall*>, Exit> chosenCalls(const Opened& opened,
                                                                          const Request& request) {
  std::vector<const operation::SolvedCall*> calls;
  for (const auto& call : opened.solution.calls)
    if (request.call.empty() || request.call == call.result.call) calls.push_back(&call);
  if (calls.empty()) return unknownCall(opened, request);
  return calls;
}

Exit verdict(const Opened& opened, bool strict) {
  for (const auto& finding : opened.check.findings) {
    const bool marginal =
        finding.severity == verify::Severity::warn && document::acceptanceOf(opened.job, finding) == nullptr;
    if (finding.severity >= verify::Severity::fail || (strict && marginal)) return Exit::faults;
  }
  return Exit::fine;
}

}  // namespace ww::app
