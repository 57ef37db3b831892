// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/data_folder.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace ww::history {

namespace {

namespace fs = std::filesystem;

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string() : std::string(value);
}

/// mountinfo writes blanks of a path as \040.
std::string unescaped(const std::string& text) {
  std::string result;
  for (size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 3 < text.size()) {
      result += static_cast<char>(std::strtol(text.substr(i + 1, 3).c_str(), nullptr, 8));
      i += 3;
    } else {
      result += text[i];
    }
  }
  return result;
}

bool liesBelow(const std::string& path, const std::string& point) {
  if (point == "/") return true;
  return path.starts_with(point) && (path.size() == point.size() || path[point.size()] == '/');
}

}  // namespace

std::string dataFolder(const std::optional<std::string>& chosen) {
  if (chosen && !chosen->empty()) return *chosen;
  const std::string data = environment("XDG_DATA_HOME");
  // The XDG base directory specification has relative paths ignored.
  if (data.starts_with('/')) return data + "/wirewright";
  return environment("HOME") + "/.local/share/wirewright";
}

std::string fileSystemKind(const std::string& path) {
  std::error_code none;
  fs::path there = fs::absolute(path, none);
  while (!fs::exists(there, none) && there.has_relative_path()) there = there.parent_path();
  const std::string real = fs::weakly_canonical(there, none).string();
  // Fields of a line: id, parent, device, root, mount point, options, tags..., "-", kind (proc(5)).
  std::ifstream mounts("/proc/self/mountinfo");
  std::string line;
  std::string kind;
  size_t longest = 0;
  while (std::getline(mounts, line)) {
    std::istringstream words(line);
    std::string skipped;
    std::string point;
    words >> skipped >> skipped >> skipped >> skipped >> point;
    const size_t dash = line.find(" - ");
    if (dash == std::string::npos) continue;
    point = unescaped(point);
    // A later mount at the same point lies over the earlier one.
    if (point.size() < longest || !liesBelow(real, point)) continue;
    longest = point.size();
    const size_t begin = dash + 3;
    kind = line.substr(begin, line.find(' ', begin) - begin);
  }
  return kind;
}

bool isNetwork(std::string_view kind) {
  static constexpr std::array kNetwork{
      "nfs",   "nfs4",      "cifs",   "smb3",           "smbfs",      "afs",         "ceph",       "coda",
      "ncpfs", "glusterfs", "lustre", "fuse.glusterfs", "fuse.sshfs", "fuse.rclone", "fuse.davfs", "davfs"};
  return std::find(kNetwork.begin(), kNetwork.end(), kind) != kNetwork.end();
}

}  // namespace ww::history
