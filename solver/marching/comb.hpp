// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "marching/axial_factor.hpp"
#include "marching/bay_borders.hpp"
#include "marching/kernels.hpp"
#include "marching/network.hpp"
#include "marching/outline_windows.hpp"
#include "marching/radial_factor.hpp"

namespace ampstair::marching {

/// Approximate factorisation of the implicit operator of one step,
///
///   P = (I + s K_A D^-1) (C + s K_C),   s = gamma * step,
///
/// K_A: conduction along the run outside the conductor (AxialFactor); K_C: all the rest, the "comb"
/// (RadialFactor). Each is solved exactly by tridiagonal sweeps; each exposed face's slope stands
/// in the factor of its own direction. Where heat turns round corners further passes follow
/// (OutlineWindows).
class Comb {
 public:
  enum class Corners { neglected, brief, thorough };
  explicit Comb(const HeatNetwork& network);

  /// Takes over the network's capacities of these cells, which have changed.
  void take_capacities(std::span<const std::size_t> cells);
  void take_capacities();  // of all

  /// Factors P for the network's linearised state.
  /// @param s gamma times the step, s
  /// @param slope dT/du per cell, 1 but in the network's enthalpy_cells(); the capacity against
  ///        temperature is C / slope
  /// @param corners how they are treated in what is solved from here on
  void factor(double s, std::span<const double> slope, Corners corners = Corners::brief);

  /// Solves P x = rhs in place; x is a change of temperature [K].
  /// @return s times the change of the made heat's and of the lost heat's rate that goes with x, as
  ///         far as the factors know it [J]: with it the energy ledger closes to round-off
  Booked solve(std::span<double> rhs_then_x);
  /// The same for rhs = s Q + C sum weight_k U_k at the temperatures the network was evaluated for
  /// last, made rows by rows while they are at hand; x is stage.out.
  Booked solve_stage(const HeatStage& stage);

  /// Corners as they are treated thoroughly.
  [[nodiscard]] const OutlineWindows& thorough_windows() const { return thorough_; }
  /// The first factor, which leaves out links that are not stiff at this s.
  [[nodiscard]] const AxialFactor& axial() const { return axial_; }

 private:
  template <class Fill>
  Booked sweep(std::span<double> x, const Fill& fill);
  void book(std::span<const double> x, Booked& booked) const;
  void factor_bays(double s);
  void solve_radial(std::span<double> x) const;
  void close_bays(std::span<double> x, Booked& booked);

  const HeatNetwork& network_;
  AxialFactor axial_;
  RadialFactor radial_;
  BayBorders bays_;
  std::vector<Booked> booked_per_node_;  // of bays_: what goes with a kelvin of it
  std::vector<bool> in_bay_;             // per face; empty without bays
  OutlineWindows brief_, thorough_;
  OutlineWindows* windows_ = nullptr;  // one of them, if there are any and they are not neglected
  double s_ = 0.0;
  Cells capacity_;                                   // against temperature
  std::vector<std::vector<std::size_t>> end_faces_;  // axial faces per block of axial_
  std::vector<std::size_t> radial_faces_;
  std::vector<std::size_t> radial_cells_;  // of the faces, then heads at shared surfaces
  std::vector<double> radial_slopes_;      // s times d(loss)/dT of these
};

}  // namespace ampstair::marching
