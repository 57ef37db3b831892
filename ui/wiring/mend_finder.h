// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>
#include <vector>

#include "operation/solution.h"
#include "verify/check.h"

namespace ww::wiring {

/// What would mend something, ready to be shown and done.
struct Mend {
  QString act;                        ///< "Land OG on O at the outdoor unit"
  QString effect;                     ///< "clears 2 of 3 · all 7 calls right"
  std::optional<sheet::Sheet> after;  ///< nothing where it is to find out why something opened, or hardware
  std::vector<std::string> clears;    ///< keys of findings; empty: told with every one
};

/// What a search is asked.
struct MendQuestion {
  sheet::Sheet sheet;
  verify::SheetCheck check;
  operation::LineRange lines;
  equipment::Library library;
};
/// Gives the mends, best first; looks at `stop` now and then.
using SearchMends = std::function<std::vector<Mend>(const MendQuestion&, const std::stop_token& stop)>;

/// Looks for mends on a thread beside: the latest question wins, a search that was overtaken is stopped and
/// what it found dropped.
class MendFinder : public QObject {
  Q_OBJECT
 public:
  explicit MendFinder(SearchMends search, QObject* parent = nullptr);
  ~MendFinder() override;

  void ask(MendQuestion question);
  /// Stops what is under way.
  void forget();
  bool searching() const { return asked_ != answered_; }

 Q_SIGNALS:
  void found(const std::vector<ww::wiring::Mend>& mends);

 private:
  void work(const std::stop_token& quit);
  void handOver(unsigned number, const std::vector<Mend>& mends);

  SearchMends search_;
  unsigned asked_ = 0, answered_ = 0;  ///< of the window's thread
  std::mutex mutex_;
  std::condition_variable_any wake_;
  std::optional<std::pair<unsigned, MendQuestion>> question_;
  std::stop_source current_;
  std::jthread thread_;
};

}  // namespace ww::wiring
