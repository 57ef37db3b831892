// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/places.h"

#include "checks/checks_place.h"
#include "control/control_place.h"
#include "report/report_place.h"
#include "site/site_place.h"
#include "wiring/wiring_place.h"

namespace ww::shell {

std::vector<Stage> stagesOf(const wording::Language& language) {
  std::vector<Stage> stages;
  for (const auto& [id, iconName] :
       {std::pair("site", "site"), std::pair("wiring", "diagram"), std::pair("dead", "power-off"),
        std::pair("live", "power-on"), std::pair("settings", "settings"), std::pair("report", "report")})
    stages.push_back({id, language.sentence(QStringLiteral("window.stage.") + QLatin1String(id)),
                      QString::fromLatin1(iconName)});
  return stages;
}

fittings::Place* makePlace(const Stage& stage, const session::Surroundings& around, QWidget* parent) {
  fittings::Place* made = nullptr;
  if (stage.id == "site") made = new site::SitePlace(around, parent);
  if (stage.id == "wiring") made = new wiring::WiringPlace(around, parent);
  if (stage.id == "dead") made = new checks::ChecksPlace(around, false, parent);
  if (stage.id == "live") made = new checks::ChecksPlace(around, true, parent);
  if (stage.id == "settings") made = new control::ControlPlace(around, parent);
  if (stage.id == "report") made = new report::ReportPlace(around, parent);
  made->setAccessibleName(stage.title);
  return made;
}

}  // namespace ww::shell
