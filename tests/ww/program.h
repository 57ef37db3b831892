// SPDX-License-Identifier: GPL-3.0-or-later
// The installed command as a process, for the tests of this folder.
#pragma once

#include <gtest/gtest.h>

#include <QProcess>
#include <QTemporaryDir>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace ww::testing {

struct Ran {
  std::string out, err;
  int exit = -1;  ///< -1: it did not end by itself
  nlohmann::json json() const { return nlohmann::json::parse(out, nullptr, false); }
  std::vector<std::string> complaints() const {
    std::vector<std::string> lines;
    for (const QString& line : QString::fromStdString(err).split(u'\n', Qt::SkipEmptyParts))
      lines.push_back(line.toStdString());
    return lines;
  }
};

inline Ran runWw(const std::vector<std::string>& arguments) {
  QStringList list;
  for (const std::string& argument : arguments) list << QString::fromStdString(argument);
  QProcess process;
  process.start(QStringLiteral(WIREWRIGHT_WW), list);
  Ran ran;
  if (!process.waitForFinished(120'000)) return ran;
  ran.out = process.readAllStandardOutput().toStdString();
  ran.err = process.readAllStandardError().toStdString();
  if (process.exitStatus() == QProcess::NormalExit) ran.exit = process.exitCode();
  return ran;
}

inline std::string demoPath(const std::string& name) {
  return std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + name;
}

inline std::string contentOf(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A test with a folder of its own that goes with it.
class InFolder : public ::testing::Test {
 protected:
  std::string path(const std::string& name) const {
    return folder_.filePath(QString::fromStdString(name)).toStdString();
  }
  std::string file(const std::string& name, const std::string& content) const {
    std::ofstream(path(name), std::ios::binary) << content;
    return path(name);
  }
  /// Names in the folder, hidden ones too.
  std::vector<std::string> names() const {
    std::vector<std::string> found;
    const QDir folder(folder_.path());
    for (const QString& name : folder.entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot))
      found.push_back(name.toStdString());
    return found;
  }

 private:
  QTemporaryDir folder_;
};

}  // namespace ww::testing
