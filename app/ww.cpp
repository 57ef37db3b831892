// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <cerrno>
#include <cstring>
#include <functional>

#include "opened.h"

namespace {

using ww::app::Exit;
using ww::app::Request;

CLI::App* addPlainCommand(CLI::App& app, const char* name, const char* what, Request& request) {
  CLI::App* command = app.add_subcommand(name, what);
  command->add_flag("--json", request.json, "Ids and figures as JSON instead of sentences");
  command->add_option("--lang", request.language, "Language of sentences")
      ->check(CLI::IsMember({"en", "es"}));
  return command;
}

/// Where the jobs and the person's own profiles lie.
void addData(CLI::App* command, Request& request) {
  command->add_option("--data", request.data, "Folder of the store instead of the usual one");
}

CLI::App* addCommand(CLI::App& app, const char* name, const char* what, Request& request) {
  CLI::App* command = addPlainCommand(app, name, what, request);
  command->add_option("FILE", request.file, "A job, a wiring sheet, or a wiring sheet as CSV")->required();
  addData(command, request);
  return command;
}

int run(int argc, char** argv) {
  CLI::App app{"Checks, solves, draws and reports 24 V AC control wiring.", "ww"};
  app.set_version_flag("--version", WIREWRIGHT_VERSION);
  app.require_subcommand(1);
  app.footer(
      "Exit status: 0 nothing above marginal, 1 a fault (check, report), 2 the input is wrong, "
      "3 a file or the store cannot be read or written.");
  Request request;
  Exit result = Exit::fine;
  const auto on = [&](CLI::App* command, Exit (*run)(const Request&)) {
    command->callback([&result, &request, run] { result = run(request); });
    return command;
  };
  const char* strict = "A marginal finding counts as a fault in the exit status";
  on(addCommand(app, "check",
                "The findings of the sheet and what each call runs; of a unit profile, what is wrong with it",
                request),
     ww::app::check)
      ->add_flag("--strict", request.strict, strict);
  on(addCommand(app, "solve", "Volts, amps and coils of each call", request), ww::app::solve)
      ->add_option("--call", request.call, "Only this call");
  on(addCommand(app, "netlist", "The circuit of a call as a SPICE netlist", request), ww::app::netlist)
      ->add_option("--call", request.call, "The call")
      ->required();
  on(addCommand(app, "steps", "The checklist in walking order, with bands", request), ww::app::steps);
  auto* report = on(addCommand(app, "report", "The commissioning report as PDF", request), ww::app::report);
  report->add_option("-o,--output", request.output, "PDF to write")->required();
  report->add_option("--paper", request.paper, "Paper size")->check(CLI::IsMember({"letter", "a4"}));
  report->add_flag("--strict", request.strict, strict);
  auto* draw =
      on(addCommand(app, "draw", "The wiring diagram, or of a unit profile the inner circuit, as SVG or PNG",
                    request),
         ww::app::draw);
  draw->add_option("-o,--output", request.output, "Picture to write, .svg or .png")->required();
  draw->add_option("--call", request.call, "Show what this call makes live");
  draw->add_option("--theme", request.theme, "Colours")->check(CLI::IsMember({"light", "dark", "paper"}));
  on(addCommand(app, "mend", "What would mend the findings, least trouble first", request), ww::app::mend);
  on(addCommand(app, "plan", "Where loose conductors would go, and what is missing", request), ww::app::plan)
      ->add_option("-o,--output", request.output, "Wiring sheet to write, landed as proposed");
  on(addCommand(app, "size", "Longest run of each cable, smallest transformer", request), ww::app::size);
  on(addCommand(app, "harm", "What one wrong landing, bridge or stuck contact would do", request),
     ww::app::harm);
  auto* timeline = on(addCommand(app, "timeline", "What moves in each call, second by second", request),
                      ww::app::timeline);
  timeline->add_option("--call", request.call, "Only this call");
  timeline->add_option("-o,--output", request.output, "Picture to write besides, .svg or .png");
  timeline->add_option("--theme", request.theme, "Colours")->check(CLI::IsMember({"light", "dark", "paper"}));
  on(addCommand(app, "settings", "What the control is to be set to, why, and what contradicts", request),
     ww::app::settings);
  auto* survey = on(
      addPlainCommand(app, "survey", "Whether what was found there is 24 V control wiring at all", request),
      ww::app::survey);
  survey->add_option("ANSWER", request.words, "Answers such as conductors=thick, signals=data");
  survey->add_option("--job", request.file, "A job: what was answered there, with the answers given put in");
  survey->add_option("-o,--output", request.output, "Job to write, with the answers among its facts")
      ->needs("--job");
  addData(survey, request);
  addData(
      on(addPlainCommand(app, "profiles",
                         "Every unit that can be placed, and what is wrong with files of your own", request),
         ww::app::profiles),
      request);
  on(addCommand(app, "save", "Keeps a job in the store", request), ww::app::save);
  auto* find = on(addPlainCommand(app, "find", "Finds jobs in the store", request), ww::app::find);
  find->add_option("TEXT", request.words,
                   "Pieces of address, customer or number, and filters like state:open");
  find->add_option("--limit", request.most, "Most jobs to list")->check(CLI::Range(1, 100'000));
  addData(find, request);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : static_cast<int>(Exit::wrongInput);
  }
  // A full disk shows only now; what was printed so far is not the whole answer.
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0)
    result = ww::app::complain(ww::app::languageOf(request).sentence(
                                   "ww-cannot-print", {{"detail", QString::fromUtf8(std::strerror(errno))}}),
                               Exit::unreadable);
  return static_cast<int>(result);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    // Nothing that a file or a circuit can do ends here; memory that runs out does.
    std::fprintf(stderr, "ww: %s\n", error.what());
    return static_cast<int>(Exit::unreadable);
  }
}
