// SPDX-License-Identifier: MIT
#pragma once

#include <boost/align/aligned_allocator.hpp>
#include <cstddef>
#include <vector>

#include "heat/exchange_law.hpp"

namespace ampstair::marching {

/// One value per cell, beginning at a cache line.
using Cells = std::vector<double, boost::alignment::aligned_allocator<double, 64>>;

/// The stages U_0 .. U_3 of a step as the kernels see them.
struct StageView {
  const double* u[4];
};

/// One exchange of faces with the same surroundings, as arrays of length `count`.
struct FaceBatch {
  std::size_t count;
  const double* cell;         ///< K, temperature of the cell behind each face
  const double* conductance;  ///< W/m2/K from cell to surface
  const double* guess;        ///< K, surface temperature at the linearised state
  const double* guess_cell;   ///< K, cell temperature there
  const double* guess_slope;  ///< d surface / d cell there
  double* surface;            ///< K, result
  double* flux;               ///< W/m2, result
  double* slope;              ///< d flux / d cell, W/m2/K, result
};

/// Coefficients along a row: factor times value[j].
struct Scaled {
  const double* value = nullptr;
  double factor = 1.0;

  [[nodiscard]] Scaled times(double more) const { return {value, factor * more}; }
};

/// A radial row as the heat flows see it. Arrays begin at its first station; n is a multiple of 8,
/// with links and lengths 0 beyond the last of its stations.
struct HeatRow {
  std::size_t n = 0;
  std::size_t stations = 0;
  std::size_t cell = 0;                ///< its first one
  std::size_t below = 0;               ///< the cell below that
  std::size_t above = 0;               ///< the cell above that, in the same patch
  bool is_line = false;                ///< the conductor's: nothing below
  bool has_above = false;              ///< not the top of its patch
  Scaled along;                        ///< W/K to the next station
  Scaled inward;                       ///< W/K to the row below
  Scaled outward;                      ///< W/K to the row above
  Scaled capacity;                     ///< J/K
  const double* from_above = nullptr;  ///< W from patches on top of it; null where there are none
  double* given = nullptr;  ///< for the first row of a patch: W that it gives to the row below
};

/// What a stage of the scheme makes of the heat flows:
///   out = s * (conduction along the row, from below, from above) + capacity * sum weight_k U_k.
/// All arrays begin at the grid's first cell.
struct HeatStage {
  double s = 1.0;
  std::size_t count = 0;  ///< how many of u and weight count
  const double* weight = nullptr;
  StageView u{};              ///< K
  const double* t = nullptr;  ///< K
  double* out = nullptr;
};

/// Eliminates a row of the columns on to the row below:
///   here -> 1 / (here + s inward), lower = s inward * here,
///   below -> (base or below) + s inward (1 - lower).
struct RowElimination {
  std::size_t n = 0;
  Scaled inward;  ///< s times W/K
  double* here = nullptr;
  double* lower = nullptr;
  Scaled base;  ///< capacity of the row below, J/K; a null value: below holds its diagonal already
  double* below = nullptr;
};

/// What the first pass of the factors missed in a window (see OutlineWindows), as the divergence of
/// flows along its rows, all of them one after the other:
///   flow = s (lent (v' - v) - onward (x' - x)), v = per_weight * axial, ' the next station.
/// n is a multiple of 8; the inputs go on for another 8 values.
struct MissedHeat {
  std::size_t n;
  double s;
  const double *axial, *per_weight, *lent, *onward, *x;
  double* out;
};

/// The loops in which a march spends its time, compiled for several instruction sets. Rows are
/// contiguous along the run; "rows of a block" lie `stride` cells apart. n counts real stations;
/// cells between n and the next multiple of 8 are padding (0 or harmless) and may be touched.
struct Kernels {
  const char* name;   ///< "x86-64-v4", ...
  std::size_t lanes;  ///< doubles in a vector

