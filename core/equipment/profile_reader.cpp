// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "equipment/profile_draft.h"
#include "equipment/words.h"
#include "quantity/text.h"

namespace ww::equipment {

namespace {

using quantity::cited;
using quantity::Fields;
using quantity::JsonItem;
using quantity::Problems;

constexpr size_t kMostTerminals = 64, kMostStatements = 300, kMostSettings = 40, kMostChoices = 20,
                 kMostRows = 64;

void readTitle(Fields& fields, Draft& draft) {
  draft.profile.title = fields.textMap("title", 10);
  if (!fields.has("title")) return;
  for (const std::string_view language : kLanguages) {
    const auto found = draft.profile.title.find(std::string(language));
    if (found == draft.profile.title.end() || quantity::trimmed(found->second).empty())
      fields.complain("title", "missing-language", {{"language", std::string(language)}});
  }
  for (const auto& [language, text] : draft.profile.title)
    if (!isWordOf(kLanguages, language))
      fields.complain("title", "unknown-word", {{"found", cited(language)}, {"known", listOf(kLanguages)}});
}

void readSetting(const JsonItem& item, Draft& draft) {
  Fields fields(item.value, item.where, draft.problems);
  Setting setting;
  setting.key = fields.text("key");
  draft.requireName(isName(setting.key), fields.whereOf("key"), setting.key);
  setting.choices = fields.textsIfAny("choices", kMostChoices);
  for (const std::string& choice : setting.choices)
    draft.requireName(isChoice(choice), fields.whereOf("choices"), choice);
  setting.standard = fields.text("standard");
  if (fields.has("unit")) setting.unit = fields.text("unit");
  if (!setting.unit.empty() && setting.unit != "C")
    fields.complain("unit", "unknown-word", {{"found", cited(setting.unit)}, {"known", "C"}});
  const auto& choices = setting.choices;
  if (choices.empty() && !quantity::parseNumber(setting.standard))
    fields.complain("standard", "not-a-number", {{"found", cited(setting.standard)}});
  if (!choices.empty() && std::find(choices.begin(), choices.end(), setting.standard) == choices.end())
    fields.complain("standard", "unknown-word",
                    {{"found", cited(setting.standard)}, {"known", quantity::joined(choices)}});
  fields.finish();
  draft.profile.settings.push_back(std::move(setting));
  draft.requireUnique(
      draft.profile.settings, [](const Setting& s) { return s.key; }, item.where);
}

/// What stands at the screw, {"setting": key, "texts": {choice: text}}.
void readPrinted(Fields& fields, Draft& draft, Terminal& terminal) {
  const auto* value = fields.value("printed", false);
  if (!value) return;
  Fields printed(*value, fields.whereOf("printed"), draft.problems);
  terminal.printedSetting = printed.text("setting");
  terminal.printedFor = printed.textMap("texts", kMostChoices);
  printed.finish();
  const Setting* setting = draft.profile.setting(terminal.printedSetting);
  if (!setting) {
    if (printed.has("setting"))
      printed.complain("setting", "unknown-setting", {{"found", cited(terminal.printedSetting)}});
    return;
  }
  for (const std::string& choice : setting->choices)
    if (!terminal.printedFor.contains(choice))
      printed.complain("texts", "missing-member", {{"member", choice}});
  for (const auto& [choice, text] : terminal.printedFor)
    if (std::find(setting->choices.begin(), setting->choices.end(), choice) == setting->choices.end())
      printed.complain("texts", "unknown-word",
                       {{"found", cited(choice)}, {"known", quantity::joined(setting->choices)}});
}

void readTerminal(const JsonItem& item, Draft& draft) {
  Fields fields(item.value, item.where, draft.problems);
  Terminal terminal;
  terminal.id = fields.text("id");
  draft.requireName(isName(terminal.id), fields.whereOf("id"), terminal.id);
  terminal.role = fields.word("role", kRoleWords);
  terminal.purpose = fields.textOr("purpose", "");
  if (!terminal.purpose.empty() && !isWordOf(kPurposes, terminal.purpose))
    fields.complain("purpose", "unknown-word",
                    {{"found", cited(terminal.purpose)}, {"known", listOf(kPurposes)}});
  terminal.group = fields.textOr("group", "");
  if (!terminal.group.empty())
    draft.requireName(isName(terminal.group), fields.whereOf("group"), terminal.group);
  terminal.optional = fields.truthOr("optional", false);
  terminal.posts = static_cast<int>(fields.wholeOr("posts", 2, 1, 100));
  readPrinted(fields, draft, terminal);
  fields.finish();
  draft.profile.terminals.push_back(std::move(terminal));
  draft.requireUnique(
      draft.profile.terminals, [](const Terminal& t) { return t.id; }, item.where);
}

/// "compressor2" is known because "compressor1" is.
bool isDuty(const std::string& name) {
  if (isWordOf(kDuties, name)) return true;
  const size_t digits = name.find_first_of("123456789");
  if (digits == std::string::npos || digits == 0 || name.size() - digits > 2) return false;
  if (name.find_first_not_of("0123456789", digits) != std::string::npos) return false;
  return isWordOf(kDuties, name.substr(0, digits) + "1");
}

void readDuty(const JsonItem& item, Draft& draft) {
  Fields fields(item.value, item.where, draft.problems);
  Duty duty;
  duty.name = fields.text("name");
  if (!isDuty(duty.name) && fields.has("name"))
    fields.complain("name", "unknown-word", {{"found", cited(duty.name)}, {"known", listOf(kDuties)}});
  duty.speed = fields.textOr("speed", "");
  const bool damper = duty.name == "ventilate";
  if (!duty.speed.empty() && (damper ? !isWordOf(kDamperPositions, duty.speed)
                                     : duty.name != "blower" || !isWordOf(kBlowerSpeeds, duty.speed)))
    fields.complain(
        "speed", "unknown-word",
        {{"found", cited(duty.speed)}, {"known", damper ? listOf(kDamperPositions) : listOf(kBlowerSpeeds)}});
  if (fields.has("running"))
    duty.running = draft.expression(fields.text("running"), fields.whereOf("running"));
  else
    fields.text("running");
  fields.finish();
  draft.profile.duties.push_back(std::move(duty));
  draft.requireUnique(
      draft.profile.duties, [](const Duty& d) { return d.name + ":" + d.speed; }, item.where);
}

/// An offer is settled before anything runs, so it may look at settings only.
void requireSettingsOnly(const Draft& draft, int node, const std::string& where, Problems& problems) {
  const LogicNode& at = draft.profile.logic.nodes[static_cast<size_t>(node)];
  const bool fits = at.op == Op::setting || at.op == Op::constant || at.op == Op::negation ||
                    at.op == Op::conjunction || at.op == Op::disjunction;
  if (!fits) return problems.push_back({where, "offer-not-settings", {}});
  for (const int argument : at.args) requireSettingsOnly(draft, argument, where, problems);
}

void readCall(const JsonItem& item, Draft& draft) {
  Fields fields(item.value, item.where, draft.problems);
  Call call;
  call.name = fields.text("name");
  if (!isWordOf(kCalls, call.name) && fields.has("name"))
    fields.complain("name", "unknown-word", {{"found", cited(call.name)}, {"known", listOf(kCalls)}});
  if (fields.has("offered")) {
    call.offered = draft.expression(fields.text("offered"), fields.whereOf("offered"));
    if (call.offered >= 0)
      requireSettingsOnly(draft, call.offered, fields.whereOf("offered"), draft.problems);
  }
  fields.finish();
  draft.profile.calls.push_back(std::move(call));
  draft.requireUnique(
      draft.profile.calls, [](const Call& c) { return c.name; }, item.where);
}

void readInsertPoint(const JsonItem& item, Draft& draft) {
  Fields fields(item.value, item.where, draft.problems);
  InsertPoint point{fields.text("name"), fields.text("note")};
  draft.requireName(isName(point.name), fields.whereOf("name"), point.name);
  draft.requireName(isHyphenated(point.note), fields.whereOf("note"), point.note);
  fields.finish();
  draft.profile.insertPoints.push_back(std::move(point));
}

/// {"XR": ["R1", "R2"]}: own terminals that are one piece of metal; each stands in one group only.
void readJoined(Fields& fields, Draft& draft) {
  const auto groups = fields.membersIfAny("joined", kMostTerminals);
  if (groups.empty()) return;
  Fields members(*fields.value("joined", true), fields.whereOf("joined"), draft.problems);
  std::vector<std::string> known;
  for (const Terminal& terminal : draft.profile.terminals) known.push_back(terminal.id);
  std::set<std::string> taken;
  for (const JsonItem& group : groups) {
    std::vector<std::string> nodes = members.texts(group.name, kMostTerminals);
    nodes.insert(nodes.begin(), group.name);
    for (const std::string& node : nodes) {
      if (!draft.profile.terminal(node))
        draft.complain(group.where, "unknown-word",
                       {{"found", cited(node)}, {"known", quantity::joined(known)}});
      else if (!taken.insert(node).second)
        draft.complain(group.where, "id-doubled", {{"id", node}});
    }
    draft.profile.joined.push_back(std::move(nodes));
  }
}

/// A refused unit says why, and no other does.
void readRefusal(Fields& fields, Draft& draft) {
  const bool refused = draft.profile.kind == Kind::refused;
  if (!refused && !fields.has("refusal")) return;
  draft.profile.refusal = refused ? fields.text("refusal") : fields.textOr("refusal", "");
  if (!refused || (fields.has("refusal") && !isWordOf(kRefusals, draft.profile.refusal)))
    fields.complain("refusal", "unknown-word",
                    {{"found", cited(draft.profile.refusal)}, {"known", refused ? listOf(kRefusals) : "-"}});
}

void readWorld(Fields& fields, Draft& draft) {
  for (const JsonItem& item : fields.membersIfAny("world", kMostRows)) {
    draft.requireName(isName(item.name), item.where, item.name);
    if (const auto holds = quantity::truthOf(item.value, item.where, draft.problems))
      draft.profile.world[item.name] = *holds;
  }
}

void readLogic(Fields& fields, Draft& draft) {
  for (const JsonItem& item : fields.listIfAny("logic", kMostStatements))
    if (const auto text = quantity::textOf(item.value, item.where, draft.problems))
      draft.statement(*text, item.where);
}

void readWords(Fields& fields, Draft& draft) {
  Profile& profile = draft.profile;
  profile.nameplate = fields.textsIfAny("nameplate", kMostRows);
  for (const std::string& field : profile.nameplate) draft.requireName(isName(field), "/nameplate", field);
  profile.cautions = fields.textsIfAny("cautions", kMostRows);
  for (const std::string& caution : profile.cautions)
    draft.requireName(isHyphenated(caution), "/cautions", caution);
  const bool sourcesThere = fields.has("sources");
  profile.sources = fields.texts("sources", kMostRows);
  const bool blank = std::any_of(profile.sources.begin(), profile.sources.end(),
                                 [](const std::string& source) { return quantity::trimmed(source).empty(); });
  if (sourcesThere && (profile.sources.empty() || blank)) fields.complain("sources", "empty-text");
}

/// The order matters: settings before what depends on them, elements before the logic that speaks of them.
void readAll(Fields& fields, Draft& draft) {
  Profile& profile = draft.profile;
  readFormat(fields, "wirewright-profile", 1);
  profile.id = fields.text("id");
  draft.requireName(isHyphenated(profile.id), "/id", profile.id);
  profile.kind = fields.word("kind", kKindWords);
  profile.column = fields.word("column", kColumnWords);
  readTitle(fields, draft);
  profile.fixedOrder = fields.truthOr("fixedOrder", true);
  profile.bond = fields.word("bond", kBondWords);
  profile.needsCommon = fields.truthOr("needsCommon", false);
  profile.guards = fields.textOr("guards", "");
  for (const JsonItem& item : fields.listIfAny("settings", kMostSettings)) readSetting(item, draft);
  readWorld(fields, draft);
  readRefusal(fields, draft);
  for (const JsonItem& item : fields.list("terminals", kMostTerminals)) readTerminal(item, draft);
  readJoined(fields, draft);
  readLogic(fields, draft);
  readElements(fields, draft);
  for (const JsonItem& item : fields.listIfAny("duties", kMostRows)) readDuty(item, draft);
  for (const JsonItem& item : fields.listIfAny("calls", kMostRows)) readCall(item, draft);
  for (const JsonItem& item : fields.listIfAny("insertPoints", kMostRows)) readInsertPoint(item, draft);
  readWords(fields, draft);
  fields.finish();
}

}  // namespace

int Draft::expression(std::string_view text, const std::string& where) {
  const int node = parseExpression(text, where, profile.logic, problems);
  nodeWhere.resize(profile.logic.nodes.size(), where);
  return node;
}

void Draft::statement(std::string_view text, const std::string& where) {
  const size_t before = problems.size();
  parseStatement(text, where, profile.logic, problems);
  if (problems.size() != before)
    for (const std::string_view name : quantity::split(text.substr(0, text.find_first_of(":=")), ','))
      broken.emplace(quantity::trimmed(name));
  nodeWhere.resize(profile.logic.nodes.size(), where);
}

void Draft::requireName(bool good, const std::string& where, std::string_view found) {
  if (!good) complain(where, "bad-name", {{"found", cited(found)}});
}

quantity::Loaded<Profile> readProfile(std::string_view json, const PartLibrary& parts) {
  const auto parsed = quantity::parseJson(json);
  if (!parsed) return quantity::Loaded<Profile>::failed(parsed.problems);
  Problems problems;
  Draft draft{parts, problems, {}, {}, {}};
  Fields fields(*parsed.value, "", problems);
  if (!fields.isObject()) return quantity::Loaded<Profile>::failed(std::move(problems));
  readAll(fields, draft);
  checkWhole(draft);
  if (!problems.empty()) return quantity::Loaded<Profile>::failed(std::move(problems));
  return quantity::Loaded<Profile>::ok(std::move(draft.profile));
}

}  // namespace ww::equipment
