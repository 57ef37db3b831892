// SPDX-License-Identifier: GPL-3.0-or-later
// Room sheet: the wiring sheet as one regular value - the units placed, the
// cables between them, each conductor's two landings - and its CSV and JSON
// forms. Knows profiles by id only for checking landings; knows no circuit,
// no volts and no screen.
#pragma once

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "quantity/conductor.h"
#include "quantity/quantity.h"
#include "settings/settings.h"
#include "sheet/colour.h"
#include "sheet/ids.h"

namespace ww::sheet {

/// One piece of equipment placed on the sheet.
struct Unit {
  UnitId id{};
  std::string tag;  ///< short name, unique in the sheet ("T", "F", "O"); names the unit in CSV and commands
  std::string profile;  ///< profile id, e.g. "furnace-1"
  std::string label;    ///< what a person calls it ("Furnace"); empty: the profile's title is shown
  std::string place;    ///< where it stands ("closet, second floor")
  std::map<std::string, std::string> nameplate;  ///< as typed from the label: field -> text
  friend bool operator==(const Unit&, const Unit&) = default;
};

/// A cable pulled between two units.
struct Cable {
  CableId id{};
  std::string name;  ///< "1", "2", ... unique in the sheet
  quantity::Gauge gauge;
  quantity::Metres length;
  UnitId endA{}, endB{};
  friend bool operator==(const Cable&, const Cable&) = default;
};

/// The end hangs free.
struct Loose {
  friend auto operator<=>(const Loose&, const Loose&) = default;
};
/// A spare, its end capped off.
struct Capped {
  friend auto operator<=>(const Capped&, const Capped&) = default;
};
/// A splice by name inside the unit's cabinet; all ends on the same splice are joined.
struct Splice {
  UnitId unit{};
  std::string name;
  friend auto operator<=>(const Splice&, const Splice&) = default;
};
/// One end of a conductor.
using Landing = std::variant<Loose, Capped, TerminalRef, Splice>;

/// One conductor. Without a cable it is a jumper: both ends at one unit, no length.
struct Conductor {
  ConductorId id{};
  std::optional<CableId> cable;
  Colour colour;
  Landing endA, endB;
  std::string remark;
  bool isJumper() const { return !cable.has_value(); }
  friend bool operator==(const Conductor&, const Conductor&) = default;
};

/// A table sorted by id; copying one copies a pointer, changing one copies the rows first.
template <class Row>
class Table {
 public:
  Table() = default;
  /// All rows at once; their ids must differ. Readers use it: put() copies the rows each time.
  explicit Table(std::vector<Row> rows) {
    std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.id < b.id; });
    rows_ = std::make_shared<const std::vector<Row>>(std::move(rows));
  }

  const std::vector<Row>& rows() const { return *rows_; }
  auto begin() const { return rows_->begin(); }
  auto end() const { return rows_->end(); }
  size_t size() const { return rows_->size(); }
  bool empty() const { return rows_->empty(); }

  /// The row with that id; null when there is none.
  template <class Id>
  const Row* find(Id id) const {
    for (const Row& row : *rows_)
      if (row.id == id) return &row;
    return nullptr;
  }
  /// Replaces the row of the same id, or adds it in id order.
  void put(Row row) {
    auto copy = std::make_shared<std::vector<Row>>(*rows_);
    auto at = copy->begin();
    while (at != copy->end() && at->id < row.id) ++at;
    if (at != copy->end() && at->id == row.id)
      *at = std::move(row);
    else
      copy->insert(at, std::move(row));
    rows_ = std::move(copy);
  }
  template <class Id>
  void erase(Id id) {
    auto copy = std::make_shared<std::vector<Row>>(*rows_);
    std::erase_if(*copy, [&](const Row& row) { return row.id == id; });
    rows_ = std::move(copy);
  }
  friend bool operator==(const Table& a, const Table& b) {
    return a.rows_ == b.rows_ || *a.rows_ == *b.rows_;
  }

 private:
  std::shared_ptr<const std::vector<Row>> rows_ = std::make_shared<const std::vector<Row>>();
};

/// The wiring sheet. A regular value: cheap to copy, compared by content.
struct Sheet {
  Table<Unit> units;
  Table<Cable> cables;
  Table<Conductor> conductors;
  settings::Values settings;  ///< what the control and the boards are set to on this sheet
  int nextId = 1;             ///< one counter for all tables; never goes back

  const Unit* unitByTag(std::string_view tag) const;
  const Cable* cableByName(std::string_view name) const;
  UnitId addUnit(Unit unit);                 ///< assigns the id
  CableId addCable(Cable cable);             ///< assigns the id
  ConductorId addConductor(Conductor wire);  ///< assigns the id
  friend bool operator==(const Sheet&, const Sheet&) = default;
};

/// The unit an end lies in: its terminal's or splice's unit, else the cable's end, else nothing.
std::optional<UnitId> unitOfEnd(const Sheet& sheet, const Conductor& wire, bool endA);

/// "T.R" for a terminal, "F/S1" for a splice, "" loose, "*" capped.
std::string print(const Sheet& sheet, const Landing& landing);

/// The conductors of one cable in id order.
std::vector<const Conductor*> conductorsOf(const Sheet& sheet, CableId cable);

}  // namespace ww::sheet
