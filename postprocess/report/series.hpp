// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "checks/histories.hpp"

namespace ampstair::post::report {

/// Rows of a record that are enough to draw it. All where there are no more than `most`; else every
/// so many (half of `most`), both rows of every jump, the last, and the rows where a curve is
/// higher or lower than at both kept rows around it, so that no peak is lost.
/// @param curves values row by row; not a number where there is none
std::vector<std::size_t> rows_to_draw(const std::vector<double>& times, std::size_t most,
                                      std::span<const std::vector<double>> curves = {});

/// Reads a history on an axis a few rows at a time, so that memory does not grow with the record.
/// @param visit called with a row's number and its values, in order
void read_rows(const checks::Histories& histories, const std::string& name, std::size_t rows,
               const std::function<void(std::size_t, const double*, std::size_t)>& visit);

/// The hottest of a history in every row, degC; NaN where it has no value.
std::vector<double> hottest_of_rows(const checks::Histories& histories, const std::string& name,
                                    std::size_t rows);

/// When the results of a history end, s: from there on they are not to be used and are not drawn.
using Until = std::function<std::optional<double>(const std::string& history)>;

/// The clock of a record: {minute: [...], current: [...], volts: [...], conductor: [...], ...} for
/// the rows to draw, temperatures in degC to 0.01.
nlohmann::json timeline(const checks::Histories& histories, const Until& until);

/// Conductor temperature over distance and time, thinned to about `most_rows` by `most_places`:
/// {position_m: [...], minute: [...], degC: [[...], ...]}, hottest of what falls together.
nlohmann::json strip(const checks::Histories& histories, const Until& until, std::size_t most_rows,
                     std::size_t most_places);

/// Conductor and surface along the run at the last row of every step:
/// {position_m: [...], steps: [{step, conductor: [...], surface: [...]}]}.
nlohmann::json along(const checks::Histories& histories, const Until& until);

}  // namespace ampstair::post::report
