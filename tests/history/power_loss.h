// SPDX-License-Identifier: GPL-3.0-or-later
// A file layer for SQLite that stands in for a loss of power: whatever was written since the last sync of its
// file may be forgotten, kept, or torn at 512 bytes.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace ww::testing {

/// The disk under one store. Files go through to the system's, so that reading needs nothing; what a loss of
/// power would leave is kept beside.
class PowerLossDisk {
 public:
  explicit PowerLossDisk(const char* name) : name_(name), system_(sqlite3_vfs_find(nullptr)) {
    vfs_ = *system_;
    vfs_.zName = name_.c_str();
    vfs_.pNext = nullptr;
    vfs_.pAppData = this;
    vfs_.szOsFile = static_cast<int>(sizeof(File)) + system_->szOsFile;
    vfs_.xOpen = &PowerLossDisk::open;
    vfs_.xDelete = &PowerLossDisk::remove;
    sqlite3_vfs_register(&vfs_, 0);
  }
  ~PowerLossDisk() { sqlite3_vfs_unregister(&vfs_); }
  PowerLossDisk(const PowerLossDisk&) = delete;
  PowerLossDisk& operator=(const PowerLossDisk&) = delete;

  /// The power fails at the write of that number from now.
  void failAfter(std::uint64_t writes) { left_ = writes; }
  bool isOff() const { return off_; }
  /// What lies on the disk afterwards, written to a folder.
  void leftTo(const std::string& folder, std::uint64_t seed) const {
    std::mt19937_64 random(seed);
    for (const auto& [path, state] : files_) {
      std::string image = state->synced;
      for (const Change& change : state->since) apply(change, image, random);
      std::ofstream file(folder + "/" + std::filesystem::path(path).filename().string(), std::ios::binary);
      file.write(image.data(), static_cast<std::streamsize>(image.size()));
    }
  }
  std::uint64_t syncs() const { return syncs_; }

 private:
  struct Change {
    std::uint64_t at = 0;
    std::string bytes;
    bool truncates = false;
  };
  struct Kept {
    std::string synced;
    std::vector<Change> since;
  };
  struct File {
    sqlite3_file base;
    PowerLossDisk* disk;
    Kept* kept;  ///< null for files that nobody would miss
    sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
  };

  static void apply(const Change& change, std::string& image) {
    if (change.truncates) {
      image.resize(change.at);
      return;
    }
    if (image.size() < change.at + change.bytes.size()) image.resize(change.at + change.bytes.size());
    image.replace(change.at, change.bytes.size(), change.bytes);
  }
  static void apply(const Change& change, std::string& image, std::mt19937_64& random) {
    constexpr std::uint64_t kSector = 512;
    switch (random() % 3) {
      case 0: return;
      case 1: apply(change, image); return;
      default: break;
    }
    if (change.truncates) return;
    for (std::uint64_t begin = 0; begin < change.bytes.size();) {
      const std::uint64_t length =
          std::min<std::uint64_t>(kSector - (change.at + begin) % kSector, change.bytes.size() - begin);
      if (random() % 2 == 0) apply({change.at + begin, change.bytes.substr(begin, length), false}, image);
      begin += length;
    }
  }

  static File* fileOf(sqlite3_file* file) { return reinterpret_cast<File*>(file); }
  static PowerLossDisk* diskOf(sqlite3_vfs* vfs) { return static_cast<PowerLossDisk*>(vfs->pAppData); }
  bool fails() {
    if (!off_ && left_-- == 0) off_ = true;
    return off_;
  }

