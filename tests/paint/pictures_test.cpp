// SPDX-License-Identifier: GPL-3.0-or-later
// Paints the reference sheets into files. With WIREWRIGHT_PICTURES set to a folder they stay there:
//   WIREWRIGHT_PICTURES=build/pictures QT_QPA_PLATFORM=offscreen build/bin/paint_test
//   --gtest_filter='Pictures.*'
#include <gtest/gtest.h>

#include <QDir>
#include <QGuiApplication>
#include <QImage>
#include <QTemporaryDir>
#include <QXmlStreamReader>

#include "equipment/profile.h"
#include "paint/picture_file.h"
#include "support/painted_sheets.h"

namespace {

namespace drawing = ww::drawing;
namespace paint = ww::paint;
namespace sheets = ww::testing;
using sheets::painted;

QString folder() {
  static QTemporaryDir temporary;
  const QString named = qEnvironmentVariable("WIREWRIGHT_PICTURES");
  if (named.isEmpty()) return temporary.path();
  QDir().mkpath(named);
  return named;
}

class Pictures : public ::testing::TestWithParam<sheets::NamedSheet> {};

TEST_P(Pictures, AreWrittenInEveryThemeAndLanguage) {
  sheets::application();
  for (const auto& [themeName, suffix] :
       {std::pair(paint::ThemeName::light, "light"), std::pair(paint::ThemeName::dark, "dark"),
        std::pair(paint::ThemeName::paper, "paper")})
    for (const std::string language : {"en", "es"})
      for (const bool solved : {false, true}) {
        const sheets::Painted picture = painted(GetParam(), language);
        const drawing::Overlay* overlay = solved ? &picture.overlay : nullptr;
        const QString base = folder() + "/" + QString::fromStdString(GetParam().name) + "-" + suffix + "-" +
                             QString::fromStdString(language) + (solved ? "-live" : "");
        const paint::Theme& theme = paint::theme(themeName);
        EXPECT_FALSE(
            paint::writePicture(base + ".svg", paint::PictureKind::svg, picture.diagram, overlay, theme));
        for (const double scale : {1.0, 3.0}) {
          const QString path = base + (scale > 1 ? "-3x.png" : ".png");
          EXPECT_FALSE(
              paint::writePicture(path, paint::PictureKind::png, picture.diagram, overlay, theme, scale));
          const QImage image(path);
          ASSERT_FALSE(image.isNull());
          const QRectF bounds = paint::pictureBounds(picture.diagram, overlay);
          EXPECT_NEAR(image.width(), bounds.width() * scale, 1);
          int inked = 0;
          for (int y = 0; y < image.height(); y += 2)
            for (int x = 0; x < image.width(); x += 2) inked += image.pixelColor(x, y) != theme.ground;
          EXPECT_GT(inked, image.width() * image.height() / 4 / 20);
        }
      }
}

TEST_P(Pictures, AreDeterministicSvgWithoutTransparency) {
  sheets::application();
  const sheets::Painted picture = painted(GetParam(), "en");
  const QByteArray svg =
      paint::svgPicture(picture.diagram, &picture.overlay, paint::theme(paint::ThemeName::paper));
  EXPECT_EQ(svg, paint::svgPicture(picture.diagram, &picture.overlay, paint::theme(paint::ThemeName::paper)));
  QXmlStreamReader reader(svg);
  int elements = 0;
  while (!reader.atEnd()) {
    if (reader.readNext() != QXmlStreamReader::StartElement) continue;
    ++elements;
    for (const QXmlStreamAttribute& attribute : reader.attributes())
      if (attribute.name().contains(QLatin1String("opacity"))) {
        EXPECT_EQ(attribute.value().toDouble(), 1.0) << reader.lineNumber();
      }
  }
  EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
  EXPECT_GT(elements, 100);
}

INSTANTIATE_TEST_SUITE_P(Sheets, Pictures, ::testing::ValuesIn(sheets::namedSheets()),
                         [](const auto& sheet) { return sheet.param.name; });

}  // namespace
