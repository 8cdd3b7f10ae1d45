// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "marching/axial_factor.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// Part of the heat made and lost by which a stage's change of temperature changes them, J.
struct Booked {
  double made = 0.0;
  double lost = 0.0;
};

/// Further passes over the factors where the first one is slow: within a few millimetres of every
/// step of the run's outline heat turns round a corner.
///
/// There the temperature varies sharply along the run and across it at once, and for such a pattern
/// with s K_A / C = a and s K_C / C = b the two factors stand for (1 + a)(1 + b) instead of
/// 1 + a + b: it would follow its surroundings only over many time steps. Rounds of the alternating
/// directions with a larger capacity, after Peaceman & Rachford (1955, J. SIAM 3, 28; from memory),
///   x += (sigma C + s K_C)^-1 (2 omega / sigma) D (D + s K_A)^-1 (rhs - M x),  D = sigma C,
/// with sigma = omega + 1/2 and M = C + s K_A + s K_C the operator itself, leave each
/// (omega' - a)(omega' - b) / (omega' + a) / (omega' + b), omega' near omega, of what is wrong.
///
/// Each window is a rectangle of stations and rows, insulated all round but for faces and side
/// bodies, so that it neither creates heat nor destroys it; rows that do not reach all over it have
/// idle cells. The operator stays one and the same linear one for all stages of a step, as a
/// W-method wants it.
class OutlineWindows {
 public:
  struct Passes {
    double reach_in_radii;  ///< how far about a corner, as a part of the covering's outer radius
    bool where_ties_end;    ///< also where side bodies begin and end to take heat all round
    std::vector<double> omega;  ///< one per round
  };
  /// One round near the steps. All three found by trial: omega of 5 to 20 serves equally for cells
  /// of 0.1 to 1 mm and steps of 1 to 200 s, and so does half of the reach.
  static Passes brief() { return {0.7, false, {8.0}}; }
  /// What is left behind does not show beside the scheme's own error, on finely resolved corners
  /// and in short steps, too. With three rounds, or a reach of 1, it still did.
  static Passes thorough() { return {1.4, true, {1.0, 4.0, 20.0, 100.0}}; }

  OutlineWindows(const HeatNetwork& network, const AxialFactor& axial, const Passes& passes);

  [[nodiscard]] bool empty() const { return windows_.empty(); }
  /// Stations of each window: where they begin and how many there are.
  [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> stations() const;
  /// Which cells of the grid lie in a window.
  [[nodiscard]] std::vector<bool> cells() const;
  /// Cells swept in all rounds together.
  [[nodiscard]] std::size_t work() const;

  /// After the axial factor has been factored.
  /// @param capacity C against temperature, J/K per cell
  void factor(double s, std::span<const double> capacity);
  /// Keeps what the axial factor left in the rows of one of its blocks, before they are gathered
  /// any further.
  void keep_axial(std::size_t block, std::span<const double> x) const;
  /// Corrects a solution of the two factors in place.
  /// @return what the correction adds to the booked heat
  Booked correct(std::span<double> x);
  /// What the last correction gave to bays: it has not been booked.
  [[nodiscard]] const std::vector<FaceHeat>& into_bays() const { return into_bays_; }

 private:
  /// Stations, and the rows (counted from the conductor outwards) near the corner; ends excluded.
  struct Extent {
    std::size_t first_station, last_station, first_row, last_row;
  };
  /// A rectangle of cells of one patch within a window.
  struct Piece {
    std::size_t patch, first_row;  // within the window: of the patch's first row
    std::size_t cell, stride;      // of the grid
    std::size_t local;             // its first cell in the window
    std::size_t rows, stations;
  };
  struct FaceSite {
    std::size_t local, face;
  };
  struct GasSite {
    std::size_t local, inside, outside, gas;
  };
  /// A tie to a side body, whose first cell that holds heat stands still in the correction and
  /// takes what comes to it.
  struct TieSite {
    std::size_t local = 0;
    const grid::SideBody* body = nullptr;
    const grid::SideBody::Tie* tie = nullptr;
    double conductance = 0.0;  // s times it, as far as that cell
  };
  /// The matrices of one round.
  struct Round {
    double sigma = 0.0, gain = 0.0;      // gain: 2 omega / sigma
    Cells weight, lower, inverse;        // along the run; weight: D
    Cells column_lower, column_inverse;  // across it
    Cells line_lower;                    // the conductor's line
    std::vector<RowGroup> groups;        // of the rows whose conduction along the run counts
  };
  struct Window {
    std::size_t first_station = 0, stations = 0, stride = 0, rows = 0;
    std::size_t along_begin = 0, along_end = 0;  // rows whose conduction along the run counts
    std::vector<Piece> pieces;
    std::vector<FaceSite> radial_faces, axial_faces;
    std::vector<GasSite> gases;
    std::vector<TieSite> ties;
    // Per cell of the window. As the network has them:
    Cells capacity, stiffening, onward, lent, inward, line;
    Cells ends, per_weight;  // slopes of end faces, 1 / D of the first pass
    std::vector<Round> rounds;
    // What the first pass has after its axial factor and at its end; the correction.
    Cells axial, first, change, scratch;
    Cells earlier, wrong, along;  // with several rounds: see solve_again()
  };

  [[nodiscard]] std::vector<Extent> extents() const;
  [[nodiscard]] Extent extent_about(std::size_t station) const;
  [[nodiscard]] bool corner_at(std::size_t station) const;
  void add_window(const Extent& extent);
  void lay_pieces(const Extent& extent, Window& window) const;
  void find_sites(Window& window) const;
  void allocate(Window& window) const;
  [[nodiscard]] Round round(const Window& window, double omega) const;
  static void add_rows_that_count(const Window& window, const Piece& piece, std::size_t first_row,
                                  std::size_t rows, double* local,
                                  std::vector<Rectangle>& rectangles);
  void lay_rectangles();
  void gather(Window& window, std::span<const double> capacity) const;
  void factor_along(Window& window) const;
  void factor_across(const Window& window, Round& round) const;
  void find_ties(Window& window) const;
  void find_missed(Window& window, Booked& booked);
  void solve(Window& window, Round& round, Booked& booked);
  void solve_again(Window& window, std::size_t next, Booked& booked);
  void hand_on(const Window& window, std::span<double> x, Booked& booked);
  [[nodiscard]] double conductance_of(const TieSite& site) const;

  const HeatNetwork& network_;
  const AxialFactor& axial_;
  Passes passes_;
  std::vector<Window> windows_;
  // Of all windows: what the axial factor leaves, by its blocks; the first solution; the change.
  std::vector<std::vector<Rectangle>> axial_of_block_;
  std::vector<Rectangle> first_, change_;
  std::vector<bool> in_bay_;  // per face; empty without bays
  std::vector<FaceHeat> into_bays_;
  bool gathered_ = false;
  double s_ = 0.0;
  std::span<const double> capacity_;
};

}  // namespace ampstair::marching
