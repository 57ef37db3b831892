// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "job/job.h"
#include "support/reference_sheets.h"

namespace ww::testing {

/// A made-up id, another one for each number.
inline std::string sampleId(int number) {
  const std::string digits = std::to_string(1000 + number);
  return "019ce146-3668-70aa-9022-72205660" + digits;
}

inline job::Reading sampleReading(int number, const std::string& step) {
  job::Reading reading;
  reading.id = sampleId(number);
  reading.step = step;
  reading.entered = "27.3";
  reading.value = 27.3;
  reading.unit = "V";
  reading.meter = sampleId(1);
  reading.by = "J. Tamsin";
  reading.at = "2026-03-12T10:42:00-05:00";
  return reading;
}

/// A closed job with something of everything.
inline job::Job sampleJob() {
  job::Job job;
  job.id = sampleId(0);
  job.number = "2026-0312-01";
  job.state = job::State::closed;
  job.visit = "2026-03-12";
  job.installer = "J. Tamsin";
  job.company = {"Quillmoor Heating and Cooling", "555-0117"};
  job.site = {"7 Larkmoor Terrace", "Flat 1",   "Larkmoor",
              "A. Pennick",         "555-0142", "ring twice\n\"blue\" door"};
  job.control.wishes.changeover = "switchable";
  job.control.wishes.heatAt = 20.5;
  job.control.put({"minimumOff", "420", "short cycling heard", "J. Tamsin", "2026-03-12T10:30:00-05:00"});
  job.asFound = rowASwapped();
  job.asLeft = rowA();
  job.lowLine = 0.9;
  job.highLine = 1.08;
  job.meters.push_back({sampleId(1), "Bench meter 2", "QM-0207", "2026-09-30", 0.8, 0.2});
  job.readings.push_back(sampleReading(2, "rest:R-C"));
  job.readings.back().band = {26.1, 28.9, 27.4, 0.61, false};
  job.readings.push_back(sampleReading(3, "rest:R-C"));
  job.readings.back().supersedes = sampleId(2);
  job.readings.push_back(sampleReading(4, "continuity:1.R:2.R"));
  job.readings.back().value.reset();
  job.readings.back().entered = "OL";
  job.readings.back().openLine = true;
  job.readings.back().unit = "ohm";
  job.readings.push_back(sampleReading(5, "rest:R-C"));
  job.readings.back().value.reset();
  job.readings.back().supersedes = sampleId(3);
  job.readings.back().struckBecause = "wrong post";
  job.acknowledgements.push_back({sampleId(6), "dead", "J. Tamsin", "2026-03-12T09:15:00-05:00"});
  job.acceptances.push_back(
      {sampleId(7), "end-doubled:F.C", "note", "agreed", "J. Tamsin", "2026-03-12T11:00Z"});
  job.signatures.push_back({sampleId(8), "owner", "A. Pennick", "2026-03-12T11:05:00Z", "on paper"});
  job.openItems.push_back({sampleId(9), "Label the strip", "J. Tamsin", "2026-04-01"});
  return job;
}

}  // namespace ww::testing
