// SPDX-License-Identifier: MIT
#pragma once

#include "scenarios.hpp"

namespace ampstair::tests {

/// A run with every kind of piece there is: lug with a lead, open wire, knob on wood, tube through
/// wood, loose sleeve, wrapped splice, fill, bare cut end; where gaps are of air, wood before an
/// open piece, the sleeve and the splice. Nothing about it is even or symmetric.
/// Probes: the conductor at the middle of every piece.
enum class Gaps { of_air, of_a_solid };  ///< what fills tube and sleeve
Rig every_piece(scenario::MaterialPtr metal, const scenario::Surroundings& around, Gaps gaps);

/// The same run walked through from its other end.
scenario::Scenario reversed(const scenario::Scenario& scenario);

}  // namespace ampstair::tests
