// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "document/report_builder.h"

namespace ww::document {

namespace {

using nlohmann::json;

json toJson(const Value& value);

json toJson(const Phrase& phrase) {
  json args = json::object();
  for (const auto& argument : phrase.args) args[argument.name] = toJson(argument.value);
  json object{{"phrase", phrase.key}};
  if (!args.empty()) object["args"] = args;
  return object;
}

json bandJson(const checklist::Band& band) {
  return band.open ? json{{"open", true}, {"atLeast", band.low}}
                   : json{{"low", band.low}, {"high", band.high}};
}

json terminalJson(const sheet::TerminalRef& ref) {
  return {{"unit", number(ref.unit)}, {"terminal", ref.terminal}};
}

struct ValueJson {
  json operator()(const Literal& v) const { return v.text; }
  json operator()(const Number& v) const { return {{"value", v.value}, {"unit", v.unit}}; }
  json operator()(const Count& v) const { return v.value; }
  json operator()(const Named& v) const { return {{v.kind, v.id}}; }
  json operator()(const NamedList& v) const { return {{v.kind, v.ids}}; }
  json operator()(const Day& v) const { return v.iso; }
  json operator()(const Moment& v) const { return v.iso; }
  json operator()(const UnitName& v) const { return {{"unit", number(v.unit)}}; }
  json operator()(const UnitKind& v) const { return {{"unitKind", number(v.unit)}}; }
  json operator()(const TerminalName& v) const { return terminalJson(v.terminal); }
  json operator()(const TerminalPair& v) const { return {terminalJson(v.first), terminalJson(v.second)}; }
  json operator()(const ConductorName& v) const { return {{"conductor", number(v.conductor)}}; }
  json operator()(const LandingName& v) const {
    if (const auto* ref = std::get_if<sheet::TerminalRef>(&v.landing)) return terminalJson(*ref);
    if (const auto* splice = std::get_if<sheet::Splice>(&v.landing))
      return {{"unit", number(splice->unit)}, {"splice", splice->name}};
    return std::holds_alternative<sheet::Capped>(v.landing) ? "capped" : "loose";
  }
  json operator()(const GaugeText& v) const { return {{"gauge", quantity::printGauge(v.gauge)}}; }
  json operator()(const BandText& v) const { return {{"band", bandJson(v.band)}, {"unit", v.unit}}; }
  json operator()(const ReadingText& v) const { return {{"value", v.value}, {"unit", v.unit}}; }
  json operator()(const Instruction& v) const { return {{"step", v.step.key}}; }
  json operator()(const FindingTitle& v) const { return {{"finding", verify::keyOf(v.finding)}}; }
  json operator()(const FindingText& v) const { return {{"findingText", verify::keyOf(v.finding)}}; }
  json operator()(const SettingWords& v) const {
    using Part = SettingWords::Part;
    if (v.part == Part::sentence) return {{"controlSetting", v.setting.key}, {"value", v.setting.value}};
    if (v.part == Part::why) return {{"reason", v.setting.reason}};
    if (v.part == Part::source) return {{"source", v.setting.source}};
    constexpr const char* kOrigins[] = {"derived", "to-confirm", "confirmed", "overridden", "differs"};
    json origin{{"origin", kOrigins[static_cast<size_t>(v.setting.origin)]}};
    if (!v.setting.by.empty()) origin["by"] = v.setting.by;
    return origin;
  }
  json operator()(const ConflictText& v) const { return {{"conflict", v.conflict.rule}}; }
  json operator()(const Phrase& v) const { return toJson(v); }
};

json toJson(const Value& value) { return std::visit(ValueJson{}, value); }

struct CellJson {
  json operator()(const Blank&) const { return nullptr; }
  json operator()(const Value& v) const { return toJson(v); }
  json operator()(const Tag& v) const { return {{"tag", sheet::print(v.colour)}}; }
  json operator()(const SeverityMark& v) const { return {{"severity", verify::idOf(v.severity)}}; }
  json operator()(const VerdictMark& v) const {
    constexpr const char* kWords[] = {"not-measured", "good", "again", "fault", "not-judged"};
    return {{"verdict", kWords[static_cast<size_t>(v.verdict)]}};
  }
  json operator()(const FunctionMark& v) const {
    constexpr const char* kWords[] = {"works", "works-with-limits", "not-tested", "does-not-work"};
    return {{"function", kWords[static_cast<size_t>(v.state)]}};
  }
  json operator()(const OpenMark& v) const { return {{"open", toJson(v.text)}}; }
};

struct NodeJson {
  json operator()(const Heading& v) const { return {{"heading", toJson(v.text)}}; }
  json operator()(const Paragraph& v) const { return {{"paragraph", toJson(v.text)}}; }
  json operator()(const Table& v) const {
    json columns = json::array();
    for (const auto& column : v.columns) columns.push_back(toJson(column.title));
    json rows = json::array();
    for (const auto& row : v.rows) {
      json cells = json::array();
      for (const auto& cell : row.cells) cells.push_back(std::visit(CellJson{}, cell.content));
      rows.push_back(std::move(cells));
    }
    return {{"columns", columns}, {"rows", rows}};
  }
  json operator()(const VerdictBox& v) const {
    json sentences = json::array();
    for (const auto& sentence : v.sentences) sentences.push_back(toJson(sentence));
    return {{"verdict", sentences}};
  }
  json operator()(const KeyFigures& v) const {
    json figures = json::array();
    for (const auto& figure : v.figures)
      figures.push_back({{"label", toJson(figure.label)},
                         {"figure", toJson(figure.figure)},
                         {"remark", toJson(figure.remark)}});
    return {{"figures", figures}};
  }
  json operator()(const DiagramPage& v) const {
    json legend = json::array();
    for (const auto& line : v.legend) legend.push_back(toJson(line));
    return {{"diagram", legend}};
  }
  json operator()(const CycleCurves& v) const {
    json curves = json::array();
    for (const auto& curve : v.curves)
      curves.push_back({{"duty", curve.duty}, {"most", curve.most}, {"least", curve.least.si()}});
    return {{"cycles", curves}};
  }
  json operator()(const SignatureBlock& v) const {
    json lines = json::array();
    for (const auto& line : v.lines)
      lines.push_back(
          {{"role", toJson(line.role)}, {"name", line.name}, {"at", line.at}, {"form", line.form}});
    return {{"signatures", lines}};
  }
};

}  // namespace

std::string writeReport(const Report& report) {
  const RunningHead& head = report.head;
  json sections = json::array();
  for (const Section& section : report.sections) {
    json nodes = json::array();
    for (const Node& node : section.nodes) nodes.push_back(std::visit(NodeJson{}, node));
    sections.push_back(
        {{"id", section.id}, {"number", section.number}, {"title", toJson(section.title)}, {"nodes", nodes}});
  }
  const json file{{"format", "wirewright-report"},
                  {"version", 1},
                  {"head",
                   {{"company", head.company},
                    {"phone", head.phone},
                    {"address", head.address},
                    {"visit", head.visit},
                    {"job", head.jobNumber},
                    {"hash", head.hash},
                    {"program", head.version}}},
                  {"sections", sections}};
  return file.dump(2) + "\n";
}

}  // namespace ww::document
