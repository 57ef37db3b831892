// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "job/identity.h"
#include "job/job_fields.h"
#include "job/job_json.h"
#include "job/meter_json.h"
#include "quantity/canonical.h"
#include "sheet/sheet_json.h"

namespace ww::job {

namespace {

using nlohmann::json;

std::string wordOf(State state) {
  for (const auto& [word, meaning] : kStateWords)
    if (meaning == state) return std::string(word);
  return {};
}

json toJson(const checklist::Band& band) {
  return {{"low", band.low},
          {"high", band.high},
          {"mean", band.mean},
          {"sigma", band.sigma},
          {"open", band.open}};
}

json toJson(const Meter& meter) { return meterJson(meter); }

json toJson(const Reading& reading) {
  json object{{"id", reading.id},     {"step", reading.step},   {"entered", reading.entered},
              {"unit", reading.unit}, {"meter", reading.meter}, {"by", reading.by},
              {"at", reading.at}};
  if (reading.value) object["value"] = *reading.value;
  if (reading.openLine) object["openLine"] = true;
  if (reading.band) object["band"] = toJson(*reading.band);
  if (!reading.supersedes.empty()) object["supersedes"] = reading.supersedes;
  if (!reading.struckBecause.empty()) object["struckBecause"] = reading.struckBecause;
  if (!reading.skippedBecause.empty()) object["skippedBecause"] = reading.skippedBecause;
  return object;
}

json toJson(const Acknowledgement& fact) {
  return {{"id", fact.id}, {"cautions", fact.cautions}, {"by", fact.by}, {"at", fact.at}};
}

json toJson(const Acceptance& fact) {
  return {{"id", fact.id},     {"finding", fact.finding}, {"severity", fact.severity},
          {"note", fact.note}, {"by", fact.by},           {"at", fact.at}};
}

json toJson(const Signature& fact) {
  return {{"id", fact.id}, {"role", fact.role}, {"name", fact.name}, {"at", fact.at}, {"form", fact.form}};
}

json toJson(const OpenItem& item) {
  return {{"id", item.id}, {"text", item.text}, {"owner", item.owner}, {"due", item.due}};
}

/// What was refused is written beside the answers, for who reads the file without this program.
json toJson(const SurveyTaken& fact) {
  return {{"id", fact.id},
          {"answers", fact.answers},
          {"refused", survey::verdictOf(fact.answers).refusals},
          {"by", fact.by},
          {"at", fact.at}};
}

template <class Row>
json listOf(const std::vector<Row>& rows) {
  json list = json::array();
  for (const Row& row : rows) list.push_back(toJson(row));
  return list;
}

json jobJson(const Job& job) {
  json sheets = json::object();
  if (job.asFound) sheets["asFound"] = sheet::writeSheet(*job.asFound);
  if (job.planned) sheets["planned"] = sheet::writeSheet(*job.planned);
  if (job.asLeft) sheets["asLeft"] = sheet::writeSheet(*job.asLeft);
  const Site& site = job.site;
  json whole{{"format", kJobFormat},
             {"version", kJobVersion},
             {"id", job.id},
             {"number", job.number},
             {"state", wordOf(job.state)},
             {"stage", job.stage},
             {"visit", job.visit},
             {"installer", job.installer},
             {"company", {{"name", job.company.name}, {"phone", job.company.phone}}},
             {"site",
              {{"address", site.address},
               {"unit", site.unit},
               {"city", site.city},
               {"customer", site.customer},
               {"phone", site.phone},
               {"notes", site.notes}}},
             {"line", {{"low", job.lowLine}, {"high", job.highLine}}},
             {"sheets", sheets},
             {"meters", listOf(job.meters)},
             {"readings", listOf(job.readings)},
             {"acknowledgements", listOf(job.acknowledgements)},
             {"acceptances", listOf(job.acceptances)},
             {"signatures", listOf(job.signatures)},
             {"openItems", listOf(job.openItems)}};
  // Left out while nothing was said, so that the bytes of jobs without it stay what they were signed as.
  if (!job.control.empty()) whole["control"] = recommend::writeControl(job.control);
  if (!job.surveys.empty()) whole["surveys"] = listOf(job.surveys);
  for (const auto& [id, text] : job.profiles) whole["profiles"][id] = json::parse(text, nullptr, false);
  return whole;
}

}  // namespace

std::string writeJob(const Job& job) { return quantity::canonicalText(jobJson(job)); }

std::string writeFrozen(const Job& job) {
  json frozen = jobJson(job);
  frozen.erase("signatures");
  return quantity::canonicalText(frozen);
}

std::string hashOf(const Job& job) { return sha256(writeFrozen(job)); }

}  // namespace ww::job
