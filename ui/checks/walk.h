// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "checklist/step.h"
#include "session/open_job.h"

namespace ww::checks {

/// The steps of one stage in walking order: those with the power off, or those with it on.
std::vector<checklist::Step> stepsOf(const session::OpenJob& job, bool live);

/// Steps that are taken one after the other without walking.
struct Stand {
  sheet::UnitId unit{};
  size_t first = 0, count = 0;
};
std::vector<Stand> standsOf(const std::vector<checklist::Step>& steps);
/// The stand that a step belongs to; 0 without steps.
size_t standAt(const std::vector<Stand>& stands, size_t step);

/// True when there is nothing left to do at the step: read, seen, done, or skipped.
bool settled(const job::Job& job, const checklist::Step& step);

/// The step to take up next: the first not settled after `from`, else the first of all; `from` when none is
/// left.
size_t nextOpen(const job::Job& job, const std::vector<checklist::Step>& steps, size_t from);

/// What is left of the walk, from the place where a person stands now.
struct Left {
  int readings = 0, walks = 0;
};
Left leftOf(const job::Job& job, const std::vector<checklist::Step>& steps, size_t from);

/// The cautions of all steps, each once, in the order in which they come up.
std::vector<std::string> cautionsOf(const std::vector<checklist::Step>& steps);

/// The acknowledgement that holds for this stage; null when its caution sheet is due: never read, or the
/// other stage was worked in since, so that the power was switched in between.
const job::Acknowledgement* acknowledged(const job::Job& job, bool live);

/// Verdict on a reading, by the band of its moment.
checklist::Verdict verdictOf(const checklist::Step& step, const job::Reading& reading);

/// The readings of a step that no longer count, oldest first: taken again or struck out. What only strikes
/// another out is not among them.
std::vector<const job::Reading*> earlierOf(const job::Job& job, const std::string& step);
/// Why a reading was struck out; null when it was not.
const std::string* struckBecause(const job::Job& job, const job::Reading& reading);

}  // namespace ww::checks
