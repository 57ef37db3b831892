// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/mends.h"

#include <algorithm>
#include <array>
#include <set>
#include <tuple>
#include <utility>

#include "verify/mend_candidates.h"
#include "verify/mend_sets.h"
#include "verify/trial.h"

namespace ww::verify {

namespace {

/// How bad a checked sheet is: stops, fails, warnings, notes.
using Score = std::array<int, 4>;

Score scoreOf(const SheetCheck& check) {
  Score score{};
  for (const Finding& finding : check.findings) ++score[size_t(Severity::stop) - size_t(finding.severity)];
  return score;
}

bool aboveNote(const Score& score) { return score[0] + score[1] + score[2] > 0; }

std::vector<std::string> keysAboveNote(const SheetCheck& check) {
  std::vector<std::string> keys;
  for (const Finding& finding : check.findings)
    if (finding.severity > Severity::note) keys.push_back(keyOf(finding));
  return keys;
}

struct Attempt {
  std::vector<Edit> edits;
  int cost = 0;
  size_t order = 0;  ///< of the search: rank, kind, ids
  std::optional<Tried> tried;
};

class Search {
 public:
  Search(const sheet::Sheet& sheet, const equipment::Library& library, const SheetCheck& check,
         const MendLimits& limits, const std::stop_token& stop)
      : sheet_(sheet),
        library_(library),
        check_(check),
        limits_(limits),
        stop_(stop),
        trials_(sheet, library, check, limits.lines),
        before_(scoreOf(check)),
        keys_(keysAboveNote(check)) {
    for (const Finding& finding : check.findings)
      if (finding.severity == Severity::stop) stops_.insert(finding.rule);
  }

  std::vector<Mend> run() {
    if (!aboveNote(before_)) return {};
    candidates_ = candidatesOf(sheet_, library_, check_);
    if (!singles() && !together(floatsIntoHot(sheet_, library_, check_)) &&
        !together(stagesCounted(sheet_, library_, check_)) && !pairs())
      hardware();
    return result();
  }

 private:
  bool done() const { return !cures_.empty(); }
  bool exhausted() const { return stop_.stop_requested() || trialsMade_ >= limits_.mostTrials; }

  /// Tries all, in as many threads; what clears everything goes to the cures, in the order of the attempts.
  void attempt(std::vector<Attempt>& attempts, bool whole) {
    if (const size_t left = limits_.mostTrials - std::min(trialsMade_, limits_.mostTrials);
        attempts.size() > left)
      attempts.resize(left);
    trialsMade_ += attempts.size();
    inParallel(attempts.size(), limits_.threads, stop_, [&](size_t i) {
      const sheet::Sheet changed = edited(sheet_, attempts[i].edits);
      if (whole)
        attempts[i].tried = trials_.whole(changed);
      else
        attempts[i].tried = trials_.promising(changed);
    });
    for (Attempt& each : attempts) {
      each.order = order_++;
      if (!each.tried || !asksAsMuch(each) || !cured(*each.tried)) continue;
      if (!each.tried->forbidden)
        cures_.push_back(each);
      else if (each.tried->forbidden->why == Forbidden::Why::safety && !opened_)
        opened_ = each.tried->forbidden->place;
    }
  }

  /// Calls go with a control that could not be heard on them, and with nothing else.
  static bool asksAsMuch(const Attempt& attempt) {
    return attempt.tried->sameCalls &&
           (!attempt.tried->fewerCalls || attempt.edits.front().kind == Edit::Kind::exchange);
  }

  /// Nothing above a note, the safety aside that a forbidden change leaves without a load.
  static bool cured(const Tried& tried) {
    return std::none_of(tried.check.findings.begin(), tried.check.findings.end(),
                        [&](const Finding& finding) {
                          const bool around = tried.forbidden && finding.rule == "safety-misplaced";
                          return finding.severity > Severity::note && !around;
                        });
  }

  std::vector<Attempt> attemptsOf(int rank, int least, int most) const {
    std::vector<Attempt> attempts;
    for (const Candidate& candidate : candidates_)
      if (const int cost = costOf(candidate.edit); candidate.rank == rank && cost >= least && cost <= most)
        attempts.push_back({{candidate.edit}, cost, 0, {}});
    return attempts;
  }

  /// Edits of cost 1, rank by rank; the ranks stop at the first that has a cure.
  bool singles() {
    for (int rank = 0; rank <= 3 && !done() && !exhausted(); ++rank) {
      auto attempts = attemptsOf(rank, 1, 1);
      attempt(attempts, false);
    }
    return done();
  }

  static bool sameEnds(const Edit& a, const Edit& b) {
    return a.kind == b.kind && a.end == b.end && a.other == b.other && a.unit == b.unit && a.key == b.key &&
           a.kind != Edit::Kind::jumper;
  }

