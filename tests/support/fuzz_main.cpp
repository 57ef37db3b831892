// SPDX-License-Identifier: GPL-3.0-or-later

// Drives a fuzz target without libFuzzer: first every file of its corpus as it is, then a seeded sequence of
// mutations of those files, of splices of two, and of random bytes. The same seed gives the same inputs. A
// crash names its round; --round N replays that one alone and writes its input to standard output.

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

using Bytes = std::vector<std::uint8_t>;
using Random = std::mt19937_64;

volatile std::sig_atomic_t currentRound = -1;

extern "C" void tellRound(int signal) {
  std::fprintf(stderr, "stopped by signal %d in round %d\n", signal, static_cast<int>(currentRound));
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

struct Options {
  std::string corpus;
  std::uint64_t seed = 1;
  std::uint64_t rounds = 20000;
  double seconds = 20;
  std::int64_t only = -1;
};

std::vector<Bytes> readCorpus(const std::string& folder) {
  std::vector<std::filesystem::path> paths;
  std::error_code none;
  for (const auto& entry : std::filesystem::directory_iterator(folder, none))
    if (entry.is_regular_file()) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  std::vector<Bytes> corpus;
  for (const auto& path : paths) {
    std::ifstream file(path, std::ios::binary);
    corpus.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return corpus;
}

// The standard's distributions differ between libraries; a remainder does not.
std::size_t below(Random& random, std::size_t limit) { return limit == 0 ? 0 : random() % limit; }

std::uint8_t awkwardByte(Random& random) {
  static constexpr char awkward[] = "\"\\{}[]:,;.-+0123456789eE#*/ \n\r\t\0ntrue\xff\x80\xef";
  return static_cast<std::uint8_t>(awkward[below(random, sizeof awkward - 1)]);
}

void mutate(Bytes& bytes, Random& random) {
  const std::size_t place = below(random, bytes.size() + 1);
  const auto at = bytes.begin() + static_cast<std::ptrdiff_t>(place);
  const std::size_t length = std::min(bytes.size() - place, 1 + below(random, 24));
  const auto end = at + static_cast<std::ptrdiff_t>(length);
  switch (below(random, 7)) {
    case 0: bytes.insert(at, awkwardByte(random)); break;
    case 1: bytes.insert(at, static_cast<std::uint8_t>(random())); break;
    case 2: bytes.erase(at, end); break;
    case 3:
      if (length > 0) *at = awkwardByte(random);
      break;
    case 4:
      if (length > 0) *at = static_cast<std::uint8_t>(*at ^ (1U << below(random, 8)));
      break;
    case 5: {
      const Bytes piece(at, end);
      for (std::size_t times = 1 + below(random, 4); times > 0; --times)
        bytes.insert(bytes.begin() + static_cast<std::ptrdiff_t>(place), piece.begin(), piece.end());
      break;
    }
    default: bytes.resize(place); break;
  }
}

Bytes randomBytes(Random& random) {
  Bytes bytes(below(random, 256));
  for (auto& byte : bytes) byte = random() % 2 ? awkwardByte(random) : static_cast<std::uint8_t>(random());
  return bytes;
}

Bytes makeInput(const std::vector<Bytes>& corpus, std::uint64_t seed, std::uint64_t round) {
  Random random(seed * 0x9e3779b97f4a7c15ULL + round);
  if (corpus.empty() || below(random, 16) == 0) return randomBytes(random);
  Bytes bytes = corpus[below(random, corpus.size())];
  if (below(random, 8) == 0) {
    const Bytes& other = corpus[below(random, corpus.size())];
    bytes.resize(below(random, bytes.size() + 1));
    bytes.insert(bytes.end(), other.begin() + static_cast<std::ptrdiff_t>(below(random, other.size() + 1)),
                 other.end());
  }
  for (std::size_t times = 1 + below(random, 6); times > 0; --times) mutate(bytes, random);
  return bytes;
}

Options readOptions(int count, char** words) {
  Options options;
  for (int i = 1; i + 1 < count; i += 2) {
    const std::string word = words[i];
    const char* value = words[i + 1];
    if (word == "--corpus") options.corpus = value;
    if (word == "--seed") options.seed = std::strtoull(value, nullptr, 10);
    if (word == "--rounds") options.rounds = std::strtoull(value, nullptr, 10);
    if (word == "--seconds") options.seconds = std::strtod(value, nullptr);
    if (word == "--round") options.only = std::strtoll(value, nullptr, 10);
  }
  return options;
}

}  // namespace

int main(int count, char** words) {
  const Options options = readOptions(count, words);
  for (int signal : {SIGSEGV, SIGABRT, SIGFPE, SIGILL, SIGBUS}) std::signal(signal, tellRound);
  const auto corpus = readCorpus(options.corpus);
  for (const Bytes& bytes : corpus) LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
  if (options.only >= 0) {
    const Bytes bytes = makeInput(corpus, options.seed, static_cast<std::uint64_t>(options.only));
    std::fwrite(bytes.data(), 1, bytes.size(), stdout);
    LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
    return 0;
  }
  const auto start = std::chrono::steady_clock::now();
  std::uint64_t round = 0;
  for (; round < options.rounds; ++round) {
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    if (spent.count() > options.seconds) break;
    currentRound = static_cast<std::sig_atomic_t>(round);
    const Bytes bytes = makeInput(corpus, options.seed, round);
    LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
  }
  std::printf("%zu corpus files, %llu mutated inputs\n", corpus.size(),
              static_cast<unsigned long long>(round));
}
