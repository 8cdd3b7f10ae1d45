// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/kernels.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// First factor of a step's operator, D + s K_A: every row but the conductor's, along the run, with
/// the slopes of the end faces.
///
/// D is the capacity C, but for gases: they have next to none, so s K_A C^-1 would be huge in their
/// cells and spoil the order of the splitting. Here only, they get D = C + s 0.1 k (pi/w)^2 V (w:
/// width of the gas) and lend their conduction along the run to the rows beside them, which carry
/// its heat away. Column sums of K_A stay zero: the factor conserves energy as before. The figure
/// 0.1 was found by trial; 0.03 to 0.25 serve equally, 0.5 and more are unstable.
///
/// Where cells are so long that s K_A C^-1 is small, nothing is taken implicitly: the order of the
/// scheme holds for any matrix in its place. Such stretches are left out of the sweeps, in all rows
/// of a patch alike.
///
/// Eight rows make a group, because a vector holds as many. Even rows of one diffusivity (see Row)
/// that fill a group share one matrix, divided by their heat per length.
class AxialFactor {
 public:
  explicit AxialFactor(const HeatNetwork& network);

  /// Stations that are to be taken implicitly whatever the step, from the next take_capacities()
  /// on.
  void always_take(std::size_t first_station, std::size_t stations);
  /// Takes over which links are stiff, from the network's capacities as they are.
  void take_capacities();
  /// @param capacity C against temperature, J/K per cell
  void factor(double s, std::span<const double> capacity);

  /// Neighbouring rows of a patch that are solved together.
  struct Block {
    std::size_t first_row = 0;  ///< index into HeatRows::rows(), the outermost
    std::size_t rows = 0;
    std::size_t patch = 0;
    std::size_t cell = 0;  ///< first cell of the innermost row
    std::size_t first_group = 0, groups = 0;
  };
  /// In the order of HeatRows::rows().
  [[nodiscard]] const std::vector<Block>& blocks() const { return blocks_; }
  /// x -> D v in place for a block's rows, where (D + s K_A) v = x.
  void solve(const Block& block, std::span<double> x) const;

  /// Whether the link from a station of a patch to the next stands in the factor made last.
  [[nodiscard]] bool takes_link(std::size_t patch, std::size_t station) const;
  /// D of a cell whose row has a matrix of its own (rows with end faces have), J/K.
  [[nodiscard]] double weight(std::size_t cell) const { return weight_[cell]; }

  /// A gas cell with the cells inside and outside of its layer that it lends its conduction to
  /// (Grid::npos: none).
  struct Gas {
    std::size_t cell, inside, outside;
    double stiffening;  ///< 0.1 (pi / width)^2 V [m], to be multiplied by the conductivity
  };
  [[nodiscard]] const std::vector<Gas>& gases() const { return gas_; }

 private:
  static constexpr std::size_t npos = grid::Grid::npos;
  static constexpr std::size_t rows_of_group = 8;
  static constexpr std::size_t groups_of_block = 2;
  static constexpr std::size_t side_by_side = 4;  // shared matrices factored at once

  struct Group {
    std::size_t patch;
    std::size_t storage;  // where the rows' own matrices begin; npos: they share one
    RowGroup rows;
  };

  /// The matrix of all even rows of one diffusivity in one patch.
  struct Shared {
    std::size_t patch;
    double diffusivity;  // m2/s
    Cells lower, inverse;
  };

  void find_gas();
  void find_gas_at(std::size_t station);
  void find_even_rows();
  void find_stiffness();
  void find_ranges(double s);
  void lay_blocks();
  void lay_group(std::size_t first_row, std::size_t rows);
  void find_matrices();
  [[nodiscard]] bool can_share(const Row& one, const Row& other) const;
  std::size_t shared_for(const Row& row);
  void gather_gases();
  void factor_block(const Block& block, const RowCoefficients& of) const;
  void factor_shared(double s);
  void factor_shared(double s, std::span<Shared> some, const RowRange& range, const double* length,
                     const double* link);
  [[nodiscard]] std::size_t stations_of(std::size_t patch) const {
    return network_.grid().patches[patch].stations;
  }

  const HeatNetwork& network_;
  std::vector<Gas> gas_;
  std::vector<bool> even_;  // per cell: its row is even, has no end face and no gas beside it
  std::vector<Shared> shared_;
  // Per patch and station: largest link to the next over its cells' capacities, 1/s; infinite where
  // it is always taken.
  std::vector<std::vector<double>> rates_;
  std::vector<std::vector<bool>> always_;
  std::vector<std::vector<RowRange>> ranges_;  // per patch, of the present step
  std::vector<Group> groups_;
  std::vector<Block> blocks_;
  std::vector<std::size_t> end_faces_;  // axial ones
  // Per cell, of rows with matrices of their own: D; what gases add to theirs over s; slopes of end
  // faces; links, with what gases lend.
  Cells weight_, stiffening_, ends_, lent_;
  bool gathered_ = false;
  Cells lower_, inverse_;  // in the kernels' order, group by group
  mutable Cells scratch_;
};

}  // namespace ampstair::marching
