// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/walk.h"

#include <QDateTime>
#include <algorithm>

#include "document/functions.h"

namespace ww::checks {

std::vector<checklist::Step> stepsOf(const session::OpenJob& job, bool live) {
  std::vector<checklist::Step> result;
  for (const auto& step : job.steps())
    if ((step.phase == checklist::Phase::dead) != live) result.push_back(step);
  return result;
}

std::vector<Stand> standsOf(const std::vector<checklist::Step>& steps) {
  std::vector<Stand> stands;
  for (size_t i = 0; i < steps.size(); ++i) {
    if (stands.empty() || stands.back().unit != steps[i].standAt) stands.push_back({steps[i].standAt, i, 0});
    ++stands.back().count;
  }
  return stands;
}

size_t standAt(const std::vector<Stand>& stands, size_t step) {
  for (size_t i = 0; i < stands.size(); ++i)
    if (step < stands[i].first + stands[i].count) return i;
  return 0;
}

bool settled(const job::Job& job, const checklist::Step& step) {
  return job::standing(job, step.key) != nullptr;
}

size_t nextOpen(const job::Job& job, const std::vector<checklist::Step>& steps, size_t from) {
  for (size_t i = from + 1; i < steps.size(); ++i)
    if (!settled(job, steps[i])) return i;
  for (size_t i = 0; i < steps.size(); ++i)
    if (!settled(job, steps[i])) return i;
  return from;
}

Left leftOf(const job::Job& job, const std::vector<checklist::Step>& steps, size_t from) {
  Left left;
  if (steps.empty()) return left;
  sheet::UnitId at = steps[std::min(from, steps.size() - 1)].standAt;
  for (size_t n = 0; n < steps.size(); ++n) {
    const auto& step = steps[(from + n) % steps.size()];
    if (settled(job, step)) continue;
    if (isMeasured(step)) ++left.readings;
    if (step.standAt != at) ++left.walks;
    at = step.standAt;
  }
  return left;
}

std::vector<std::string> cautionsOf(const std::vector<checklist::Step>& steps) {
  std::vector<std::string> cautions;
  for (const auto& step : steps)
    for (const auto& caution : step.cautions)
      if (std::find(cautions.begin(), cautions.end(), caution) == cautions.end()) cautions.push_back(caution);
  return cautions;
}

namespace {

QDateTime moment(const std::string& iso) {
  return QDateTime::fromString(QString::fromStdString(iso), Qt::ISODate);
}

const job::Acknowledgement* newest(const job::Job& job, const char* cautions) {
  const job::Acknowledgement* result = nullptr;
  for (const auto& fact : job.acknowledgements)
    if (fact.cautions == cautions && (!result || moment(fact.at) >= moment(result->at))) result = &fact;
  return result;
}

}  // namespace

const job::Acknowledgement* acknowledged(const job::Job& job, bool live) {
  const job::Acknowledgement* own = newest(job, live ? "live" : "dead");
  const job::Acknowledgement* other = newest(job, live ? "dead" : "live");
  if (!own) return nullptr;
  return other && moment(other->at) > moment(own->at) ? nullptr : own;
}

checklist::Verdict verdictOf(const checklist::Step& step, const job::Reading& reading) {
  return document::verdictOf(step, &reading);
}

std::vector<const job::Reading*> earlierOf(const job::Job& job, const std::string& step) {
  const job::Reading* counts = job::standing(job, step);
  std::vector<const job::Reading*> result;
  for (const auto& reading : job.readings)
    if (reading.step == step && &reading != counts && reading.struckBecause.empty())
      result.push_back(&reading);
  return result;
}

const std::string* struckBecause(const job::Job& job, const job::Reading& reading) {
  for (const auto& later : job.readings)
    if (later.supersedes == reading.id && !later.struckBecause.empty()) return &later.struckBecause;
  return nullptr;
}

}  // namespace ww::checks
