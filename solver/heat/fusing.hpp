// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace ampstair::heat {

/// Constant of W. H. Preece's rule for the current that melts a long bare wire in still air,
/// I = C d^(3/2) (Proc. Roy. Soc. 44, 1888, 109; from memory). The figures were published for d in
/// inches (seen, copper 10244); the rule is good to about a quarter.
struct FusingConstant {
  double value = 0.0;       ///< A / m^(3/2)
  std::string metal;        ///< that it was found for
  bool of_another = false;  ///< that metal stands in for one without a constant
};

/// @param material name of the conductor's material; where none is known for it, copper's, the
///        greatest of all, stands in
FusingConstant fusing_constant(const std::string& material);

/// A, of a bare wire of this diameter [m].
double fusing_current(const FusingConstant& constant, double diameter);

}  // namespace ampstair::heat
