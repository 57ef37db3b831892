// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/overlay.h"

#include <complex>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "operation/duty_numbers.h"

namespace ww::drawing {

namespace {

constexpr double kCarries = 1e-3;  ///< A; less is no current
constexpr double kLive = 6;        ///< V; less a board takes for nothing
constexpr double kRowHeight = 22, kBoxHeight = 18;
constexpr TextStyle kLabel{11, false}, kValue{11, false}, kPill{11, true};

using Solved = std::map<sheet::ConductorId, const operation::WireResult*>;

/// What the other conductors bring to a splice, and whether it comes in; nothing where one of them is no wire
/// of the circuit either.
std::optional<std::pair<std::complex<double>, bool>> broughtTo(const sheet::Splice& splice,
                                                               sheet::ConductorId apart,
                                                               const sheet::Sheet& sheet,
                                                               const Solved& solved) {
  std::complex<double> sum;
  double most = 0;
  bool inwards = true;
  for (const sheet::Conductor& wire : sheet.conductors)
    for (const bool atA : {true, false}) {
      if (wire.id == apart || (atA ? wire.endA : wire.endB) != sheet::Landing(splice)) continue;
      const auto at = solved.find(wire.id);
      if (at == solved.end()) return std::nullopt;
      sum += atA ? -at->second->amps : at->second->amps;
      if (std::abs(at->second->amps) <= most) continue;
      most = std::abs(at->second->amps);
      inwards = at->second->fromHot != atA;
    }
  return std::pair(sum, inwards);
}

/// A jumper is metal and no wire of the circuit: it is live with its screw, and carries what meets at its
/// splice.
WireLook lookOfJumper(const sheet::Conductor& wire, const sheet::Sheet& sheet, const Solved& solved,
                      const operation::CallResult& result) {
  WireLook look{wire.id, WireState::atRest, true};
  for (const bool atA : {true, false}) {
    const sheet::Landing& end = atA ? wire.endA : wire.endB;
    if (const auto* splice = std::get_if<sheet::Splice>(&end)) {
      const auto brought = broughtTo(*splice, wire.id, sheet, solved);
      if (!brought || std::abs(brought->first) < kCarries) continue;
      look.state = WireState::carriesCurrent;
      look.aToB = brought->second == atA;
      return look;
    }
    for (const operation::TerminalResult& terminal : result.terminals)
      if (end == sheet::Landing(terminal.terminal) && std::abs(terminal.volts) >= kLive)
        look.state = WireState::liveNoCurrent;
  }
  return look;
}

std::vector<WireLook> looks(const Diagram& diagram, const sheet::Sheet& sheet,
                            const operation::CallResult& result) {
  Solved solved;
  for (const operation::WireResult& wire : result.wires) solved[wire.conductor] = &wire;
  std::vector<WireLook> all;
  for (const Wire& wire : diagram.wires) {
    WireLook look{wire.conductor, WireState::atRest, true};
    if (const auto at = solved.find(wire.conductor); at != solved.end()) {
      if (std::abs(at->second->amps) >= kCarries)
        look.state = WireState::carriesCurrent;
      else if (at->second->live)
        look.state = WireState::liveNoCurrent;
      look.aToB = at->second->fromHot;
    } else if (const sheet::Conductor* row = wire.jumper ? sheet.conductors.find(wire.conductor) : nullptr) {
      look = lookOfJumper(*row, sheet, solved, result);
    }
    all.push_back(look);
  }
  return all;
}

const TerminalMark* markOf(const Plate& plate, const std::string& id) {
  for (const TerminalMark& mark : plate.terminals)
    if (mark.id == id && !mark.splice) return &mark;
  return nullptr;
}

bool isHot(const equipment::Terminal& terminal) {
  return terminal.role == equipment::Role::hot || terminal.role == equipment::Role::hotCool ||
         terminal.role == equipment::Role::hotHeat;
}

/// Hot to common; of a unit without a hot terminal its first call input to common.
std::optional<Row> voltsRow(const Plate& plate, const equipment::Profile& profile,
                            const operation::CallResult& result) {
  const equipment::Terminal *from = nullptr, *to = nullptr;
  for (const equipment::Terminal& terminal : profile.terminals) {
    if (!from && isHot(terminal)) from = &terminal;
    if (!to && terminal.role == equipment::Role::common) to = &terminal;
  }
  for (const equipment::Terminal& terminal : profile.terminals)
    if (!from && terminal.role == equipment::Role::callIn) from = &terminal;
  if (!from || !to) return std::nullopt;
  Row row;
  row.unit = plate.unit;
  row.from = markOf(plate, from->id) ? markOf(plate, from->id)->label.text : from->id;
  row.to = markOf(plate, to->id) ? markOf(plate, to->id)->label.text : to->id;
  const operation::TerminalResult *a = nullptr, *b = nullptr;
  for (const operation::TerminalResult& terminal : result.terminals) {
    if (terminal.terminal == sheet::TerminalRef{plate.unit, from->id}) a = &terminal;
    if (terminal.terminal == sheet::TerminalRef{plate.unit, to->id}) b = &terminal;
  }
  if (a && b && a->reference == b->reference && a->quality == circuit::Quality::solid &&
      b->quality == circuit::Quality::solid)
    row.volts = quantity::Volts(std::abs(a->volts - b->volts));
  return row;
}

std::pair<std::string, std::string> split(const std::string& duty) {
  const size_t colon = duty.find(':');
  return colon == std::string::npos ? std::pair(duty, std::string())
                                    : std::pair(duty.substr(0, colon), duty.substr(colon + 1));
}

/// Speeds of a duty in a list; an entry without a speed counts for every speed.
std::set<std::string> speeds(const std::vector<std::string>& duties, const std::string& name) {
  std::set<std::string> found;
  for (const std::string& duty : duties)
    if (const auto [base, speed] = split(duty); base == name) found.insert(speed);
  return found;
}

bool allows(const std::set<std::string>& demanded, const std::string& speed) {
  return demanded.count("") || demanded.count(speed);
}

Row dutyRow(sheet::UnitId unit, const std::string& name, const operation::CallResult& result,
            const operation::CallDemand* demand) {
  Row row;
  row.kind = Row::Kind::duty;
  row.unit = unit;
  row.duty = name;
  bool runs = false, elsewhere = false;
  for (const operation::RunningDuty& duty : result.duties)
    if (const auto [base, speed] = split(duty.duty); base == name) {
      (duty.unit == unit ? runs : elsewhere) = true;
      if (duty.unit == unit) row.speed = speed;
    }
  row.state = runs ? DutyState::runs : DutyState::off;
  if (!demand) return row;
  const auto must = speeds(demand->must, name), may = speeds(demand->may, name);
  if (runs && must.empty() && may.empty())
    row.state = DutyState::runsMustNot;
  else if (runs && !row.speed.empty() && !allows(must, row.speed) && !allows(may, row.speed))
    row.state = DutyState::runsOtherSpeed;
  else if (!runs && !elsewhere && !must.empty())
    row.state = DutyState::offMustRun;
  if (row.state == DutyState::offMustRun) row.speed = *must.begin();
  return row;
}

std::vector<Row> rowsOf(const Plate& plate, const sheet::Sheet& sheet, const equipment::Library& library,
                        const equipment::Profile& profile, const operation::CallResult& result,
                        const operation::CallDemand* demand) {
  std::vector<Row> rows;
  if (auto volts = voltsRow(plate, profile, result)) rows.push_back(*volts);
  std::vector<std::string> names;
  for (const equipment::Duty& duty : profile.duties)
    if (std::find(names.begin(), names.end(), duty.name) == names.end()) names.push_back(duty.name);
  for (const std::string& name : names)
    rows.push_back(
        dutyRow(plate.unit, operation::numberedDuty(sheet, library, plate.unit, name), result, demand));
  return rows;
}

bool shaped(const Row& row) {
  return row.state == DutyState::offMustRun || row.state == DutyState::runsMustNot ||
         row.state == DutyState::runsOtherSpeed;
}

/// Sets the rows of one column under each other: labels flush, values in a second column.
Box placeRows(std::vector<Row>& rows, double x, double top, Align align, const TextMeasure& measure) {
  double labels = 0, values = 0;
  for (Row& row : rows) {
    const bool filled = row.state == DutyState::runs || shaped(row);
    row.label.style = kLabel;
    row.value.style = row.kind == Row::Kind::duty && filled ? kPill : kValue;
    labels = std::max(labels, std::ceil(measure(row.label.text, kLabel).w));
    // A pill has 8 px at each side; a severity shape takes 20 more; a plain "off" stands flush without a box.
    const double dress = row.kind == Row::Kind::volts || row.state == DutyState::runs ? 20
                         : shaped(row)                                                ? 36
                                                                                      : 0;
    row.value.box.w = std::ceil(measure(row.value.text, row.value.style).w) + dress;
    values = std::max(values, row.value.box.w);
  }
  const double width = labels + 16 + values;
  const double left = align == Align::left ? x : align == Align::right ? x - width : x - width / 2;
  Box bounds{left, top, width, 0};
  for (Row& row : rows) {
    row.label.box = {left, top + 2, labels, kBoxHeight};
    row.value.box = {left + labels + 16, top + 2, row.value.box.w, kBoxHeight};
    row.value.align = row.value.box.w > 0 && (row.kind == Row::Kind::volts || row.state == DutyState::runs)
                          ? Align::centre
                          : Align::left;
    top += kRowHeight;
    bounds.h += kRowHeight;
  }
  return bounds;
}

}  // namespace

const WireLook* Overlay::look(sheet::ConductorId conductor) const {
  const auto at =
      std::lower_bound(wires.begin(), wires.end(), conductor,
                       [](const WireLook& look, sheet::ConductorId id) { return look.conductor < id; });
  return at != wires.end() && at->conductor == conductor ? &*at : nullptr;
}

Overlay overlay(const Diagram& diagram, const sheet::Sheet& sheet, const equipment::Library& library,
                const operation::CallResult& result, const operation::CallDemand* demand,
                const TextMeasure& measure, const SayRow& say) {
  Overlay out;
  out.call = result.call;
  out.wires = looks(diagram, sheet, result);
  std::map<int, double> next;  ///< free y below each column
  int last = 0;
  for (const Plate& plate : diagram.plates) last = std::max(last, plate.column);
  std::vector<const Plate*> order;
  for (const Plate& plate : diagram.plates) order.push_back(&plate);
  std::sort(order.begin(), order.end(),
            [](auto a, auto b) { return std::tuple(a->column, a->box.y) < std::tuple(b->column, b->box.y); });
  for (const Plate* plate : order) {
    const sheet::Unit* unit = sheet.units.find(plate->unit);
    const equipment::Profile* profile = unit ? library.find(unit->profile) : nullptr;
    if (!profile) continue;
    std::vector<Row> rows = rowsOf(*plate, sheet, library, *profile, result, demand);
    for (Row& row : rows) {
      const RowWords words = say(row);
      row.label.text = words.label;
      row.value.text = words.value;
    }
    const Align align = plate->column == 0      ? Align::left
                        : plate->column == last ? Align::right
                                                : Align::centre;
    const double x = align == Align::left    ? plate->box.x
                     : align == Align::right ? plate->box.right()
                                             : plate->box.centre().x;
    double& top = next.try_emplace(plate->column, diagram.bounds.bottom() - 4).first->second;
    const Box block = placeRows(rows, x, top, align, measure);
    top = block.bottom() + 12;
    out.bounds = united(out.bounds, block);
    out.rows.insert(out.rows.end(), rows.begin(), rows.end());
  }
  if (!out.rows.empty()) out.bounds = out.bounds.grown(24);
  return out;
}

}  // namespace ww::drawing
