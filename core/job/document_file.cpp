// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/document_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <nlohmann/json.hpp>

#include "job/job_json.h"
#include "quantity/json.h"
#include "quantity/text.h"
#include "sheet/sheet_csv.h"
#include "sheet/sheet_json.h"

namespace ww::job {

namespace {

using quantity::Loaded;
using quantity::Problem;

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

Loaded<Job> ofSheet(Loaded<sheet::Sheet> sheet) {
  if (!sheet) return Loaded<Job>::failed(std::move(sheet.problems));
  Job job;
  job.planned = std::move(*sheet.value);
  return Loaded<Job>::ok(std::move(job));
}

Loaded<Job> failed(std::string key, std::vector<std::pair<std::string, std::string>> args = {}) {
  return Loaded<Job>::failed({Problem{"", std::move(key), std::move(args)}});
}

Loaded<Job> readJsonDocument(std::string_view text, const equipment::Library& library) {
  const auto parsed = quantity::parseJson(text, kMostJobBytes);
  if (!parsed) return Loaded<Job>::failed(parsed.problems);
  const auto format = parsed.value->is_object() ? parsed.value->find("format") : parsed.value->end();
  const bool named = parsed.value->is_object() && format != parsed.value->end() && format->is_string();
  const std::string found = named ? format->get<std::string>() : std::string();
  if (found == kJobFormat) return readJob(text, library);
  if (found == sheet::kSheetFormat) return ofSheet(sheet::readSheetFile(text, library));
  return failed("unknown-format",
                {{"found", quantity::cited(found)},
                 {"known", std::string(kJobFormat) + ", " + std::string(sheet::kSheetFormat)}});
}

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

bool writeAll(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(size_t(written));
  }
  return ::fsync(descriptor) == 0;
}

SaveFailure failure(SaveFailure::Step step) { return {step, std::strerror(errno)}; }

/// Renaming over a device or a pipe would put a file in its place.
std::optional<SaveFailure> notAFile(const std::string& path) {
  struct stat status;
  if (::stat(path.c_str(), &status) != 0 || S_ISREG(status.st_mode)) return std::nullopt;
  errno = S_ISDIR(status.st_mode) ? EISDIR : EINVAL;
  return failure(SaveFailure::Step::open);
}

/// So that the new name outlives a loss of power; a file system that cannot is no failure of the save.
void flushFolderOf(const std::string& path) {
  const size_t slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (opened.number() >= 0) ::fsync(opened.number());
}

}  // namespace

Loaded<Job> readDocument(std::string_view text, const equipment::Library& library) {
  std::string_view body = text;
  if (body.starts_with(kByteOrderMark)) body.remove_prefix(kByteOrderMark.size());
  const std::string_view content = quantity::trimmed(body);
  if (content.empty()) return failed("empty-file");
  if (content.front() == '{' || content.front() == '[') return readJsonDocument(body, library);
  return ofSheet(sheet::readCsv(text, library));
}

std::optional<SaveFailure> saveFile(const std::string& path, std::string_view bytes) {
  if (auto refused = notAFile(path)) return refused;
  const std::string beside = path + ".part";
  {
    const Descriptor file(::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (file.number() < 0) return failure(SaveFailure::Step::open);
    if (!writeAll(file.number(), bytes)) {
      const auto why = failure(SaveFailure::Step::write);
      ::unlink(beside.c_str());
      return why;
    }
  }
  if (std::rename(beside.c_str(), path.c_str()) == 0) {
    flushFolderOf(path);
    return std::nullopt;
  }
  const auto why = failure(SaveFailure::Step::rename);
  ::unlink(beside.c_str());
  return why;
}

}  // namespace ww::job
