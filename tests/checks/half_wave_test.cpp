// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <QLabel>
#include <algorithm>

#include "checks/checks_place.h"
#include "sheet/sheet_csv.h"
#include "support/sample_job.h"
#include "support/shared_conductor.h"
#include "support/window.h"
#include "wording/sentences.h"

namespace ww::checks {
namespace {

/// On a conductor that two calls share nothing is judged, and what to expect stands below, whole.
TEST(CheckTexts, TellWhatToExpectOfHalfWaves) {
  for (const char* code : {"en", "es", "pseudo"}) {
    SCOPED_TRACE(code);
    testing::Desk desk(code);
    job::Job job;
    job.visit = "2025-03-12";
    job.acknowledgements.push_back({testing::sampleId(90), "live", "JT", "2025-03-12T10:00:00-05:00"});
    job.planned = *sheet::readCsv(testing::kRowShared, desk.around.library).value;
    session::OpenJob open(job, desk.around.library);
    ChecksPlace place(desk.around, true);
    testing::bringUp(place, &open);
    int told = 0;
    for (int i = 0; i < 80; ++i, QTest::keyClick(place.panel()->reading(), Qt::Key_PageDown)) {
      const auto step = std::find_if(
          open.steps().begin(), open.steps().end(),
          [&](const checklist::Step& each) { return QString::fromStdString(each.key) == place.step(); });
      if (step == open.steps().end() || !step->halfWave) continue;
      const QString expected = wording::halfWaveText(desk.around.language, *step);
      const auto labels = place.panel()->findChildren<QLabel*>();
      EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [&](const QLabel* label) {
        return label->isVisible() && label->text() == expected;
      })) << expected.toStdString();
      QTest::qWait(0);
      testing::expectLabelsWhole(place, code);
      ++told;
    }
    EXPECT_GE(told, 4) << code;
    place.setJob(nullptr);
  }
}

}  // namespace
}  // namespace ww::checks
