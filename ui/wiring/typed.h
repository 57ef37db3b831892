// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "wiring/edits.h"
#include "wording/language.h"

namespace ww::wiring {

/// A cable as a person types it: "18/5 40 ft", "rd wh gn ye bu 12 m", "T F 18/5". What was not typed is
/// empty.
struct TypedCable {
  std::optional<quantity::Gauge> gauge;
  std::optional<int> count;
  std::vector<sheet::Colour> colours;  ///< in wall order, as pulled
  std::optional<quantity::Metres> length;
  std::vector<sheet::UnitId> units;  ///< by their tags
};

/// What was typed, or a sentence that says what is wrong with it.
template <class T>
struct Typed {
  std::optional<T> value;
  QString complaint;
};

/// Reads a cable. A number alone is a length in the unit that the language measures in.
Typed<TypedCable> cableTyped(const QString& text, const sheet::Sheet& sheet,
                             const wording::Language& language);

/// An end as typed for a unit: a terminal by its letters or its id, whatever the case; "-" or nothing: loose;
/// "*": spare, capped; "/name": a splice.
Typed<sheet::Landing> landingTyped(const QString& text, const sheet::Sheet& sheet,
                                   const equipment::Library& library, sheet::UnitId unit,
                                   const wording::Language& language);
/// The letters that complete what was typed: an exact one first, else the first that begins so; null without.
QString completed(const QString& text, const QStringList& letters);
/// What stands at the screws of a unit, in strip order.
QStringList lettersOf(const sheet::Sheet& sheet, const equipment::Library& library, sheet::UnitId unit);

/// The sheet with a cable more, each conductor loose at both ends. Units not typed: `usual`.
Typed<sheet::Sheet> withTypedCable(sheet::Sheet sheet, const TypedCable& typed,
                                   std::optional<std::pair<sheet::UnitId, sheet::UnitId>> usual,
                                   const wording::Language& language);
/// The cable changed as typed: gauge, length, colours from the first conductor on; more conductors are added,
/// fewer only where those too many hang loose.
Typed<sheet::Sheet> withCableRetyped(sheet::Sheet sheet, sheet::CableId cable, const TypedCable& typed,
                                     const wording::Language& language);
/// "18/5 12 m", as cableTyped() reads it back.
QString typedForm(const sheet::Sheet& sheet, const sheet::Cable& cable, const wording::Language& language);

}  // namespace ww::wiring
