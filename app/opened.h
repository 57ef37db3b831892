// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <variant>

#include "job/job.h"
#include "operation/solution.h"
#include "request.h"
#include "verify/check.h"
#include "wording/names.h"

namespace ww::app {

/// A file read and solved: everything the commands speak of.
struct Opened {
  job::Job job;
  std::shared_ptr<const equipment::Library> kept;  ///< with the job's own profiles
  const equipment::Library& library;
  const wording::Language& language;
  operation::Solution solution;
  verify::SheetCheck check;

  const sheet::Sheet& sheet() const { return *job::currentSheet(job); }
  wording::Context context() const { return {sheet(), library}; }
};

/// The start of a file, up to one byte more than any may have; nothing when it cannot be read.
std::optional<std::string> contentOf(const std::string& path);

/// The shipped profiles and the person's own, of the data folder. Files that are refused are told on standard
/// error when it is read, the first time.
const equipment::Library& libraryOf(const Request& request);

/// All of them on standard error.
void complainAll(const Request& request, const quantity::Problems& problems, const QString& file);

/// The unit profile that the request's file is, its problems told on standard error; nothing for a file of
/// another format. `own`: it is to stand beside the shipped ones, and may not have the id of one.
std::optional<quantity::Loaded<equipment::Profile>> profileIn(const Request& request, bool own);

/// Reads the request's file. Problems go to standard error, all of them; then the exit status. The person's
/// own profiles that its sheets use travel in the job from then on.
std::variant<job::Job, Exit> readFile(const Request& request);

/// Reads and solves the request's file. Problems go to standard error, all of them; then the exit status.
std::variant<Opened, Exit> open(const Request& request);

/// The checklist, its bands conditioned on the job's readings.
std::vector<checklist::Step> stepsOf(const Opened& opened);

/// 1 with an open finding above marginal (above note when strict), else 0.
Exit verdict(const Opened& opened, bool strict);

/// The language of the request.
const wording::Language& languageOf(const Request& request);

/// One line on standard error, and the exit status for it.
Exit complain(const QString& sentence, Exit exit);

/// Says that the sheet has no such call, and which it has.
Exit unknownCall(const Opened& opened, const Request& request);

/// The calls asked for: the one named, or all. A name that the sheet does not have is told, with those it
/// has.
std::variant<std::vector<const operation::SolvedCall*>, Exit> chosenCalls(const Opened& opened,
                                                                          const Request& request);

/// Opens the file and hands it to the command.
template <class Run>
Exit withFile(const Request& request, Run run) {
  auto opened = open(request);
  if (const Exit* failed = std::get_if<Exit>(&opened)) return *failed;
  return run(std::get<Opened>(opened));
}

/// What moves in these calls as a picture, into the request's output.
Exit drawTimeline(const Opened& opened, const Request& request,
                  const std::vector<const operation::SolvedCall*>& calls);

void print(const QString& text);  ///< on standard output, UTF-8

}  // namespace ww::app
