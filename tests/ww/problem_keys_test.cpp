// SPDX-License-Identifier: GPL-3.0-or-later
// Every problem that a reader can tell has its sentence in both languages. The keys come from the sources of
// the rooms that read, so that a new one cannot be forgotten.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <string>

namespace {

namespace fs = std::filesystem;

/// Words with a dash that the reading rooms use for something else than a problem.
const std::set<std::string> kOtherWords{"true-or-false", "whole-number", "furnace-1", "more-problems"};

std::string contentOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string withoutComments(std::string text) { return std::regex_replace(text, std::regex("//[^\n]*"), ""); }

/// Text literals of the shape of a key in the room's sources.
std::set<std::string> keysIn(const std::string& room) {
  std::set<std::string> keys;
  const std::regex literal("\"([a-z0-9]+(?:-[a-z0-9]+)+)\"");
  for (const auto& entry :
       fs::directory_iterator(fs::path(WIREWRIGHT_RESOURCES_DIR) / ".." / "core" / room)) {
    if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h") continue;
    const std::string text = withoutComments(contentOf(entry.path()));
    for (std::sregex_iterator at(text.begin(), text.end(), literal), end; at != end; ++at)
      if (const std::string key = (*at)[1]; !key.starts_with("wirewright-")) keys.insert(key);
  }
  return keys;
}

std::set<std::string> allKeys() {
  std::set<std::string> all;
  for (const char* room : {"quantity", "equipment", "settings", "sheet", "job", "history"})
    all.merge(keysIn(room));
  for (const std::string& word : kOtherWords)
    if (word != "more-problems") all.erase(word);
  return all;
}

std::map<std::string, std::string> sentences(const std::string& language) {
  const std::string path = std::string(WIREWRIGHT_RESOURCES_DIR) + "/translations/" + language + ".json";
  return nlohmann::json::parse(contentOf(path))["problem"];
}

/// "unknown-setting+known" and "unknown-setting" both speak of unknown-setting.
std::string keyOf(const std::string& entry) { return entry.substr(0, entry.find('+')); }

TEST(ProblemKeys, haveASentenceInBothLanguages) {
  const auto keys = allKeys();
  ASSERT_GT(keys.size(), 90u) << "the sources were not found, or are written otherwise now";
  for (const char* language : {"en", "es"}) {
    std::set<std::string> said;
    for (const auto& sentence : sentences(language)) said.insert(keyOf(sentence.first));
    for (const std::string& key : keys)
      EXPECT_TRUE(said.contains(key)) << key << " has no sentence in " << language;
  }
}

TEST(ProblemKeys, noSentenceIsLeftFromAKeyThatIsGone) {
  const auto keys = allKeys();
  for (const char* language : {"en", "es"})
    for (const auto& [entry, text] : sentences(language))
      EXPECT_TRUE(keys.contains(keyOf(entry))) << entry << " in " << language;
}

TEST(ProblemKeys, aSentenceSaysWhatWouldBeRight) {
  const auto keys = allKeys();
  for (const char* language : {"en", "es"})
    for (const auto& [entry, text] : sentences(language)) {
      bool saysMore = false;
      for (const char* mark : {";", ". ", "must", "debe", "{known}", "{want}"})
        saysMore |= text.find(mark) != std::string::npos;
      EXPECT_TRUE(saysMore) << language << " " << entry << ": " << text;
      for (const auto& key : keys) EXPECT_EQ(text.find(key), std::string::npos) << entry;
    }
}

}  // namespace
