// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The room `circuit` solves linear networks: nodes, branches, electromotive forces, admittances, at one
// frequency (Phasor) or at DC (double). It must not know any trade: no conductor, coil, unit or terminal.

#include "circuit/arithmetic.h"
#include "circuit/plan.h"

#include <complex>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace ww::circuit {

/// RMS amplitude and phase of a quantity at the supply frequency.
using Phasor = std::complex<double>;

/// How two nodes hang together: solid through ordinary branches, ghost only with the help of capacitive
/// ones, floating not at all (or the network was changed and not solved since).
enum class Quality { solid, ghost, floating };

/// A value with its quality; no number when floating, nor where a resonance leaves none.
template <class Scalar>
struct Reading {
  std::optional<Scalar> value;
  Quality quality = Quality::floating;
};

/// What two nodes look like from outside: open-circuit volts (a over b) and source impedance in ohms. Both
/// are zero when floating.
template <class Scalar>
struct Port {
  Quality quality = Quality::floating;
  Scalar openVolts{};
  Scalar impedance{};
};

/// What a solve can say about itself.
struct Certificate {
  /// Worst node: |sum of currents| / sum |currents|, beyond what rounding of the volts explains.
  double kcl = 0;
  /// |power into all branches| / power handled by the EMFs, beyond what rounding explains.
  double power = 0;
  /// Somewhere admittances cancel to less than 1e-8 of their sum: numbers near it are not to be trusted.
  bool resonant = false;
  /// Since the last clear() a branch was given something that is not a number, or absurdly large.
  bool refused = false;
  bool tight() const { return kcl <= 1e-9 && power <= 1e-9 && !resonant && !refused; }
};

/// Solves one pattern again and again with changing admittances. Method: subtraction-free star-mesh
/// elimination (the symmetric form of Grassmann, Taksar and Heyman), which never forms a diagonal and so
/// keeps full relative precision with passive elements and whatever is open; EMFs are carried along with
/// their branches. The last node of each component is its reference at 0 V, so islands need no leak to
/// anywhere. While nothing changes but what stands between late nodes, only the last steps are taken again.
/// Owns all its workspace: nothing is allocated after construction. Copyable; one solver belongs to
/// one thread.
template <class Scalar>
class Solver {
 public:
  explicit Solver(std::shared_ptr<const Plan> plan);

  const Plan& plan() const { return *plan_; }
  const std::shared_ptr<const Plan>& sharedPlan() const { return plan_; }

  /// All branches absent, no EMF.
  void clear();

  /// Puts an admittance (siemens) and an EMF in series with it (volts, raising a over b) on a branch.
  /// Zero, or less than 1e-24 S: the branch is absent. More than 1e15 S, more than 1e15 V or not a number:
  /// absent too, and the certificate says refused.
  void setBranch(int branch, Scalar admittance, Scalar emf = {}) {
    solved_ = false;
    const auto index = static_cast<std::size_t>(branch);
    if (admittance_[index] == admittance && emf_[index] == emf) return;
    trunkKnown_ = trunkKnown_ && plan_->isLate(branch);
    const double size = square(admittance);
    if ((size >= 0.99e-48 && size <= 1.01e30 && square(emf) <= 1.01e30) || (size == 0 && emf == Scalar{})) {
      admittance_[index] = admittance;
      emf_[index] = emf;
    } else {
      setOddBranch(index, admittance, emf);
    }
  }
  Scalar admittance(int branch) const { return admittance_[static_cast<std::size_t>(branch)]; }
  Scalar emf(int branch) const { return emf_[static_cast<std::size_t>(branch)]; }

  /// Factors and substitutes back. What follows speaks of the last solve; after a setBranch everything is
  /// floating until the next.
  void solve();
  /// The same, but of the volts only those of late nodes are known then; everything where there are none.
  void solveLate();

  /// Solves since it was made, and the admittances they went through: a work counter that knows no clock.
  std::int64_t solves() const { return solves_; }
  std::int64_t admittancesTaken() const { return taken_; }

