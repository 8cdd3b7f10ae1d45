// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "history/layout.hpp"
#include "marching/network.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::verbs {

/// Tables of the instruments a sheet names, with what the surfaces there are like, so that a reader
/// can tell what they would have shown: camera, thermocouples, taps, touch, stations, resistivity.
/// A table is there only where it holds something.
std::vector<history::Table> instrument_tables(const scenario::Scenario& scenario,
                                              const marching::HeatNetwork& network);

}  // namespace ampstair::verbs
