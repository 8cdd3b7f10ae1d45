// SPDX-License-Identifier: MIT
#include "marching/validity_limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "heat/ambient.hpp"
#include "heat/constants.hpp"
#include "heat/criticality.hpp"
#include "heat/fusing.hpp"
#include "heat/ranges.hpp"
#include "marching/faces.hpp"
#include "scenario/parts.hpp"

namespace ampstair::marching {

namespace {

// Common practice, no source: vulcanised rubber gives off gas and may heat itself from about here.
constexpr double rubber_end = heat::zero_celsius + 250.0;  // K
constexpr double part_of_fusing = 0.5;                     // common practice, no source

double celsius(double kelvin) {
  return kelvin - heat::zero_celsius;
}

Flag::Severity stop_of(const scenario::Scenario& scenario) {
  return scenario.beyond ? Flag::Severity::beyond : Flag::Severity::stop;
}

std::string name_of(const materials::Material& material, const std::string& part) {
  return material.name.empty() ? "the material of " + part : material.name;
}

/// Where a range ends that is not the first to for its part, the first to stays.
void add(ValidityLimit limit, std::vector<ValidityLimit>& limits) {
  const auto found = std::find_if(limits.begin(), limits.end(),
                                  [&](const auto& one) { return one.part == limit.part; });
  if (found == limits.end()) {
    limits.push_back(std::move(limit));
  } else if (limit.kelvin < found->kelvin) {
    *found = std::move(limit);
  }
}

bool is_rubber(const scenario::Layer& layer) {
  return layer.part == "rubber" || layer.material->part == "rubber";
}

void add_rubber(const scenario::Scenario& scenario, std::vector<ValidityLimit>& limits) {
  for (const auto& layer : scenario.wire.layers) {
    if (is_rubber(layer)) {
      // Instead of the range of the same end.
      std::erase_if(limits, [&](const auto& one) {
        return one.part == layer.part && one.kelvin >= rubber_end;
      });
      limits.push_back({"V310",
                        "rubber above 250 degC: its properties hold no longer and it may heat "
                        "itself; results from here on are not to be used",
                        stop_of(scenario), layer.part, rubber_end});
    }
  }
}

/// Where the covering, taken as a cylinder of the whole wire's radius, becomes critical.
void add_self_heating(const scenario::Scenario& scenario, std::vector<ValidityLimit>& limits) {
  for (const auto& layer : scenario.wire.layers) {
    if (!layer.material->breakdown) {
      continue;
    }
    const heat::SelfHeating solid{*layer.material->breakdown, layer.material->density,
                                  layer.material->conductivity.at(heat::zero_celsius + 100.0)};
    const auto surface = heat::critical_surface(solid, heat::SolidShape::cylinder,
                                                scenario::outer_radius(scenario.wire));
    if (surface) {
      limits.push_back({"V340",
                        fmt::format("{} under a surface this hot runs away by its own heat "
                                    "(Frank-Kamenetskii, as a cylinder of the wire's radius)",
                                    layer.part),
                        Flag::Severity::note, "surface", *surface});
    }
  }
}

constexpr double nowhere = std::numeric_limits<double>::quiet_NaN();

/// What stands before the run from one entry of its surroundings' histories to the next.
struct Between {
  double begin = 0.0;                                                         // s
  double speed = 0.0;                                                         // m/s, at its begin
  double coldest_air = 0.0, warmest_air = 0.0, coldest = 0.0, warmest = 0.0;  // K
};

std::vector<Between> stretches_of(const scenario::Surroundings& around, double duration) {
  std::vector<double> begins;
  for (const auto& air : around.air) {
    begins.push_back(air.from_time);
  }
  for (const auto& walls : around.walls) {
    begins.push_back(walls.from_time);
  }
  std::sort(begins.begin(), begins.end());
  begins.erase(std::unique(begins.begin(), begins.end()), begins.end());
  std::vector<Between> stretches;
  for (std::size_t i = 0; i < begins.size() && begins[i] <= duration; ++i) {
    const auto prevailing = heat::prevailing_from(around, begins[i]);
    const auto first = prevailing.at(begins[i]);
    const auto last = prevailing.at(i + 1 < begins.size() ? begins[i + 1] : duration);
    const auto [cold_air, warm_air] = std::minmax(first.air, last.air);
    const auto [cold_walls, warm_walls] = std::minmax(first.walls, last.walls);
    stretches.push_back({begins[i], first.speed, cold_air, warm_air, std::min(cold_air, cold_walls),
                         std::max(warm_air, warm_walls)});
  }
  return stretches;
}

/// Whether the correlations hold for surfaces 10 and 100 K above the air.
void note_correlations(const grid::Exposure& exposure, const Between& stretch,
                       const scenario::Convection& convection, std::vector<Flag>& flags) {
  for (const double rise : {10.0, 100.0}) {
    const auto values = heat::values_in_ranges(
        shape_of(exposure), {exposure.length, exposure.height}, stretch.coldest_air + rise,
        {stretch.coldest_air, stretch.speed, convection});
    for (const auto& [of, value] : values) {
      if (!of->holds(value)) {
        flags.push_back({"V210",
                         fmt::format("outside of the range of {} ({} {}), by the {} of a surface "
                                     "{:.0f} K above the air",
                                     of->name, of->author, of->year, of->quantity, rise),
                         Flag::Severity::note, "surface", nowhere, stretch.begin, nowhere, value,
                         value < of->range.low ? of->range.low : of->range.high, "1"});
      }
    }
  }
}

void note_cold(const grid::Grid& grid, const Between& stretch, std::vector<Flag>& flags) {
  for (const auto& medium : grid.media) {
    if (medium.material && medium.material->range_low > stretch.coldest) {
      flags.push_back(
          {"V120",
           fmt::format("surroundings colder than {} is described for (from {:.4g} degC)",
                       name_of(*medium.material, medium.part), celsius(medium.material->range_low)),
           Flag::Severity::note, medium.part, nowhere, stretch.begin, nowhere, stretch.coldest,
           medium.material->range_low, "K"});
    }
  }
}

void add_marks(const grid::Medium& medium, std::vector<ValidityLimit>& limits) {
  for (const auto& mark : medium.material->marks) {
    const bool known = std::any_of(limits.begin(), limits.end(), [&](const auto& one) {
      return one.part == medium.part && one.text == mark.what;
    });
    if (!known) {
      limits.push_back({"V130", mark.what, Flag::Severity::note, medium.part, mark.temperature});
    }
  }
}

}  // namespace

std::vector<ValidityLimit> validity_limits(const grid::Grid& grid,
                                           const scenario::Scenario& scenario) {
  std::vector<ValidityLimit> limits;
  for (const auto& medium : grid.media) {
    // What wood does beyond its range where it has moisture is modelled: it dries and chars.
    if (medium.material && medium.material->range_high > 0.0 && !medium.material->moisture) {
      add({"V110",
           fmt::format("{} above the range that {} is described for (to {:.4g} degC)", medium.part,
                       name_of(*medium.material, medium.part),
                       celsius(medium.material->range_high)),
           Flag::Severity::beyond, medium.part, medium.material->range_high},
          limits);
    }
  }
  add_rubber(scenario, limits);
  for (const auto& medium : grid.media) {
    if (medium.material) {
      add_marks(medium, limits);
    }
  }
  add_self_heating(scenario, limits);
  return limits;
}

FusingLimit fusing_limit(const scenario::Scenario& scenario) {
  const auto constant = heat::fusing_constant(scenario.wire.metal->name);
  const double fusing = heat::fusing_current(constant, scenario.wire.diameter);
  return {
      part_of_fusing * fusing,
      fmt::format("current above half of the {:.0f} A at which the bare wire is expected to fuse "
                  "(Preece 1888, {}'s constant{}): a fusing wire arcs and throws metal",
                  fusing, constant.metal,
                  constant.of_another ? ", none being known for this metal" : ""),
      scenario.beyond ? Flag::Severity::note : Flag::Severity::stop};
}

std::vector<Flag> flags_of_surroundings(const grid::Grid& grid,
                                        const scenario::Scenario& scenario) {
  std::vector<Flag> flags;
  for (std::size_t s = 0; s < scenario.surroundings.size(); ++s) {
    const auto& around = scenario.surroundings[s];
    for (const Between& stretch : stretches_of(around, scenario.duration())) {
      note_cold(grid, stretch, flags);
      for (const auto& exposure : grid.exposures) {
        if (exposure.surroundings == s && exposure.to == grid::Exposure::To::air && !around.film) {
          note_correlations(exposure, stretch, around.convection, flags);
        }
      }
    }
  }
  std::stable_sort(flags.begin(), flags.end(),
                   [](const Flag& a, const Flag& b) { return a.time < b.time; });
  // The first that says something is enough.
  std::vector<Flag> first;
  for (Flag& flag : flags) {
    const auto same = [&](const Flag& one) { return one.text == flag.text; };
    if (std::none_of(first.begin(), first.end(), same)) {
      first.push_back(std::move(flag));
    }
  }
  return first;
}

double warmest_around(const grid::Grid& grid, const scenario::Scenario& scenario) {
  double warmest = scenario.start_temperature;
  for (const auto& around : scenario.surroundings) {
    for (const Between& stretch : stretches_of(around, scenario.duration())) {
      warmest = std::max(warmest, stretch.warmest);
    }
  }
  for (const auto& exposure : grid.exposures) {
    warmest = std::max(warmest, exposure.held_at);
  }
  return warmest;
}

}  // namespace ampstair::marching
