// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/profile_folder.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "quantity/json.h"

namespace ww::history {

namespace {

namespace fs = std::filesystem;

/// Files that end in .json, by name. Folders and what else may stand there are no profiles.
std::vector<fs::path> filesOf(const std::string& folder) {
  std::vector<fs::path> files;
  std::error_code none;
  for (fs::directory_iterator at(folder, none), end; !none && at != end; at.increment(none))
    if (std::error_code kind; at->path().extension() == ".json" && at->is_regular_file(kind))
      files.push_back(at->path());
  std::sort(files.begin(), files.end());
  return files;
}

/// At most what a profile may weigh and one byte more; the reader says that it is too large.
std::optional<std::string> contentOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  std::string text(quantity::kMaxJsonBytes + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad()) return std::nullopt;
  text.resize(static_cast<size_t>(file.gcount()));
  return text;
}

std::string idIn(const std::string& text) {
  const auto parsed = quantity::parseJson(text);
  if (!parsed || !parsed.value->is_object()) return {};
  const auto at = parsed.value->find("id");
  return at != parsed.value->end() && at->is_string() ? at->get<std::string>() : std::string();
}

}  // namespace

equipment::OwnProfiles ProfileFolder::read(const equipment::Library& shipped) const {
  std::vector<equipment::ProfileFile> texts;
  std::vector<equipment::RefusedFile> refused;
  for (const fs::path& file : filesOf(folder_)) {
    const std::string name = file.filename().string();
    if (texts.size() + refused.size() >= kMostFiles) {
      refused.push_back({name, {{"", "own-too-many", {{"limit", std::to_string(kMostFiles)}}}}});
      break;
    }
    errno = 0;
    if (auto text = contentOf(file))
      texts.push_back({name, std::move(*text)});
    else
      refused.push_back({name, {{"", "own-unreadable", {{"detail", std::strerror(errno)}}}}});
  }
  auto own = equipment::withOwnProfiles(shipped, texts);
  own.refused.insert(own.refused.end(), refused.begin(), refused.end());
  return own;
}

std::string ProfileFolder::fileOf(const std::string& id) const {
  // Of two with one id the first is the one that is read.
  for (const fs::path& file : filesOf(folder_))
    if (const auto text = contentOf(file); text && idIn(*text) == id) return file.string();
  return {};
}

std::optional<job::SaveFailure> ProfileFolder::save(const std::string& id, std::string_view json) const {
  std::error_code failed;
  fs::create_directories(folder_, failed);
  if (failed) return job::SaveFailure{job::SaveFailure::Step::open, failed.message()};
  const std::string there = fileOf(id);
  return job::saveFile(there.empty() ? folder_ + "/" + id + ".json" : there, json);
}

std::optional<std::string> ProfileFolder::bin(const std::string& id) const {
  const std::string file = fileOf(id);
  if (file.empty()) return std::nullopt;
  const fs::path bin = fs::path(folder_) / "bin";
  std::error_code failed;
  fs::create_directories(bin, failed);
  std::string name = id + ".json";
  for (int copy = 2; fs::exists(bin / name, failed); ++copy) name = id + "-" + std::to_string(copy) + ".json";
  fs::rename(file, bin / name, failed);
  return failed ? std::nullopt : std::optional(name);
}

bool ProfileFolder::restore(const std::string& id, const std::string& binned) const {
  std::error_code failed;
  const fs::path target = fs::path(folder_) / (id + ".json");
  if (!fileOf(id).empty() || fs::exists(target, failed)) return false;
  fs::rename(fs::path(folder_) / "bin" / binned, target, failed);
  return !failed;
}

}  // namespace ww::history
