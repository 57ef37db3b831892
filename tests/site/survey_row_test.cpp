// SPDX-License-Identifier: GPL-3.0-or-later
// What is there at all is asked before anything is drawn, and costs no key where it is what it mostly is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>

#include "job/job.h"
#include "job/survey_facts.h"
#include "site/site_place.h"
#include "site/survey_row.h"
#include "site/system_field.h"
#include "support/sample_job.h"
#include "support/window.h"

namespace ww::site {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

class SurveyRowTest : public ::testing::Test {
 protected:
  explicit SurveyRowTest(const std::string& language = "en") : desk(language), place(desk.around) {
    job::Job fresh;
    fresh.visit = "2025-03-12";
    fresh.installer = "M. Ode";
    open = std::make_unique<session::OpenJob>(fresh, desk.around.library);
    testing::bringUp(place, open.get());
  }
  ~SurveyRowTest() override { place.setJob(nullptr); }

  /// Typed into the field of the kind of system, and Enter.
  void choose(const QString& typed) {
    place.system()->line()->setFocus();
    QTest::keyClicks(place.system()->line(), typed);
    QTest::keyClick(place.system()->line(), Qt::Key_Return);
  }
  const std::vector<job::SurveyTaken>& taken() const { return open->job().surveys; }
  std::vector<std::string> refusals() const { return job::refusalsOf(open->job()); }

  testing::Desk desk;
  std::unique_ptr<session::OpenJob> open;
  SitePlace place;
};

TEST_F(SurveyRowTest, ChoosingAKindIsTheAnswerAndCostsNoKey) {
  EXPECT_TRUE(job::surveyDue(open->job()));
  EXPECT_TRUE(place.survey()->text().contains("30 V"));
  choose("a");
  ASSERT_EQ(taken().size(), 1u);
  EXPECT_EQ(taken()[0].answers, survey::customary());
  EXPECT_EQ(taken()[0].by, "M. Ode");
  EXPECT_EQ(taken()[0].at, desk.time);
  EXPECT_THAT(refusals(), IsEmpty());
  EXPECT_EQ(open->sheet().units.size(), 3u);
  // Undo takes the units away; what was found there is a fact and stays.
  open->undoStack().undo();
  EXPECT_EQ(taken().size(), 1u);
}

TEST_F(SurveyRowTest, KindsWithACircuitOfTheirOwnSaySo) {
  choose("m");
  ASSERT_EQ(taken().size(), 1u);
  EXPECT_EQ(taken()[0].answers.at("apart"), "thermopile");
  EXPECT_TRUE(place.survey()->text().contains("stays apart"));
}

/// What is typed, and why it is refused.
struct Refused {
  const char* typed;
  const char* refusal;
};
class RefusedByTyping : public SurveyRowTest, public ::testing::WithParamInterface<Refused> {};

TEST_P(RefusedByTyping, PlacesNothingAndSaysWhy) {
  choose(GetParam().typed);
  EXPECT_THAT(refusals(), ElementsAre(GetParam().refusal));
  EXPECT_TRUE(open->sheet().units.empty());
  EXPECT_TRUE(place.survey()->text().startsWith("Refused: "));
  EXPECT_EQ(desk.spoken.size(), 1);
  EXPECT_TRUE(place.system()->isHidden());
  EXPECT_EQ(place.mark().severity, paint::Severity::stop);
  ASSERT_EQ(open->check().findings.size(), 1u);
  EXPECT_EQ(open->check().findings[0].rule, "survey-refused");
  EXPECT_THAT(open->steps(), IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Each, RefusedByTyping,
                         ::testing::Values(Refused{"s", "lineVoltage"}, Refused{"line v", "lineVoltage"},
                                           Refused{"wire nuts", "lineVoltage"}, Refused{"data", "dataBus"},
                                           Refused{"inverter wi", "dataBus"}, Refused{"modul", "modulating"},
                                           Refused{"nobody", "unknown"}),
                         [](const auto& one) { return "Row" + std::to_string(one.index); });

TEST_F(SurveyRowTest, OtherAnswersTakeItUpAgain) {
  choose("data");
  ASSERT_TRUE(place.survey()->askButton()->hasFocus());
  QTest::keyClick(place.survey()->askButton(), Qt::Key_Space);
  QComboBox* signals_ = place.survey()->answer("signals");
  ASSERT_TRUE(signals_->isVisible());
  EXPECT_EQ(signals_->currentData().toString(), "data");
  signals_->setFocus();
  QTest::keyClick(signals_, Qt::Key_Up);
  place.survey()->takeButton()->setFocus();
  QTest::keyClick(place.survey()->takeButton(), Qt::Key_Space);
  EXPECT_EQ(taken().size(), 2u) << "the first stays as a fact";
  EXPECT_THAT(refusals(), IsEmpty());
  EXPECT_FALSE(place.system()->isHidden());
  choose("g");
  EXPECT_EQ(open->sheet().units.size(), 3u);
  EXPECT_EQ(taken().size(), 2u);
}

TEST_F(SurveyRowTest, AnInverterGoesThroughItsInterfaceOnly) {
  QTest::mouseClick(place.survey()->askButton(), Qt::LeftButton);
  QComboBox* inverter = place.survey()->answer("inverter");
  inverter->setCurrentIndex(inverter->findData("interface"));
  QTest::mouseClick(place.survey()->takeButton(), Qt::LeftButton);
  EXPECT_THAT(refusals(), IsEmpty());
  EXPECT_TRUE(place.survey()->text().contains("demand"));
  QTest::mouseClick(place.survey()->askButton(), Qt::LeftButton);
  inverter->setCurrentIndex(inverter->findData("without"));
  QTest::mouseClick(place.survey()->takeButton(), Qt::LeftButton);
  EXPECT_THAT(refusals(), ElementsAre("dataBus"));
}

TEST_F(SurveyRowTest, AUnitPlacedByHandAnswersToo) {
  place.addUnit("refused-data-bus");
  EXPECT_TRUE(open->sheet().units.empty());
  EXPECT_THAT(refusals(), ElementsAre("dataBus"));
}

TEST_F(SurveyRowTest, AJobThatIsDrawnIsNotAsked) {
  job::Job drawn = testing::sampleJob();
  drawn.state = job::State::draft;
  session::OpenJob second(drawn, desk.around.library);
  place.setJob(&second);
  EXPECT_FALSE(job::surveyDue(second.job()));
  EXPECT_EQ(place.survey()->text(), "");
  place.setJob(open.get());
}

}  // namespace
}  // namespace ww::site
