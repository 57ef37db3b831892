// SPDX-License-Identifier: GPL-3.0-or-later
// The limits of a Class 2 supply and the pull-in of coils: what the sheet check says just inside and just
// outside of each. NEC Article 725 and Chapter 9 Table 11(A), more than 20 to 30 V: 30 V seen in EC&M
// magazine, "Article 725 Class 2 and 3 circuits"; nameplate at most 100 VA and overcurrent protection at most
// 100 / Vmax amps from memory. Vmax is the highest volts, open circuit, not the nominal ones: EC&M magazine
// on Chapter 9, part 7. Coils: 85 % of the rated volts must close them, drop-out between 20 and 75 %:
// IEC 60947-4-1 and NEMA ICS 2, from memory.
#include <gtest/gtest.h>

#include <algorithm>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/spice_relays.h"
#include "verify/check.h"

namespace ww::verify {
namespace {

using equipment::CoilPart;
using equipment::FusePart;
using equipment::Library;
using equipment::TransformerPart;
using testing::edited;
using testing::kRowA;

constexpr double kRated = 24;

/// Row A with a transformer and a fuse of these figures in the furnace.
SheetCheck checkWith(double voltAmps, double regulation, double fuseAmps, bool limitsItself = false) {
  Library library = equipment::standardLibrary();
  auto& transformer = std::get<TransformerPart>(library.parts.at("XF40"));
  transformer.rating = quantity::VoltAmps(voltAmps);
  transformer.regulation = regulation;
  transformer.inherentlyLimited = limitsItself;
  std::get<FusePart>(library.parts.at("fuse3")).rating = quantity::Amps(fuseAmps);
  const auto sheet = sheet::readCsv(kRowA, library);
  return check(*sheet.value, operation::solveSheet(*sheet.value, library));
}

const Finding* find(const SheetCheck& check, const std::string& rule) {
  const auto at = std::find_if(check.findings.begin(), check.findings.end(),
                               [&](const Finding& finding) { return finding.rule == rule; });
  return at == check.findings.end() ? nullptr : &*at;
}

TEST(Class2, ThirtyVoltsAreAllowedAndMoreAreNot) {
  EXPECT_EQ(find(checkWith(40, 30.0 / kRated - 1, 3), "over-30-volts"), nullptr);
  const auto above = checkWith(40, 30.01 / kRated - 1, 3);
  ASSERT_NE(find(above, "over-30-volts"), nullptr);
  EXPECT_EQ(find(above, "over-30-volts")->severity, Severity::stop);
}

TEST(Class2, ThirtyVoltsAreThoseOfTheOpenCircuitAtTheTapInUse) {
  // 24 V at full load and 27.6 V without, on the 208 V tap at 240 V: 31.8 V.
  const auto& library = equipment::standardLibrary();
  for (const auto& [line, over] : {std::pair{"208", false}, {"230", true}, {"240", true}}) {
    const auto sheet = sheet::readCsv(
        edited(kRowA, "#set,fanWithHeat,equipment", std::string("#set,F.tap,208\n#set,lineVolts,") + line),
        library);
    ASSERT_TRUE(sheet);
    const auto result = check(*sheet.value, operation::solveSheet(*sheet.value, library));
    EXPECT_EQ(find(result, "over-30-volts") != nullptr, over) << line;
  }
}

TEST(Class2, HundredVoltAmpsAreAllowedAndMoreAreNot) {
  EXPECT_EQ(find(checkWith(100, 0.15, 3), "class-2"), nullptr);
  const auto above = checkWith(101, 0.15, 3);
  ASSERT_NE(find(above, "class-2"), nullptr);
  EXPECT_EQ(find(above, "class-2")->severity, Severity::stop);
}

TEST(Class2, OvercurrentProtectionIsHundredOverTheHighestVolts) {
  const double regulation = 28 / kRated - 1;  // 28 V without load: 3.57 A
  EXPECT_EQ(find(checkWith(40, regulation, 3.57), "fuse-5A"), nullptr);
  const auto above = checkWith(40, regulation, 3.58);
  ASSERT_NE(find(above, "fuse-5A"), nullptr);
  for (const auto& argument : find(above, "fuse-5A")->arguments)
    if (argument.name == "limit") {
      EXPECT_NEAR(std::get<quantity::Amps>(argument.figure).si(), 3.571, 0.0005);
    }
  // By the nominal 24 V it would be 4.17 A.
  EXPECT_NE(find(checkWith(40, regulation, 4.1), "fuse-5A"), nullptr);
}

TEST(Class2, ASupplyThatLimitsItselfNeedsNoFuse) {
  EXPECT_EQ(find(checkWith(40, 0.15, 5, true), "fuse-5A"), nullptr);
  EXPECT_NE(find(checkWith(40, 0.15, 5), "fuse-5A"), nullptr);
}

TEST(PullIn, ContactorsAndRelaysAreGuaranteedAtEightyFivePercent) {
  int coils = 0;
  for (const auto& [name, part] : equipment::standardLibrary().parts) {
    const auto* coil = std::get_if<CoilPart>(&part);
    if (coil == nullptr || coil->pullInGuaranteed.si() < 1) continue;  // a millivolt valve is no 24 V coil
    ++coils;
    EXPECT_LE(coil->pullInGuaranteed.si(), 0.85 * kRated + 1e-9) << name;
    EXPECT_GE(coil->dropOut.si(), 0.20 * kRated) << name;
    EXPECT_LE(coil->dropOut.si(), 0.75 * kRated) << name;
  }
  EXPECT_GE(coils, 8);
  for (const char* name : {"C7", "C9", "K4", "K2", "RV7"})
    EXPECT_NEAR(std::get<CoilPart>(equipment::standardLibrary().parts.at(name)).pullInGuaranteed.si(), 20.4,
                1e-9)
        << name;
}

/// Row A with the outdoor cable of 20 AWG and that many metres.
sheet::Sheet withOutdoorCable(double metres) {
  sheet::Sheet sheet = *sheet::readCsv(kRowA, equipment::standardLibrary()).value;
  sheet::Cable cable = *sheet.cableByName("2");
  cable.gauge = {quantity::Gauge::System::awg, 20};
  cable.length = quantity::Metres(metres);
  sheet.cables.put(cable);
  return sheet;
}

struct Contactor {
  double inrush, inrushAtLowLine;
  SheetCheck check;
};

Contactor contactorAt(double metres) {
  const sheet::Sheet sheet = withOutdoorCable(metres);
  const auto solution = operation::solveSheet(sheet, equipment::standardLibrary());
  Contactor contactor{0, 0, check(sheet, solution)};
  for (const auto& coil : solution.call("cool1")->result.coils)
    if (coil.part == "CC") {
      contactor.inrush = coil.pullIn.si();
      contactor.inrushAtLowLine = coil.pullInLow.si();
    }
  return contactor;
}

/// The longest cable, to a millimetre, at which the figure still reaches its limit.
template <class Figure>
double longest(Figure figure, double limit) {
  double good = 1, bad = 400;
  EXPECT_GE(figure(good), limit);
  EXPECT_LT(figure(bad), limit);
  while (bad - good > 1e-3) (figure((good + bad) / 2) >= limit ? good : bad) = (good + bad) / 2;
  return good;
}

TEST(PullIn, IsLateBelowEightyFivePercentAtInrushAndRatedLine) {
  const double metres = longest([](double m) { return contactorAt(m).inrush; }, 0.85 * kRated);
  EXPECT_EQ(find(contactorAt(metres).check, "pull-in-late"), nullptr);
  const auto beyond = contactorAt(metres + 0.1).check;
  ASSERT_NE(find(beyond, "pull-in-late"), nullptr);
  EXPECT_EQ(find(beyond, "pull-in-late")->severity, Severity::warn);
  EXPECT_EQ(find(beyond, "pull-in-never"), nullptr);
}

TEST(PullIn, NeverComesBelowTypicalVoltsAtNinetyTwoPercentLine) {
  const double typical = std::get<CoilPart>(equipment::standardLibrary().parts.at("C7")).pullInTypical.si();
  const double metres = longest([](double m) { return contactorAt(m).inrushAtLowLine; }, typical);
  EXPECT_EQ(find(contactorAt(metres).check, "pull-in-never"), nullptr);
  const auto beyond = contactorAt(metres + 0.1).check;
  ASSERT_NE(find(beyond, "pull-in-never"), nullptr);
  EXPECT_EQ(find(beyond, "pull-in-never")->severity, Severity::fail);
  EXPECT_EQ(find(beyond, "pull-in-late"), nullptr) << "a coil is told once";
}

TEST(PullIn, VoltsAtInrushAreThoseOfNgspice) {
  for (const double metres : {12.0, 60.0, 90.0}) {
    const auto circuit = asbuilt::compile(withOutdoorCable(metres), equipment::standardLibrary());
    testing::SpiceRelays relays(circuit);
    ASSERT_EQ(relays.powerUp(), testing::SpiceRelays::End::settled);
    ASSERT_EQ(relays.run("cool1"), testing::SpiceRelays::End::settled);
    const auto* coil = circuit.device(withOutdoorCable(metres).unitByTag("O")->id, "CC");
    ASSERT_NE(coil, nullptr);
    EXPECT_NEAR(relays.volts(true)[size_t(coil - circuit.devices.data())], contactorAt(metres).inrush, 1e-5)
        << metres;
  }
}

}  // namespace
}  // namespace ww::verify
