// SPDX-License-Identifier: GPL-3.0-or-later
// Files that nobody should hand over, and places that cannot be written: all problems in both languages, each
// with its place and what would be right, the right exit status, no crash, nothing half-written.
#include <gmock/gmock.h>
#include <sys/stat.h>
#include <unistd.h>

#include <QRegularExpression>
#include <random>
#include <set>

#include "job/document_file.h"
#include "support/json_changes.h"
#include "support/reference_rows.h"
#include "wording/sentences.h"
#include "ww/program.h"

namespace ww {
namespace {

using nlohmann::json;
using testing::contentOf;
using testing::demoPath;
using testing::edited;
using testing::kRowA;
using testing::runWw;

std::string demoJob() { return contentOf(demoPath("larkmoor-a-furnace-cooling.json")); }

std::string with(const std::string& pointer, const json& value) {
  json job = json::parse(demoJob());
  job.at(json::json_pointer(pointer)) = value;
  return job.dump();
}

std::string without(const std::string& parent, const std::string& member) {
  json job = json::parse(demoJob());
  job.at(json::json_pointer(parent)).erase(member);
  return job.dump();
}

/// One bad file: what each complaint must contain, in English and in Spanish, in the order told.
struct Bad {
  std::string name, extension, content;
  std::vector<std::string> english, spanish;
  friend void PrintTo(const Bad& bad, std::ostream* out) { *out << bad.name; }
};

std::vector<Bad> badFiles() {
  const std::string planned = "/sheets/planned";
  return {
      {"empty", "json", "", {": the file is empty; give a job"}, {": el archivo está vacío; dé un trabajo"}},
      {"blankLines", "csv", "\n\n \n", {"the file is empty"}, {"el archivo está vacío"}},
      {"truncatedJob", "json", demoJob().substr(0, 3000), {"(line 1"}, {"(línea 1"}},
      {"truncatedCsv",
       "csv",
       kRowA.substr(0, kRowA.find("YE,F") + 6),
       {"row 11: the row has 8 cells for 11 columns; fill it up"},
       {"fila 11: la fila tiene 8 celdas para 11 columnas; complétela"}},
      {"newerJob",
       "json",
       with("/version", 7),
       {"/version: the file is of version 7; this program knows up to 1"},
       {"/version: el archivo es de la versión 7; este programa conoce hasta la 1"}},
      {"versionZero",
       "json",
       with("/version", 0),
       {"/version: 0 is out of range; write 1 to"},
       {"/version: 0 está fuera de rango; escriba de 1 a"}},
      {"versionText",
       "json",
       with("/version", "1"),
       {"/version: this is text; it must be a number"},
       {"/version: esto es texto; debe ser un número"}},
      {"otherFormat",
       "json",
       R"({"format": "recipe", "version": 1})",
       {"wirewright-job"},
       {"wirewright-job"}},
      {"bareList", "json", "[1, 2]", {"wirewright-job"}, {"wirewright-job"}},
      {"deep",
       "json",
       std::string(200'000, '['),
       {"more than 64 deep (line 1, column 65)"},
       {"más de 64 niveles (línea 1, columna 65)"}},
      {"hugeJob",
       "json",
       "{\"a\": \"" + std::string(18'000'000, 'x') + "\"}",
       {"the file has 18,000,009 bytes; at most 16,777,216 are read"},
       {"el archivo tiene 18.000.009 bytes; se leen como mucho 16.777.216"}},
      {"hugeCsv",
       "csv",
       kRowA + std::string(5'000'000, 'x'),
       {"bytes; at most 4,194,304 are read"},
       {"bytes; se leen como mucho 4.194.304"}},
      {"zeroByte", "csv", kRowA + std::string(1, '\0'), {"zero byte; remove it"}, {"byte cero; quítelo"}},
      {"notUtf8",
       "csv",
       edited(kRowA, "F,R,\n", "F,R,caf\xe9\n"),
       {"not UTF-8 text; save the file"},
       {"no es texto UTF-8; guarde el archivo"}},
      {"memberTwice",
       "json",
       edited(demoJob(), "\"format\":", "\"format\": \"x\", \"format\":"),
       {"member \"format\" stands twice; keep one"},
       {"el miembro \"format\" está dos veces; deje uno"}},
      {"unknownTerminal",
       "csv",
       edited(kRowA, "RD,T,R,F,R", "RD,T,R,F,Q"),
       {"row 6, end_b: F has no terminal Q; it has"},
       {"fila 6, end_b: F no tiene ningún borne Q; tiene"}},
      {"unknownTerminalInJob",
       "json",
       with(planned + "/conductors/0/endA/terminal", "Q"),
       {planned + "/conductors/0/endA/terminal: T has no terminal Q; it has R, C"},
       {planned + "/conductors/0/endA/terminal: T no tiene ningún borne Q; tiene R, C"}},
      {"unitNotThere",
       "csv",
       edited(kRowA, "BU,F,C,O,C", "BU,F,C,Z,C"),
       {"row 12, end_b_unit: unit Z is not on the sheet; the units are F, O, T"},
       {"fila 12, end_b_unit: la unidad Z no está en la hoja; las unidades son F, O, T"}},
      {"unitNotThereInJob",
       "json",
       with(planned + "/conductors/0/endA/unit", 99),
       {planned + "/conductors/0/endA/unit: unit 99 is not on the sheet"},
       {planned + "/conductors/0/endA/unit: la unidad 99 no está en la hoja"}},
      {"zeroLength",
       "csv",
       edited(kRowA, "2,18,2,12,m,YE", "2,18,2,0,m,YE"),
       {"row 11, length: a length of 0 m is not possible; write more than 0", "row 12"},
       {"fila 11, length: una longitud de 0 m no es posible; escriba más de 0", "fila 12"}},
      {"negativeLengthInJob",
       "json",
       with(planned + "/cables/0/metres", -3),
       {planned + "/cables/0/metres: a length of -3 m is not possible"},
       {planned + "/cables/0/metres: una longitud de -3 m no es posible"}},
      {"lengthNan",
       "csv",
       edited(kRowA, "2,18,2,12,m,BU", "2,18,2,NaN,m,BU"),
       {"row 12, length: \"NaN\" is no number"},
       {"fila 12, length: \"NaN\" no es un número"}},
      {"lengthNanInJob",
       "json",
       edited(demoJob(), "\"metres\": ", "\"metres\": NaN, \"x\": "),
       {"this is not JSON (line "},
       {"esto no es JSON (línea "}},
      {"lengthTooBigForANumber",
       "json",
       edited(demoJob(), "\"metres\": ", "\"metres\": 1e999, \"x\": "),
       {"JSON"},
       {"JSON"}},
      {"lengthAsText",
       "json",
       with(planned + "/cables/0/metres", "15"),
       {planned + "/cables/0/metres: this is text; it must be a number"},
       {planned + "/cables/0/metres: esto es texto; debe ser un número"}},
      {"cableContradicts",
       "csv",
       edited(kRowA, "2,18,2,12,m,BU", "2,18,2,14,m,BU"),
       {"row 12, length: cable 2 has length 14 m here and 12 m in row 11; one cable has one value"},
       {"fila 12, length: el cable 2 tiene length 14 m aquí y 12 m en la fila 11; un cable tiene un solo "
        "valor"}},
      {"contradictoryLine",
       "json",
       with("/line", {{"low", 1}, {"high", 1}}),
       {"low line must be below high line"},
       {"la línea baja debe ser menor que la alta"}},
      {"readingWithoutMeter",
       "json",
       with("/readings/0/meter", "019ce146-3a50-700a-aa86-8cbadec80000"),
       {"/readings/0/meter: no meter has id 019ce146"},
       {"/readings/0/meter: ningún medidor tiene id 019ce146"}},
      {"visitAsNumber",
       "json",
       with("/visit", 7),
       {"/visit: this is a number; it must be text"},
       {"/visit: esto es un número; debe ser texto"}},
      {"memberLost",
       "json",
       without("", "number"),
       {"member \"number\" is missing; add it"},
       {"falta el miembro \"number\"; añádalo"}},
      {"profileUnknown",
       "csv",
       edited(kRowA, "od-cool-1", "od-cool-77"),
       {"row 3, profile: there is no unit profile od-cool-77; there are"},
       {"fila 3, profile: no hay perfil de unidad od-cool-77; hay"}},
      {"noSheet",
       "json",
       with("/sheets", json::object()),
       {"holds no wiring sheet. A job needs one"},
       {"no contiene ninguna hoja de cableado. Un trabajo necesita una"}},
  };
}

class BadFile : public testing::InFolder, public ::testing::WithParamInterface<Bad> {};
INSTANTIATE_TEST_SUITE_P(All, BadFile, ::testing::ValuesIn(badFiles()),
                         [](const auto& bad) { return bad.param.name; });

/// No key of the catalogue shows, nothing is unfilled, nothing unsaid.
void expectPlain(const std::string& line, const wording::Language& language) {
  const QString text = QString::fromStdString(line);
  for (const QString& key : wording::Language::english().keys())
    EXPECT_FALSE(key.startsWith("problem.") && text.contains(key.mid(8)))
        << key.toStdString() << ": " << line;
  static const QRegularExpression unfilled(QStringLiteral("\\{[a-z_]*\\}"));
  EXPECT_FALSE(text.contains(unfilled)) << line;
  EXPECT_FALSE(text.contains("  ")) << line;
  EXPECT_FALSE(text.contains(language.sentence("problem-unknown"))) << line;
  EXPECT_FALSE(text.contains(": .")) << line;
}

TEST_P(BadFile, isToldInFullInBothLanguagesAndEndsWithTwo) {
  const Bad& bad = GetParam();
  const std::string name = file(bad.name + "." + bad.extension, bad.content);
  const std::pair<const char*, const std::vector<std::string>&> languages[] = {{"en", bad.english},
                                                                               {"es", bad.spanish}};
  for (const auto& [code, pieces] : languages) {
    const auto ran = runWw({"check", "--lang", code, name});
    EXPECT_EQ(ran.exit, 2) << ran.err;
    EXPECT_EQ(ran.out, "");
    const auto lines = ran.complaints();
    ASSERT_EQ(lines.size(), pieces.size()) << ran.err;
    for (size_t i = 0; i < lines.size(); ++i) {
      EXPECT_TRUE(lines[i].starts_with("ww: ")) << lines[i];
      EXPECT_NE(lines[i].find(name), std::string::npos) << lines[i];
      EXPECT_NE(lines[i].find(pieces[i]), std::string::npos) << pieces[i] << "\nin " << lines[i];
      expectPlain(lines[i], *wording::Language::byCode(code));
    }
  }
}

TEST_P(BadFile, endsEveryCommandAlikeAndWritesNothing) {
  const Bad& bad = GetParam();
  const std::string name = file(bad.name + "." + bad.extension, bad.content);
  const auto checked = runWw({"check", name});
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{"check", "--json", name},
                                             {"solve", name},
                                             {"netlist", name, "--call", "rest"},
                                             {"steps", "--json", name},
                                             {"report", name, "-o", path("out.pdf")},
                                             {"draw", name, "-o", path("out.svg")}}) {
    const auto ran = runWw(command);
    EXPECT_EQ(ran.exit, 2) << command[0];
    EXPECT_EQ(ran.out, "") << command[0];
    EXPECT_EQ(ran.err, checked.err) << command[0];
  }
  EXPECT_EQ(names().size(), 1u) << "only the file itself lies there";
}

class BadInput : public testing::InFolder {};

TEST_F(BadInput, everyProblemOfAFileIsALineOfItsOwn) {
  const std::string text =
      edited(edited(edited(edited(kRowA, "RD,T,R,F,R", "XX,T,R,F,Q"), "2,18,2,12,m,YE", "2,18,2,-1,ell,YE"),
                    "#set,fanWithHeat,equipment", "#set,fanWithHeat,perhaps\n#set,nothing,1"),
             "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,O,od-cool-9");
  const auto problems = job::readDocument(text, equipment::standardLibrary()).problems;
  ASSERT_GE(problems.size(), 6u);
  const std::string name = file("many.csv", text);
  for (const char* code : {"en", "es"}) {
    const auto lines = runWw({"check", "--lang", code, name}).complaints();
    ASSERT_EQ(lines.size(), problems.size());
    for (const std::string& line : lines) expectPlain(line, *wording::Language::byCode(code));
    EXPECT_EQ(std::set(lines.begin(), lines.end()).size(), lines.size()) << "each is told once";
  }
}

/// Whatever is changed in a job, the command gives an answer or lists the problems.
TEST_F(BadInput, aJobChangedAnywhereIsJudgedOrRefused) {
  int refused = 0;
  for (unsigned seed = 1; seed <= 120; ++seed) {
    std::mt19937 random(seed);
    json job = json::parse(demoJob());
    testing::changeAtRandom(job, random);
    const std::string text = job.dump();
    const std::string name = file("changed.json", text);
    const char* code = seed % 2 == 0 ? "en" : "es";
    const auto ran = runWw({"check", "--lang", code, name});
    ASSERT_TRUE(ran.exit >= 0 && ran.exit <= 2) << "seed " << seed << ": " << ran.exit << "\n" << ran.err;
    ASSERT_EQ(ran.exit == 2, !ran.err.empty()) << "seed " << seed << ": " << ran.err;
    ASSERT_EQ(ran.exit == 2, ran.out.empty()) << "seed " << seed;
    for (const std::string& line : ran.complaints()) expectPlain(line, *wording::Language::byCode(code));
    refused += ran.exit == 2;
  }
  EXPECT_GT(refused, 60);
}

TEST_F(BadInput, aFileThatCannotBeReadEndsWithThree) {
  for (const std::string& name : {path("not-there.json"), path("."), path("no/such/folder.csv")}) {
    const auto english = runWw({"check", name}), spanish = runWw({"check", "--lang", "es", name});
    EXPECT_EQ(english.exit, 3) << name;
    EXPECT_EQ(spanish.exit, 3) << name;
    EXPECT_EQ(english.err, "ww: " + name + " cannot be read. Give a file that exists and may be read.\n");
    EXPECT_NE(spanish.err.find("No se puede leer " + name), std::string::npos) << spanish.err;
  }
  if (geteuid() == 0) return;  // root may read whatever it likes
  const std::string locked = file("locked.csv", kRowA);
  ASSERT_EQ(chmod(locked.c_str(), 0), 0);
  EXPECT_EQ(runWw({"check", locked}).exit, 3);
}

TEST_F(BadInput, whatCannotBeWrittenEndsWithThreeAndLeavesWhatWasThere) {
  const std::string sheet = file("sheet.csv", kRowA);
  const std::string old = file("old.pdf", "precious");
  ASSERT_EQ(mkdir(path("folder.pdf").c_str(), 0700), 0);
  ASSERT_EQ(mkdir(path("folder.svg").c_str(), 0700), 0);
  const std::vector<std::vector<std::string>> commands{
      {"report", sheet, "-o", path("no/such/out.pdf")}, {"report", sheet, "-o", path("folder.pdf")},
      {"report", sheet, "-o", old + "/out.pdf"},        {"draw", sheet, "-o", path("no/such/out.svg")},
      {"draw", sheet, "-o", path("no/such/out.png")},   {"draw", sheet, "-o", path("folder.svg")},
      {"draw", sheet, "-o", old + "/out.svg"}};
  for (auto command : commands)
    for (const char* code : {"en", "es"}) {
      auto asked = command;
      asked.insert(asked.end(), {"--lang", code});
      const auto ran = runWw(asked);
      EXPECT_EQ(ran.exit, 3) << command[0] << " " << command[3];
      EXPECT_EQ(ran.out, "");
      ASSERT_EQ(ran.complaints().size(), 1u) << ran.err;
      EXPECT_NE(ran.err.find(command[3]), std::string::npos) << ran.err;
      EXPECT_NE(ran.err.find(std::string(code) == "en" ? "Choose a folder" : "Elija una carpeta"),
                std::string::npos)
          << ran.err;
    }
  EXPECT_EQ(contentOf(old), "precious");
  EXPECT_THAT(names(), ::testing::UnorderedElementsAre("sheet.csv", "old.pdf", "folder.pdf", "folder.svg"));
}

TEST_F(BadInput, anOutputThatIsFullIsNoAnswer) {
  ASSERT_EQ(access("/dev/full", W_OK), 0) << "Linux has a full device";
  QProcess process;
  process.setStandardOutputFile(QStringLiteral("/dev/full"));
  process.start(QStringLiteral(WIREWRIGHT_WW),
                {"check", "--json", QString::fromStdString(demoPath("larkmoor-a.csv"))});
  ASSERT_TRUE(process.waitForFinished(120'000));
  EXPECT_EQ(process.exitCode(), 3);
  EXPECT_TRUE(process.readAllStandardError().startsWith("ww: The output cannot be written"));
}

TEST_F(BadInput, aCallOrAPictureThatThereIsNot) {
  const std::string sheet = file("sheet.csv", kRowA);
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{"solve", sheet, "--call", "heat9"},
                                             {"netlist", sheet, "--call", "heat9"},
                                             {"draw", sheet, "-o", path("x.svg"), "--call", "heat9"}}) {
    const auto ran = runWw(command);
    EXPECT_EQ(ran.exit, 2) << command[0];
    EXPECT_EQ(ran.err, "ww: There is no call heat9 on this sheet; it has rest, fan, cool1, heat1.\n");
  }
  const auto picture = runWw({"draw", sheet, "-o", path("x.bmp"), "--lang", "es"});
  EXPECT_EQ(picture.exit, 2);
  EXPECT_NE(picture.err.find(".svg"), std::string::npos);
  EXPECT_THAT(names(), ::testing::ElementsAre("sheet.csv"));
}

TEST(CommandLine, whatItDoesNotKnowEndsWithTwo) {
  const std::string sheet = demoPath("larkmoor-a.csv");
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{},
                                             {"check"},
                                             {"ponder", sheet},
                                             {"check", sheet, "--lang", "tlh"},
                                             {"check", sheet, "--nothing"},
                                             {"check", sheet, sheet},
                                             {"netlist", sheet},
                                             {"report", sheet},
                                             {"report", sheet, "-o", "x.pdf", "--paper", "a0"},
                                             {"draw", sheet, "-o", "x.svg", "--theme", "plaid"}}) {
    const auto ran = runWw(command);
    EXPECT_EQ(ran.exit, 2) << ::testing::PrintToString(command);
    EXPECT_NE(ran.err, "") << ::testing::PrintToString(command);
    EXPECT_EQ(ran.out, "") << ::testing::PrintToString(command);
  }
}

TEST(CommandLine, helpNamesEveryCommandAndOption) {
  const auto help = runWw({"--help"});
  EXPECT_EQ(help.exit, 0);
  for (const char* command : {"check", "solve", "netlist", "steps", "report", "draw"}) {
    EXPECT_NE(help.out.find(command), std::string::npos) << command;
    const auto own = runWw({command, "--help"});
    EXPECT_EQ(own.exit, 0) << command;
    for (const char* option : {"FILE", "--json", "--lang"})
      EXPECT_NE(own.out.find(option), std::string::npos) << command << " " << option;
  }
  EXPECT_EQ(runWw({"--version"}).exit, 0);
}

}  // namespace
}  // namespace ww
