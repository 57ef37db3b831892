// SPDX-License-Identifier: GPL-3.0-or-later
// What is painted, looked at pixel by pixel, and the diagrams measured with the real font.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QImage>
#include <QPainter>
#include <QTemporaryDir>

#include "paint/picture_file.h"
#include "support/diagram_measure.h"
#include "support/painted_sheets.h"

namespace {

namespace paint = ww::paint;
namespace drawing = ww::drawing;
namespace sheets = ww::testing;
using ::testing::IsEmpty;

QImage render(const sheets::Painted& picture, bool solved, const paint::Theme& theme,
              const paint::DiagramState& state = {}) {
  const QRectF bounds = paint::pictureBounds(picture.diagram, solved ? &picture.overlay : nullptr);
  QImage image((bounds.size() * 2).toSize(), QImage::Format_RGB32);
  image.fill(theme.ground);
  QPainter painter(&image);
  painter.scale(2, 2);
  painter.translate(-bounds.topLeft());
  paint::paintDiagram(painter, picture.diagram, solved ? &picture.overlay : nullptr, theme, state);
  return image;
}

QColor at(const QImage& image, const sheets::Painted& picture, bool solved, double x, double y) {
  const QRectF bounds = paint::pictureBounds(picture.diagram, solved ? &picture.overlay : nullptr);
  return image.pixelColor(static_cast<int>((x - bounds.x()) * 2), static_cast<int>((y - bounds.y()) * 2));
}

sheets::NamedSheet named(const std::string& name) {
  std::vector<sheets::NamedSheet> all = sheets::namedSheets();
  return *std::find_if(all.begin(), all.end(),
                       [&](const sheets::NamedSheet& sheet) { return sheet.name == name; });
}

TEST(PaintedDiagrams, BreakNoRuleWithTheRealFont) {
  sheets::application();
  for (const sheets::NamedSheet& sheet : sheets::namedSheets())
    for (const std::string language : {"en", "es"}) {
      SCOPED_TRACE(sheet.name + " " + language);
      EXPECT_THAT(sheets::faultsOf(sheets::painted(sheet, language).diagram, paint::textMeasure()),
                  IsEmpty());
    }
}

TEST(PaintedDiagrams, RowsBelowTheUnitsDoNotOverlapAndAreNotClipped) {
  sheets::application();
  const auto measure = paint::textMeasure();
  for (const sheets::NamedSheet& sheet : sheets::namedSheets())
    for (const std::string language : {"en", "es"}) {
      SCOPED_TRACE(sheet.name + " " + language);
      const sheets::Painted picture = sheets::painted(sheet, language);
      ASSERT_FALSE(picture.overlay.rows.empty());
      std::vector<drawing::Box> boxes;
      for (const drawing::Row& row : picture.overlay.rows) {
        boxes.push_back(row.label.box);
        boxes.push_back(row.value.box);
        EXPECT_LE(measure(row.label.text, row.label.style).w, row.label.box.w + 0.01);
        EXPECT_LE(measure(row.value.text, row.value.style).w, row.value.box.w + 0.01);
      }
      for (const drawing::Plate& plate : picture.diagram.plates) {
        boxes.push_back(plate.box);
        for (const drawing::Text& text : plate.place) boxes.push_back(text.box);
      }
      for (size_t i = 0; i < boxes.size(); ++i)
        for (size_t j = i + 1; j < boxes.size(); ++j)
          EXPECT_FALSE(drawing::overlap(boxes[i], boxes[j])) << i << " " << j;
    }
}

TEST(PaintedDiagrams, ShowWhatTheCallDoes) {
  sheets::application();
  const sheets::Painted picture = sheets::painted(named("furnaceSwapped"), "en");
  const auto state = [&](const std::string& duty) {
    for (const drawing::Row& row : picture.overlay.rows)
      if (row.duty == duty) return row.state;
    return drawing::DutyState::off;
  };
  EXPECT_EQ(state("blower"), drawing::DutyState::offMustRun);
  EXPECT_EQ(state("compressor1"), drawing::DutyState::runsMustNot);
  std::map<std::string, drawing::WireLook> looks;
  for (const drawing::Wire& wire : picture.diagram.wires)
    if (wire.cable == picture.diagram.sheaths.front().cable)
      looks[ww::sheet::print(wire.colour)] = *picture.overlay.look(wire.conductor);
  EXPECT_EQ(looks["GN"].state, drawing::WireState::carriesCurrent);
  EXPECT_TRUE(looks["GN"].aToB);
  EXPECT_FALSE(looks["RD"].aToB);
  EXPECT_EQ(looks["YE"].state, drawing::WireState::atRest);
}

TEST(PaintedDiagrams, ALooseEndStandsAtVoltsWithoutCurrent) {
  sheets::application();
  const sheets::Painted picture = sheets::painted(named("heatPumpLoose"), "en");
  ASSERT_FALSE(picture.diagram.ends.empty());
  const drawing::EndMark& loose = picture.diagram.ends.back();
  EXPECT_EQ(loose.kind, drawing::EndKind::loose);
  EXPECT_EQ(picture.overlay.look(loose.conductor)->state, drawing::WireState::liveNoCurrent);
}

TEST(PaintedDiagrams, BodiesRailsAndDimmedSolidsAreWhereTheyBelong) {
  sheets::application();
  const sheets::Painted picture = sheets::painted(named("furnaceSwapped"), "en");
  const paint::Theme& theme = paint::theme(paint::ThemeName::light);
  const QImage rest = render(picture, false, theme), live = render(picture, true, theme);
  const auto screwEnd = [&](const std::string& colour) {
    for (const drawing::Wire& wire : picture.diagram.wires)
      if (ww::sheet::print(wire.colour) == colour) return wire.runs.front().points.front();
    return drawing::Point{};
  };
  const drawing::Point red = screwEnd("RD"), yellow = screwEnd("YE");
  EXPECT_EQ(at(rest, picture, false, red.x + 13, red.y), paint::body(ww::sheet::Insulation::rd));
  EXPECT_EQ(at(live, picture, true, red.x + 13, red.y), paint::body(ww::sheet::Insulation::rd));
  EXPECT_EQ(at(live, picture, true, red.x + 13, red.y + 6.25), theme.ink);
  EXPECT_EQ(at(rest, picture, false, red.x + 13, red.y + 6.25), theme.ground);
  EXPECT_EQ(at(live, picture, true, yellow.x + 13, yellow.y),
            theme.dimmed(paint::body(ww::sheet::Insulation::ye)));
}

TEST(PaintedDiagrams, SelectionComparisonAndPreviewShow) {
  sheets::application();
  const sheets::Painted picture = sheets::painted(named("furnace"), "en");
  const paint::Theme& theme = paint::theme(paint::ThemeName::dark);
  const QImage plain = render(picture, false, theme);
  const ww::sheet::ConductorId first = picture.diagram.wires.front().conductor;
  paint::DiagramState selected, hovered, otherwise, preview, small;
  selected.selected = {first};
  hovered.hovered = first;
  otherwise.foundOtherwise = {first};
  preview.preview = {first};
  small.zoom = 0.4;
  for (const paint::DiagramState& state : {selected, hovered, otherwise, preview, small})
    EXPECT_NE(render(picture, false, theme, state), plain);
}

TEST(PaintedDiagrams, AFailedWriteSaysSoAndLeavesTheOldFile) {
  sheets::application();
  const sheets::Painted picture = sheets::painted(named("furnace"), "en");
  const paint::Theme& theme = paint::theme(paint::ThemeName::light);
  QTemporaryDir folder;
  const auto missing = paint::writePicture(folder.filePath("none/picture.png"), paint::PictureKind::png,
                                           picture.diagram, nullptr, theme);
  ASSERT_TRUE(missing);
  EXPECT_EQ(missing->fault, paint::PictureFault::cannotOpen);
  const QString path = folder.filePath("picture.png");
  ASSERT_FALSE(paint::writePicture(path, paint::PictureKind::png, picture.diagram, nullptr, theme));
  QFile before(path);
  ASSERT_TRUE(before.open(QIODevice::ReadOnly));
  const QByteArray bytes = before.readAll();
  const auto large =
      paint::writePicture(path, paint::PictureKind::png, picture.diagram, nullptr, theme, 1000);
  ASSERT_TRUE(large);
  EXPECT_EQ(large->fault, paint::PictureFault::tooLarge);
  QFile after(path);
  ASSERT_TRUE(after.open(QIODevice::ReadOnly));
  EXPECT_EQ(after.readAll(), bytes);
  EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files).size(), 1);
}

}  // namespace
