// SPDX-License-Identifier: MIT
#pragma once

#include "scenarios.hpp"

namespace ampstair::tests {

// One scenario for every kind of cell a grid is made of: what the orders of accuracy are observed
// at. Each ends while its temperatures still change. Lengths are such that twice or thrice the
// refinement gives twice or thrice the cells in every stretch (grid::graded rounds up to whole
// cells), and probes lie at ends and in the middle of pieces, where every grid has a face.
// `along` is the scale of all lengths along the wire, 1 for decimetres: the smaller, the finer the
// cells against the thickness of what surrounds the conductor.

/// One layer round the conductor, nothing changing along it.
Rig homogeneous_rows();
/// Two layers of as many rows each, conductivities 0.3 and 0.03 W/m/K.
Rig layer_interface();
/// A loose sleeve all along: air and radiation between covering and sleeve.
Rig air_gap();
/// A tube all along with a gas in its bore, next to massless like air, of one conductivity.
Rig gas_gap();
/// Bare wire between ends held at the air's temperature.
Rig held_ends();
/// A tight sleeve over the middle of the run.
Rig sleeve_end(double along);
/// A porcelain tube through a board.
Rig tube_through_board(double along);
/// A split knob on wood that grips all of a short wire: nothing depends on the place but through
/// the knob.
Rig knob_all_along(double covers);
/// A split knob on wood, covering a part of the wire's circumference.
Rig knob_with_wood(double along, double covers);
/// Lugs at both ends, joined to leads.
Rig lugs_with_leads();
/// Covered wire that faces wood across 2 mm of air all along. Probes: conductor, surface, wood.
Rig facing_wood();
/// Covered wire in air that warms, then stirs.
Rig moving_surroundings();

}  // namespace ampstair::tests
