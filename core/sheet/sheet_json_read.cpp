// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "quantity/json.h"
#include "quantity/text.h"
#include "sheet/landing_check.h"
#include "sheet/sheet_json.h"

namespace ww::sheet {

namespace {

using nlohmann::json;
using quantity::Fields;
using quantity::pointerTo;

constexpr long long kLargestId = 1'000'000'000;

/// Reads the members of one sheet; complaints carry pointers below the sheet's own.
class Reader {
 public:
  Reader(const json& value, const std::string& pointer, const equipment::Library& library)
      : fields_(value, pointer, problems_), check_(library, problems_) {}

  quantity::Loaded<Sheet> read() {
    units();
    cables();
    conductors();
    sheet_.units = Table<Unit>(units_);
    for (auto& [key, value] : fields_.textMapIfAny("settings", kMostSettings))
      sheet_.settings.set(key, value);
    check_.settings(sheet_,
                    [&](const std::string& key) { return pointerTo(fields_.whereOf("settings"), key); });
    nextId();
    fields_.finish();
    if (!problems_.empty()) return quantity::Loaded<Sheet>::failed(std::move(problems_));
    sheet_.cables = Table<Cable>(std::move(cables_));
    sheet_.conductors = Table<Conductor>(std::move(conductors_));
    return quantity::Loaded<Sheet>::ok(std::move(sheet_));
  }

 private:
  void units() {
    for (const auto& item : fields_.list("units", kMostUnits)) {
      Fields fields(item.value, item.where, problems_);
      const size_t before = problems_.size();
      Unit unit;
      unit.id = UnitId{id(fields)};
      unit.tag = fields.text("tag");
      unit.profile = fields.text("profile");
      unit.label = fields.textOr("label", "");
      unit.place = fields.textOr("place", "");
      unit.nameplate = fields.textMapIfAny("nameplate", 100);
      for (const auto& [field, text] : unit.nameplate)
        check_.name(field, pointerTo(fields.whereOf("nameplate"), field));
      if (problems_.size() == before) check_.unit(unit, fields.whereOf("tag"), fields.whereOf("profile"));
      fields.finish();
      units_.push_back(std::move(unit));
    }
    for (const Unit& unit : units_) unitOf_.emplace(unit.id, &unit);
  }

  void cables() {
    std::set<std::string> names;
    for (const auto& item : fields_.list("cables", kMostRows)) {
      if (enough(problems_)) return;
      Fields fields(item.value, item.where, problems_);
      Cable cable;
      cable.id = CableId{id(fields)};
      size_t before = problems_.size();
      cable.name = fields.text("name");
      const bool named = problems_.size() == before;
      if (named) check_.name(cable.name, fields.whereOf("name"));
      if (named && !names.insert(cable.name).second)
        fields.complain("name", "cable-doubled", {{"cable", cable.name}});
      before = problems_.size();
      const std::string gauge = fields.text("gauge");
      if (const auto parsed = quantity::parseGauge(gauge))
        cable.gauge = *parsed;
      else if (problems_.size() == before)
        fields.complain("gauge", "bad-gauge", {{"gauge", gauge}});
      if (const auto* metres = fields.value("metres", true)) length(cable, *metres, fields);
      const Unit* endA = unit(fields, "endA");
      const Unit* endB = unit(fields, "endB");
      if (endA) cable.endA = endA->id;
      if (endB) cable.endB = endB->id;
      if (endA && endB) check_.cableEnds(cable.name, *endA, *endB, fields.whereOf("endB"));
      fields.finish();
      cables_.push_back(std::move(cable));
    }
    for (const Cable& cable : cables_) cableOf_.emplace(cable.id, &cable);
  }

  void length(Cable& cable, const json& metres, Fields& fields) {
    const double any = std::numeric_limits<double>::max();
    if (const auto number = quantity::numberOf(metres, fields.whereOf("metres"), problems_, -any, any))
      check_.length(cable.length = quantity::Metres(*number), fields.whereOf("metres"));
  }

  void conductors() {
    for (const auto& item : fields_.list("conductors", kMostRows)) {
      if (enough(problems_)) return;
      Fields fields(item.value, item.where, problems_);
      Conductor wire;
      wire.id = ConductorId{id(fields)};
      const Cable* cable = this->cable(fields, wire);
      const size_t before = problems_.size();
      const std::string text = fields.text("colour");
      const auto colour = parseColour(text);
      wire.colour = colour.value_or(Colour{});
      if (!colour && problems_.size() == before)
        fields.complain("colour", "unknown-colour", {{"colour", text}, {"known", std::string(kColourCodes)}});
      wire.endA = landing(fields, "endA");
      wire.endB = landing(fields, "endB");
      wire.remark = fields.textOr("remark", "");
      const Unit* unitA = unitOf(wire.endA);
      const Unit* unitB = unitOf(wire.endB);
      if (cable) {
        onCable(*cable, unitA, cable->endA, fields, "endA");
        onCable(*cable, unitB, cable->endB, fields, "endB");
      } else if (!wire.cable && unitA && unitB) {
        check_.jumper(*unitA, *unitB, fields.whereOf("endB"));
      }
      fields.finish();
      conductors_.push_back(std::move(wire));
    }
  }

