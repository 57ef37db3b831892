// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/identity.h"

#include <nettle/sha2.h>

#include <array>

namespace ww::job {

namespace {

constexpr std::string_view kHex = "0123456789abcdef";

void appendHex(std::string& text, std::uint64_t value, int digits) {
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4) text += kHex[(value >> shift) & 0xF];
}

}  // namespace

std::string uuid7(std::uint64_t unixMilliseconds, const RandomBits& random) {
  const std::uint64_t a = random();
  const std::uint64_t b = random();
  std::string text;
  appendHex(text, unixMilliseconds >> 16, 8);
  text += '-';
  appendHex(text, unixMilliseconds & 0xFFFF, 4);
  text += "-7";
  appendHex(text, a & 0xFFF, 3);
  text += '-';
  appendHex(text, 0x8000 | (a >> 16 & 0x3FFF), 4);
  text += '-';
  appendHex(text, b, 12);
  return text;
}

bool isUuid(std::string_view text) {
  if (text.size() != 36) return false;
  for (size_t i = 0; i < text.size(); ++i) {
    const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
    if (dash ? text[i] != '-' : kHex.find(text[i]) == std::string_view::npos) return false;
  }
  return true;
}

std::string sha256(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest;
  sha256_digest(&context, digest.size(), digest.data());
  std::string text;
  for (const std::uint8_t byte : digest) appendHex(text, byte, 2);
  return text;
}

}  // namespace ww::job
