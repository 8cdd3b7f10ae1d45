// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "scenarios.hpp"

namespace ampstair::tests {

/// Scenarios that march() and CVODE both march, and what is compared of them.

/// Covered wire far from any end: 40 A for half an hour, then half an hour of rest.
Rig covered_wire_alone();
/// Covered wire through a porcelain tube in a stud, 1.2 m: 50 A, then 70 A, a quarter of an hour
/// each; probes on the wire, the braid, the tube and the wood.
Rig wire_through_stud();
/// Covered wire in the open, then before wood across 2 mm of still air, then in a tight sleeve
/// across 6 mm: 40 and 50 A for half an hour each, and a rest.
Rig wire_along_a_joist();
/// Bare wire, half a metre between ends held at the air's temperature: 40 A for half an hour.
Rig bare_wire_between_held_ends();
/// The shipped run sheet of the cider-mill barn.
scenario::Scenario barn();

/// What an observer reads at every output: the conductor and the surface at every station, every
/// part wherever it exists, the probes. K.
struct History {
  std::vector<double> time;                ///< s
  std::vector<std::vector<double>> value;  ///< one row per time
  std::size_t stations = 0, probes = 0;    ///< the first and the last entries of a row
};

class HistoryKeeper : public marching::Observer {
 public:
  HistoryKeeper(const marching::HeatNetwork& network, const scenario::Scenario& scenario);
  void moment(const marching::Moment& moment) override;
  bool advanced(double) override { return true; }

  History history;

 private:
  marching::View view_;
};

/// Largest differences of two histories of one grid at any output, K.
struct Difference {
  double conductor = 0.0;  ///< at any station
  double probes = 0.0;     ///< at any probe
  double anywhere = 0.0;   ///< of all that a history holds
};
Difference largest_difference(const History& a, const History& b);

}  // namespace ampstair::tests
