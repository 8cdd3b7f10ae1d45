// SPDX-License-Identifier: MIT
#include "report/series.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

#include "checks/drive.hpp"

namespace ampstair::post::report {

namespace {

using checks::Histories;
using nlohmann::json;

constexpr std::size_t rows_at_once = 64;
constexpr std::size_t rows_of_a_curve = 900;
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// To a hundredth; JSON has no NaN, a gap is null.
json hundredths(double value) {
  return std::isfinite(value) ? json(std::round(value * 100.0) / 100.0) : json();
}

/// To four significant figures, for what is small.
json four_figures(double value) {
  if (!std::isfinite(value)) {
    return {};
  }
  if (value == 0.0) {
    return 0.0;
  }
  const double scale = std::pow(10.0, 3.0 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

template <class Round>
json chosen(const std::vector<double>& values, const std::vector<std::size_t>& rows, Round round) {
  json out = json::array();
  for (const std::size_t row : rows) {
    out.push_back(round(values[row]));
  }
  return out;
}

std::vector<double> in_minutes(const std::vector<double>& seconds) {
  std::vector<double> minutes(seconds);
  for (double& value : minutes) {
    value /= 60.0;
  }
  return minutes;
}

/// Index of the last row of every step that has one.
std::vector<std::size_t> last_rows(const checks::Drive& drive) {
  std::vector<std::size_t> last(drive.steps().size(), static_cast<std::size_t>(-1));
  for (std::size_t row = 0; row < drive.times().size(); ++row) {
    if (drive.step_of_row(row) < last.size()) {
      last[drive.step_of_row(row)] = row;
    }
  }
  return last;
}

/// Takes away what is not to be used.
void blank_after(const std::optional<double>& end, const std::vector<double>& times,
                 std::vector<double>& values) {
  for (std::size_t row = 0; end && row < times.size(); ++row) {
    if (times[row] > *end) {
      values[row] = nothing;
    }
  }
}

json one_row(const Histories& histories, const std::string& name, std::size_t row) {
  json out = json::array();
  for (const double value : histories.rows(name, row, 1)) {
    out.push_back(hundredths(value));
  }
  return out;
}

/// Marks where a curve between two rows that are drawn is higher, or lower, than at both.
void keep_peaks(const std::vector<double>& curve, std::size_t from, std::size_t to,
                std::vector<bool>& keeps) {
  std::size_t highest = curve[to] > curve[from] ? to : from;
  std::size_t lowest = curve[to] < curve[from] ? to : from;
  for (std::size_t row = from; row <= to; ++row) {
    highest = curve[row] > curve[highest] || std::isnan(curve[highest]) ? row : highest;
    lowest = curve[row] < curve[lowest] || std::isnan(curve[lowest]) ? row : lowest;
  }
  keeps[highest] = keeps[lowest] = true;
}

}  // namespace

std::vector<std::size_t> rows_to_draw(const std::vector<double>& times, std::size_t most,
                                      std::span<const std::vector<double>> curves) {
  const std::size_t count = times.size();
  const std::size_t stride =
      count <= most ? 1 : std::max<std::size_t>(1, (2 * count + most - 1) / most);
  std::vector<bool> keeps(count, false);
  for (std::size_t row = 0; row < count; ++row) {
    const bool jumps = (row > 0 && times[row] == times[row - 1]) ||
                       (row + 1 < count && times[row] == times[row + 1]);
    keeps[row] = row % stride == 0 || jumps || row + 1 == count;
  }
  for (const auto& curve : curves) {
    for (std::size_t from = 0; stride > 1 && from + 1 < count; from += stride) {
      keep_peaks(curve, from, std::min(from + stride, count - 1), keeps);
    }
  }
  std::vector<std::size_t> rows;
  for (std::size_t row = 0; row < count; ++row) {
    if (keeps[row]) {
      rows.push_back(row);
    }
  }
  return rows;
}

void read_rows(const Histories& histories, const std::string& name, std::size_t rows,
               const std::function<void(std::size_t, const double*, std::size_t)>& visit) {
  for (std::size_t first = 0; first < rows; first += rows_at_once) {
    const std::size_t count = std::min(rows_at_once, rows - first);
    const auto block = histories.rows(name, first, count);
    const std::size_t places = count > 0 ? block.size() / count : 0;
    for (std::size_t r = 0; r < count; ++r) {
      visit(first + r, block.data() + r * places, places);
    }
  }
}

std::vector<double> hottest_of_rows(const Histories& histories, const std::string& name,
                                    std::size_t rows) {
  std::vector<double> hottest(rows, nothing);
  read_rows(histories, name, rows, [&](std::size_t row, const double* values, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      hottest[row] = std::fmax(hottest[row], values[i]);  // NaN counts for nothing
    }
  });
  return hottest;
}

json timeline(const Histories& histories, const Until& until) {
  const auto times = histories.times();
  std::vector<std::string> names;
  std::vector<std::vector<double>> curves;
  for (const auto& series : histories.series()) {
    constexpr std::string_view ending = "_temperature";
    const std::string& name = series.naming.name;
    const bool drawn = !series.axis.empty() && name.size() > ending.size() &&
                       name.ends_with(ending) && series.axis != "probe";
    if (drawn) {
      names.push_back(name.substr(0, name.size() - ending.size()));
      curves.push_back(hottest_of_rows(histories, name, times.size()));
      blank_after(until(name), times, curves.back());
    }
  }
  if (histories.has("current")) {  // peaks of it are kept, too
    curves.push_back(histories.scalar("current"));
  }
  if (histories.has("ambient_speed")) {
    curves.push_back(histories.scalar("ambient_speed"));
  }
  const auto rows = rows_to_draw(times, rows_of_a_curve, curves);
  json out;
  out["minute"] =
      chosen(in_minutes(times), rows, [](double v) { return json(std::round(v * 1e4) / 1e4); });
  for (const char* name : {"current_asked", "current", "voltage", "power"}) {
    if (histories.has(name)) {
      out[name] = chosen(histories.scalar(name), rows, four_figures);
    }
  }
  for (const char* name : {"ambient_air", "ambient_speed"}) {
    if (histories.has(name)) {
      out[name] = chosen(histories.scalar(name), rows, hundredths);
    }
  }
  out["curves"] = json::array();
  for (std::size_t k = 0; k < names.size(); ++k) {
    json curve;
    curve["part"] = names[k];
    curve["degC"] = chosen(curves[k], rows, hundredths);
    out["curves"].push_back(std::move(curve));
  }
  return out;
}

json strip(const Histories& histories, const Until& until, std::size_t most_rows,
           std::size_t most_places) {
  const auto times = histories.times();
  const auto position = histories.axis("position");
  const std::size_t along =
      std::max<std::size_t>(1, (position.size() + most_places - 1) / most_places);
  const std::size_t down = std::max<std::size_t>(1, (times.size() + most_rows - 1) / most_rows);
  json out;
  out["position_m"] = json::array();
  for (std::size_t j = 0; j < position.size(); j += along) {
    const std::size_t last = std::min(j + along, position.size()) - 1;
    out["position_m"].push_back(std::round(500.0 * (position[j] + position[last])) / 1000.0);
  }
  const std::size_t places = out["position_m"].size();
  out["minute"] = json::array();
  out["degC"] = json::array();
  const auto end = until("conductor_temperature");
  std::vector<double> hottest;
  read_rows(
      histories, "conductor_temperature", times.size(),
      [&](std::size_t row, const double* values, std::size_t count) {
        if (row % down == 0) {
          out["minute"].push_back(std::round(times[row] / 0.6) / 100.0);
          hottest.assign(places, nothing);
        }
        for (std::size_t j = 0; j < count && !(end && times[row] > *end); ++j) {
          hottest[j / along] = std::fmax(hottest[j / along], values[j]);
        }
        if (row % down + 1 == down || row + 1 == times.size()) {
          json line = json::array();
          for (const double value : hottest) {
            line.push_back(std::isfinite(value) ? json(std::round(value * 10.0) / 10.0) : json());
          }
          out["degC"].push_back(std::move(line));
        }
      });
  return out;
}

json along(const Histories& histories, const Until& until) {
  const checks::Drive drive(histories);
  json out;
  out["position_m"] = json::array();
  for (const double metre : histories.axis("position")) {
    out["position_m"].push_back(std::round(metre * 1e4) / 1e4);
  }
  out["steps"] = json::array();
  const auto last = last_rows(drive);
  for (std::size_t s = 0; s < last.size(); ++s) {
    const auto end = until("conductor_temperature");
    if (last[s] == static_cast<std::size_t>(-1) || (end && drive.times()[last[s]] > *end)) {
      continue;
    }
    json step;
    step["step"] = s + 1;
    step["conductor"] = one_row(histories, "conductor_temperature", last[s]);
    if (histories.has("surface_temperature")) {
      step["surface"] = one_row(histories, "surface_temperature", last[s]);
    }
    out["steps"].push_back(std::move(step));
  }
  return out;
}

}  // namespace ampstair::post::report
