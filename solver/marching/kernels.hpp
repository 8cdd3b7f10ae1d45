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

/// The loops in which a march spends its time, compiled for several instruction sets. Rows are
/// contiguous along the run; "rows of a block" lie `stride` cells apart. n counts real stations;
/// cells between n and the next multiple of 8 are padding (0 or harmless) and may be touched.
struct Kernels {
  const char* name;   ///< "x86-64-v4", ...
  std::size_t lanes;  ///< doubles in a vector

  /// out = base + sum over the first `count` stages of weight times U.
  void (*combine)(std::size_t count, std::size_t n, double* out, const double* base,
                  const double* weight, const StageView& stages);
  /// out = s net + capacity * sum over the first `count` stages of weight times U.
  void (*right_hand_side)(std::size_t count, std::size_t n, double* out, const double* net,
                          double s, const double* capacity, const double* weight,
                          const StageView& stages);
  /// Largest |sum e_i U_i| * slope; not a number as soon as one value is.
  double (*error)(std::size_t n, const double* e, const StageView& stages, const double* slope);

  /// Sum of capacity * (u - start).
  double (*stored)(std::size_t n, const double* capacity, const double* u, const double* start);

  /// net = conduction along a row.
  void (*conduct_along)(std::size_t n, const double* t, const double* onward, double* net);
  /// Conduction from the row below into this one.
  void (*conduct_out)(std::size_t n, const double* t, const double* t_below, const double* inward,
                      double* net, double* net_below);

  /// Factors the tridiagonal matrices of `rows` rows: diagonal + onward links. lower and inverse
  /// are in the kernels' own order; rows * stride long.
  void (*factor_rows)(std::size_t rows, std::size_t stride, std::size_t n, const double* diagonal,
                      const double* onward, double* lower, double* inverse);
  /// x -> weight * (matrix^-1 x) for every row; scratch holds 8 * stride values.
  void (*solve_rows)(std::size_t rows, std::size_t stride, std::size_t n, const double* lower,
                     const double* inverse, const double* weight, double* x, double* scratch);

  /// here -> 1 / (here + s inward), lower, and the reduced diagonal of the row below.
  void (*eliminate)(std::size_t n, double s, const double* inward, double* here, double* below,
                    double* lower);
  /// below += lower * here.
  void (*sweep_in)(std::size_t n, const double* lower, const double* here, double* below);
  /// here = here * inverse + lower * below.
  void (*sweep_out)(std::size_t n, const double* lower, const double* inverse, const double* below,
                    double* here);

  /// Surface temperatures and fluxes of faces; a fixed number of Newton rounds from the linearised
  /// prediction, so that the answer is a smooth function of the cells' temperatures.
  void (*exchange)(const heat::ExchangeLaw& law, const FaceBatch& faces);
};

/// The widest set this machine runs.
const Kernels& kernels();

}  // namespace ampstair::marching
