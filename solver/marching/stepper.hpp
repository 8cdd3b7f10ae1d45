// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "marching/comb.hpp"
#include "marching/network.hpp"
#include "marching/scheme.hpp"
#include "marching/stretch.hpp"

namespace ampstair::marching {

/// Heat since the start, J. made = stored + lost to round-off: it is marched with the temperatures.
struct Ledger {
  double made = 0.0;
  double lost = 0.0;
  double stored = 0.0;

  [[nodiscard]] double gap() const { return made - lost - stored; }
};

/// One time step of the scheme at a time: tried, looked at anywhere inside, taken up to any part of
/// it. Knows no staircase.
class Stepper {
 public:
  /// @param start temperature of everything, K
  Stepper(HeatNetwork& network, double start);
  /// Once more from one temperature [K]: nothing is laid out again.
  void begin(double start);

  /// Length [s] of a first step after a jump at `begin` [s], a few times what the curvature of the
  /// conductor's temperature lets err by `tolerance` [K]: it overstates what the scheme errs by.
  double first_length(double begin, double tolerance);
  /// Computes the stages of a step of `length` [s] from the present state, which is that at `begin`
  /// [s].
  /// @return largest estimated error of a cell, K; infinite when the step failed
  double attempt(double begin, double length);
  /// Corners of the outline are treated briefly from a jump on, until they are what limits the
  /// length of steps; or always as given here.
  void always(Comb::Corners corners) { always_ = corners_ = corners; }

  // Inside the step attempted last, at a part `theta` of it (0: its begin, 1: its end).
  /// Temperatures [K] of some cells, each at its own place of `temperature`.
  void temperatures_at(double theta, std::span<const Stretch> stretches,
                       std::span<double> temperature) const;
  [[nodiscard]] Ledger ledger_at(double theta) const;
  /// Hottest conductor temperature, K.
  [[nodiscard]] double hottest_conductor_at(double theta) const;
  /// Temperatures [K] of a few cells, written into `temperature` (one per cell of the grid) at
  /// these cells only.
  void temperatures_at(double theta, std::span<const std::size_t> cells,
                       std::span<double> temperature) const;

  /// Parts of the reacting cells that have broken down, in the order of HeatNetwork::reactions().
  void converted_at(double theta, std::span<double> converted) const;

  /// The covering of these sites of HeatNetwork::covering() is gone from here on; the heat it held
  /// goes with it, as lost.
  void lose_covering(std::span<const std::size_t> sites);

  /// Moves the state to a part of the step attempted last.
  void advance(double theta);
  [[nodiscard]] const Cells& state() const { return u_; }
  [[nodiscard]] Ledger ledger() const;

 private:
  /// Heat made and lost, marched as two more components of the same scheme.
  struct LedgerStages {
    std::array<double, Scheme::stages> made{};
    std::array<double, Scheme::stages> lost{};
  };

  [[nodiscard]] StageView stage_view() const {
    return {{stages_[0].data(), stages_[1].data(), stages_[2].data(), stages_[3].data()}};
  }
  [[nodiscard]] double stored() const;
  /// J that a cell holds above what it began with.
  [[nodiscard]] double held(std::size_t cell) const {
    return network_.capacity()[cell] * (u_[cell] - start_[cell]);
  }
  void let_go(double heat) {  // J
    ledger_.lost += heat;
    ledger_.stored -= heat;
  }
  void let_gases_go();
  [[nodiscard]] double error_of_gases() const;
  void watch_corners(double error);
  Cells& stage_temperature(std::size_t i);
  void take_next_where_enthalpy();
  [[nodiscard]] double error_of_melting() const;
  void keep_ledger(std::size_t i, double s, const Totals& totals, const Booked& booked);

  HeatNetwork& network_;
  const Kernels& loops_ = kernels();
  Comb comb_;
  Comb::Corners corners_ = Comb::Corners::brief;
  std::optional<Comb::Corners> always_;
  std::vector<bool> at_corner_;  // per cell; empty: there is none
  double worth_while_ = 0.0;     // how many times the error elsewhere, for thorough treatment
  std::size_t cells_;
  Cells u_, start_;
  Cells temperature_, slope_, net_, stage_, next_;
  Cells holds_heat_;            // 0 for gases, 1 for all else
  std::vector<double> last_u_;  // of the enthalpy cells, in the last stage
  std::array<Cells, Scheme::stages> stages_;
  mutable std::vector<double> line_;  // K, of the conductor somewhere inside the step
  Scheme::Vector stored_stages_{};    // J, of the stages
  LedgerStages ledger_stages_;
  Ledger ledger_;  // what is stored is added up by steps; ledger() takes it from the state
};

}  // namespace ampstair::marching
