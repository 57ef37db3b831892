// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <fstream>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include "checklist/checklist.h"
#include "document/report_builder.h"
#include "job/document_file.h"
#include "job/job_json.h"
#include "verify/check.h"
#include "wording/sentences.h"

namespace ww::testing {

inline constexpr const char* kDemos[] = {"larkmoor-a-furnace-cooling", "larkmoor-a-swapped-at-furnace",
                                         "larkmoor-b-electric-air-handler", "larkmoor-g-heat-pump",
                                         "larkmoor-g-wrong-valve-sense"};

/// A demo job with all that its report is made of.
struct DemoReport {
  job::Job job;
  sheet::Sheet sheet;
  document::Report report;
  std::vector<verify::Finding> findings;
};

inline DemoReport loadDemo(const std::string& name) {
  std::ifstream file(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + name + ".json");
  std::stringstream text;
  text << file.rdbuf();
  const auto& library = equipment::standardLibrary();
  DemoReport demo;
  demo.job = job::readDocument(text.str(), library).value.value();
  demo.sheet = *job::currentSheet(demo.job);
  const auto solution = operation::solveSheet(demo.sheet, library);
  std::vector<operation::CallResult> results;
  for (const auto& call : solution.calls) results.push_back(call.result);
  demo.findings = verify::check(demo.sheet, solution).findings;
  demo.report =
      document::build({demo.job, library, solution.table, results, demo.findings,
                       checklist::checklistFor(demo.sheet, solution), "test", job::hashOf(demo.job)});
  return demo;
}

/// Every text of the report tree, as the language words it.
class ReportTexts {
 public:
  ReportTexts(const document::Report& report, const wording::Language& language, const sheet::Sheet& sheet)
      : language_(language), context_{sheet, equipment::standardLibrary()} {
    for (const auto& section : report.sections) {
      add(section.title);
      for (const auto& part : section.subtitle) add(part);
      for (const auto& node : section.nodes) std::visit(*this, node);
    }
  }
  const QStringList& all() const { return all_; }

  void operator()(const document::Heading& node) { add(node.text); }
  void operator()(const document::Paragraph& node) { add(node.text); }
  void operator()(const document::Table& node) {
    for (const auto& column : node.columns) add(column.title);
    for (const auto& row : node.rows)
      for (const auto& cell : row.cells) {
        if (const auto* value = std::get_if<document::Value>(&cell.content)) add(*value);
        if (const auto* open = std::get_if<document::OpenMark>(&cell.content)) add(open->text);
      }
  }
  void operator()(const document::VerdictBox& node) {
    for (const auto& sentence : node.sentences) add(sentence);
  }
  void operator()(const document::KeyFigures& node) {
    for (const auto& figure : node.figures) {
      add(figure.label);
      add(figure.figure);
      add(figure.remark);
    }
  }
  void operator()(const document::DiagramPage& node) {
    for (const auto& line : node.legend) add(line);
  }
  void operator()(const document::CycleCurves&) {}
  void operator()(const document::SignatureBlock& node) {
    for (const auto& line : node.lines) {
      add(line.role);
      all_ << QString::fromStdString(line.name);
    }
  }

 private:
  void add(const document::Value& value) { all_ << wording::text(language_, value, context_); }

  const wording::Language& language_;
  wording::Context context_;
  QStringList all_;
};

}  // namespace ww::testing
