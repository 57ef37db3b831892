// SPDX-License-Identifier: GPL-3.0-or-later
#include "session/preferences.h"

#include <nlohmann/json.hpp>

#include "job/identity.h"
#include "job/meter_json.h"
#include "quantity/json.h"

namespace ww::session {

namespace {

using nlohmann::json;
using quantity::Fields;

job::Meter meterFrom(Fields& fields) {
  const std::string id = fields.text("id");
  if (!job::isUuid(id)) fields.complain("id", "not-a-uuid", {{"found", quantity::cited(id)}});
  job::Meter meter = job::readMeter(fields);
  meter.id = id;
  return meter;
}

}  // namespace

quantity::Loaded<Preferences> readPreferences(std::string_view text) {
  quantity::Loaded<Preferences> result;
  auto parsed = quantity::parseJson(text);
  result.problems = std::move(parsed.problems);
  if (!parsed.value) return result;
  Preferences read;
  Fields fields(*parsed.value, "", result.problems);
  read.language = fields.textOr("language", "");
  read.theme = fields.textOr("theme", "");
  read.feet = fields.truthOr("feet", read.feet);
  read.awg = fields.truthOr("awg", read.awg);
  read.fahrenheit = fields.truthOr("fahrenheit", read.fahrenheit);
  read.paper = fields.textOr("paper", read.paper);
  read.installer = fields.textOr("installer", "");
  read.meterInHand = fields.textOr("meterInHand", "");
  if (const json* value = fields.value("company", false)) {
    Fields company(*value, fields.whereOf("company"), result.problems);
    read.company = {company.textOr("name", ""), company.textOr("phone", "")};
    company.finish();
  }
  for (const auto& item : fields.listIfAny("meters", 100)) {
    Fields meter(item.value, item.where, result.problems);
    read.meters.push_back(meterFrom(meter));
    meter.finish();
  }
  if (const json* value = fields.value("layout", false); value && value->is_object())
    for (const auto& [name, state] : value->items())
      if (state.is_string()) read.layout[name] = state.get<std::string>();
  fields.finish();
  if (result.problems.empty()) result.value = std::move(read);
  return result;
}

std::string writePreferences(const Preferences& preferences) {
  json meters = json::array();
  for (const job::Meter& meter : preferences.meters) meters.push_back(job::meterJson(meter));
  const json whole{{"language", preferences.language},
                   {"theme", preferences.theme},
                   {"feet", preferences.feet},
                   {"awg", preferences.awg},
                   {"fahrenheit", preferences.fahrenheit},
                   {"paper", preferences.paper},
                   {"company", {{"name", preferences.company.name}, {"phone", preferences.company.phone}}},
                   {"installer", preferences.installer},
                   {"meters", meters},
                   {"meterInHand", preferences.meterInHand},
                   {"layout", preferences.layout}};
  return whole.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace ww::session
