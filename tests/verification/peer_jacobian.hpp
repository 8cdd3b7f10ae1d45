// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "marching/network.hpp"

namespace ampstair::tests {

/// Two cells that conduct heat to each other, and where their conductance is read.
struct Conduction {
  enum class Kind { onward, inward, link, tie };
  Kind kind = Kind::onward;
  std::size_t a = 0, b = 0;                  ///< cells
  const grid::Link* link = nullptr;          ///< for Kind::link
  const grid::SideBody* body = nullptr;      ///< for Kind::tie
  const grid::SideBody::Tie* tie = nullptr;  ///< for Kind::tie
};

/// All pairs of cells of a network that conduct: along rows, between rows, chains and ties of the
/// side bodies. Padding is in none of them.
std::vector<Conduction> conductions(const marching::HeatNetwork& network);

/// The cells that are unknowns of an integrator, in its order: all but the padding.
struct Unknowns {
  std::vector<std::size_t> cell;   ///< per unknown
  std::vector<std::size_t> index;  ///< per cell; npos in the padding

  [[nodiscard]] std::size_t size() const { return cell.size(); }
};

/// In the order of the grid.
Unknowns unknowns_as_laid(const marching::HeatNetwork& network);
/// In an order of small bandwidth: station by station from the conductor outwards, or reverse
/// Cuthill-McKee, whichever is narrower.
Unknowns unknowns_in_band(const marching::HeatNetwork& network);
/// Largest distance from the diagonal of any entry of the Jacobian.
std::size_t half_bandwidth(const std::vector<Conduction>& pairs, const Unknowns& unknowns);

/// Jacobian of du/dt = Q(T(u)) / C, with the conductivities frozen at the network's last linearised
/// state: d(du_r/dt)/du_c = dQ_r/dT_c (dT/du)_c / C_r. Knows where each entry lies in the caller's
/// storage and nothing else about it.
class HeatJacobian {
 public:
  /// @param place position of entry (row, column) in the storage that fill() writes
  template <class Place>
  HeatJacobian(const marching::HeatNetwork& network, const Unknowns& unknowns, const Place& place)
      : network_(network), pairs_(conductions(network)) {
    diagonal_.assign(network.grid().cells, 0.0);
    for (const std::size_t c : unknowns.cell) {
      diagonal_place_.push_back({c, place(unknowns.index[c], unknowns.index[c])});
    }
    for (const Conduction& pair : pairs_) {
      const std::size_t a = unknowns.index[pair.a];
      const std::size_t b = unknowns.index[pair.b];
      pair_place_.push_back({place(a, b), place(b, a)});
    }
  }

  /// Adds the Jacobian to a zeroed storage.
  /// @param slope dT/du per cell
  void fill(const std::vector<double>& slope, double* storage);

 private:
  struct DiagonalPlace {
    std::size_t cell, at;
  };
  struct PairPlace {
    std::size_t ab, ba;
  };

  [[nodiscard]] double conductance_of(const Conduction& pair) const;

  const marching::HeatNetwork& network_;
  std::vector<Conduction> pairs_;
  std::vector<PairPlace> pair_place_;
  std::vector<DiagonalPlace> diagonal_place_;
  std::vector<double> diagonal_;  // per cell, dQ/dT
};

}  // namespace ampstair::tests
