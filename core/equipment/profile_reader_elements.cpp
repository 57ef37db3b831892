// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "equipment/part_reader.h"
#include "equipment/profile_draft.h"
#include "equipment/words.h"
#include "quantity/text.h"

namespace ww::equipment {

namespace {

using quantity::cited;
using quantity::Fields;
using quantity::JsonItem;

constexpr size_t kMostElements = 300, kMostRelays = 40;

std::string partNames(const PartLibrary& parts) {
  std::vector<std::string> names;
  for (const auto& [name, part] : parts) names.push_back(name);
  return quantity::joined(names);
}

const Part* namedPart(Draft& draft, const std::string& name, const std::string& where) {
  const auto found = draft.parts.find(name);
  if (found != draft.parts.end()) return &found->second;
  draft.complain(where, "unknown-part", {{"found", cited(name)}, {"known", partNames(draft.parts)}});
  return nullptr;
}

/// The part that a setting chooses: every choice must name a part, all of one kind.
bool readChosenPart(Fields& fields, Draft& draft, Element& element) {
  element.partSetting = fields.text("partSetting");
  const std::string where = fields.whereOf("partSetting");
  const Setting* setting = draft.profile.setting(element.partSetting);
  if (!setting || setting->choices.empty()) {
    draft.complain(where, "unknown-setting", {{"found", cited(element.partSetting)}});
    return false;
  }
  const Part* standard = namedPart(draft, setting->standard, where);
  for (const std::string& choice : setting->choices) {
    const Part* part = namedPart(draft, choice, where);
    if (part && standard && part->index() != standard->index())
      draft.complain(where, "part-kinds-differ",
                     {{"part", choice},
                      {"kind", std::string(kindWord(*part))},
                      {"want", std::string(kindWord(*standard))}});
  }
  if (!standard) return false;
  element.part = *standard;
  element.partName = setting->standard;
  return true;
}

/// Takes the part by setting, by name or in place; false after a complaint.
bool readElementPart(Fields& fields, Draft& draft, Element& element) {
  if (fields.has("partSetting")) return readChosenPart(fields, draft, element);
  const auto* value = fields.value("part", true);
  if (!value) return false;
  const std::string where = fields.whereOf("part");
  if (value->is_object()) {
    const auto part = readPart(*value, where, draft.problems, false);
    if (part) element.part = *part;
    return part.has_value();
  }
  const auto name = quantity::textOf(*value, where, draft.problems);
  const Part* part = name ? namedPart(draft, *name, where) : nullptr;
  if (!part) return false;
  element.part = *part;
  element.partName = *name;
  return true;
}

/// "K := ..." closes contact K unless the contact says otherwise.
void readClosedBy(Fields& fields, Draft& draft, Element& element) {
  if (fields.has("closedBy"))
    element.closedBy = draft.expression(fields.text("closedBy"), fields.whereOf("closedBy"));
  else if (isName(element.id))
    element.closedBy = draft.expression(element.id, fields.where());
}

void readElement(const JsonItem& item, Draft& draft) {
  Fields fields(item.value, item.where, draft.problems);
  Element element;
  element.id = fields.text("id");
  element.a = fields.text("a");
  element.b = fields.text("b");
  draft.requireName(isName(element.id), fields.whereOf("id"), element.id);
  draft.requireName(isName(element.a), fields.whereOf("a"), element.a);
  draft.requireName(isName(element.b), fields.whereOf("b"), element.b);
  if (element.a == element.b) draft.complain(item.where, "same-node-twice", {{"node", cited(element.a)}});
  const bool known = readElementPart(fields, draft, element);
  if (known && std::holds_alternative<ResistorPart>(element.part) && fields.has("celsiusSetting")) {
    element.celsiusSetting = fields.text("celsiusSetting");
    if (!draft.profile.setting(element.celsiusSetting))
      fields.complain("celsiusSetting", "unknown-setting", {{"found", cited(element.celsiusSetting)}});
  }
  if (known && isContact(element.part)) readClosedBy(fields, draft, element);
  if (known && std::holds_alternative<SupplyPart>(element.part))
    for (const JsonItem& relay : fields.listIfAny("relays", kMostRelays))
      if (const auto text = quantity::textOf(relay.value, relay.where, draft.problems))
        element.relays.push_back(draft.expression(*text, relay.where));
  if (!known) draft.broken.insert(element.id);
  if (known) fields.finish();  // which members belong there depends on the part
  draft.profile.elements.push_back(std::move(element));
  draft.requireUnique(
      draft.profile.elements, [](const Element& e) { return e.id; }, item.where);
}

}  // namespace

void readElements(Fields& fields, Draft& draft) {
  for (const JsonItem& item : fields.listIfAny("elements", kMostElements)) readElement(item, draft);
}

}  // namespace ww::equipment
