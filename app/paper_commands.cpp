// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGuiApplication>
#include <QTemporaryDir>
#include <cmath>
#include <nlohmann/json.hpp>

#include "document/report_builder.h"
#include "drawing/overlay.h"
#include "job/job_json.h"
#include "opened.h"
#include "paint/pdf_file.h"
#include "paint/picture_file.h"
#include "paint/row_words.h"
#include "wording/engine_text.h"
#include "wording/names.h"
#include "wording/profile_text.h"

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

Exit cannotWrite(const wording::Language& language, const Request& request, const QString& detail) {
  return complain(language.sentence("ww-cannot-write",
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
  if (!written) return cannotWrite(opened.language, request, written.failure->detail);
  if (request.json)
    print(QString::fromStdString(nlohmann::json{
        {"file", request.output},
        {"pages", written.pages},
        {"report", nlohmann::json::parse(document::writeReport(
                       tree))}}.dump(2)));
  return verdict(opened, request.strict);
}

namespace {

const paint::Theme& themeOf(const Request& request) {
  return request.theme == "dark"    ? paint::theme(paint::ThemeName::dark)
         : request.theme == "paper" ? paint::theme(paint::ThemeName::paper)
                                    : paint::theme(paint::ThemeName::light);
}

/// What the picture is to be written as; nothing, and told, for any other ending.
std::optional<paint::PictureKind> kindOf(const Request& request) {
  const QString path = QString::fromStdString(request.output);
  if (path.endsWith(QStringLiteral(".svg"), Qt::CaseInsensitive)) return paint::PictureKind::svg;
  if (path.endsWith(QStringLiteral(".png"), Qt::CaseInsensitive)) return paint::PictureKind::png;
  complain(languageOf(request).sentence("ww-picture-kind", {{"file", path}}), Exit::wrongInput);
  return std::nullopt;
}

/// Of a unit profile the inner circuit.
Exit drawInner(const Request& request, const equipment::Profile& profile) {
  const auto kind = kindOf(request);
  if (!kind) return Exit::wrongInput;
  const auto& language = languageOf(request);
  const Offscreen offscreen;
  const auto inner =
      drawing::layoutInner(profile, paint::textMeasure(), [&](const equipment::Element& element) {
        return wording::partFigure(language, element.part).toStdString();
      });
  if (const auto failed =
          paint::writePicture(QString::fromStdString(request.output), *kind, inner, themeOf(request), 2))
    return cannotWrite(language, request, failed->detail);
  if (request.json) print(QString::fromStdString(nlohmann::json{{"file", request.output}}.dump(2)));
  return Exit::fine;
}

}  // namespace

Exit drawTimeline(const Opened& opened, const Request& request,
                  const std::vector<const operation::SolvedCall*>& calls) {
  const auto kind = kindOf(request);
  if (!kind) return Exit::wrongInput;
  const auto& language = opened.language;
  const Offscreen offscreen;
  drawing::TimelineWords words;
  words.event = [&](const operation::Event& event) {
    return wording::eventName(language, *opened.solution.circuit, event).toStdString();
  };
  words.unit = [&](sheet::UnitId unit) {
    return wording::unitName(language, opened.context(), unit).toStdString();
  };
  words.call = [&](const std::string& call) { return wording::callName(language, call).toStdString(); };
  words.seconds = [&](double seconds) {
    return language.quantity(seconds, "s", seconds < 10 && std::fmod(seconds, 1) > 0.05 ? 1 : 0)
        .toStdString();
  };
  words.nothing = language.sentence(QStringLiteral("timeline.nothing")).toStdString();
  words.more = language.sentence(QStringLiteral("timeline.more")).toStdString();
  words.scale = language.sentence(QStringLiteral("timeline.scale")).toStdString();
  const auto timeline = drawing::layoutTimeline(calls, *opened.solution.circuit, words, paint::textMeasure());
  if (const auto failed =
          paint::writePicture(QString::fromStdString(request.output), *kind, timeline, themeOf(request), 2))
    return cannotWrite(language, request, failed->detail);
  return Exit::fine;
}

Exit draw(const Request& request) {
  if (const auto profile = profileIn(request, false))
    return *profile ? drawInner(request, *profile->value) : Exit::wrongInput;
  auto file = open(request);
  if (const Exit* failed = std::get_if<Exit>(&file)) return *failed;
  const Opened& opened = std::get<Opened>(file);
  const auto kind = kindOf(request);
  if (!kind) return Exit::wrongInput;
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
  if (const auto failed = paint::writePicture(QString::fromStdString(request.output), *kind, diagram,
                                              overlay ? &*overlay : nullptr, themeOf(request), 2))
    return cannotWrite(opened.language, request, failed->detail);
  if (request.json) print(QString::fromStdString(nlohmann::json{{"file", request.output}}.dump(2)));
  return Exit::fine;
}

}  // namespace ww::app
