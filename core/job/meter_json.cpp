// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/meter_json.h"

#include <nlohmann/json.hpp>

#include "job/dates.h"

namespace ww::job {

nlohmann::json meterJson(const Meter& meter) {
  return {{"id", meter.id},
          {"name", meter.name},
          {"serial", meter.serial},
          {"calibrationDue", meter.calibrationDue},
          {"accuracyPercent", meter.accuracyPercent},
          {"counts", meter.counts}};
}

Meter readMeter(quantity::Fields& fields) {
  Meter meter;
  meter.name = fields.text("name");
  meter.serial = fields.textOr("serial", "");
  meter.calibrationDue = fields.textOr("calibrationDue", "");
  if (!meter.calibrationDue.empty() && !isDate(meter.calibrationDue))
    fields.complain("calibrationDue", "not-a-date", {{"found", quantity::cited(meter.calibrationDue)}});
  meter.accuracyPercent =
      fields.numberOr("accuracyPercent", meter.accuracyPercent, kLeastAccuracy, kMostAccuracy);
  meter.counts = fields.numberOr("counts", meter.counts, 0, kMostCounts);
  return meter;
}

}  // namespace ww::job
