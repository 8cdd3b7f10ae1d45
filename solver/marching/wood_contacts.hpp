// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "marching/network.hpp"
#include "marching/stepper.hpp"

namespace ampstair::marching {

/// What the march does to the wood at every place where it touches something: how deep the char
/// line has come at its farthest, and for how long its face was above two temperatures. Places in
/// the order of the view's part "wood": one a station round the wire, one a body beside it.
class WoodContacts {
 public:
  explicit WoodContacts(const HeatNetwork& network);

  /// Temperatures above which time is counted, K: 77 degC (long exposure) and 250 degC (short),
  /// both cautions of Babrauskas, Gray & Janssens 2007, Fire and Materials 31, 125 (seen).
  static constexpr double long_caution = 350.15;
  static constexpr double short_caution = 523.15;

  [[nodiscard]] const std::vector<double>& positions() const { return positions_; }  ///< m
  /// m from the wood's face, one a place; 0 where the char line never came.
  [[nodiscard]] const std::vector<double>& char_depth() const { return char_depth_; }
  /// s, one a place.
  [[nodiscard]] const std::vector<double>& above_long_caution() const { return above_long_; }
  [[nodiscard]] const std::vector<double>& above_short_caution() const { return above_short_; }

  /// The state the march begins with.
  void begin(double time, std::span<const double> temperature);
  /// Follows the step attempted last up to a part `theta` of it.
  /// @param begin s, of the step
  /// @param length s, of the step
  void follow(const Stepper& stepper, double begin, double length, double theta);

 private:
  struct Contact {
    double position = 0.0;
    std::size_t touching = 0;        ///< cell on the other side of the face
    grid::Link link;                 ///< from there to the first cell
    std::vector<std::size_t> cells;  ///< of wood, from the face into the depth
    std::vector<double> depth;       ///< m from the face, of the cells
    double end = 0.0;                ///< m, how deep the wood is
  };

  void add_round_the_wire();
  void add_bodies();
  [[nodiscard]] double face(const Contact& contact, std::span<const double> temperature) const;
  [[nodiscard]] double front(const Contact& contact, std::span<const double> temperature) const;
  void take(const Stepper& stepper, double theta, double time);

  const HeatNetwork& network_;
  std::vector<Contact> contacts_;
  std::vector<double> positions_;
  std::vector<std::size_t> faces_cells_;  // what the faces are found from
  std::vector<double> temperature_;       // K per cell; only cells of contacts are kept up
  std::vector<double> face_;              // K per contact, at seen_until_
  double seen_until_ = 0.0;               // s
  std::vector<double> char_depth_, above_long_, above_short_;
};

}  // namespace ampstair::marching
