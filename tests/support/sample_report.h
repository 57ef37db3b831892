// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "checklist/checklist.h"
#include "document/report_builder.h"
#include "support/sample_job.h"
#include "verify/check.h"

namespace ww::testing {

/// A job on one sheet with all that its report is made of; readings are put in as a test needs them.
class SampleReport {
 public:
  explicit SampleReport(const sheet::Sheet& sheet)
      : library_(equipment::standardLibrary()), solution_(operation::solveSheet(sheet, library_)) {
    job.id = sampleId(0);
    job.number = "2026-0312-01";
    job.visit = "2026-03-12";
    job.installer = "J. Tamsin";
    job.company = {"Quillmoor Heating and Cooling", "555-0117"};
    job.site.address = "7 Larkmoor Terrace";
    job.site.unit = "Flat 1";
    job.asLeft = sheet;
    findings = verify::check(sheet, solution_).findings;
    steps = checklist::checklistFor(sheet, solution_);
  }
  SampleReport(const SampleReport&) = delete;

  /// A reading so many sigmas from the middle of the step's band; OL where no connection is right. The id.
  std::string read(const checklist::Step& step, double sigmas = 0) {
    job::Reading reading = sampleReading(++count_, step.key);
    reading.band = step.band;
    reading.unit = step.measure == checklist::Measure::ohms ? "ohm" : "V";
    if (step.band && step.band->open) {
      reading.openLine = true;
      reading.value.reset();
      reading.entered = "OL";
    } else if (step.band) {
      reading.value = step.band->mean + sigmas * step.band->sigma;
      reading.entered = std::to_string(*reading.value);
    }
    job.readings.push_back(reading);
    return reading.id;
  }

  /// Good readings at every step that has a band; with a call named, at its steps only.
  void readAll(const std::string& call = {}) {
    for (const auto& step : steps)
      if (step.band && (call.empty() || step.call == call)) read(step);
  }

  /// The first volts that are judged in a call.
  const checklist::Step& voltsIn(const std::string& call) const {
    return *std::find_if(steps.begin(), steps.end(), [&](const auto& step) {
      return step.call == call && step.band && step.measure == checklist::Measure::acVolts &&
             step.band->mean > 20;
    });
  }

  document::ReportInput input() const {
    std::vector<operation::CallResult> results;
    for (const auto& call : solution_.calls) results.push_back(call.result);
    return {job,      library_, solution_.table, results,
            findings, steps,    "test",          "00112233445566778899aabbccddeeff"};
  }
  document::Report report() const { return document::build(input()); }

  job::Job job;
  std::vector<verify::Finding> findings;
  std::vector<checklist::Step> steps;

 private:
  const equipment::Library& library_;
  operation::Solution solution_;
  int count_ = 100;
};

}  // namespace ww::testing