  /// The single edits that leave least, and those that bring an end where its conductor says.
  std::vector<Attempt> seeds() {
    std::vector<Attempt> whole;
    for (int rank = 0; rank <= 2; ++rank)
      for (Attempt& each : attemptsOf(rank, 1, 2)) whole.push_back(std::move(each));
    attempt(whole, true);
    std::vector<Attempt> picked;
    for (Attempt& each : whole)
      if (each.tried && (!each.tried->forbidden || each.tried->forbidden->why == Forbidden::Why::safety))
        picked.push_back(std::move(each));
    partial_ = picked;
    const size_t suggested = attemptsOf(0, 1, 1).size();
    std::stable_sort(picked.begin(), picked.end(), [&](const Attempt& a, const Attempt& b) {
      return scoreOf(a.tried->check) < scoreOf(b.tried->check);
    });
    std::vector<Attempt> seeds;
    const size_t first = partial_.empty() ? 0 : partial_.front().order;
    for (size_t i = 0; i < picked.size(); ++i)
      if (i < limits_.seeds / 2 || (picked[i].order - first < suggested && seeds.size() < limits_.seeds))
        seeds.push_back(std::move(picked[i]));
    return seeds;
  }

  /// Two edits, or one of cost 2, and pairs with one of those.
  bool pairs() {
    if (exhausted()) return false;
    const std::vector<Attempt> from = seeds();
    std::vector<Attempt> rest;  // rank 3 cannot be a seed, but may be the whole cure
    for (Attempt& each : attemptsOf(3, 2, 2)) rest.push_back(std::move(each));
    for (int rank = 0; rank <= 3 && !done() && !exhausted(); ++rank) {
      std::vector<Attempt> attempts = rank == 2 ? std::exchange(rest, {}) : std::vector<Attempt>{};
      for (const Attempt& seed : from)
        if (seed.cost == 1) extend(seed, rank, 1, attempts);
      attempt(attempts, false);
    }
    for (int rank = 0; rank <= 2 && !done() && !exhausted(); ++rank) {
      std::vector<Attempt> attempts;
      for (const Attempt& seed : from) extend(seed, rank, 3 - seed.cost, attempts);
      attempt(attempts, false);
    }
    if (!done()) bothOff(from);
    return done();
  }

  /// What came in on two conductors goes with both of them.
  void bothOff(const std::vector<Attempt>& from) {
    std::vector<Attempt> attempts;
    for (const Attempt& seed : from)
      if (seed.edits[0].kind == Edit::Kind::takeOff) extend(seed, 1, 2, attempts);
    std::erase_if(attempts, [](const Attempt& each) { return each.edits[1].kind != Edit::Kind::takeOff; });
    if (!exhausted()) attempt(attempts, false);
  }

  /// The seed with every further edit of that rank and cost, as the sheet then lies.
  void extend(const Attempt& seed, int rank, int cost, std::vector<Attempt>& attempts) {
    const sheet::Sheet changed = edited(sheet_, seed.edits);
    SheetCheck asTried = seed.tried->check;
    for (const Finding& finding : check_.findings)  // what came in on two conductors is named with both
      if (finding.rule == "foreign-source") asTried.findings.push_back(finding);
    for (Candidate& second : candidatesOf(changed, library_, asTried)) {
      if (second.rank != rank || costOf(second.edit) != cost || sameEnds(second.edit, seed.edits[0]))
        continue;
      Attempt pair{seed.edits, seed.cost + cost, 0, {}};
      pair.edits.push_back(std::move(second.edit));
      attempts.push_back(std::move(pair));
    }
  }

  static Attempt attemptOf(const EditSet& edits) {
    Attempt attempt{edits, 0, 0, {}};
    for (const Edit& edit : edits) attempt.cost += costOf(edit);
    return attempt;
  }

  /// Edits that mend only together.
  bool together(const std::vector<EditSet>& sets) {
    if (exhausted()) return done();
    std::vector<Attempt> attempts;
    attempts.reserve(sets.size());
    for (const EditSet& edits : sets) attempts.push_back(attemptOf(edits));
    attempt(attempts, true);
    if (!done()) partial_.insert(partial_.end(), attempts.begin(), attempts.end());
    return done();
  }

  void hardware() {
    std::vector<EditSet> sets;
    for (const Candidate& candidate : candidates_)
      if (costOf(candidate.edit) >= 10) sets.push_back({candidate.edit});
    for (EditSet& edits : controlsExchanged(sheet_, library_)) sets.push_back(std::move(edits));
    together(sets);
  }

