// SPDX-License-Identifier: MIT
#pragma once

#include <boost/align/aligned_allocator.hpp>
#include <cstddef>
#include <vector>

#include "heat/enthalpy_knot.hpp"
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
  bool one_round = false;  ///< of Newton's method, from what the linearised state predicts; or two
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
  double* given = nullptr;   ///< for the first row of a patch: W that it gives to the row below
  std::size_t sum_cell = 0;  ///< first cell of the row that is summed before this one
  std::size_t sum_n = 0;     ///< its cells; 0: none
};

/// What a stage of the scheme makes of the heat flows:
///   out = s * (conduction along the row, from below, from above) + capacity * sum weight_k U_k.
/// All arrays begin at the grid's first cell.
struct HeatStage {
  double s = 1.0;
  std::size_t count = 0;  ///< how many of u, weight and sum_weight count
  const double* weight = nullptr;
  StageView u{};        ///< K
  double* t = nullptr;  ///< K
  double* out = nullptr;
  /// Where given, rows that sum others do so first: t = sum_base + sum sum_weight_k U_k.
  const double* sum_base = nullptr;  ///< K
  const double* sum_weight = nullptr;
};

/// Eliminates a row of the columns on to the row below:
///   here -> 1 / (here + s inward), lower = s inward * here,
///   below -> (base or below) + s inward (1 - lower).
struct RowElimination {
  std::size_t n = 0;
  Scaled inward;  ///< W/K
  double* here = nullptr;
  double* lower = nullptr;
  Scaled base;  ///< capacity of the row below, J/K; a null value: below holds its diagonal already
  double* below = nullptr;
  // Where gas makes the matrix lean (see GasLinks), with s inward + s of_here in the place of the
  // first s inward, s inward - s of_below in that of the second, and in back times here:
  const double* of_here = nullptr;  ///< W/K; null: it does not
  const double* of_below = nullptr;
  double* back = nullptr;
};

/// A rectangle of the grid's cells, and a place where they stand by themselves.
struct Rectangle {
  std::size_t rows, n;
  std::size_t cell;    ///< first one of the grid
  std::size_t stride;  ///< from one row to the next
  double* local;
  std::size_t local_stride;
};

/// A row after elimination, as the sweeps across the rows see it. x begins at the grid's first
/// cell.
struct RadialRow {
  std::size_t n;
  std::size_t cell;     ///< its first one
  std::size_t below;    ///< the cell below that
  const double* lower;  ///< what comes to below of here
  const double* back;   ///< what comes to here of below: the same but where gas makes them differ
  const double* inverse;
  bool even;      ///< lower = s inward * inverse, inward shared with other rows
  Scaled inward;  ///< W/K
};

/// What the first pass of the factors missed in a window (see OutlineWindows), as the divergence of
/// flows along its rows, all of them one after the other:
///   flow = times (lent (v' - v) - onward (x' - x)), v = per_weight * axial, ' the next station.
/// n is a multiple of 8.
struct MissedHeat {
  std::size_t n;
  double times;  ///< s
  const double *axial, *per_weight, *lent, *onward, *x;
  double* out;
};

/// What a round leaves wrong in a window (see OutlineWindows), for the next one:
///   wrong -> gain * (per_gain * wrong - along + held * capacity * x + inflow along the run),
///   earlier += x,   x -> wrong,
/// the inflow being that of s onward (x' - x) less s ends x, in the cells [begin, end). All are
/// multiples of 8, and onward is 0 where a row ends.
struct LeftWrong {
  std::size_t n, begin, end;
  double per_gain, held, s, gain;
  const double *along, *capacity, *onward, *ends;
  double *wrong, *x, *earlier;
};

/// Up to 8 neighbouring rows with their matrices along the run, factored: one that all share, lower
/// and inverse holding a value a station, or one each, in the kernels' own order (see factor_rows).
/// The weight holds a value a station for all rows, or a row's `stride` values after the other's.
struct RowGroup {
  std::size_t rows;
  std::size_t cell;  ///< first one of the first row
  double* lower;
  double* inverse;
  const double* weight;
  bool shared;
};

/// Stations of a row that are solved together; outside their links nothing is linked. Kernels take
/// the whole vectors of 8 that they lie in.
struct RowRange {
  std::size_t begin, end;

  [[nodiscard]] std::size_t vectors_begin() const { return begin / 8 * 8; }
  [[nodiscard]] std::size_t vectors_end() const { return (end + 7) / 8 * 8; }
  /// Whether the link from this station to the next is one of them.
  [[nodiscard]] bool links(std::size_t station) const {
    return station >= begin && station + 1 < end;
  }
};

/// What matrices along the rows are made of, per cell:
///   weight = held * capacity + s * stiffening, diagonal = weight + s * (ends + links either side).
struct RowCoefficients {
  double s;
  double held;
  const double* capacity;    ///< J/K
  const double* stiffening;  ///< W/K
  const double* ends;        ///< W/K, slopes of end faces
  const double* onward;      ///< W/K to the next station
  double* weight;            ///< result, J/K
};

/// A property tabulated from `begin` K on, one value per kelvin up to index last + 1.
struct Table {
  const double* value;
  const std::size_t* straight;  ///< per value: index to which the table goes on straight
  double begin;
  std::size_t last;
};

