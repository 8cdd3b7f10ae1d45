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
/// Even rows of one diffusivity (see Row) share one matrix, divided by their heat per length.
class AxialFactor {
 public:
  explicit AxialFactor(const HeatNetwork& network);

  /// @param capacity C against temperature, J/K per cell
  void factor(double s, std::span<const double> capacity);

  /// Neighbouring rows of a patch that are solved together.
  struct Block {
    std::size_t first_row = 0;  ///< index into HeatRows::rows(), the outermost
    std::size_t rows = 0;
    std::size_t patch = 0;
    std::size_t cell = 0;       ///< first cell of the innermost row
    std::size_t shared = npos;  ///< index of the shared matrix; npos: each row has its own
    std::size_t storage = 0;    ///< where the rows' own matrices begin
  };
  /// In the order of HeatRows::rows().
  [[nodiscard]] const std::vector<Block>& blocks() const { return blocks_; }
  /// x -> D v in place for a block's rows, where (D + s K_A) v = x.
  void solve(const Block& block, std::span<double> x) const;

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
  static constexpr std::size_t most_rows = 16;

  /// The matrix of all even rows of one diffusivity in one patch.
  struct Shared {
    std::size_t patch;
    double diffusivity;  // m2/s
    Cells lower, inverse;
  };

  void find_gas();
  void find_gas_at(std::size_t station);
  void find_even_rows();
  void lay_blocks();
  std::size_t shared_for(const Row& row);
  void assemble(double s, const Block& block, std::span<const double> capacity);
  void factor_shared(double s);

  const HeatNetwork& network_;
  std::vector<Gas> gas_;
  std::vector<bool> even_;  // per cell: its row is even, has no end face and no gas beside it
  std::vector<Shared> shared_;
  std::vector<Block> blocks_;
  Cells weight_, onward_, diagonal_;  // per cell, of rows with matrices of their own
  Cells lower_, inverse_;             // in the kernels' order, block by block
  mutable Cells scratch_;
};

}  // namespace ampstair::marching
