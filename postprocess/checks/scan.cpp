// SPDX-License-Identifier: MIT
#include "checks/scan.hpp"

#include <algorithm>

#include "checks/zero_celsius.hpp"

namespace ampstair::post::checks {

namespace {

constexpr std::size_t block_values = std::size_t{1} << 17;  // 1 MiB of double precision

}  // namespace

void scan(const Histories& histories, const history::Series& series, std::span<const double> times,
          std::span<RowTaker* const> takers, double until) {
  while (!times.empty() && times.back() > until) {
    times = times.first(times.size() - 1);
  }
  const std::size_t width = histories.axis(series.axis).size();
  if (width == 0) {
    return;
  }
  const double zero = series.naming.units == "degC" ? celsius_zero : 0.0;
  const std::size_t rows_in_block = std::max<std::size_t>(1, block_values / width);
  for (std::size_t first = 0; first < times.size(); first += rows_in_block) {
    const std::size_t count = std::min(rows_in_block, times.size() - first);
    auto block = histories.rows(series.naming.name, first, count);
    std::for_each(block.begin(), block.end(), [zero](double& value) { value += zero; });
    for (std::size_t i = 0; i < count; ++i) {
      const std::span<const double> row(block.data() + i * width, width);
      for (RowTaker* taker : takers) {
        taker->take(first + i, times[first + i], row);
      }
    }
  }
}

}  // namespace ampstair::post::checks
