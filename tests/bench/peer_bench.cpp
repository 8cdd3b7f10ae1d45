// SPDX-License-Identifier: MIT
// march() against CVODE's best configuration, both held to the same measured error.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "contest.hpp"
#include "grid/grid.hpp"
#include "machine.hpp"
#include "marching/march.hpp"
#include "observed_order.hpp"
#include "peer_cases.hpp"
#include "scenario/load.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::bench;

// Reads and writes of whole arrays in one step of the scheme, scratch included. Rows that share
// their coefficients: states and heat flows 17, sweeps along the run 16 (as if none were left out),
// sweeps across it 24, factors 3, end of the step 7. Rows with coefficients of their own: 12 more
// for the heat flows, 16 for the sweeps along the run, 4 for those across it, 8 for the factors.
// The second pass over corners is not counted.
constexpr double array_passes = 67.0;
constexpr double more_passes_of_own = 40.0;
// Arrays as long as the grid that a step works on, and those for rows of their own coefficients.
constexpr double arrays = 9.0;
constexpr double more_arrays_of_own = 8.0;

// Rounds of an entrant by how long its march takes: a neighbour on the machine slows some of them.
constexpr int rounds = 15;
constexpr int rounds_if_slow = 5;
constexpr int command_rounds = 15;
constexpr double slow = 0.3;                // s
constexpr double too_slow_to_repeat = 3.0;  // s
// Marches of one method follow each other for so long in a round: those of an ensemble do, too, and
// a march of a few milliseconds would otherwise be timed with another method's data in the caches.
constexpr double round_lasts = 0.1;  // s

int rounds_of(double seconds) {
  return seconds > too_slow_to_repeat ? 1 : seconds > slow ? rounds_if_slow : rounds;
}

/// CPU time of every entrant, in turn round by round, so that all see the same machine.
std::vector<double> time_in_turn(const std::vector<Entrant>& entrants) {
  std::vector<std::vector<double>> seconds(entrants.size());
  for (int round = 0; round < rounds; ++round) {
    for (std::size_t k = 0; k < entrants.size(); ++k) {
      if (round > 0 && round >= rounds_of(seconds[k].front())) {
        continue;
      }
      const double begin = cpu_seconds();
      double spent = 0.0;
      int marches = 0;
      while (spent < round_lasts) {
        entrants[k].march();
        ++marches;
        spent = cpu_seconds() - begin;
      }
      seconds[k].push_back(spent / marches);
    }
  }
  std::vector<double> medians;
  for (const auto& measured : seconds) {
    medians.push_back(median(measured));
  }
  return medians;
}

/// Cost of ours and of CVODE's best for each target; 0 where a target was not kept.
struct Costs {
  std::size_t cells = 0;
  std::array<double, targets.size()> ours{}, peer{};

  [[nodiscard]] double ratio(std::size_t k) const {
    return ours[k] > 0.0 ? peer[k] / ours[k] : 0.0;
  }
};

void print_row(const Entrant& entrant, double seconds, double ratio, std::size_t cells) {
  const Outcome& o = entrant.outcome;
  const double each = seconds / static_cast<double>(cells) /
                      static_cast<double>(std::max(1L, o.steps + o.rejected));
  fmt::print("  {:<14} {:<36} {:>5} {:>4} {:>8.4f} {:>8.4f} {:>9.2f} {:>7.1f} {:>7.1f}\n",
             entrant.method, o.setting, o.steps, o.rejected, o.probed, o.anywhere, 1e3 * seconds,
             ratio, 1e9 * each);
}

/// Bytes the scheme moves against what this machine moves in a working set of that size.
void print_traffic(const Entrant& ours, double seconds, const Contest& contest) {
  const double cells = static_cast<double>(contest.cells_with_padding());
  const double tried = static_cast<double>(ours.outcome.steps + ours.outcome.rejected);
  const double own = contest.share_of_own_coefficients();
  const double bytes = (array_passes + own * more_passes_of_own) * sizeof(double);
  const double moved = bytes * cells * tried / seconds;
  const double working_set = (arrays + own * more_arrays_of_own) * cells * sizeof(double);
  const double could = triad_bandwidth(static_cast<std::size_t>(working_set));
  fmt::print(
      "  march moves about {:.0f} bytes a cell and step ({:.0f} % of the cells have coefficients "
      "of "
      "their own):\n  {:.1f} GB/s of {:.1f} GB/s that a triad moves in its working set of {:.1f} "
      "MB\n",
      bytes, 100.0 * own, 1e-9 * moved, 1e-9 * could, 1e-6 * working_set);
}