  const Cable* cable(Fields& fields, Conductor& wire) {
    if (!fields.has("cable")) return nullptr;
    const size_t before = problems_.size();
    wire.cable = CableId{static_cast<int>(fields.whole("cable", 1, kLargestId))};
    if (problems_.size() > before) return nullptr;
    const auto found = cableOf_.find(*wire.cable);
    if (found != cableOf_.end()) return found->second;
    fields.complain("cable", "cable-not-there", {{"cable", std::to_string(number(*wire.cable))}});
    return nullptr;
  }

  Landing landing(Fields& fields, const char* member) {
    const json* value = fields.value(member, true);
    if (!value) return Loose{};
    if (*value == "loose") return Loose{};
    if (*value == "capped") return Capped{};
    if (!value->is_object()) return badLanding(fields, member);
    Fields end(*value, fields.whereOf(member), problems_);
    const Unit* at = unit(end, "unit");
    Landing landing = Loose{};
    if (end.has("terminal") == end.has("splice")) {
      badLanding(fields, member);
    } else if (end.has("splice")) {
      const std::string name = end.text("splice");
      check_.name(name, end.whereOf("splice"));
      if (at) landing = Splice{at->id, name};
    } else {
      const std::string terminal = end.text("terminal");
      if (at) check_.terminal(*at, terminal, end.whereOf("terminal"));
      if (at) landing = TerminalRef{at->id, terminal};
    }
    end.finish();
    return landing;
  }

  Landing badLanding(Fields& fields, const char* member) {
    fields.complain(member, "bad-landing", {{"known", "loose, capped, {unit, terminal}, {unit, splice}"}});
    return Loose{};
  }

  void onCable(const Cable& cable, const Unit* landed, UnitId end, Fields& fields, const char* member) {
    const auto wanted = unitOf_.find(end);
    if (!landed || landed->id == end || wanted == unitOf_.end()) return;
    fields.complain(member, "landing-off-cable",
                    {{"cable", cable.name}, {"unit", landed->tag}, {"wanted", wanted->second->tag}});
  }

  /// The unit whose id stands at `member`.
  const Unit* unit(Fields& fields, const char* member) {
    const size_t before = problems_.size();
    const UnitId id{static_cast<int>(fields.whole(member, 1, kLargestId))};
    if (problems_.size() > before) return nullptr;
    const auto found = unitOf_.find(id);
    if (found != unitOf_.end()) return found->second;
    std::vector<std::string> known;
    for (const Unit& unit : units_) known.push_back(std::to_string(number(unit.id)) + " (" + unit.tag + ")");
    fields.complain(member, "unit-not-there",
                    {{"unit", std::to_string(number(id))}, {"known", quantity::joined(known)}});
    return nullptr;
  }

  const Unit* unitOf(const Landing& landing) const {
    std::optional<UnitId> id;
    if (const auto* terminal = std::get_if<TerminalRef>(&landing)) id = terminal->unit;
    if (const auto* splice = std::get_if<Splice>(&landing)) id = splice->unit;
    const auto found = id ? unitOf_.find(*id) : unitOf_.end();
    return found == unitOf_.end() ? nullptr : found->second;
  }

  int id(Fields& fields) {
    const size_t before = problems_.size();
    const int id = static_cast<int>(fields.whole("id", 1, kLargestId));
    if (problems_.size() == before && !ids_.insert(id).second)
      fields.complain("id", "id-doubled", {{"id", std::to_string(id)}});
    return id;
  }

  void nextId() {
    const int least = ids_.empty() ? 1 : *ids_.rbegin() + 1;
    sheet_.nextId = static_cast<int>(fields_.wholeOr("nextId", least, 1, kLargestId + 1));
    if (sheet_.nextId < least)
      fields_.complain("nextId", "next-id-too-low",
                       {{"next", std::to_string(sheet_.nextId)}, {"least", std::to_string(least)}});
  }

  quantity::Problems problems_;
  Fields fields_;
  LandingCheck check_;
  Sheet sheet_;
  std::vector<Unit> units_;
  std::vector<Cable> cables_;
  std::vector<Conductor> conductors_;
  std::map<UnitId, const Unit*> unitOf_;
  std::map<CableId, const Cable*> cableOf_;
  std::set<int> ids_;
};

}  // namespace

quantity::Loaded<Sheet> readSheet(const json& value, const std::string& pointer,
                                  const equipment::Library& library) {
  return Reader(value, pointer, library).read();
}

quantity::Problems headProblems(const json& file, std::string_view format, int version) {
  quantity::Problems problems;
  Fields fields(file, "", problems);
  const std::string found = fields.text("format");
  if (problems.empty() && found != format)
    fields.complain("format", "wrong-format", {{"found", found}, {"known", std::string(format)}});
  if (!problems.empty()) return problems;
  const auto stated = fields.whole("version", 1, kLargestId);
  if (stated > version)
    fields.complain("version", "newer-version",
                    {{"version", std::to_string(stated)}, {"known", std::to_string(version)}});
  return problems;
}

quantity::Loaded<Sheet> readSheetFile(std::string_view text, const equipment::Library& library) {
  auto file = quantity::parseJson(text, kMostSheetBytes);
  if (!file) return quantity::Loaded<Sheet>::failed(std::move(file.problems));
  if (auto problems = headProblems(*file.value, kSheetFormat, kSheetVersion); !problems.empty())
    return quantity::Loaded<Sheet>::failed(std::move(problems));
  file.value->erase("format");
  file.value->erase("version");
  return readSheet(*file.value, "", library);
}

}  // namespace ww::sheet
