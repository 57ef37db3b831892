// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace ww::history {

/// The folder where jobs, backups and preferences lie: the one chosen, else $XDG_DATA_HOME/wirewright, else
/// $HOME/.local/share/wirewright. Nothing is made.
std::string dataFolder(const std::optional<std::string>& chosen);

/// Name of the kind of file system a path lies on ("ext4", "nfs4", "fuse.sshfs"); empty when unknown. The
/// path need not exist; its nearest folder that does is asked.
using FileSystemKind = std::function<std::string(const std::string& path)>;
std::string fileSystemKind(const std::string& path);

/// Whether files of that kind of file system lie on another machine, where a write-ahead log cannot be
/// shared.
bool isNetwork(std::string_view fileSystemKind);

}  // namespace ww::history
