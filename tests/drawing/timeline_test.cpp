// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/timeline.h"

#include <gtest/gtest.h>

#include "support/font_advances.h"
#include "support/reference_sheets.h"

namespace ww::drawing {
namespace {

const TimelineWords& plain() {
  static const TimelineWords words{[](const operation::Event& event) { return event.name; },
                                   [](sheet::UnitId unit) { return "unit " + std::to_string(number(unit)); },
                                   [](const std::string& call) { return call; },
                                   [](double seconds) { return std::to_string(int(std::lround(seconds))); },
                                   "nothing",
                                   "more",
                                   "not to scale"};
  return words;
}

Timeline laid(const operation::Solution& solution, const TimelineWords& words = plain()) {
  std::vector<const operation::SolvedCall*> calls;
  for (const auto& call : solution.calls) calls.push_back(&call);
  return layoutTimeline(calls, *solution.circuit, words, testing::tableMeasure);
}

const TimelineTrack* trackOf(const TimelineOfCall& call, const std::string& what) {
  for (const auto& track : call.tracks)
    if (track.what == what) return &track;
  return nullptr;
}

double xAt(const TimelineOfCall& call, double seconds) {
  for (const auto& moment : call.moments)
    if (std::abs(moment.seconds - seconds) < 0.3) return moment.x;
  return -1;
}

TEST(Timeline, AFurnaceStartsStepByStep) {
  const auto solution = operation::solveSheet(testing::rowA(), equipment::standardLibrary());
  const Timeline timeline = laid(solution);
  ASSERT_EQ(timeline.calls.size(), solution.calls.size());
  const auto& heat = timeline.calls[size_t(solution.call("heat1") - solution.calls.data())];
  const auto* inducer = trackOf(heat, "inducer");
  const auto* igniter = trackOf(heat, "igniter");
  ASSERT_NE(inducer, nullptr);
  ASSERT_NE(igniter, nullptr);
  ASSERT_EQ(igniter->bars.size(), 1U);
  EXPECT_TRUE(inducer->bars.back().goesOn);
  EXPECT_DOUBLE_EQ(inducer->bars.back().box.right(), heat.chart.right());
  EXPECT_DOUBLE_EQ(igniter->bars[0].box.x, xAt(heat, 18));
  EXPECT_DOUBLE_EQ(igniter->bars[0].box.right(), xAt(heat, 42));
  EXPECT_FALSE(igniter->bars[0].goesOn);
  EXPECT_LT(inducer->name.box.y, igniter->name.box.y) << "in the order in which they move";
}

TEST(Timeline, NothingOverlapsAndAllIsWithin) {
  for (const auto& sheet : {testing::rowA(), testing::rowB(), testing::rowG(), testing::rowASwapped()}) {
    const Timeline timeline = laid(operation::solveSheet(sheet, equipment::standardLibrary()));
    std::vector<Box> boxes{timeline.scale.box};
    for (const auto& call : timeline.calls) {
      boxes.push_back(call.title.box);
      EXPECT_TRUE(call.more.text.empty()) << call.title.text;
      EXPECT_EQ(call.tracks.empty(), !call.nothing.text.empty()) << call.title.text;
      if (call.tracks.empty()) boxes.push_back(call.nothing.box);
      for (const auto& moment : call.moments) boxes.push_back(moment.label.box);
      for (size_t i = 1; i < call.moments.size(); ++i) {
        EXPECT_LT(call.moments[i - 1].x, call.moments[i].x);
        EXPECT_LT(call.moments[i - 1].seconds, call.moments[i].seconds);
      }
      for (const auto& track : call.tracks) {
        boxes.insert(boxes.end(), {track.name.box, track.unitName.box});
        EXPECT_FALSE(track.bars.empty()) << track.what;
        for (const auto& bar : track.bars) {
          boxes.push_back(bar.box);
          EXPECT_GE(bar.box.x, call.chart.x);
          EXPECT_LE(bar.box.right(), call.chart.right());
        }
      }
    }
    for (size_t i = 0; i < boxes.size(); ++i) {
      EXPECT_EQ(united(timeline.bounds, boxes[i]), timeline.bounds);
      for (size_t k = i + 1; k < boxes.size(); ++k)
        EXPECT_FALSE(overlap(boxes[i], boxes[k])) << i << " and " << k;
    }
  }
}

TEST(Timeline, WhatMeansNothingToAPersonIsLeftOut) {
  auto words = plain();
  words.event = [](const operation::Event&) { return std::string(); };
  const Timeline timeline = laid(operation::solveSheet(testing::rowA(), equipment::standardLibrary()), words);
  for (const auto& call : timeline.calls) {
    EXPECT_TRUE(call.tracks.empty());
    EXPECT_EQ(call.nothing.text, "nothing");
  }
}

TEST(Timeline, WhatWasOnBeforeIsOpenAtTheLeftAndManyMomentsAreCut) {
  auto solution = operation::solveSheet(testing::rowA(), equipment::standardLibrary());
  operation::SolvedCall call;
  call.result.call = "fan";
  call.events.push_back({500, 0, "K", false});
  for (int i = 0; i < 100; ++i) call.events.push_back({1000 + 1000 * i, 0, "Q", i % 2 == 0});
  const Timeline timeline = layoutTimeline({&call}, *solution.circuit, plain(), testing::tableMeasure);
  const auto& only = timeline.calls.at(0);
  EXPECT_TRUE(trackOf(only, "K")->bars.at(0).fromBefore);
  EXPECT_EQ(only.more.text, "more") << "what is left out is told";
  EXPECT_GT(only.more.box.y, only.chart.bottom());
  EXPECT_EQ(only.moments.size(), 40U);
}

}  // namespace
}  // namespace ww::drawing