  static int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* handle, int flags, int* outFlags) {
    PowerLossDisk* disk = diskOf(vfs);
    File* file = fileOf(handle);
    file->base.pMethods = nullptr;
    file->disk = disk;
    file->kept = nullptr;
    const int result = disk->system_->xOpen(disk->system_, name, file->real(), flags, outFlags);
    if (result != SQLITE_OK) return result;
    if (name != nullptr &&
        (flags & (SQLITE_OPEN_MAIN_DB | SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL)) != 0) {
      auto& kept = disk->files_[name];
      if (!kept) kept = std::make_unique<Kept>();
      file->kept = kept.get();
    }
    file->base.pMethods = methods();
    return SQLITE_OK;
  }
  static int remove(sqlite3_vfs* vfs, const char* name, int syncFolder) {
    PowerLossDisk* disk = diskOf(vfs);
    if (disk->off_) return SQLITE_IOERR_DELETE;
    disk->files_.erase(name);
    return disk->system_->xDelete(disk->system_, name, syncFolder);
  }
  static int close(sqlite3_file* file) {
    return fileOf(file)->real()->pMethods->xClose(fileOf(file)->real());
  }
  static int read(sqlite3_file* file, void* into, int amount, sqlite3_int64 at) {
    return fileOf(file)->real()->pMethods->xRead(fileOf(file)->real(), into, amount, at);
  }
  static int write(sqlite3_file* file, const void* from, int amount, sqlite3_int64 at) {
    File* own = fileOf(file);
    if (own->kept != nullptr) {
      // The write under way when the power fails may be on the disk in part.
      const bool wasOff = own->disk->off_;
      const bool fails = own->disk->fails();
      if (!wasOff)
        own->kept->since.push_back({static_cast<std::uint64_t>(at),
                                    {static_cast<const char*>(from), static_cast<size_t>(amount)},
                                    false});
      if (fails) return SQLITE_IOERR_WRITE;
    }
    return own->real()->pMethods->xWrite(own->real(), from, amount, at);
  }
  static int truncate(sqlite3_file* file, sqlite3_int64 size) {
    File* own = fileOf(file);
    if (own->kept != nullptr) {
      if (own->disk->fails()) return SQLITE_IOERR_TRUNCATE;
      own->kept->since.push_back({static_cast<std::uint64_t>(size), {}, true});
    }
    return own->real()->pMethods->xTruncate(own->real(), size);
  }
  static int sync(sqlite3_file* file, int /*flags*/) {
    File* own = fileOf(file);
    if (own->kept == nullptr) return SQLITE_OK;
    if (own->disk->off_) return SQLITE_IOERR_FSYNC;
    for (const Change& change : own->kept->since) apply(change, own->kept->synced);
    own->kept->since.clear();
    ++own->disk->syncs_;
    return SQLITE_OK;
  }
  static int size(sqlite3_file* file, sqlite3_int64* bytes) {
    return fileOf(file)->real()->pMethods->xFileSize(fileOf(file)->real(), bytes);
  }
  static int lock(sqlite3_file* file, int kind) {
    return fileOf(file)->real()->pMethods->xLock(fileOf(file)->real(), kind);
  }
  static int unlock(sqlite3_file* file, int kind) {
    return fileOf(file)->real()->pMethods->xUnlock(fileOf(file)->real(), kind);
  }
  static int reserved(sqlite3_file* file, int* result) {
    return fileOf(file)->real()->pMethods->xCheckReservedLock(fileOf(file)->real(), result);
  }
  static int control(sqlite3_file* file, int what, void* argument) {
    return fileOf(file)->real()->pMethods->xFileControl(fileOf(file)->real(), what, argument);
  }
  static int sectorSize(sqlite3_file* /*file*/) { return 512; }
  /// Nothing is promised about the order or the wholeness of writes.
  static int characteristics(sqlite3_file* /*file*/) { return 0; }
  static int shmMap(sqlite3_file* file, int page, int pageSize, int extend, void volatile** at) {
    return fileOf(file)->real()->pMethods->xShmMap(fileOf(file)->real(), page, pageSize, extend, at);
  }
  static int shmLock(sqlite3_file* file, int offset, int count, int flags) {
    return fileOf(file)->real()->pMethods->xShmLock(fileOf(file)->real(), offset, count, flags);
  }
  static void shmBarrier(sqlite3_file* file) {
    fileOf(file)->real()->pMethods->xShmBarrier(fileOf(file)->real());
  }
  static int shmUnmap(sqlite3_file* file, int forget) {
    return fileOf(file)->real()->pMethods->xShmUnmap(fileOf(file)->real(), forget);
  }
  static const sqlite3_io_methods* methods() {
    static const sqlite3_io_methods all{
        2,        close,    read,    write,      truncate,        sync,   size,    lock,
        unlock,   reserved, control, sectorSize, characteristics, shmMap, shmLock, shmBarrier,
        shmUnmap, nullptr,  nullptr};
    return &all;
  }

  std::string name_;
  sqlite3_vfs* system_;
  sqlite3_vfs vfs_{};
  std::map<std::string, std::unique_ptr<Kept>> files_;
  std::uint64_t left_ = ~std::uint64_t{0};
  std::uint64_t syncs_ = 0;
  bool off_ = false;
};

}  // namespace ww::testing
