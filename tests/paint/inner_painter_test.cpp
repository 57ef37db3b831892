// SPDX-License-Identifier: GPL-3.0-or-later
// Symbols of the inner circuit, looked at pixel by pixel.
#include "paint/inner_painter.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QImage>
#include <QPainter>
#include <QTemporaryDir>
#include <array>
#include <cmath>

#include "paint/picture_file.h"
#include "support/painted_sheets.h"

namespace ww::paint {
namespace {

QImage symbol(drawing::Symbol which, const Theme& colours) {
  drawing::Inner inner;
  inner.elements.push_back({"X", which, {8, 8, 48, 28}, {8, 22}, {56, 22}, {}, {}});
  QImage image(64, 44, QImage::Format_RGB32);
  image.fill(colours.ground);
  QPainter painter(&image);
  paintInner(painter, inner, colours);
  return image;
}

constexpr std::array kSymbols{drawing::Symbol::transformer,  drawing::Symbol::fuse,
                              drawing::Symbol::coil,         drawing::Symbol::thermal,
                              drawing::Symbol::input,        drawing::Symbol::makeContact,
                              drawing::Symbol::breakContact, drawing::Symbol::electronicContact,
                              drawing::Symbol::supply,       drawing::Symbol::resistor,
                              drawing::Symbol::sensor,       drawing::Symbol::pile,
                              drawing::Symbol::diode,        drawing::Symbol::rectifiedCoil};

TEST(InnerSymbols, AreDifferentAndStayInTheirPlace) {
  testing::application();
  for (const ThemeName name : {ThemeName::light, ThemeName::dark, ThemeName::paper}) {
    const Theme& colours = theme(name);
    for (size_t i = 0; i < kSymbols.size(); ++i) {
      const QImage image = symbol(kSymbols[i], colours);
      for (size_t j = i + 1; j < kSymbols.size(); ++j)
        EXPECT_NE(image, symbol(kSymbols[j], colours)) << i << " and " << j;
      // Leads come in at both sides, at half height; nothing is painted beyond what is kept free around.
      for (const int x : {9, 54}) EXPECT_GT(contrast(image.pixelColor(x, 22), colours.ground), 3) << i;
      for (int x = 0; x < image.width(); ++x)
        for (const int y : {0, 2, image.height() - 1}) EXPECT_EQ(image.pixelColor(x, y), colours.ground) << i;
    }
  }
}

/// A diode points from its side a to its side b, wherever these lie.
TEST(InnerSymbols, TurnWithTheirElement) {
  testing::application();
  const Theme& colours = theme(ThemeName::light);
  const auto painted = [&](drawing::Symbol which, bool turned) {
    drawing::Inner inner;
    const drawing::Point left{8, 22}, right{56, 22};
    inner.elements.push_back(
        {"X", which, {8, 8, 48, 28}, turned ? right : left, turned ? left : right, {}, {}});
    QImage image(64, 44, QImage::Format_RGB32);
    image.fill(colours.ground);
    QPainter painter(&image);
    paintInner(painter, inner, colours);
    painter.end();
    return image;
  };
  for (const auto which : {drawing::Symbol::diode, drawing::Symbol::rectifiedCoil}) {
    EXPECT_NE(painted(which, true), painted(which, false));
    // The bar is right of the middle where the current goes right: more ink there than at the tip's other
    // side.
    const QImage right = painted(drawing::Symbol::diode, false), left = painted(drawing::Symbol::diode, true);
    EXPECT_GT(contrast(right.pixelColor(40, 16), colours.ground), 3);
    EXPECT_GT(contrast(left.pixelColor(24, 16), colours.ground), 3);
  }
  EXPECT_EQ(painted(drawing::Symbol::fuse, true), painted(drawing::Symbol::fuse, false));
}

TEST(InnerPictures, AreWrittenAsSvgAndPng) {
  testing::application();
  const QTemporaryDir folder;
  const auto inner = drawing::layoutInner(*equipment::standardLibrary().find("furnace-1"), textMeasure(),
                                          [](const equipment::Element&) { return std::string("1 VA"); });
  const QString svg = folder.filePath(QStringLiteral("a.svg")),
                png = folder.filePath(QStringLiteral("a.png"));
  EXPECT_FALSE(writePicture(svg, PictureKind::svg, inner, theme(ThemeName::light)));
  EXPECT_FALSE(writePicture(png, PictureKind::png, inner, theme(ThemeName::dark), 2));
  QFile text(svg);
  ASSERT_TRUE(text.open(QIODevice::ReadOnly));
  const QByteArray bytes = text.readAll();
  for (const char* word : {">LIM<", ">GV<", ">HUM<"}) EXPECT_TRUE(bytes.contains(word)) << word;
  EXPECT_EQ(QImage(png).width(), int(std::ceil(inner.bounds.w * 2)));
}

/// With the font that is really painted, too, nothing stands upon another.
TEST(InnerPictures, OfEveryUnitHaveRoomForTheRealFont) {
  testing::application();
  for (const auto& [id, profile] : equipment::standardLibrary().profiles) {
    const auto inner = drawing::layoutInner(*profile, textMeasure(),
                                            [](const equipment::Element&) { return std::string("10.0 kΩ"); });
    std::vector<drawing::Box> boxes;
    for (const auto& element : inner.elements)
      boxes.insert(boxes.end(), {element.box, element.name.box, element.rating.box});
    for (const auto& terminal : inner.terminals) {
      boxes.push_back(terminal.square);
      EXPECT_LE(terminal.label.box.w, terminal.square.w) << id;
    }
    for (size_t i = 0; i < boxes.size(); ++i)
      for (size_t j = i + 1; j < boxes.size(); ++j) EXPECT_FALSE(drawing::overlap(boxes[i], boxes[j])) << id;
  }
}

}  // namespace
}  // namespace ww::paint
