// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>

#include "equipment/schema.h"
#include "job/document_file.h"
#include "job/job_json.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows_air.h"
#include "support/reference_rows_pumps.h"
#include "support/reference_rows_water.h"
#include "support/reference_sheets.h"
#include "support/shared_conductor.h"
#include "support/told.h"
#include "verify/mends.h"

namespace ww::job {
namespace {

using ::testing::IsEmpty;
using ww::testing::told;

std::string demo(const std::string& name) {
  std::ifstream file(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + name + ".json", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

Job jobOf(const std::string& name) {
  auto loaded = readDocument(demo(name), equipment::standardLibrary());
  EXPECT_THAT(told(loaded.problems), IsEmpty()) << name;
  return loaded.value.value_or(Job{});
}

std::vector<verify::Finding> findingsOf(const Job& job) {
  const sheet::Sheet* sheet = currentSheet(job);
  if (!sheet) return {};
  const auto solution =
      operation::solveSheet(*sheet, equipment::standardLibrary(), {job.lowLine, job.highLine});
  return verify::check(*sheet, solution).findings;
}

const std::vector<std::string> kHealthy{"larkmoor-a-furnace-cooling",
                                        "larkmoor-a-shared-conductor",
                                        "larkmoor-b-electric-air-handler",
                                        "larkmoor-g-heat-pump",
                                        "larkmoor-e-boiler-zone-valves",
                                        "larkmoor-k-boiler-and-cooling",
                                        "larkmoor-m-millivolt-heater",
                                        "larkmoor-n-zoned-furnace",
                                        "larkmoor-o-oil-burner",
                                        "larkmoor-p-hot-water-coil",
                                        "larkmoor-q-two-pipe-coil",
                                        "larkmoor-c-cooling-only",
                                        "larkmoor-d-furnace-two-wires",
                                        "larkmoor-f-two-stage-furnace",
                                        "larkmoor-l-rooftop-unit",
                                        "larkmoor-h-heat-pump-valve-in-heating",
                                        "larkmoor-i-two-stage-heat-pump",
                                        "larkmoor-j-dual-fuel",
                                        "larkmoor-r-inverter"};
struct Fault {
  std::string rule;  ///< of the first finding
  int cost;          ///< of undoing it
};
const std::map<std::string, Fault> kFaulty{
    {"larkmoor-a-swapped-at-furnace", {"compressor-without-blower", 1}},
    {"larkmoor-a-share-receiver-reversed", {"share-swapped", 1}},
    {"larkmoor-a-share-electronic-control", {"share-unfit", 12}},
    {"larkmoor-b-elements-without-fan", {"element-without-blower", 1}},
    {"larkmoor-b-fan-and-cool-exchanged", {"compressor-without-blower", 1}},
    {"larkmoor-g-wrong-valve-sense", {"rv-sense", 1}},
    {"larkmoor-g-defrost-heat-lost", {"loose-end", 1}},
    {"larkmoor-c-heat-on-fan-screw", {"heat-impossible", 2}},
    {"larkmoor-c-common-on-cool-screw", {"common-missing", 1}},
    {"larkmoor-d-heat-on-fan-screw", {"duty-wrong", 1}},
    {"larkmoor-d-control-wants-common", {"no-common", 10}},
    {"larkmoor-f-heat-stages-exchanged", {"call-dead", 1}},
    {"larkmoor-f-one-stage-control", {"stage-orphan", 1}},
    {"larkmoor-l-smoke-contact-bridged", {"safety-bypassed", 2}},
    {"larkmoor-l-wrong-tap", {"over-30-volts", 1}},
    {"larkmoor-e-valve-supply-on-boiler", {"foreign-source", 2}},
    {"larkmoor-e-zones-exchanged", {"duty-wrong", 1}},
    {"larkmoor-k-hots-jumpered", {"sources-tied", 1}},
    {"larkmoor-k-hot-on-heat-screw", {"call-dead", 3}},
    {"larkmoor-m-24-volt-control", {"foreign-source", 12}},
    {"larkmoor-m-thin-long-run", {"call-dead", 10}},
    {"larkmoor-n-zones-exchanged", {"duty-wrong", 1}},
    {"larkmoor-n-panel-hot-on-furnace", {"sources-tied", 1}},
    {"larkmoor-o-24-volts-on-pair", {"foreign-source", 4}},
    {"larkmoor-o-pair-jumpered", {"load-at-rest", 1}},
    {"larkmoor-p-fan-and-cool-exchanged", {"compressor-without-blower", 1}},
    {"larkmoor-p-heat-and-fan-exchanged", {"compressor-without-blower", 1}},
    {"larkmoor-q-sensor-on-hot", {"foreign-source", 1}},
    {"larkmoor-q-valve-on-heat-screw", {"duty-wrong", 1}},
    {"larkmoor-h-b-is-common", {"short-in-call", 2}},
    {"larkmoor-h-wrong-valve-sense", {"rv-sense", 1}},
    {"larkmoor-i-stages-exchanged", {"duty-wrong", 1}},
    {"larkmoor-i-defrost-heat-lost", {"defrost-untempered", 2}},
    {"larkmoor-i-emergency-on-tie", {"call-dead", 2}},
    {"larkmoor-j-no-changeover", {"compressor-with-burner", 1}},
    {"larkmoor-j-kit-defrost-on-call", {"duty-wrong", 1}},
    {"larkmoor-r-no-supply-outdoors", {"duty-wrong", 2}},
    {"larkmoor-r-second-demand-alone", {"duty-wrong", 2}}};

std::vector<std::string> all() {
  auto names = kHealthy;
  for (const auto& [name, fault] : kFaulty) names.push_back(name);
  return names;
}

TEST(DemoJobs, fitTheSchema) {
  for (const std::string& name : all())
    EXPECT_THAT(told(equipment::schemaProblems(demo(name), "job.schema")), IsEmpty()) << name;
}

TEST(DemoJobs, liveAtOneInventedStreetWithInventedNumbers) {
  const std::regex phone("555-01[0-9][0-9]");
  std::set<std::string> ids, numbers;
  for (const std::string& name : all()) {
    const Job job = jobOf(name);
    EXPECT_THAT(job.site.address, ::testing::EndsWith(" Larkmoor Terrace"));
    EXPECT_TRUE(std::regex_match(job.company.phone, phone)) << name;
    EXPECT_TRUE(job.site.phone.empty() || std::regex_match(job.site.phone, phone)) << name;
    EXPECT_TRUE(ids.insert(job.id).second) << name;
    EXPECT_TRUE(numbers.insert(job.number).second) << name;
  }
}

TEST(DemoJobs, theHealthyOnesAreClosedSignedAndHaveNothingAboveANote) {
  for (const std::string& name : kHealthy) {
    const Job job = jobOf(name);
    EXPECT_EQ(job.state, State::closed) << name;
    EXPECT_TRUE(job.asLeft) << name;
    EXPECT_EQ(job.signatures.size(), 2u) << name;
    EXPECT_FALSE(job.readings.empty()) << name;
    for (const auto& finding : findingsOf(job))
      EXPECT_EQ(finding.severity, verify::Severity::note) << name << " " << verify::keyOf(finding);
  }
}

TEST(DemoJobs, theHealthyOnesAreWiredAsTheReferenceRows) {
  const auto wiredAs = [](const std::string& name, const sheet::Sheet& reference) {
    const sheet::Sheet sheet = jobOf(name).asLeft.value_or(sheet::Sheet{});
    std::multiset<std::string> wires, expected;
    const auto collect = [](const sheet::Sheet& from, std::multiset<std::string>& into) {
      for (const auto& wire : from.conductors)
        into.insert((wire.cable ? from.cables.find(*wire.cable)->name : "jumper") + " " + print(wire.colour) +
                    " " + print(from, wire.endA) + " " + print(from, wire.endB));
    };
    collect(sheet, wires);
    collect(reference, expected);
    EXPECT_EQ(wires, expected) << name;
    for (const auto& cable : reference.cables) {
      ASSERT_NE(sheet.cableByName(cable.name), nullptr);
      EXPECT_EQ(sheet.cableByName(cable.name)->length, cable.length);
      EXPECT_EQ(sheet.cableByName(cable.name)->gauge, cable.gauge);
    }
  };
  wiredAs("larkmoor-a-furnace-cooling", ww::testing::rowA());
  wiredAs("larkmoor-b-electric-air-handler", ww::testing::rowB());
  wiredAs("larkmoor-g-heat-pump", ww::testing::rowG());
  const auto row = [](const std::string& csv) {
    return *sheet::readCsv(csv, equipment::standardLibrary()).value;
  };
  wiredAs("larkmoor-a-shared-conductor", row(ww::testing::kRowShared));
  wiredAs("larkmoor-e-boiler-zone-valves", row(ww::testing::kRowE));
  wiredAs("larkmoor-k-boiler-and-cooling", row(ww::testing::kRowK));
  wiredAs("larkmoor-m-millivolt-heater", row(ww::testing::kRowM));
  wiredAs("larkmoor-n-zoned-furnace", row(ww::testing::kRowN));
  wiredAs("larkmoor-o-oil-burner", row(ww::testing::kRowO));
  wiredAs("larkmoor-p-hot-water-coil", row(ww::testing::kRowP));
  wiredAs("larkmoor-q-two-pipe-coil", row(ww::testing::kRowQ));
  wiredAs("larkmoor-c-cooling-only", row(ww::testing::kRowC));
  wiredAs("larkmoor-d-furnace-two-wires", row(ww::testing::kRowD));
  wiredAs("larkmoor-f-two-stage-furnace", row(ww::testing::kRowF));
  wiredAs("larkmoor-l-rooftop-unit", row(ww::testing::kRowL));
  wiredAs("larkmoor-h-heat-pump-valve-in-heating", row(ww::testing::kRowH));
  wiredAs("larkmoor-i-two-stage-heat-pump", row(ww::testing::kRowI));
  wiredAs("larkmoor-j-dual-fuel", row(ww::testing::kRowJ));
  wiredAs("larkmoor-r-inverter", row(ww::testing::kRowR));
}

/// What is wrong is told first, and what is proposed first mends it for no more than undoing it costs.
TEST(DemoJobs, theFaultyOnesAreFoundOutAndMended) {
  const auto& library = equipment::standardLibrary();
  for (const auto& [name, fault] : kFaulty) {
    const Job job = jobOf(name);
    const sheet::Sheet* sheet = currentSheet(job);
    ASSERT_NE(sheet, nullptr) << name;
    const auto checked = [&](const sheet::Sheet& each) {
      return verify::check(each, operation::solveSheet(each, library, {job.lowLine, job.highLine}));
    };
    const verify::SheetCheck before = checked(*sheet);
    ASSERT_FALSE(before.findings.empty()) << name;
    EXPECT_EQ(before.findings.front().rule, fault.rule) << name;
    const auto mends = verify::searchMends(*sheet, library, before, {.lines = {job.lowLine, job.highLine}});
    ASSERT_FALSE(mends.empty()) << name;
    EXPECT_LE(mends.front().cost, fault.cost) << name;
    EXPECT_TRUE(mends.front().clearsAll()) << name;
    for (const auto& finding : checked(verify::edited(*sheet, mends.front().edits)).findings)
      EXPECT_EQ(finding.severity, verify::Severity::note) << name << " " << verify::keyOf(finding);
  }
}

TEST(DemoJobs, readBackFromTheirCanonicalBytes) {
  for (const std::string& name : all()) {
    const Job job = jobOf(name);
    const auto again = readJob(writeJob(job), equipment::standardLibrary());
    ASSERT_TRUE(again) << name;
    EXPECT_EQ(*again.value, job) << name;
    EXPECT_EQ(hashOf(*again.value), hashOf(job)) << name;
  }
}

}  // namespace
}  // namespace ww::job
