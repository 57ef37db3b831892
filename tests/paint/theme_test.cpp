// SPDX-License-Identifier: GPL-3.0-or-later
// Contrasts of the themes by the formula of WCAG 2.1, and the shapes that tell severities apart.
#include <gtest/gtest.h>

#include <QImage>
#include <QPainter>

#include "support/font_advances.h"
#include "support/painted_sheets.h"

namespace {

namespace paint = ww::paint;
namespace drawing = ww::drawing;
namespace sheets = ww::testing;
using paint::contrast;
using paint::Severity;
using paint::Theme;
using paint::ThemeName;
using ww::sheet::Insulation;

constexpr double kRounding = 0.05;

const Theme& light() { return paint::theme(ThemeName::light); }
const Theme& dark() { return paint::theme(ThemeName::dark); }

TEST(Themes, ContrastFormulaAgreesWithItsFixedPoints) {
  EXPECT_NEAR(contrast(Qt::black, Qt::white), 21, 1e-9);
  EXPECT_NEAR(contrast(Qt::white, Qt::white), 1, 1e-9);
  EXPECT_NEAR(contrast(QColor("#767676"), Qt::white), 4.54, 0.01);
}

TEST(Themes, InksReachTheirContrasts) {
  const auto expect = [](const Theme& theme, const QColor& colour, double onGround, double onPanel) {
    EXPECT_GE(contrast(colour, theme.ground), onGround - kRounding) << colour.name().toStdString();
    EXPECT_GE(contrast(colour, theme.panel), onPanel - kRounding) << colour.name().toStdString();
  };
  expect(light(), light().ink, 15.1, 16.7);
  expect(light(), light().ink2, 6.7, 7.4);
  expect(light(), light().ink3, 5.1, 5.6);
  expect(light(), light().controlEdge, 3.5, 3.9);
  expect(light(), light().accent, 6.6, 7.3);
  expect(dark(), dark().ink, 14.7, 13.1);
  expect(dark(), dark().ink2, 8.8, 7.9);
  expect(dark(), dark().ink3, 5.8, 5.2);
  expect(dark(), dark().controlEdge, 4.5, 4.0);
  expect(dark(), dark().accent, 9.0, 8.1);
  EXPECT_GE(contrast(light().ink, light().accentSoft), 13.7 - kRounding);
  EXPECT_GE(contrast(dark().ink, dark().accentSoft), 10.5 - kRounding);
  EXPECT_GE(contrast(light().textOnAccent, light().accent), 7.3 - kRounding);
  EXPECT_GE(contrast(dark().textOnAccent, dark().accent), 9.0 - kRounding);
}

TEST(Themes, SeveritiesReachTheirContrasts) {
  for (const Theme* theme : {&light(), &dark()})
    for (const Severity severity :
         {Severity::stop, Severity::fail, Severity::warn, Severity::note, Severity::right}) {
      const paint::SeverityColours& colours = theme->severity(severity);
      EXPECT_GE(contrast(colours.text, colours.soft), 5.7 - kRounding);
      for (const QColor& ground : {theme->ground, theme->panel, theme->sunk})
        EXPECT_GE(contrast(colours.text, ground), (theme == &dark() ? 7.2 : 5.6) - kRounding);
    }
}

TEST(Themes, TheCasingCarriesTheContrastOfConductors) {
  EXPECT_GE(contrast(light().casing, light().ground), 9.6 - kRounding);
  EXPECT_GE(contrast(dark().casing, dark().ground), 10.3 - kRounding);
  EXPECT_EQ(paint::theme(ThemeName::paper).casing, QColor(Qt::black));
  EXPECT_NEAR(paint::theme(ThemeName::paper).casingWidth / 96 * 25.4, 0.2, 1e-9);
  EXPECT_NEAR(contrast(paint::body(Insulation::rd), light().ground), 4.0, 0.06);
  EXPECT_NEAR(contrast(paint::body(Insulation::bu), dark().ground), 3.1, 0.06);
  EXPECT_FALSE(paint::body(Insulation::unknown).isValid());
}

TEST(Themes, DimmedColoursAreOpaqueAndNearerTheGround) {
  for (const Theme* theme : {&light(), &dark()})
    for (const Insulation colour : {Insulation::rd, Insulation::bu, Insulation::bk, Insulation::wh}) {
      const QColor full = paint::body(colour), dim = theme->dimmed(full);
      EXPECT_EQ(dim.alpha(), 255);
      EXPECT_LE(contrast(dim, theme->ground), contrast(full, theme->ground));
    }
}

/// Pixels that differ from the ground, as a picture of the shape without its colour.
std::vector<bool> silhouette(Severity severity) {
  QImage image(32, 32, QImage::Format_RGB32);
  image.fill(light().panel);
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  paint::paintSeverity(painter, severity, QRectF(0, 0, 32, 32), light());
  painter.end();
  std::vector<bool> set;
  for (int y = 0; y < 32; ++y)
    for (int x = 0; x < 32; ++x) set.push_back(contrast(image.pixelColor(x, y), light().panel) > 2);
  return set;
}

TEST(Themes, SeveritiesDifferInShapeAlone) {
  sheets::application();
  for (int a = 0; a < 6; ++a)
    for (int b = a + 1; b < 6; ++b) {
      const auto x = silhouette(static_cast<Severity>(a)), y = silhouette(static_cast<Severity>(b));
      int differ = 0;
      for (size_t i = 0; i < x.size(); ++i) differ += x[i] != y[i];
      EXPECT_GE(differ, 60) << a << " and " << b;
    }
}

TEST(Themes, TextIsSetInTheFontWhoseWidthsAreMeasured) {
  sheets::application();
  EXPECT_EQ(QFontInfo(paint::font(13)).family(), QStringLiteral("Noto Sans"));
  const auto measure = paint::textMeasure();
  for (const drawing::TextStyle style : {drawing::TextStyle{13, true}, drawing::TextStyle{11, false}})
    for (const char* text : {"DEHUM", "18/5", "Enfriador con calefacción"})
      EXPECT_NEAR(measure(text, style).w, sheets::tableMeasure(text, style).w, 0.02 * measure(text, style).w)
          << text;
  EXPECT_GT(measure("W", {13, true}).w, measure("W", {13, false}).w);
}

}  // namespace
