// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "history/store.h"
#include "quantity/loaded.h"

namespace ww::history {

/// A piece of a shown text that answers what was asked: bytes of the field's UTF-8.
struct Match {
  enum class Field { address, unit, city, customer, phone, number } field = Field::address;
  size_t begin = 0, length = 0;
  friend bool operator==(const Match&, const Match&) = default;
};

/// One job in the list.
struct Row {
  JobRef ref;
  std::string number;  ///< with a letter behind it where another job has the same
  job::Site site;      ///< as typed; without notes
  std::string day;     ///< ISO date of the visit, else of the first save
  std::string system;  ///< letter of the kind of system; empty for any other
  job::State state = job::State::draft;
  bool inWork = true;  ///< there is a draft: not closed, or being amended
  std::string stage;   ///< of a draft
  std::string installer;
  int open = 0;              ///< findings above note that nobody accepted
  bool hasSiblings = false;  ///< the same job was written twice at once
  std::vector<Match> matches;
};

struct Found {
  std::vector<Row> rows;
  std::string corrected;  ///< the word that was taken for a mistyped one; empty: nothing was corrected
};

struct Count {
  size_t matching = 0;
  bool orMore = false;  ///< counting stopped there
};

struct StoredJob {
  job::Job job;
  Version version;
  std::string savedAt;  ///< ISO 8601, UTC
  std::string hash;     ///< SHA-256 of the newest closed revision; empty without one
  bool binned = false;
};

/// One visit to a site.
struct Visit {
  JobRef ref;
  std::string day;
  job::State state = job::State::draft;
  int open = 0;
};

/// A reading that counts, of one visit.
struct VisitReading {
  JobRef ref;
  std::string day, step, unit;
  std::optional<double> value;  ///< SI; nothing for OL and observations
  bool openLine = false;
  std::optional<double> low, high;  ///< of the band of the moment
};

/// Someone else who has the job open.
struct Editor {
  std::string who;
  std::string since;  ///< ISO 8601, UTC
};

/// What can be filtered by, newest or alphabetically first.
struct Choices {
  std::vector<std::string> years, systems, installers;
};

/// The reading side, with a connection of its own; one for each thread that reads. Throws StoreFault.
class Reader {
 public:
  explicit Reader(const Store& store);
  Reader(Reader&&) noexcept;
  Reader& operator=(Reader&&) noexcept;
  ~Reader();

  /// The jobs that answer a text as typed, best first, then newest: house number, whole words, and address
  /// before customer before numbers count most. Words may be beginnings, in any order and spelling of street
  /// words; one typing error is forgiven where nothing else fits. Filters stand among the words: state:draft
  /// closed amended bin open (not closed), stage:, system:, installer:, unit: (profile), findings:open none,
  /// day:2026 or 2026-03 or 2026-03-12. Nothing typed: all, newest first. Nothing when interrupted.
  std::optional<Found> find(const std::string& text, size_t from = 0, size_t count = 200);
  /// How many answer, counted to `most`. Nothing when interrupted.
  std::optional<Count> count(const std::string& text, size_t most = 10'000);
  size_t total();  ///< jobs not in the bin
  /// Stops what another thread is reading here.
  void interrupt();

  /// The draft, else the newest closed revision with its signatures. Problems: "job-not-stored" {id}, and
  /// those of job::readJob().
  quantity::Loaded<StoredJob> load(const JobRef& ref);
  /// All visits to the site of a job, oldest first; just its own when it has no address.
  std::vector<Visit> visits(const JobRef& ref);
  /// Readings that count of all those visits, oldest first; of one step, or all.
  std::vector<VisitReading> readings(const JobRef& ref, const std::string& step = {});
  /// Others who have the job open now.
  std::vector<Editor> editors(const JobRef& ref);
  Choices choices();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace ww::history
