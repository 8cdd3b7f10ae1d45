// SPDX-License-Identifier: MIT
#include "checks/readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "checks/amounts.hpp"
#include "checks/columns.hpp"
#include "checks/drive.hpp"
#include "checks/places.hpp"
#include "checks/step_ends.hpp"
#include "checks/touch_readings.hpp"
#include "checks/zero_celsius.hpp"
#include "instruments/camera.hpp"
#include "instruments/thermocouple.hpp"
#include "instruments/voltmeter.hpp"

namespace ampstair::post::checks {

namespace {

constexpr std::size_t rows_at_once = 64;
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr double room = 20.0;  // degC, of cold resistances

using Of = InstrumentReading::Of;

double or_none(double value) {
  return std::isfinite(value) ? value : 0.0;
}

void read_camera(const Histories& histories, const std::vector<StepEnd>& ends,
                 std::vector<InstrumentReading>& all) {
  const Columns columns(histories, "camera");
  if (!columns.has("name")) {
    return;
  }
  const auto name = columns.texts("name");
  const auto position = columns.numbers("position");
  const auto emissivity = columns.numbers("emissivity");
  const auto width = columns.numbers("width");
  const auto set = columns.numbers("emissivity_set");
  const auto reflected = columns.numbers("reflected");
  const auto ceiling = columns.numbers("ceiling");
  const auto distance = columns.numbers("distance");
  const auto pixel = columns.numbers("pixel_angle");
  const auto part = columns.texts("part");
  const auto history = columns.texts("history");
  for (std::size_t i = 0; i < name.size(); ++i) {
    instruments::Camera camera;
    camera.emissivity_set = set[i];
    camera.reflected = reflected[i] + celsius_zero;
    camera.ceiling = std::isfinite(ceiling[i]) ? ceiling[i] + celsius_zero : 0.0;
    camera.distance = or_none(distance[i]);
    camera.pixel_angle = or_none(pixel[i]);
    for (const StepEnd& end : ends) {
      const double kelvin = kelvin_near(histories, history[i], position[i], end.row);
      if (part[i].empty()) {
        all.push_back({"camera", name[i], end.number, Of::temperature, nothing, nothing,
                       nothing_faces_the_air});
        continue;
      }
      const auto shown =
          instruments::read(camera, {kelvin, emissivity[i], width[i], camera.reflected});
      InstrumentReading reading{"camera", name[i],           end.number, Of::temperature,
                                kelvin,   shown.temperature, ""};
      if (shown.at_ceiling) {
        reading.remark = "at the end of its scale: at or above";
      } else if (shown.filled < 1.0) {
        reading.remark = fmt::format("the wire fills {} of the spot", figures(shown.filled, 2));
      }
      all.push_back(reading);
    }
  }
}

/// The history a thermocouple's bead lies in: that of the layer over it, or the surface.
std::string bead_history(const Histories& histories, const std::string& under) {
  if (under.empty()) {
    return "surface_temperature";
  }
  const auto part = histories.texts("parts", "name");
  const auto series = histories.texts("parts", "series");
  const auto axis = histories.texts("parts", "axis");
  for (std::size_t i = 0; i < part.size(); ++i) {
    if (part[i] == under && axis[i] == "position") {
      return series[i];
    }
  }
  return "surface_temperature";
}

void read_couples(const Histories& histories, const std::vector<StepEnd>& ends,
                  std::vector<InstrumentReading>& all) {
  const Columns columns(histories, "thermocouples");
  if (!columns.has("name")) {
    return;
  }
  const auto name = columns.texts("name");
  const auto where = columns.texts("place");
  const auto under = columns.texts("under");
  const auto position = columns.numbers("position");
  const auto lag = columns.numbers("lag");
  const auto times = histories.times();
  const auto positions = histories.axis("position");
  for (std::size_t i = 0; i < name.size(); ++i) {
    const std::string history = bead_history(histories, under[i]);
    const std::size_t station = place_near(positions, position[i]);
    instruments::ThermocoupleReading couple({lag[i], 0.0});
    auto end = ends.begin();
    for (std::size_t first = 0; first < times.size(); first += rows_at_once) {
      const std::size_t count = std::min(rows_at_once, times.size() - first);
      const auto block = histories.rows(history, first, count);
      for (std::size_t r = 0; r < count; ++r) {
        const double kelvin = celsius_zero + block[r * positions.size() + station];
        const double shown = couple.add(times[first + r], kelvin, kelvin);
        if (end != ends.end() && end->row == first + r) {
          all.push_back({name[i], where[i], end->number, Of::temperature, kelvin, shown,
                         fmt::format("class 1 tolerance {} K",
                                     figures(instruments::class_1_tolerance(shown), 1))});
          ++end;
        }
      }
    }
  }
}

/// The wire between the taps, as a resistor.
class Taps {
 public:
  explicit Taps(const Histories& histories)
      : temperature_(histories.numbers("resistivity", "temperature")),
        value_(histories.numbers("resistivity", "value")),
        share_(histories.numbers("stations", "metres_per_area")) {
    const double from = std::min(histories.numbers("taps", "begin").front(),
                                 histories.numbers("taps", "end").front());
    const double to = std::max(histories.numbers("taps", "begin").front(),
                               histories.numbers("taps", "end").front());
    const auto begin = histories.numbers("stations", "begin");
    const auto end = histories.numbers("stations", "end");
    for (std::size_t j = 0; j < share_.size(); ++j) {
      const double inside = std::min(end[j], to) - std::max(begin[j], from);
      share_[j] *= std::max(0.0, inside) / (end[j] - begin[j]);
    }
  }

