// SPDX-License-Identifier: GPL-3.0-or-later
// Room jobs: the start page - search as you type over all jobs, a list, and what is known of the one in
// front. Asks a Shelf for everything; must not know the store, nor what a stage of a job looks like.
#pragma once

#include <QString>
#include <QStringList>
#include <optional>
#include <string>
#include <vector>

#include "checklist/step.h"
#include "paint/theme.h"

namespace ww::jobs {

/// One job in the list, worded.
struct Entry {
  std::string id;
  QString address;  ///< with the unit
  QString beneath;  ///< customer and installer, the second line
  QString visit;    ///< day
  QString system;
  QString state;  ///< the word of the badge
  paint::Severity mark = paint::Severity::note;
  bool binned = false;
  friend bool operator==(const Entry&, const Entry&) = default;
};

/// What was asked and what was found of it.
struct Answer {
  QString query;
  std::vector<Entry> entries;    ///< the first of all that match
  size_t from = 0;               ///< entries before the first one here
  size_t matching = 0;           ///< how many match in all
  bool matchingIsLeast = false;  ///< more may match than were counted
  size_t all = 0;                ///< jobs there are
  QString problem;               ///< one sentence when the store could not answer
};

/// One visit to the site of a job.
struct Visit {
  QString day, state;
  bool inFront = false;  ///< the job previewed
};

/// One step that was read in more than one visit.
struct Drift {
  QString title;
  QString unit;
  std::vector<double> values;  ///< one each visit, oldest first; NaN: not read
  QStringList worded;
  std::optional<double> low, high;  ///< the band of the newest reading
  QString bandText;
  QString verdict;  ///< of the newest: "right", "outside"
  bool outside = false;
};

struct OpenFinding {
  paint::Severity severity;
  QString title;
};

/// What is known of the job in front.
struct Preview {
  std::string id;
  QString title, beneath;
  std::vector<Visit> visits;  ///< oldest first
  std::optional<Drift> drift;
  QStringList changes;  ///< sentences: what differs from the visit before
  std::vector<OpenFinding> findings;
  QString furtherFindings;  ///< "and 3 more"; empty: these are all
  QString notMeasured;      ///< a sentence; empty when everything was read
  bool binned = false, closed = false;
  QString problem;  ///< one sentence when the job cannot be read
};

/// The choices a filter offers; each adds a word to the query.
struct Choice {
  QString word;    ///< "state:open"
  QString worded;  ///< "open"
};

}  // namespace ww::jobs
