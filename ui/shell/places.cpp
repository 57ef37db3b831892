// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/places.h"

#include "checks/checks_place.h"
#include "control/control_place.h"
#include "report/report_place.h"
#include "site/site_place.h"
#include "wiring/wiring_place.h"

namespace ww::shell {

std::vector<Stage> makeStages(const session::Surroundings& around, QWidget* parent) {
  std::vector<Stage> stages;
  const auto add = [&](const char* id, const char* iconName, fittings::Place* place) {
    const QString title = around.language.sentence(QStringLiteral("window.stage.") + QLatin1String(id));
    place->setAccessibleName(title);
    stages.push_back({id, title, QString::fromLatin1(iconName), place});
  };
  add("site", "site", new site::SitePlace(around, parent));
  add("wiring", "diagram", new wiring::WiringPlace(around, parent));
  add("dead", "power-off", new checks::ChecksPlace(around, false, parent));
  add("live", "power-on", new checks::ChecksPlace(around, true, parent));
  add("settings", "settings", new control::ControlPlace(around, parent));
  add("report", "report", new report::ReportPlace(around, parent));
  return stages;
}

}  // namespace ww::shell
