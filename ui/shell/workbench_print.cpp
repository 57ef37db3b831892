// SPDX-License-Identifier: GPL-3.0-or-later
// The report of a job straight from the list.
#include <QApplication>
#include <QMetaObject>

#include "document/report_builder.h"
#include "job/job_json.h"
#include "job/profiles.h"
#include "paint/pdf_file.h"
#include "session/checker.h"
#include "shell/workbench.h"
#include "wording/sentences.h"

namespace ww::shell {

namespace {

/// The report of a job as PDF; what was wrong, else nothing.
QString writeReport(const job::Job& job, const session::Surroundings& around, const std::string& version,
                    const QString& path) {
  const sheet::Sheet& sheet = *job::currentSheet(job);
  const equipment::Library library = job::libraryOf(job, equipment::standardLibrary());
  const session::Checked checked = session::checkJob(job, sheet, library);
  std::vector<operation::CallResult> results;
  for (const auto& call : checked.solution.calls) results.push_back(call.result);
  const document::ReportInput input{job,
                                    library,
                                    checked.solution.table,
                                    std::move(results),
                                    checked.check.findings,
                                    session::stepsOf(job, sheet, checked),
                                    version,
                                    job::hashOf(job)};
  const auto paper = around.preferences.paper == "a4" ? paint::PaperSize::a4 : paint::PaperSize::letter;
  const auto written = paint::writePdf(document::build(input), sheet, library, around.language, paper, path);
  return written ? QString() : written.failure->detail;
}

}  // namespace

void Workbench::print(const std::string& entry) {
  if (!reader_) {
    Q_EMIT told(problem_);
    return;
  }
  std::string closed;
  try {
    for (const history::Visit& visit : reader_->visits(refOf(entry)))
      if (visit.state == job::State::closed || visit.state == job::State::amended)
        closed = entryId(visit.ref);
  } catch (const history::StoreFault& fault) {
    Q_EMIT told(wording::storeProblemText(around_->language, fault.problem()));
    return;
  }
  if (closed.empty()) {
    Q_EMIT told(sentence("none-closed"));
    return;
  }
  const auto stored = load(closed);
  if (!stored || !job::currentSheet(stored->job)) return;
  const QString path = world_.pdfFile(QApplication::activeWindow(),
                                      QString::fromStdString(stored->job.number) + QStringLiteral(".pdf"));
  if (path.isEmpty()) return;
  if (!printing_) printing_ = std::make_unique<LatestWorker>();
  printing_->submit([this, job = stored->job, around = *around_, path,
                     version = QApplication::applicationVersion().toStdString()] {
    const QString wrong = writeReport(job, around, version, path);
    const QString said = wrong.isEmpty()
                             ? around.language.sentence(QStringLiteral("window.printed"), {{"file", path}})
                             : around.language.sentence(QStringLiteral("window.cannot-write"),
                                                        {{"file", path}, {"detail", wrong}});
    QMetaObject::invokeMethod(
        this, [this, said] { Q_EMIT told(said); }, Qt::QueuedConnection);
  });
}

}  // namespace ww::shell
