// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/settings_text.h"

#include <gtest/gtest.h>

#include <QSet>

#include "sheet/sheet_csv.h"
#include "support/reference_rows_water.h"
#include "support/reference_sheets.h"

namespace ww::wording {
namespace {

const Language* const kBoth[] = {&Language::english(), &Language::spanish()};

/// Every reason, source, value and conflict id that the catalogue has text for has to be one that is made,
/// and every one made has to have text: sheets that between them make most.
std::vector<recommend::Sheet> sheets() {
  const auto& library = equipment::standardLibrary();
  recommend::Control extreme;
  extreme.wishes = {"automatic", "celsius", "nothing", "manager", 30.0, 30.5, 24, 31, true, 60.0, 6.0};
  for (const auto& [key, value] : {std::pair("auxiliaryAbove", "-5"),
                                   {"compressorBelow", "2"},
                                   {"minimumOff", "120"},
                                   {"cycles.compressor1", "9"},
                                   {"power", "battery"},
                                   {"filterDays", "never"}})
    extreme.put({key, value, "asked for", "M. Ode", ""});
  std::vector<recommend::Sheet> made;
  sheet::Sheet valve = testing::rowG(), fan = testing::rowB(), millivolt, fuels, cooling;
  valve.settings.set("rvSense", "heating");
  fan.settings.set("A.interlock", "off");
  sheet::Sheet early = testing::rowA(), cold = testing::rowG();
  early.settings.set("fanWithHeat", "control");
  sheet::Unit outdoor = *cold.unitByTag("O");
  outdoor.nameplate["balancePoint"] = "35 F";
  cold.units.put(outdoor);
  testing::addUnit(millivolt, "T", "rc-millivolt", "");
  testing::addUnit(millivolt, "F", "heater-millivolt", "");
  testing::addUnit(fuels, "T", "rc-heatpump-2", "");
  testing::addUnit(fuels, "F", "furnace-1", "");
  testing::addUnit(fuels, "O", "od-heatpump-1-b", "");
  sheet::Sheet kit = fuels;
  testing::addUnit(kit, "K", "dual-fuel-kit", "");
  testing::addUnit(cooling, "O", "od-cool-1-timer", "");
  const sheet::Sheet pipes = *sheet::readCsv(testing::kRowQ, library).value;
  sheet::Sheet blind = pipes;
  blind.conductors = {};
  for (const auto& sheet : {testing::rowA(), testing::rowB(), testing::rowG(), valve, fan, millivolt, fuels,
                            cooling, early, cold, kit, pipes, blind})
    for (const auto& control : {recommend::Control{}, extreme})
      made.push_back(recommend::recommend(sheet, library, control));
  return made;
}

TEST(SettingsText, EverythingIsToldInBothLanguagesWithNothingLeftOver) {
  QSet<QString> rules, keys;
  for (const auto& sheet : sheets())
    for (const Language* language : kBoth) {
      const QString unknown = language->sentence("word.unknown");
      const auto sound = [&](const QString& text, const std::string& what) {
        EXPECT_FALSE(text.isEmpty()) << what;
        EXPECT_FALSE(text.contains(u'{') || text.contains("  ") || text.contains(unknown))
            << what << ": " << text.toStdString();
      };
      for (const auto& setting : sheet.settings) {
        keys << QString::fromStdString(setting.key);
        sound(settingText(*language, setting), setting.key);
        sound(settingName(*language, setting.key), setting.key);
        sound(settingReason(*language, setting), setting.reason);
        sound(settingIfWrong(*language, setting), setting.key);
        sound(settingSource(*language, setting), setting.source);
        sound(settingOrigin(*language, setting), setting.key);
      }
      for (const auto& conflict : sheet.conflicts) {
        rules << QString::fromStdString(conflict.rule);
        sound(conflictText(*language, conflict), conflict.rule);
      }
    }
  EXPECT_GE(rules.size(), 10);
  EXPECT_GE(keys.size(), 22);
}

TEST(SettingsText, EveryWordOfEveryFormHasText) {
  for (const auto& form : recommend::forms())
    for (const auto& word : form.words)
      for (const Language* language : kBoth)
        EXPECT_TRUE(language->has(QStringLiteral("control.value.%1.%2")
                                      .arg(QString::fromUtf8(form.key.data(), qsizetype(form.key.size())),
                                           QString::fromUtf8(word.data(), qsizetype(word.size())))))
            << form.key << " " << word;
}

TEST(SettingsText, FiguresFollowThePerson) {
  const auto& english = Language::english();
  EXPECT_EQ(settingValue(english, "compressorBelow", "5").toStdString(), "41\u202F°F");
  EXPECT_EQ(settingValue(english.measuring({true, true, false}), "compressorBelow", "5").toStdString(),
            "5\u202F°C");
  EXPECT_EQ(settingValue(english, "deadBand", "1.6666666666666667").toStdString(), "3\u202F°F");
  EXPECT_EQ(settingValue(english, "cycles.burner1", "1").toStdString(), "once an hour");
  EXPECT_EQ(settingValue(english, "cycles.burner1", "5").toStdString(), "5 times an hour");
  EXPECT_EQ(settingValue(Language::spanish(), "starts", "4.5").toStdString(), "4,5 veces por hora");
  EXPECT_EQ(settingValue(english, "share", "0.6").toStdString(), "60\u202F%");
}

}  // namespace
}  // namespace ww::wording