  /// Ways to a common whose want the check tells, besides a spare, which is landed like any other.
  std::vector<Mend> waysToCommons() {
    std::vector<Mend> mends;
    for (const Wanting& missing : plan(sheet_, library_).wanting) {
      if (missing.purpose != "common") continue;
      const std::vector<std::string> cures = wantsOf(missing);
      if (cures.empty()) continue;
      for (CommonWay& way : waysToCommon(sheet_, library_, missing)) {
        if (way.kind == CommonWay::Kind::spare) continue;
        Mend mend;
        if (way.conductor != sheet::ConductorId{}) {
          Attempt landed = attemptOf(
              {{.kind = Edit::Kind::land, .end = {way.conductor, 'A'}, .from = missing.a, .to = missing.b}});
          landed.tried = trials_.whole(edited(sheet_, landed.edits));
          if (landed.tried) mend = mendOf(landed);
        } else {
          mend.of = keys_.size();
          mend.cost = costOf({.kind = Edit::Kind::part});
        }
        mend.clears = cures;
        mend.way = WayTo{missing, std::move(way)};
        mends.push_back(std::move(mend));
      }
    }
    return mends;
  }

  std::vector<std::string> wantsOf(const Wanting& missing) const {
    std::vector<std::string> keys;
    for (const Finding& finding : check_.findings)
      if (finding.rule == "no-common" &&
          std::any_of(finding.places.begin(), finding.places.end(), [&](const Place& place) {
            return place.unit == missing.a.unit || place.unit == missing.b.unit;
          }))
        keys.push_back(keyOf(finding));
    return keys;
  }

  Mend mendOf(const Attempt& attempt) const {
    Mend mend;
    mend.edits = attempt.edits;
    mend.cost = attempt.cost;
    mend.of = keys_.size();
    const auto left = keysAboveNote(attempt.tried->check);
    for (const std::string& key : keys_)
      if (std::find(left.begin(), left.end(), key) == left.end()) mend.clears.push_back(key);
    mend.calls = attempt.tried->check.calls.size();
    mend.allCallsRight = std::all_of(attempt.tried->check.calls.begin(), attempt.tried->check.calls.end(),
                                     [](const CallVerdict& call) { return call.ok; });
    for (const Finding& finding : attempt.tried->check.findings)
      if (finding.severity > Severity::note) mend.remains.push_back(finding);
    return mend;
  }

  /// An edit that does not cure everything is still worth showing when less is wrong after it and nothing
  /// new can hurt.
  bool helps(const Attempt& attempt) const {
    if (!attempt.tried || attempt.tried->forbidden || !asksAsMuch(attempt)) return false;
    for (const Finding& finding : attempt.tried->check.findings)
      if (finding.severity == Severity::stop && !stops_.contains(finding.rule)) return false;
    return scoreOf(attempt.tried->check) < before_ && !mendOf(attempt).clears.empty();
  }

  /// The same edits in another order.
  static bool told(const std::vector<Mend>& mends, const Attempt& attempt) {
    return std::any_of(mends.begin(), mends.end(), [&](const Mend& mend) {
      return std::is_permutation(mend.edits.begin(), mend.edits.end(), attempt.edits.begin(),
                                 attempt.edits.end());
    });
  }

  std::vector<Mend> result() {
    std::vector<Attempt> best = std::move(cures_);
    std::stable_sort(best.begin(), best.end(), [](const Attempt& a, const Attempt& b) {
      return std::tuple(a.cost, scoreOf(a.tried->check), a.order) <
             std::tuple(b.cost, scoreOf(b.tried->check), b.order);
    });
    std::erase_if(partial_, [&](const Attempt& each) { return !helps(each) || cured(*each.tried); });
    std::stable_sort(partial_.begin(), partial_.end(), [](const Attempt& a, const Attempt& b) {
      return std::tuple(scoreOf(a.tried->check), a.cost, a.order) <
             std::tuple(scoreOf(b.tried->check), b.cost, b.order);
    });
    // Where all runs, no safety has opened: one stands in the wrong place.
    if (best.empty() && opened_ && before_[0] + before_[1] > 0) {
      Mend why;
      why.of = keys_.size();
      why.findWhy = opened_;
      return {why};
    }
    std::vector<Mend> mends;
    for (const Attempt& each : best)
      if (mends.size() < limits_.most && !told(mends, each)) mends.push_back(mendOf(each));
    if (!stop_.stop_requested())
      for (Mend& way : waysToCommons()) mends.push_back(std::move(way));
    for (const Attempt& each : partial_)
      if (mends.size() < limits_.most) mends.push_back(mendOf(each));
    return mends;
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  const SheetCheck& check_;
  const MendLimits& limits_;
  const std::stop_token& stop_;
  Trials trials_;
  Score before_;
  std::vector<std::string> keys_;  ///< of the findings above note
  std::set<std::string> stops_;    ///< rules of the present stop findings
  std::vector<Candidate> candidates_;
  std::vector<Attempt> cures_, partial_;
  std::optional<Place> opened_;
  size_t trialsMade_ = 0, order_ = 0;
};

}  // namespace

std::vector<Mend> searchMends(const sheet::Sheet& sheet, const equipment::Library& library,
                              const SheetCheck& check, const MendLimits& limits,
                              const std::stop_token& stop) {
  return Search(sheet, library, check, limits, stop).run();
}

}  // namespace ww::verify