Costs contest(const std::string& name, const scenario::Scenario& scenario, double scale) {
  Contest contest(scenario, scale);
  Costs costs;
  costs.cells = contest.cells();
  fmt::print("\n{}, {} cells; grid and network {:.2f} ms, stepper {:.2f} ms, half bandwidth {}\n",
             name, costs.cells, 1e3 * contest.seconds_of_grid(), 1e3 * contest.seconds_of_stepper(),
             contest.half_bandwidth());
  const double disagreement = contest.make_reference();
  fmt::print("  tight references of march and CVODE agree to {:.1e} K anywhere\n", disagreement);
  if (!(disagreement < 0.2 * targets.back().error)) {
    throw std::runtime_error("the references disagree: no error can be measured");
  }
  const auto ours = contest.find_ours();
  const auto sparse = contest.find_sparse();
  const auto banded = contest.with_band(sparse);
  for (std::size_t k = 0; k < targets.size(); ++k) {
    fmt::print(" error {} <= {} K\n", targets[k].anywhere ? "anywhere" : "of conductor and probes",
               targets[k].error);
    if (!ours[k] || !sparse[k]) {
      fmt::print("  not kept by {}\n", ours[k] ? "CVODE" : "march");
      continue;
    }
    fmt::print("  {:<14} {:<36} {:>5} {:>4} {:>8} {:>8} {:>9} {:>7} {:>7}\n", "method", "setting",
               "steps", "rej.", "probed", "anywh.", "ms", "ratio", "ns/c/s");
    const std::vector<Entrant> entrants{*ours[k], *sparse[k], *banded[k]};
    const auto seconds = time_in_turn(entrants);
    for (std::size_t e = 0; e < entrants.size(); ++e) {
      print_row(entrants[e], seconds[e], seconds[e] / seconds[0], costs.cells);
    }
    costs.ours[k] = seconds[0];
    costs.peer[k] = std::min(seconds[1], seconds[2]);
    if (k == 0) {
      print_traffic(entrants[0], seconds[0], contest);
    }
    std::fflush(stdout);
  }
  return costs;
}

/// Exponents of cost against cells, fitted over all sizes.
void print_exponents(const std::vector<Costs>& all) {
  fmt::print("\nCost against cells, case B, fitted exponent over {} sizes\n", all.size());
  for (std::size_t k = 0; k < targets.size(); ++k) {
    std::vector<double> cells, ours, peer;
    for (const Costs& costs : all) {
      if (costs.ours[k] > 0.0) {
        cells.push_back(static_cast<double>(costs.cells));
        ours.push_back(costs.ours[k]);
        peer.push_back(costs.peer[k]);
      }
    }
    if (cells.size() > 1) {
      fmt::print("  {} K {:<24} march {:.2f}, CVODE {:.2f}\n", targets[k].error,
                 targets[k].anywhere ? "anywhere" : "at conductor and probes",
                 tests::observed_order(cells, ours), tests::observed_order(cells, peer));
    }
  }
}

/// The whole command on the shipped barn, each time a process of its own: starting, touching memory
/// for the first time and cold caches are part of it. It tells itself where its time goes.
void print_command() {
  const auto record = std::filesystem::temp_directory_path() / "peer-bench.h5";
  std::vector<std::string> command{AMPSTAIR_PROGRAM,
                                   "run",
                                   AMPSTAIR_SOURCE_FOLDER "/scenarios/cider-barn.yaml",
                                   "-o",
                                   record.string(),
                                   "--overwrite",
                                   "--quiet"};
  std::vector<double> seconds;
  for (int round = 0; round < command_rounds; ++round) {
    seconds.push_back(cpu_seconds_of(command));
  }
  fmt::print(
      "\nThe barn, whole command: {:.1f} ms of CPU, median of {}, least {:.1f}. Once more:\n",
      1e3 * median(seconds), command_rounds,
      1e3 * *std::min_element(seconds.begin(), seconds.end()));
  std::fflush(stdout);
  command.pop_back();
  cpu_seconds_of(command);
  std::filesystem::remove(record);
}

/// Case B at about so many cells when its grid is refined by `scale`.
constexpr double scales[] = {0.5, 1.25, 1.98, 3.05};
constexpr std::size_t headline = 1;

int compare(bool quick) {
  fmt::print("{}\nCompiled by {} with{} (single files may add to it)\n", processor(),
             AMPSTAIR_COMPILED_BY, AMPSTAIR_COMPILED_WITH);
  fmt::print("CPU times a march, medians of up to {} rounds in turn; ratio: cost over march's\n",
             rounds);
  auto stud = tests::wire_through_stud().sheet;
  stud.output.grid = 0.01;
  std::vector<Costs> all;
  for (std::size_t k = 0; k < std::size(scales); ++k) {
    if (!quick || k == headline) {
      all.push_back(contest("case B", stud, scales[k]));
    }
  }
  if (!quick) {
    contest("the barn", tests::barn(), 1.0);
    print_exponents(all);
  }
  print_command();
  const Costs& shown = all[quick ? 0 : headline];
  fmt::print("\ncase B, {} cells, anywhere: {:.1f} x at 0.1 K, {:.1f} x at 0.01 K\n", shown.cells,
             shown.ratio(2), shown.ratio(3));
  fmt::print("case B, {} cells: {:.1f} x at 0.1 K, {:.1f} x at 0.01 K\n", shown.cells,
             shown.ratio(0), shown.ratio(1));
  return 0;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    return compare(count > 1 && std::string(arguments[1]) == "quick");
  } catch (const std::exception& problem) {
    fmt::print(stderr, "peer_bench: {}\n", problem.what());
    return 1;
  }
}
