// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/spice.h"

#include <ngspice/sharedspice.h>

#include <cstdio>
#include <vector>

namespace ww::spice {
namespace {

struct Listener {
  std::string* messages;
  bool* failed;
};

Listener& listener() {
  static Listener one{};
  return one;
}

int hear(char* text, int, void*) {
  const std::string_view line(text);
  listener().messages->append(line).push_back('\n');
  for (std::string_view sign : {"Error", "error:", "singular matrix", "simulation(s) aborted", "no such"})
    if (line.find(sign) != line.npos) *listener().failed = true;
  return 0;
}

int hearStatus(char*, int, void*) { return 0; }

int hearExit(int, NG_BOOL, NG_BOOL, int, void*) {
  *listener().failed = true;
  return 0;
}

int hearThread(NG_BOOL, int, void*) { return 0; }

bool send(std::string line) { return ngSpice_Command(line.data()) == 0; }

}  // namespace

Simulator& Simulator::instance() {
  static Simulator one;
  return one;
}

Simulator::Simulator() {
  listener() = {&messages_, &failed_};
  ngSpice_Init(hear, hearStatus, hearExit, nullptr, nullptr, hearThread, nullptr);
  send("set nomoremode");
}

bool Simulator::command(const std::string& line) {
  failed_ = false;
  const bool sent = send(line);
  return sent && !failed_;
}

bool Simulator::load(std::string_view netlist) {
  if (loaded_) {
    send("destroy all");
    send("remcirc");
  }
  messages_.clear();
  failed_ = false;
  bool ended = false;
  while (!netlist.empty() && !ended) {
    const std::size_t end = netlist.find('\n');
    const std::string_view line = netlist.substr(0, end);
    netlist.remove_prefix(end == netlist.npos ? netlist.size() : end + 1);
    if (line.empty()) continue;
    ended = line == ".end";
    if (!ended) send("circbyline " + std::string(line));
  }
  send("circbyline .end");
  loaded_ = true;
  return !failed_;
}

bool Simulator::runAc(double hertz) {
  send("destroy all");
  return command("ac lin 1 " + number(hertz) + " " + number(hertz));
}

bool Simulator::runOp() {
  send("destroy all");
  return command("op");
}

bool Simulator::runTransient(double step, double seconds) {
  send("destroy all");
  return command("tran " + number(step) + " " + number(seconds) + " 0 " + number(step) + " uic");
}

Simulator::Series Simulator::ampsOverTime(const std::string& voltageSource) const {
  const auto all = [](std::string name) {
    const vector_info* found = ngGet_Vec_Info(name.data());
    if (!found || !found->v_realdata) return std::vector<double>();
    return std::vector<double>(found->v_realdata, found->v_realdata + found->v_length);
  };
  return {all("time"), all(voltageSource + "#branch")};
}

std::optional<std::complex<double>> Simulator::value(const std::string& name) const {
  std::string writable = name;
  const vector_info* found = ngGet_Vec_Info(writable.data());
  if (!found || found->v_length < 1) return std::nullopt;
  if (found->v_compdata) return std::complex(found->v_compdata->cx_real, found->v_compdata->cx_imag);
  if (found->v_realdata) return *found->v_realdata;
  return std::nullopt;
}

std::optional<std::complex<double>> Simulator::volts(const std::string& node) const {
  if (node == "0") return 0.0;
  return value("v(" + node + ")");
}

std::optional<std::complex<double>> Simulator::amps(const std::string& voltageSource) const {
  return value(voltageSource + "#branch");
}

std::string number(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.17g", value);
  return text;
}

}  // namespace ww::spice
