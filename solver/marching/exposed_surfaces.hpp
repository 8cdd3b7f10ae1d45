// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "grid/grid.hpp"
#include "marching/faces.hpp"
#include "marching/march.hpp"
#include "marching/network.hpp"

namespace ampstair::marching {

/// Temperatures of the run's surface where it is exposed, for one moment of a march after another.
/// All of them are solved together, each from what it was at the moment before; one by one, as
/// HeatNetwork::surface does it, they take ten times as long.
class ExposedSurfaces {
 public:
  ExposedSurfaces(const HeatNetwork& network, const scenario::Scenario& scenario);
  ~ExposedSurfaces() = default;
  ExposedSurfaces(const ExposedSurfaces&) = delete;
  ExposedSurfaces& operator=(const ExposedSurfaces&) = delete;

  /// @param out K per station of the run; only those with an outer face are written
  void at(const Moment& moment, std::span<double> out);

 private:
  void follow_air(double time);

  const HeatNetwork& network_;
  const scenario::Scenario& scenario_;
  std::vector<heat::Prevailing> prevailing_;  // per surroundings, at the last moment
  const std::vector<std::size_t> station_;    // with an outer face
  const std::vector<std::size_t> cell_;       // behind these faces, then the heads beside them
  const grid::Grid outer_;                    // faces and these cells only
  Faces faces_;
  Cells temperature_, conductivity_;  // of cell_
  Cells surface_;                     // K, of each face
};

}  // namespace ampstair::marching
