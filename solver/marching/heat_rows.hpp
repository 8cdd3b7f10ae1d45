// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "marching/kernels.hpp"

namespace ampstair::marching {

/// One radial row of the run with its coefficients. A row is even where it and the rows it
/// exchanges heat with are each of one material whose properties do not change: its coefficients
/// are then a number for the row times what all rows of its patch share, lengths and links, so that
/// no array as long as the grid is read for them.
struct Row {
  std::size_t patch = 0;
  std::size_t cell = 0;      ///< first cell
  std::size_t stations = 0;  ///< cells along the run
  std::size_t stride = 0;    ///< the same, padded to whole cache lines
  std::size_t below = 0;     ///< the row below: its cell under the first one
  bool bottom = false;       ///< the first row of its patch
  bool top = false;          ///< the last one
  bool even = false;
  double along_times_length = 0.0;  ///< W m/K, of an even row
  double heat_per_length = 0.0;     ///< J/K/m, of an even row
  Scaled along;                     ///< W/K to the next station
  Scaled inward;                    ///< W/K to the row below
  Scaled capacity;                  ///< J/K
};

/// Per-cell coefficients of a network, read where a row is not even.
struct CellCoefficients {
  const Cells& onward;    ///< W/K
  const Cells& inward;    ///< W/K
  const Cells& capacity;  ///< J/K
};

/// What makes a row even: conductivity [W/m/K] and heat per volume [J/m3/K] of each medium; a
/// conductivity of 0 stands for a medium whose properties change.
struct FixedMedium {
  double conductivity = 0.0;
  double heat_per_volume = 0.0;
};

/// All rows outside the conductor, outermost patches first and each from its top down: the order in
/// which columns are eliminated. The conductor's line is kept apart.
class HeatRows {
 public:
  HeatRows(const grid::Grid& grid, std::span<const FixedMedium> media,
           const CellCoefficients& cells);
  ~HeatRows() = default;
  HeatRows(const HeatRows&) = delete;
  HeatRows& operator=(const HeatRows&) = delete;

  [[nodiscard]] const std::vector<Row>& rows() const { return rows_; }
  /// Lengths of a patch's stations [m], 0 in the padding.
  [[nodiscard]] const Cells& lengths(std::size_t patch) const { return shared_[patch].length; }
  /// 1 / distance of the centres of a patch's stations from the next [1/m]; 0 for the last.
  [[nodiscard]] const double* links(std::size_t patch) const { return shared_[patch].link.data(); }

  /// Rows whose temperatures a stage may sum on the way (see HeatStage): each is summed by the
  /// first row, in their order, that stands on it.
  /// @param late per row; never the first one of a patch, which none stands on before it is filled
  void sum_on_the_way(const std::vector<bool>& late);

  /// Fills `count` rows of stage.out. Rows have to be taken in their order, because each patch
  /// tells the row it rests on what it takes.
  void fill(std::size_t first_row, std::size_t count, const HeatStage& stage) const;
  /// Fills the conductor's line, after all rows.
  void fill_conductor(const HeatStage& stage) const;

 private:
  struct Shared {
    Cells length, link;
    Cells from_above;  // W per station into the patch's top row
    bool carries = false;
  };

  void share(const grid::Patch& patch);
  void add_row(std::size_t patch, std::size_t i, std::span<const FixedMedium> media,
               const CellCoefficients& cells);
  [[nodiscard]] const FixedMedium* only_medium(std::span<const FixedMedium> media, std::size_t cell,
                                               std::size_t stations) const;
  void make_even(Row& row, std::size_t i, const FixedMedium& own, const FixedMedium* below);
  [[nodiscard]] HeatRow heat_row(std::size_t index);

  const grid::Grid& grid_;
  std::vector<Row> rows_;
  HeatRow conductor_;
  std::vector<HeatRow> heat_rows_;  // the same rows
  std::vector<Shared> shared_;      // per patch
};

/// First cell of the row below a row of a patch, aligned to the patch's first station.
std::size_t row_below(const grid::Grid& grid, const grid::Patch& patch, std::size_t row);
/// Logarithmic paths from a row's cells to its outer and its inner face, per 2 pi k dz.
double outer_path(const grid::Patch& patch, std::size_t row);
double inner_path(const grid::Patch& patch, std::size_t row);

}  // namespace ampstair::marching
