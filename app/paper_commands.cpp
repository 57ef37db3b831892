// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGuiApplication>
#include <QTemporaryDir>
#include <nlohmann/json.hpp>

#include "document/report_builder.h"
#include "drawing/overlay.h"
#include "job/job_json.h"
#include "opened.h"
#include "paint/pdf_file.h"
#include "paint/picture_file.h"
#include "paint/row_words.h"

namespace ww::app {

namespace {

/// Fonts need an application, but never a screen.
class Offscreen {
 public:
  Offscreen() : app_(prepared(), arguments_) {}

 private:
  /// Without a folder for sockets Qt would complain, and make one that stays.
  int& prepared() {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    if (qEnvironmentVariableIsEmpty("XDG_RUNTIME_DIR") && runtime_.emplace().isValid())
      qputenv("XDG_RUNTIME_DIR", runtime_->path().toUtf8());
    static int count = 1;
    return count;
  }
  char name_[3] = {'w', 'w', 0};
  char* arguments_[2] = {name_, nullptr};
  std::optional<QTemporaryDir> runtime_;
  QGuiApplication app_;
};

Exit cannotWrite(const Opened& opened, const Request& request, const QString& detail) {
  return complain(
      opened.language.sentence("ww-cannot-write",
                               {{"file", QString::fromStdString(request.output)}, {"detail", detail}}),
      Exit::unreadable);
}

}  // namespace

Exit report(const Request& given) {
  Request request = given;
  request.refusedToo = true;
  auto file = open(request);
  if (const Exit* failed = std::get_if<Exit>(&file)) return *failed;
  const Opened& opened = std::get<Opened>(file);
  std::vector<operation::CallResult> results;
  for (const auto& call : opened.solution.calls) results.push_back(call.result);
  const document::ReportInput input{opened.job,         opened.library,         opened.solution.table,
                                    std::move(results), opened.check.findings,  stepsOf(opened),
                                    WIREWRIGHT_VERSION, job::hashOf(opened.job)};
  const document::Report tree = document::build(input);
  const Offscreen offscreen;
  const auto paper = request.paper == "a4" ? paint::PaperSize::a4 : paint::PaperSize::letter;
  const auto written = paint::writePdf(tree, opened.sheet(), opened.library, opened.language, paper,
                                       QString::fromStdString(request.output));
  if (!written) return cannotWrite(opened, request, written.failure->detail);
  if (request.json)
    print(QString::fromStdString(nlohmann::json{
        {"file", request.output},
        {"pages", written.pages},
        {"report", nlohmann::json::parse(document::writeReport(
                       tree))}}.dump(2)));
  return verdict(opened, request.strict);
}

Exit draw(const Request& request) {
  auto file = open(request);
  if (const Exit* failed = std::get_if<Exit>(&file)) return *failed;
  const Opened& opened = std::get<Opened>(file);
  const QString path = QString::fromStdString(request.output);
  const bool svg = path.endsWith(QStringLiteral(".svg"), Qt::CaseInsensitive);
  if (!svg && !path.endsWith(QStringLiteral(".png"), Qt::CaseInsensitive))
    return complain(opened.language.sentence("ww-picture-kind", {{"file", path}}), Exit::wrongInput);
  const operation::SolvedCall* call = request.call.empty() ? nullptr : opened.solution.call(request.call);
  if (call == nullptr && !request.call.empty()) return unknownCall(opened, request);
  const Offscreen offscreen;
  drawing::LayoutOptions options;
  options.language = opened.language.code().toStdString();
  options.lengths =
      opened.language.measuresInFeet() ? drawing::LengthUnit::feet : drawing::LengthUnit::metres;
  const auto measure = paint::textMeasure();
  const auto diagram = drawing::layout(opened.sheet(), opened.library, measure, options);
  std::optional<drawing::Overlay> overlay;
  if (call != nullptr) {
    const auto index = size_t(call - opened.solution.calls.data());
    overlay = drawing::overlay(diagram, opened.sheet(), opened.library, call->result,
                               &opened.solution.table[index], measure, paint::rowWords(opened.language));
  }
  const auto kind = svg ? paint::PictureKind::svg : paint::PictureKind::png;
  const auto& theme = request.theme == "dark"    ? paint::theme(paint::ThemeName::dark)
                      : request.theme == "paper" ? paint::theme(paint::ThemeName::paper)
                                                 : paint::theme(paint::ThemeName::light);
  if (const auto failed = paint::writePicture(path, kind, diagram, overlay ? &*overlay : nullptr, theme, 2))
    return cannotWrite(opened, request, failed->detail);
  if (request.json) print(QString::fromStdString(nlohmann::json{{"file", request.output}}.dump(2)));
  return Exit::fine;
}

}  // namespace ww::app