  /// Volts relative to the reference of the node's own component (an arbitrary node of it).
  Scalar voltage(int node) const { return volts_[place(node)]; }
  /// Volts of a over b; means something only when readable(a, b).
  Scalar voltage(int a, int b) const { return volts_[place(a)] - volts_[place(b)]; }
  Quality quality(int a, int b) const;
  bool readable(int a, int b) const { return quality(a, b) != Quality::floating; }
  Reading<Scalar> read(int a, int b) const;
  /// Amps through a branch from a to b, EMF included.
  Scalar current(int branch) const;

  /// Volts of every node, by node number, for 1 A into a and out of b with the EMFs off, reusing the factors.
  /// `volts` holds one entry a node. All zero when a and b are floating.
  void solvePort(int a, int b, std::span<Scalar> volts);
  Port<Scalar> thevenin(int a, int b);
  /// Ohms between several ports, row by row: volts at the one for 1 A into the other. All ends must be
  /// readable. Allocates when there are more ports than ever before.
  void portOhms(std::span<const Branch> ports, std::span<Scalar> ohms);
  /// What a meter of the given impedance (ohms) shows between a and b.
  Reading<Scalar> readThrough(int a, int b, Scalar meterImpedance);

  /// Holds the volts of the last solve against the branches as they now stand; costs two or three solves.
  Certificate certificate() const;

 private:
  std::size_t place(int node) const {
    return static_cast<std::size_t>(plan_->position_[static_cast<std::size_t>(node)]);
  }

  /// An EMF travels with its admittance through the elimination. Turned into currents at its two nodes it
  /// would be the small difference of two large numbers wherever a stiff source meets a light load.
  struct Slot {
    Scalar share;  ///< admittance to the later neighbour; once factored its share of the node's sum
    Scalar drive;  ///< amps its EMF drives towards the earlier node
  };

  void setOddBranch(std::size_t branch, Scalar admittance, Scalar emf);
  void add(std::size_t branch);
  void stampTrunk();
  void factorAll();
  void factor(std::size_t from, std::size_t to);
  void setAside(Slot* first, const Slot* end);
  bool substitute(std::vector<Scalar>& volts, std::size_t from = 0) const;
  Scalar portImpedance(int a, int b);
  void findParts() const;
  void followShares(std::size_t from, std::size_t to) const;
  void joinBranches() const;
  bool cancels() const;

  std::shared_ptr<const Plan> plan_;
  std::vector<Scalar> admittance_;  ///< by branch
  std::vector<Scalar> emf_;         ///< by branch
  std::vector<Slot> slots_;
  std::vector<Slot> trunk_;     ///< the late slots before anything between late nodes was added
  std::vector<Scalar> driven_;  ///< by position: volts over the mean of the later neighbours
  std::vector<Scalar> ohms_;    ///< by position: one over the node's sum; zero for a reference
  std::vector<Scalar> volts_;   ///< by position
  std::vector<Scalar> port_;    ///< by position, for a further right-hand side
  std::vector<Scalar> ports_;   ///< the same for several at once
  std::int64_t solves_ = 0, taken_ = 0;
  bool solved_ = false;
  bool trunkKnown_ = false;  ///< all but the late steps stand as the branches say
  bool trunkLost_ = false;   ///< as lost_, before the late steps
  bool lost_ = false;        ///< a sum vanished in the last factorisation though its terms did not
  bool overflown_ = false;   ///< the last solve left no numbers
  bool refused_ = false;

  // Found when first asked for after a solve.
  mutable bool partsKnown_ = false;
  mutable bool joined_ = false;         ///< found branch by branch, not by the shares
  mutable bool trunkRooted_ = false;    ///< root_ holds for all but late nodes
  mutable std::vector<int> solidPart_;  ///< by node
  mutable std::vector<int> part_;       ///< by node; with capacitive branches
  /// By position: a later position of its part; the same again leads to the last. Where all is ordinary.
  mutable std::vector<int> root_;
  // Workspace of the certificate.
  mutable std::vector<Scalar> trial_;
  mutable std::vector<double> size_;
};

extern template class Solver<double>;
extern template class Solver<Phasor>;

}  // namespace ww::circuit
