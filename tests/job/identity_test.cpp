// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/identity.h"

#include <gtest/gtest.h>

#include <random>
#include <set>

namespace ww::job {
namespace {

// RFC 9562, appendix A.6: 2022-02-22 19:22:22 UTC, rand_a CC3, rand_b 18C4DC0C0C07398F.
TEST(Uuid7, theExampleOfItsStandard) {
  const std::uint64_t draws[] = {0x18C40000ull | 0xCC3, 0xDC0C0C07398Full};
  int at = 0;
  EXPECT_EQ(uuid7(0x017F22E279B0, [&] { return draws[at++]; }), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

TEST(Uuid7, sortsByTimeAndDiffersByChance) {
  std::mt19937_64 random(1);
  const RandomBits bits = [&] { return random(); };
  std::set<std::string> seen;
  std::string before;
  for (std::uint64_t time = 1'700'000'000'000; time < 1'700'000'002'000; ++time) {
    const std::string id = uuid7(time, bits);
    EXPECT_TRUE(isUuid(id)) << id;
    EXPECT_EQ(id[14], '7');
    EXPECT_NE(std::string("89ab").find(id[19]), std::string::npos) << id;
    EXPECT_LT(before.substr(0, 13), id.substr(0, 13));
    EXPECT_TRUE(seen.insert(id.substr(14)).second) << id;
    before = id;
  }
}

TEST(Uuid7, whatIsNone) {
  const std::string sound = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
  EXPECT_TRUE(isUuid(sound));
  EXPECT_FALSE(isUuid(""));
  EXPECT_FALSE(isUuid(sound + "0"));
  EXPECT_FALSE(isUuid(sound.substr(1)));
  EXPECT_FALSE(isUuid("017F22E2-79B0-7CC3-98C4-DC0C0C07398F"));
  EXPECT_FALSE(isUuid("017f22e2079b0-7cc3-98c4-dc0c0c07398f"));
  EXPECT_FALSE(isUuid("g17f22e2-79b0-7cc3-98c4-dc0c0c07398f"));
}

// FIPS 180-2, appendix B, and the empty message.
TEST(Sha256, theExamplesOfItsStandard) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

}  // namespace
}  // namespace ww::job
