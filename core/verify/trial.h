// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "verify/check.h"
#include "verify/forbidden.h"

namespace ww::verify {

/// What became of a sheet that was tried.
struct Tried {
  SheetCheck check;
  std::optional<Forbidden> forbidden;
  /// Every call of the sheet it came from is still made, with at least the same duties.
  bool sameCalls = true;
  /// Calls are no longer made that were wrong before: another control may have none of them.
  bool fewerCalls = false;
};

/// Tries changed sheets against the one they came from. Shared by threads.
class Trials {
 public:
  Trials(const sheet::Sheet& sheet, const equipment::Library& library, const SheetCheck& check,
         operation::LineRange lines);

  /// The whole check of a changed sheet; nothing where it spoils a rest that was right.
  std::optional<Tried> whole(const sheet::Sheet& changed) const;
  /// The same, given up (nothing) at the first call that still does not run what it must. Most changes of a
  /// sheet are told from good ones by a fifth of the work.
  std::optional<Tried> promising(const sheet::Sheet& changed) const;

 private:
  Tried finish(const sheet::Sheet& changed) const;

  const equipment::Library& library_;
  const SheetCheck& check_;
  operation::LineRange lines_;
  Protected protected_;
  std::vector<std::string> wrong_;  ///< calls that do not run what they must, besides rest
  bool restRight_ = true;
};

/// Calls `work` with every index below `count`, on as many threads; each index once, in no order.
void inParallel(size_t count, unsigned threads, const std::stop_token& stop,
                const std::function<void(size_t)>& work);

}  // namespace ww::verify
