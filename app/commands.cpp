// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "asbuilt/netlist.h"
#include "json_output.h"
#include "text_output.h"

namespace ww::app {

namespace {

/// A unit profile has no circuit to solve: what is checked is whether it can be used. Nothing for any other
/// file.
std::optional<Exit> checkProfile(const Request& request) {
  const auto given = profileIn(request, true);
  if (!given) return std::nullopt;
  const auto& read = *given;
  if (!read) return Exit::wrongInput;
  const equipment::Profile& profile = *read.value;
  if (request.json)
    printJson({{"profile", profile.id},
               {"terminals", profile.terminals.size()},
               {"elements", profile.elements.size()},
               {"statements", profile.logic.statements.size()}});
  else
    print(languageOf(request).sentence("ww-profile-sound",
                                       {{"profile", QString::fromStdString(profile.id)},
                                        {"terminals", QString::number(profile.terminals.size())},
                                        {"elements", QString::number(profile.elements.size())},
                                        {"statements", QString::number(profile.logic.statements.size())}}));
  return Exit::fine;
}

}  // namespace

Exit check(const Request& given) {
  if (const auto done = checkProfile(given)) return *done;
  Request request = given;
  request.refusedToo = true;
  return withFile(request, [&](const Opened& opened) {
    if (request.json)
      printJson(checkJson(opened));
    else
      print(checkText(opened));
    return verdict(opened, request.strict);
  });
}

Exit solve(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto chosen = chosenCalls(opened, request);
    if (const Exit* failed = std::get_if<Exit>(&chosen)) return *failed;
    nlohmann::json list = nlohmann::json::array();
    for (const auto* call : std::get<0>(chosen)) {
      if (request.json)
        list.push_back(callJson(opened, call->result));
      else
        print(callText(opened, call->result));
    }
    if (request.json) printJson({{"calls", list}});
    return Exit::fine;
  });
}

Exit netlist(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto chosen = chosenCalls(opened, request);
    if (const Exit* failed = std::get_if<Exit>(&chosen)) return *failed;
    const auto& call = *std::get<0>(chosen).front();
    const auto& circuit = *opened.solution.circuit;
    circuit::Solver<circuit::Phasor> solver(circuit.plan);
    asbuilt::solve(circuit, call.positions, {}, solver);
    const auto deck = asbuilt::spice(circuit, solver, "control wiring, call " + call.result.call);
    if (request.json)
      printJson({{"call", call.result.call}, {"netlist", deck.text}});
    else
      std::fwrite(deck.text.data(), 1, deck.text.size(), stdout);
    return Exit::fine;
  });
}

Exit steps(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto list = stepsOf(opened);
    if (request.json)
      printJson(stepsJson(opened, list));
    else
      print(stepsText(opened, list));
    return Exit::fine;
  });
}

}  // namespace ww::app