  /// ohm, at temperatures [degC] along the run.
  [[nodiscard]] double resistance(const std::vector<double>& celsius) const {
    double ohm = 0.0;
    for (std::size_t j = 0; j < share_.size(); ++j) {
      ohm += share_[j] * resistivity(celsius[j]);
    }
    return ohm;
  }
  /// The straight line through 20 degC that a person works with.
  [[nodiscard]] instruments::ResistanceLine line() const {
    constexpr double apart = 5.0;  // K
    return {resistance(std::vector<double>(share_.size(), room)),
            (resistivity(room + apart) - resistivity(room - apart)) /
                (2.0 * apart * resistivity(room))};
  }

 private:
  [[nodiscard]] double resistivity(double celsius) const {
    const auto after = std::upper_bound(temperature_.begin(), temperature_.end(), celsius);
    if (after == temperature_.begin()) {
      return value_.front();
    }
    if (after == temperature_.end()) {
      return value_.back();
    }
    const auto i = static_cast<std::size_t>(after - temperature_.begin());
    return std::lerp(value_[i - 1], value_[i],
                     (celsius - temperature_[i - 1]) / (temperature_[i] - temperature_[i - 1]));
  }

  std::vector<double> temperature_, value_, share_;
};

void read_voltmeter(const Histories& histories, const std::vector<StepEnd>& ends,
                    std::vector<InstrumentReading>& all) {
  if (!histories.has("taps/begin") || !histories.has("stations/metres_per_area")) {
    return;
  }
  const Taps taps(histories);
  const auto line = taps.line();
  const auto current = histories.scalar("current");
  const double error = histories.numbers("taps", "error").front();
  for (const StepEnd& end : ends) {
    const double volts =
        current[end.row] * taps.resistance(histories.rows("conductor_temperature", end.row, 1));
    InstrumentReading reading{
        "voltmeter", histories.texts("taps", "name").front(), end.number, Of::volts, volts, volts,
        ""};
    if (current[end.row] > 0.0) {
      reading.remark = fmt::format(
          "as a mean of the wire {}, ± {} K by its error",
          temperature_text(instruments::mean_temperature(volts, current[end.row], line)),
          figures(instruments::mean_temperature_error(volts, current[end.row], error, line), 1));
    }
    all.push_back(reading);
  }
}

/// Where instruments are put, m along the run, by the place as the sheet writes it.
std::map<std::string, double> positions_of(const Histories& histories) {
  std::map<std::string, double> positions;
  for (const auto& [table, place] :
       {std::pair{"camera", "name"}, {"thermocouples", "place"}, {"touch", "name"}}) {
    const Columns columns(histories, table);
    if (columns.has(place)) {
      const auto names = columns.texts(place);
      const auto at = columns.numbers("position");
      for (std::size_t i = 0; i < names.size(); ++i) {
        positions[names[i]] = at[i];
      }
    }
  }
  return positions;
}

/// What was put to a covering that is gone from a moment on shows nothing that it was told of.
void strike_bare(const Histories& histories, const Findings& findings,
                 std::vector<InstrumentReading>& all) {
  const Places places(histories);
  const auto positions = positions_of(histories);
  for (const ValidityFlag& flag : findings.validity) {
    if (flag.code != "V330" || !flag.spot) {
      continue;
    }
    const auto piece = places.piece_name(flag.spot->position);
    for (InstrumentReading& reading : all) {
      const auto at = positions.find(reading.place);
      if (at != positions.end() && places.piece_name(at->second) == piece &&
          findings.steps.at(reading.step - 1).end > flag.time) {
        reading.real = reading.shown = nothing;
        reading.remark = fmt::format(
            "the covering of '{}' begins to be gone at {}: it is no "
            "longer what the instrument was put to",
            piece, minute_text(flag.time));
      }
    }
  }
}

}  // namespace

std::vector<InstrumentReading> readings(const Histories& histories, const Findings& findings) {
  std::vector<InstrumentReading> all;
  if (findings.steps.empty() || !histories.has("surface_temperature")) {
    return all;
  }
  const auto ends = step_ends(histories);
  read_camera(histories, ends, all);
  read_couples(histories, ends, all);
  read_voltmeter(histories, ends, all);
  for (auto& touched : touch_readings(histories, ends)) {
    all.push_back(std::move(touched));
  }
  strike_bare(histories, findings, all);
  return all;
}

}  // namespace ampstair::post::checks
