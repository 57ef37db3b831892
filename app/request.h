// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace ww::app {

/// Exit status of the command, the same for every sub-command.
enum class Exit { fine = 0, faults = 1, wrongInput = 2, unreadable = 3 };

/// What was asked for on the command line.
struct Request {
  std::string file;
  std::string call;  ///< empty: every call
  std::string output;
  std::string language = "en";
  std::string paper = "letter";
  std::string theme = "light";
  std::string data;                ///< folder of the store; empty: the person's own
  std::vector<std::string> words;  ///< what is looked for
  unsigned long most = 50;         ///< jobs to list
  bool json = false;
  bool strict = false;
  bool refusedToo = false;  ///< the command has something to say of a refused job besides the reason
};

Exit check(const Request& request);
Exit solve(const Request& request);
Exit netlist(const Request& request);
Exit steps(const Request& request);
Exit report(const Request& request);
Exit draw(const Request& request);
Exit mend(const Request& request);
Exit plan(const Request& request);
Exit size(const Request& request);
Exit harm(const Request& request);
Exit timeline(const Request& request);
Exit settings(const Request& request);
Exit survey(const Request& request);
Exit profiles(const Request& request);
Exit save(const Request& request);
Exit find(const Request& request);

}  // namespace ww::app
