// SPDX-License-Identifier: GPL-3.0-or-later
// Before a sheet: what was found there at all, and which profiles there are to place.
#include <QDateTime>
#include <chrono>
#include <nlohmann/json.hpp>
#include <random>

#include "history/data_folder.h"
#include "history/profile_folder.h"
#include "job/document_file.h"
#include "job/identity.h"
#include "job/job_json.h"
#include "job/profiles.h"
#include "job/survey_facts.h"
#include "opened.h"
#include "wording/sentences.h"

namespace ww::app {

namespace {

using nlohmann::json;

QString q(const std::string& text) { return QString::fromStdString(text); }

std::string freshId() {
  std::random_device device;
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  const auto milliseconds = std::chrono::duration_cast<std::chrono::milliseconds>(since).count();
  return job::uuid7(static_cast<std::uint64_t>(milliseconds),
                    [&] { return std::uint64_t{device()} << 32 | device(); });
}

/// "signals=data" put into the answers; what is none is told with what would be one.
bool answer(const Request& request, const std::string& word, survey::Answers& answers) {
  const size_t at = word.find('=');
  const std::string question = word.substr(0, at), given = at == std::string::npos ? "" : word.substr(at + 1);
  QStringList known;
  for (const survey::Question& each : survey::questions()) {
    for (const std::string_view one : each.answers) {
      const std::string whole = std::string(each.id) + "=" + std::string(one);
      if (whole == word) {
        answers[question] = given;
        return true;
      }
      known << q(whole);
    }
  }
  complain(languageOf(request).sentence("ww-survey-answer",
                                        {{"found", q(word)}, {"known", known.join(QStringLiteral(", "))}}),
           Exit::wrongInput);
  return false;
}

void tell(const Request& request, const survey::Answers& answers) {
  const auto& language = languageOf(request);
  const survey::Verdict verdict = survey::verdictOf(answers);
  if (request.json) {
    print(q(json{{"answers", answers}, {"refused", verdict.refusals}, {"notes", verdict.notes}}.dump(2)));
    return;
  }
  const auto say = [&](const QString& key) {
    return language.sentence(QStringLiteral("site.survey.") + key);
  };
  for (const survey::Question& question : survey::questions()) {
    const auto given = answers.find(question.id);
    if (given == answers.end()) continue;
    const QString id = q(std::string(question.id));
    print(language.sentence("ww-survey-line",
                            {{"question", say(QStringLiteral("question.") + id)},
                             {"answer", say(QStringLiteral("answer.%1.%2").arg(id, q(given->second)))}}));
  }
  for (const std::string& note : verdict.notes) print(say(QStringLiteral("note.") + q(note)));
  QStringList reasons;
  for (const std::string& refusal : verdict.refusals) reasons << wording::word(language, "refusal", refusal);
  print(reasons.isEmpty() ? say(QStringLiteral("fine"))
                          : language.sentence("site.survey.refused", {{"refusal", language.list(reasons)}}));
}

/// Appends the answers to the job's facts and writes it.
Exit write(const Request& request, job::Job job, const survey::Answers& answers) {
  const std::string now = QDateTime::currentDateTime()
                              .toOffsetFromUtc(QDateTime::currentDateTime().offsetFromUtc())
                              .toString(Qt::ISODate)
                              .toStdString();
  job.surveys.push_back({freshId(), answers, job.installer, now});
  if (const auto failed = job::saveFile(request.output, job::writeJob(job)))
    return complain(languageOf(request).sentence(
                        "ww-cannot-write", {{"file", q(request.output)}, {"detail", q(failed->detail)}}),
                    Exit::unreadable);
  return Exit::fine;
}

}  // namespace

Exit survey(const Request& request) {
  job::Job job;
  ww::survey::Answers answers = ww::survey::customary();
  if (!request.file.empty()) {
    auto read = readFile(request);
    if (const Exit* failed = std::get_if<Exit>(&read)) return *failed;
    job = std::move(std::get<job::Job>(read));
    if (!job.surveys.empty())
      answers = job.surveys.back().answers;
    else if (const sheet::Sheet* sheet = job::currentSheet(job))
      answers = job::impliedBy(*sheet, job::libraryOf(job, libraryOf(request)));
  }
  bool sound = true;
  for (const std::string& word : request.words) sound = answer(request, word, answers) && sound;
  if (!sound) return Exit::wrongInput;
  if (!request.output.empty())
    if (const Exit written = write(request, std::move(job), answers); written != Exit::fine) return written;
  tell(request, answers);
  return ww::survey::verdictOf(answers).refusals.empty() ? Exit::fine : Exit::faults;
}

Exit profiles(const Request& request) {
  const auto& language = languageOf(request);
  const history::ProfileFolder folder(
      history::dataFolder(request.data.empty() ? std::nullopt : std::optional(request.data)));
  const auto own = folder.read(equipment::standardLibrary());
  json list = json::array();
  for (const auto& [id, profile] : own.library.profiles) {
    const bool shipped = own.library.shipped(id);
    const QString title = wording::inLanguage(language, profile->title);
    if (request.json)
      list.push_back({{"id", id}, {"title", title.toStdString()}, {"own", !shipped}});
    else
      print(language.sentence(shipped ? "ww-profile-shipped" : "ww-profile-own",
                              {{"profile", q(id)}, {"title", title}}));
  }
  if (request.json) print(q(json{{"folder", folder.path()}, {"profiles", list}}.dump(2)));
  for (const auto& file : own.refused)
    complainAll(request, file.problems, q(folder.path() + "/" + file.name));
  return own.refused.empty() ? Exit::fine : Exit::wrongInput;
}

}  // namespace ww::app