/// What the end of a step takes from its stages. n is a multiple of 8.
struct StepEnd {
  std::size_t n;
  const double* e;
  StageView stages;
  const double* slope;     ///< null: 1
  const double* last;      ///< u of the last stage
  double* next;            ///< result: last + U_3
  const double* capacity;  ///< J/K
  double* stored;          ///< result: sums of capacity * U of the four stages, J
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
  /// The same for the values at some places of the arrays.
  void (*combine_at)(std::size_t count, std::size_t places, const std::size_t* at, double* out,
                     const double* base, const double* weight, const StageView& stages);
  double (*sum)(std::size_t n, const double* a);
  /// Sums of a * b, and of a[i] * b[at[i]].
  double (*sum_products)(std::size_t n, const double* a, const double* b);
  double (*sum_products_at)(std::size_t n, const double* a, const std::size_t* at, const double* b);
  /// Sum of capacity * (u - start).
  double (*stored)(std::size_t n, const double* capacity, const double* u, const double* start);
  /// out = u + length * net / capacity where `which` is 1, u where it is 0.
  void (*explicit_step)(std::size_t n, const double* u, double length, const double* net,
                        const double* capacity, const double* which, double* out);
  /// Ends a step while its stages are at hand.
  /// @return largest |sum e_i U_i| * slope; not a number as soon as one value is
  double (*close)(const StepEnd& end);

  /// T [K] in the place of u, and dT/du where `slope` is given; see heat::Enthalpy.
  void (*from_enthalpy)(std::size_t n, const heat::EnthalpyKnot* knots, std::size_t count,
                        double* u_then_t, double* slope);

  /// out = times * a tabulated property at temperatures [K].
  void (*look_up)(std::size_t n, const Table& table, const double* at, const double* times,
                  double* out);
  /// Sum of the same.
  double (*sum_looked_up)(std::size_t n, const Table& table, const double* at, const double* times);

  /// Conductances [W/K] to the next station, of a row whose rings have an area `ring` [m2], and to
  /// the row below, with the paths of the row below and of this one (see outer_path, inner_path).
  void (*link_along)(std::size_t n, double ring, const double* length, const double* conductivity,
                     double* out);
  void (*link_inward)(std::size_t n, double from, double to, const double* length,
                      const double* below, const double* here, double* out);

  /// Heat flows of `count` rows, one after the other.
  void (*heat_rows)(const HeatRow* rows, std::size_t count, const HeatStage& stage);

  /// Factors the tridiagonal matrices of groups that share none. lower and inverse come in the
  /// kernels' own order and hold 8 rows times stride values.
  void (*factor_rows)(const RowGroup* groups, std::size_t count, std::size_t stride,
                      const RowRange& range, const RowCoefficients& of);
  /// x -> weight * (matrix^-1 x) for every row of the groups.
  /// @param x begins at the cell that the groups' cells are counted from
  /// @param scratch 16 times as many values as the range's vectors have stations
  void (*solve_rows)(const RowGroup* groups, std::size_t count, std::size_t stride,
                     const RowRange& range, double* x, double* scratch);

  /// The conductor's line: diagonal -> 1 / pivot, with links s onward; lower is the kernels' own.
  void (*factor_line)(std::size_t n, double s, const double* onward, double* diagonal,
                      double* lower);
  void (*solve_line)(std::size_t n, const double* lower, const double* inverse, double* x);

  void (*eliminate_rows)(const RowElimination* rows, std::size_t count, double s);
  /// Rows one after the other: below += lower * here.
  void (*sweep_rows_in)(const RadialRow* rows, std::size_t count, double* x);
  /// Rows in the opposite order: here = here * inverse + back * below.
  void (*sweep_rows_out)(const RadialRow* rows, std::size_t count, double s, double* x);

  /// Rectangles of cells: local = x, and x += local.
  void (*copy_out)(const Rectangle* rectangles, std::size_t count, const double* x);
  void (*add_in)(const Rectangle* rectangles, std::size_t count, double* x);
  // Sweeps across all rows of a rectangle, the innermost row first.
  /// inverse comes with the diagonal and is 1 / pivot but in the first row, the last one
  /// eliminated.
  void (*factor_columns)(std::size_t rows, std::size_t stride, double s, const double* inward,
                         double* inverse, double* lower);
  void (*columns_in)(std::size_t rows, std::size_t stride, const double* lower, double* x);
  void (*columns_out)(std::size_t rows, std::size_t stride, const double* lower,
                      const double* inverse, double* x);
  void (*missed)(const MissedHeat& window);
  /// @return sum of what is left wrong
  double (*leave)(const LeftWrong& window);
  /// out = 1 / (a + s * b).
  void (*reciprocal)(std::size_t n, const double* a, double s, const double* b, double* out);

  /// Surface temperatures and fluxes of faces; a fixed number of Newton rounds from the linearised
  /// prediction, so that the answer is a smooth function of the cells' temperatures.
  /// @return how far the last round has moved any surface, K
  double (*exchange)(const heat::ExchangeLaw& law, const FaceBatch& faces);
};

/// The widest set this machine runs.
const Kernels& kernels();

}  // namespace ampstair::marching
