// SPDX-License-Identifier: GPL-3.0-or-later
// Room job: the document of one visit to one site - sheets, settings, readings,
// acknowledgements, signatures - and its versioned JSON. Readings and other
// facts are only ever appended. Must not know screens, stores or languages.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "checklist/checklist.h"
#include "checklist/step.h"
#include "recommend/wishes.h"
#include "sheet/sheet.h"
#include "survey/survey.h"
#include "verify/finding.h"

namespace ww::job {

struct Site {
  std::string address, unit, city, customer, phone, notes;
  friend bool operator==(const Site&, const Site&) = default;
};

struct Company {
  std::string name, phone;
  friend bool operator==(const Company&, const Company&) = default;
};

inline constexpr double kLeastAccuracy = 0.01, kMostAccuracy = 20;  ///< percent of the reading
inline constexpr double kMostCounts = 100;

/// A meter in hand. Impedance decides what a ghost reads.
struct Meter {
  std::string id, name, serial, calibrationDue;  ///< id: UUIDv7; date ISO 8601
  double accuracyPercent = 1.0;                  ///< of the reading
  double counts = 0.3;                           ///< added, in the unit read
  friend bool operator==(const Meter&, const Meter&) = default;
};

inline constexpr double kMostReading = 1e9;  ///< volts, ohms or amps: more than any meter shows

/// One value read, as entered. Never changed or removed: a retake or a strike-out is a new fact.
struct Reading {
  std::string id;                       ///< UUIDv7
  std::string step;                     ///< checklist step key
  std::string entered;                  ///< text as typed
  std::optional<double> value;          ///< SI; nothing for OL and for observations
  bool openLine = false;                ///< the meter showed OL
  std::string unit;                     ///< "V", "ohm", "A", "" for an observation
  std::string meter, by, at;            ///< meter id, person, ISO 8601 time
  std::optional<checklist::Band> band;  ///< the band of the moment
  std::string supersedes;               ///< id of the reading this one replaces
  std::string struckBecause;            ///< with supersedes and no value: strikes it out
  std::string skippedBecause;           ///< not taken, and why; without a value
  friend bool operator==(const Reading&, const Reading&) = default;
};

/// What was answered before anything was drawn. The newest counts.
struct SurveyTaken {
  std::string id;  ///< UUIDv7
  survey::Answers answers;
  std::string by, at;
  friend bool operator==(const SurveyTaken&, const SurveyTaken&) = default;
};

/// A caution sheet acknowledged.
struct Acknowledgement {
  std::string id, cautions, by, at;  ///< cautions: "dead" or "live"
  friend bool operator==(const Acknowledgement&, const Acknowledgement&) = default;
};

/// A marginal or note finding accepted, by its key.
struct Acceptance {
  std::string id, finding, severity, note, by, at;
  friend bool operator==(const Acceptance&, const Acceptance&) = default;
};

struct Signature {
  std::string id, role, name, at, form;  ///< role: installer, owner; form: "drawn", "on paper"
  friend bool operator==(const Signature&, const Signature&) = default;
};

struct OpenItem {
  std::string id, text, owner, due;
  friend bool operator==(const OpenItem&, const OpenItem&) = default;
};

enum class State { draft, closed, amended, binned };

/// One visit to one site.
struct Job {
  std::string id;      ///< UUIDv7
  std::string number;  ///< YYYY-MMDD-nn
  State state = State::draft;
  std::string stage;  ///< of a draft: site, wiring, dead, live, settings, run, report
  std::string visit;  ///< ISO date
  std::string installer;
  Company company;
  Site site;
  std::optional<sheet::Sheet> asFound, planned, asLeft;
  /// Unit profiles of the sheets that did not ship with the program, canonical JSON by id: they travel
  /// inside.
  std::map<std::string, std::string> profiles;
  double lowLine = 0.92, highLine = 1.10;  ///< line voltage over rated
  recommend::Control control;              ///< wishes, and what was chosen for the control's settings
  std::vector<Meter> meters;
  std::vector<SurveyTaken> surveys;
  std::vector<Reading> readings;
  std::vector<Acknowledgement> acknowledgements;
  std::vector<Acceptance> acceptances;
  std::vector<Signature> signatures;
  std::vector<OpenItem> openItems;
  friend bool operator==(const Job&, const Job&) = default;
};

enum class SheetState { asFound, planned, asLeft };

/// The sheet that findings and bands come from: as left, else planned, else as found; null without any.
const sheet::Sheet* currentSheet(const Job& job);
std::optional<SheetState> currentSheetState(const Job& job);

/// Whether the survey comes next: none was taken and nothing is drawn.
bool surveyDue(const Job& job);
/// Why the job is refused, by the newest survey: the words of survey::Verdict. Then there is no check, no run
/// and no band. Empty: it is not.
std::vector<std::string> refusalsOf(const Job& job);
/// The row of what is none of this program's.
inline constexpr const char* kRefusedSystem = "S";
/// The kind of system by its letter, S where it is refused; empty for a mix of its own, or where nothing is
/// drawn.
std::string systemOf(const Job& job, const equipment::Library& library);

/// The reading that counts for a step: the newest that is not superseded; null when struck out or none.
const Reading* standing(const Job& job, const std::string& step);

/// The standing readings that have a value, for bands conditioned on them.
std::vector<checklist::Observation> observationsOf(const Job& job);

/// Figures of the meter in hand, the one kept last; those of a usual meter when the job names none.
checklist::MeterFigures meterFiguresOf(const Job& job);

/// The acceptance of a finding at its present severity; null without one. What can hurt or will not work
/// cannot be accepted.
const Acceptance* acceptanceOf(const Job& job, const verify::Finding& finding);

/// The job with one reading more; readings already there are never touched. Nothing when the reading has no
/// id or one already taken, supersedes a reading that is not there or belongs to another step, strikes out
/// nothing, is skipped and has a value, or its value is not a number a meter can show.
std::optional<Job> withReading(Job job, Reading reading);

}  // namespace ww::job
