// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <mutex>

#include "history/reader.h"
#include "jobs/shelf.h"
#include "session/surroundings.h"
#include "shell/latest_worker.h"

namespace ww::shell {

/// A job of the store as the list names it: its UUID, and "#2" behind it for a sibling.
std::string entryId(const history::JobRef& ref);
history::JobRef refOf(const std::string& entryId);

/// The list as the store has it, read on threads beside: a question that is overtaken is interrupted.
class StoreShelf : public jobs::Shelf {
 public:
  StoreShelf() = default;
  ~StoreShelf() override;

  /// Reads from this store, or from none: then every answer is empty and says why.
  void setStore(const history::Store* store, const QString& problem);
  void setSurroundings(const session::Surroundings& around);

  void search(const QString& query, size_t from, size_t count) override;
  void preview(const std::string& id) override;
  std::vector<jobs::Choice> dates() const override;
  std::vector<jobs::Choice> states() const override;
  std::vector<jobs::Choice> systems() const override;
  std::vector<jobs::Choice> installers() const override;

 private:
  jobs::Answer answer(const QString& query, size_t from, size_t count) const;
  history::Choices choices() const;

  const session::Surroundings* around_ = nullptr;
  QString problem_;
  std::unique_ptr<history::Reader> found_, previewed_, chosen_;
  unsigned searches_ = 0, previews_ = 0;  ///< numbers of the latest questions; older answers are dropped
  std::unique_ptr<LatestWorker> searching_, previewing_;
};

}  // namespace ww::shell
