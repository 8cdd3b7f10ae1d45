// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "marching/march.hpp"
#include "verbs/temperatures.hpp"

namespace ampstair::verbs {

/// What is kept of a march on the coarser grid: its regular rows.
struct CoarseMarch {
  std::vector<std::vector<Place>> places;                     ///< per history
  std::vector<double> times;                                  ///< s
  std::vector<std::vector<std::vector<double>>> temperature;  ///< K, [row][history][place]
  marching::Summary summary;
};

/// Marches the scenario on a grid with half as many cells each way, as accurately in time.
/// @param keep_going asked after every time step; false stops the march
CoarseMarch march_coarse(const scenario::Scenario& scenario,
                         const std::function<bool(double time)>& keep_going);

/// A step of the run's outline. Where a quarter of a plane of conductivity `upper` stands on a half
/// plane of `lower` and nothing passes the outside, the exact temperature has no bounded slope, and
/// a scheme of order 2 is of order 2 a near it,
///   a = (2 / pi) arctan(sqrt(1 + 2 lower / upper))
/// (tests/verification/order_in_space).
struct Corner {
  double position = 0.0;  ///< m along the run
  double order = 2.0;
};

/// All steps of the outline, with the conductivities of the network's first state.
std::vector<Corner> corners_of(const marching::HeatNetwork& network);

/// How far the temperatures of a march may be from those of an endlessly fine grid: its difference
/// from the march on the coarser grid, place by place, by Richardson's extrapolation with a factor
/// of safety, with order 2 in space, or what a corner within 0.1 m allows; the greatest of a place
/// and its neighbours on the same side, so that a change of the difference's sign does not look
/// like no error. The error in time is not part of it, except that the marches' errors in time
/// differ. Coarse temperatures are brought to the places of the fine march along straight lines,
/// which widens the bar where the profile is curved.
class GridError {
 public:
  /// @param fine places per history of the march to be judged
  GridError(const std::vector<std::vector<Place>>& fine, CoarseMarch coarse,
            const std::vector<Corner>& corners = {});

  /// Of a regular row.
  /// @param temperature K, per history of the march to be judged
  /// @param bars K, the same shape; NaN where the coarser march has no row of that time
  void at(double time, std::span<const std::vector<double>> temperature,
          std::span<std::vector<double>> bars);

  /// K, the largest bar so far.
  [[nodiscard]] double largest() const;
  /// K, the largest bar so far of one history.
  [[nodiscard]] double largest(std::size_t history) const { return largest_[history]; }

 private:
  /// On the line through two coarse places (or one).
  struct Between {
    std::size_t first = 0, second = 0;
    double part = 0.0;  ///< 0: at the first, 1: at the second
  };

  /// The two places of its side next to it, of which it may lie a little outside at the side's end;
  /// the nearest place where the coarse grid has no such side.
  static Between between(const std::vector<Place>& coarse, const Place& place);
  [[nodiscard]] bool has_row_at(double time);
  void of_history(std::size_t h, std::span<const double> fine, std::span<double> bars);

  std::vector<std::vector<Place>> fine_;
  CoarseMarch coarse_;
  std::vector<std::vector<double>> per_difference_;  // bar over difference
  std::vector<std::vector<Between>> between_;
  std::vector<double> alone_;  // K, bars before neighbours are looked at
  std::size_t row_ = 0;
  std::vector<double> largest_;  // K, per history
};

}  // namespace ampstair::verbs
