// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

namespace ww::job {

/// 64 random bits.
using RandomBits = std::function<std::uint64_t()>;

/// A version 7 UUID (RFC 9562): 48 bits of Unix milliseconds, then random bits, in lower-case text.
std::string uuid7(std::uint64_t unixMilliseconds, const RandomBits& random);

/// Whether the text is a UUID in its usual spelling, whatever its version.
bool isUuid(std::string_view text);

/// SHA-256 of bytes, 64 hexadecimal digits.
std::string sha256(std::string_view bytes);

}  // namespace ww::job
