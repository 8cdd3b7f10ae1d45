// SPDX-License-Identifier: MIT
#pragma once

#include "history/layout.hpp"
#include "marching/network.hpp"
#include "scenario/scenario.hpp"

namespace ampstair::verbs {

// Tables that a record has from the begin (RECORD_FORMAT.md).
history::Table pieces_table(const scenario::Scenario& s);
history::Table probes_table(const scenario::Scenario& s);
history::Table watch_table(const scenario::Scenario& s);
history::Table values_table(const scenario::Scenario& s);
history::Table files_table(const scenario::Scenario& s);
history::Table settings_table(const scenario::Scenario& s, const marching::HeatNetwork& network);
history::Table grid_table(const marching::HeatNetwork& network);

}  // namespace ampstair::verbs