  /// out = base + sum over the first `count` stages of weight times U.
  void (*combine)(std::size_t count, std::size_t n, double* out, const double* base,
                  const double* weight, const StageView& stages);
  /// Largest |sum e_i U_i| * slope (1 where slope is null); not a number as soon as one value is.
  double (*error)(std::size_t n, const double* e, const StageView& stages, const double* slope);

  /// Sum of capacity * (u - start).
  double (*stored)(std::size_t n, const double* capacity, const double* u, const double* start);
  /// Sums of capacity * U of the four stages.
  void (*stored_stages)(std::size_t n, const double* capacity, const StageView& stages,
                        double* out);

  /// out = times * a property tabulated from `begin` K on, one value per kelvin up to index
  /// last + 1, at temperatures [K].
  void (*look_up)(std::size_t n, const double* table, double begin, std::size_t last,
                  const double* at, const double* times, double* out);

  /// Conductances [W/K] to the next station, of a row whose rings have an area `ring` [m2], and to
  /// the row below, with the paths of the row below and of this one (see outer_path, inner_path).
  void (*link_along)(std::size_t n, double ring, const double* length, const double* conductivity,
                     double* out);
  void (*link_inward)(std::size_t n, double from, double to, const double* length,
                      const double* below, const double* here, double* out);

  /// Heat flows of `count` rows, one after the other.
  void (*heat_rows)(const HeatRow* rows, std::size_t count, const HeatStage& stage);

  /// Factors the tridiagonal matrices of rows: diagonal + onward links. lower and inverse
  /// are in the kernels' own order and hold rows, rounded up to 8, times stride values.
  void (*factor_rows)(std::size_t rows, std::size_t stride, std::size_t n, const double* diagonal,
                      const double* onward, double* lower, double* inverse);
  /// x -> weight * (matrix^-1 x) for every row.
  /// @param scratch 16 times stride values
  void (*solve_rows)(std::size_t rows, std::size_t stride, std::size_t n, const double* lower,
                     const double* inverse, const double* weight, double* x, double* scratch);
  /// The same for rows that share one matrix, lower and inverse one value a station, and one
  /// weight.
  void (*solve_even_rows)(std::size_t rows, std::size_t stride, std::size_t n, const double* lower,
                          const double* inverse, const double* weight, double* x, double* scratch);

  /// The conductor's line: diagonal -> 1 / pivot, with links s onward; lower is the kernels' own.
  void (*factor_line)(std::size_t n, double s, const double* onward, double* diagonal,
                      double* lower);
  void (*solve_line)(std::size_t n, const double* lower, const double* inverse, double* x);

  void (*eliminate)(const RowElimination& row);
  /// below += lower * here.
  void (*sweep_in)(std::size_t n, const double* lower, const double* here, double* below);
  /// here = here * inverse + lower * below.
  void (*sweep_out)(std::size_t n, const double* lower, const double* inverse, const double* below,
                    double* here);

  /// Rectangles of cells: to = from, to += from; sweeps across all their rows, the innermost first.
  void (*copy)(std::size_t rows, std::size_t n, const double* from, std::size_t from_stride,
               double* to, std::size_t to_stride);
  void (*add)(std::size_t rows, std::size_t n, const double* from, std::size_t from_stride,
              double* to, std::size_t to_stride);
  void (*columns_in)(std::size_t rows, std::size_t stride, const double* lower, double* x);
  void (*columns_out)(std::size_t rows, std::size_t stride, const double* lower,
                      const double* inverse, double* x);
  void (*missed)(const MissedHeat& window);

  /// Surface temperatures and fluxes of faces; a fixed number of Newton rounds from the linearised
  /// prediction, so that the answer is a smooth function of the cells' temperatures.
  void (*exchange)(const heat::ExchangeLaw& law, const FaceBatch& faces);
};

/// The widest set this machine runs.
const Kernels& kernels();

}  // namespace ampstair::marching
