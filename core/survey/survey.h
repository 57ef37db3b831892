// SPDX-License-Identifier: GPL-3.0-or-later
// Room survey: what is asked before anything is drawn, and which answers this program has to refuse: line
// voltage, data on the conductors, modulating signals, circuits nobody knows. Must not know sheets, jobs or
// languages.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ww::survey {

/// One question with its answers, of which one is given.
struct Question {
  std::string_view id;
  std::vector<std::string_view> answers;
};

/// All questions in the order they are asked:
/// conductors (thin, thick: or joined by wire nuts), volts read at the control's place (upTo30, over30,
/// notRead), signals that go over the conductors (onOff, data, modulating, notKnown), circuits (known,
/// unknown), inverter (none, interface: called through a 24 V interface of its maker, without), apart: what
/// has a circuit of its own (none, thermopile, dryPair, both).
const std::vector<Question>& questions();

/// Answer by question.
using Answers = std::map<std::string, std::string, std::less<>>;

/// What placing 24 V equipment says where nothing else is answered: thin conductors, calls that are on or
/// off, circuits that are known, nothing apart. The volts are not read yet.
Answers customary();
/// The same with the answer that comes to that refusal ("lineVoltage", ...).
Answers refusedWith(std::string_view refusal);
/// The words of Verdict::refusals.
const std::vector<std::string_view>& refusals();

/// Whether every question has one of its answers, and nothing else was answered.
bool complete(const Answers& answers);

/// What answers come to.
struct Verdict {
  /// Why this program has nothing to say here; the words of refused unit profiles: "lineVoltage", "dataBus",
  /// "modulating", "unknown". Empty: go on.
  std::vector<std::string> refusals;
  /// What has to be known where it goes on: "voltsNotRead", "inverterDemand", "thermopileApart",
  /// "dryPairApart".
  std::vector<std::string> notes;
  friend bool operator==(const Verdict&, const Verdict&) = default;
};

/// Also of answers that are not complete: one that refuses, refuses at once.
Verdict verdictOf(const Answers& answers);

}  // namespace ww::survey
