// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cstring>
#include <thread>
#include <vector>

#include "every_piece.hpp"
#include "scenarios.hpp"

namespace {

using namespace ampstair;
using namespace ampstair::tests;

Rig busy_run() {
  auto around = still_air(20);
  around.air.push_back({400.0, 5.0 + zero_celsius, 1.0});
  auto rig = every_piece(copper(), around, Gaps::of_air);
  rig.hold(50, 300).rest(100).hold(70, 200);
  return rig;
}

/// All cells at every moment.
class Bits : public marching::Observer {
 public:
  void moment(const marching::Moment& moment) override {
    cells.insert(cells.end(), moment.temperature.begin(), moment.temperature.end());
  }
  bool advanced(double) override { return true; }
  std::vector<double> cells;
};

/// Looks at nothing.
class Idle : public marching::Observer {
 public:
  void moment(const marching::Moment&) override {}
  bool advanced(double) override { return true; }
};

bool same_bits(const std::vector<double>& a, const std::vector<double>& b) {
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(double)) == 0;
}

bool same(const marching::Summary& a, const marching::Summary& b) {
  return a.steps == b.steps && a.rejected == b.rejected && a.cells == b.cells &&
         a.end_time == b.end_time && a.error_estimate == b.error_estimate && a.ending == b.ending;
}

}  // namespace

TEST_CASE("marches side by side on one grid give the bits of a march alone") {
  const auto sheet = busy_run().sheet;
  const auto grid = grid::build(sheet);
  const auto march = [&](Bits& bits, marching::Summary& summary) {
    marching::HeatNetwork network(grid, sheet);
    summary = marching::march(sheet, network, bits);
  };
  Bits alone;
  marching::Summary summary_alone;
  march(alone, summary_alone);
  CHECK(summary_alone.ending == marching::Summary::Ending::complete);
  CHECK(alone.cells.size() >= 10 * grid.cells);
  for (const std::size_t count : {1U, 2U, 8U}) {
    std::vector<Bits> bits(count);
    std::vector<marching::Summary> summary(count);
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < count; ++i) {
      threads.emplace_back([&, i] { march(bits[i], summary[i]); });
    }
    for (auto& thread : threads) {
      thread.join();
    }
    for (std::size_t i = 0; i < count; ++i) {
      INFO(count << " at once, number " << i);
      CHECK(same_bits(bits[i].cells, alone.cells));
      CHECK(same(summary[i], summary_alone));
    }
  }
}

TEST_CASE("a march does not depend on who looks at it, nor on how often") {
  auto sheet = busy_run().sheet;
  const auto grid = grid::build(sheet);
  const auto march = [&](marching::Observer& observer) {
    marching::HeatNetwork network(grid, sheet);
    return marching::march(sheet, network, observer);
  };
  Bits looking;
  const auto looked_at = march(looking);
  Idle idle;
  CHECK(same(march(idle), looked_at));
  // Outputs inside steps are interpolated: they cut no step short.
  sheet.output.every = 1.7;
  Bits often;
  CHECK(same(march(often), looked_at));
  const auto end = [&](const Bits& bits) {
    return std::vector<double>(bits.cells.end() - static_cast<std::ptrdiff_t>(grid.cells),
                               bits.cells.end());
  };
  CHECK(same_bits(end(often), end(looking)));
}
