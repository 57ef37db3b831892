// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

/// Units written for one test: a few terminals, elements and lines of logic, without the shipped profiles'
/// detail. A test must not depend on what a furnace happens to contain.
namespace ww::testing {

/// What a small unit consists of. `elements` are JSON objects separated by commas; `logic` are statements;
/// facts are switched from outside.
struct SmallUnit {
  std::string id = "small";
  std::string kind = "accessory";
  std::string bond = "floating";
  std::vector<std::string> terminals;               ///< "R:hot", "W:callOut:heat1"
  std::string elements;                             ///< {"id": "K", "a": "n1", "b": "C", "part": "K4"}, ...
  std::vector<std::string> logic;                   ///< "x := seen(W) on 3"
  std::vector<std::pair<std::string, bool>> facts;  ///< outside facts and what holds unless overridden
  std::string settings;                             ///< JSON objects separated by commas
  std::vector<std::pair<std::string, std::string>> duties;  ///< name, expression
  std::vector<std::string> calls;
};

inline std::string joinedJson(const std::vector<std::string>& pieces) {
  std::string text;
  for (const auto& piece : pieces) text += (text.empty() ? "" : ", ") + piece;
  return text;
}

inline std::string resistor(const char* id, const char* a, const char* b, double ohms) {
  return std::string(R"({"id": ")") + id + R"(", "a": ")" + a + R"(", "b": ")" + b +
         R"(", "part": {"kind": "resistor", "ohms": )" + std::to_string(ohms) + "}}";
}

/// A supply of constant power to C; out and back at those volts, more with each relay that is on.
inline std::string supply(const char* id, const char* a, double voltAmps, double outBelow, double backAt,
                          const char* relays = "", double perRelay = 1) {
  return std::string(R"({"id": ")") + id + R"(", "a": ")" + a +
         R"(", "b": "C", "part": {"kind": "supply", "powerFactor": 1, "va": )" + std::to_string(voltAmps) +
         R"(, "outBelowVolts": )" + std::to_string(outBelow) + R"(, "backAtVolts": )" +
         std::to_string(backAt) + R"(, "perRelayVa": )" + std::to_string(perRelay) + R"(}, "relays": [)" +
         relays + "]}";
}

/// A relay contact of 20 milliohm and 15 ms.
inline std::string contact(const char* id, const char* a, const char* b, const char* closedBy) {
  return std::string(R"({"id": ")") + id + R"(", "a": ")" + a + R"(", "b": ")" + b +
         R"(", "part": "relay", "closedBy": ")" + closedBy + "\"}";
}

inline std::string element(const char* id, const char* a, const char* b, const char* part) {
  return std::string(R"({"id": ")") + id + R"(", "a": ")" + a + R"(", "b": ")" + b + R"(", "part": ")" +
         part + "\"}";
}

/// A 40 VA transformer (27.6 V behind 2.16 ohm), a joint of some ohms from x0 to R, what else is given, and
/// the facts a, b, c.
inline SmallUnit behindJoint(double joint, const std::vector<std::string>& elements) {
  SmallUnit unit;
  unit.terminals = {"R:hot", "C:common", "T:tie"};
  std::vector<std::string> all{element("XF", "x0", "C", "XF40"), resistor("J", "x0", "R", joint)};
  all.insert(all.end(), elements.begin(), elements.end());
  unit.elements = joinedJson(all);
  unit.facts = {{"a", false}, {"b", false}, {"c", false}};
  return unit;
}

inline std::string profileText(const SmallUnit& unit) {
  std::vector<std::string> terminals, logic, facts, duties, calls;
  for (const auto& entry : unit.terminals) {
    const auto colon = entry.find(':'), second = entry.find(':', colon + 1);
    std::string terminal = R"({"id": ")" + entry.substr(0, colon) + R"(", "role": ")" +
                           entry.substr(colon + 1, second - colon - 1) + '"';
    if (second != std::string::npos) terminal += R"(, "purpose": ")" + entry.substr(second + 1) + '"';
    terminals.push_back(terminal + "}");
  }
  for (const auto& statement : unit.logic) logic.push_back('"' + statement + '"');
  for (const auto& [name, holds] : unit.facts)
    facts.push_back('"' + name + "\": " + (holds ? "true" : "false"));
  for (const auto& [name, running] : unit.duties)
    duties.push_back(R"({"name": ")" + name + R"(", "running": ")" + running + R"("})");
  for (const auto& call : unit.calls) calls.push_back(R"({"name": ")" + call + R"("})");
  return R"({"format": "wirewright-profile", "version": 1, "id": ")" + unit.id + R"(", "kind": ")" +
         unit.kind + R"(", "column": "indoor", "title": {"en": "Small", "es": "Breve"}, "bond": ")" +
         unit.bond + R"(", "settings": [)" + unit.settings + R"(], "world": {)" + joinedJson(facts) +
         R"(}, "terminals": [)" + joinedJson(terminals) + R"(], "elements": [)" + unit.elements +
         R"(], "logic": [)" + joinedJson(logic) + R"(], "duties": [)" + joinedJson(duties) +
         R"(], "calls": [)" + joinedJson(calls) + R"(], "sources": ["written for a test"]})";
}

/// The shipped parts and the given units. Throws with the first problem of a unit that is not sound, so that
/// no test runs on something else than it says.
inline equipment::Library libraryOf(const std::vector<SmallUnit>& units) {
  equipment::Library library;
  library.parts = equipment::standardLibrary().parts;
  for (const SmallUnit& unit : units) {
    auto profile = equipment::readProfile(profileText(unit), library.parts);
    if (!profile) throw std::invalid_argument(profile.problems[0].where + " " + profile.problems[0].key);
    library.profiles[unit.id] = std::make_shared<const equipment::Profile>(std::move(*profile.value));
  }
  return library;
}

/// A sheet with each of the units placed once, tagged U1, U2, ...; not wired.
inline sheet::Sheet sheetOf(const std::vector<SmallUnit>& units) {
  sheet::Sheet sheet;
  for (const SmallUnit& unit : units) {
    sheet::Unit row;
    row.tag = "U" + std::to_string(sheet.units.size() + 1);
    row.profile = unit.id;
    sheet.addUnit(row);
  }
  return sheet;
}

}  // namespace ww::testing
