// SPDX-License-Identifier: MIT
#include "scenario/describe.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "quantities/parse.hpp"

namespace ampstair::scenario {

namespace {

using quantities::Dimension;

std::string describe_speed(double speed) {
  return speed > 0.0 ? quantities::format(speed, Dimension::speed) : std::string("still");
}

/// How an entry is come to: "from 70 min", or "evenly till 70 min" where the one before leads on to
/// it.
std::string describe_when(double time, bool ramps) {
  return (ramps ? "evenly till " : "from ") + quantities::format(time, Dimension::duration);
}

std::string describe_change(const AirStep& before, const AirStep& now) {
  std::string text =
      describe_when(now.from_time, before.temperature_rate != 0.0 || before.speed_rate != 0.0);
  if (now.temperature != before.temperature) {
    text += " " + quantities::format(now.temperature, Dimension::temperature);
  }
  if (now.speed != before.speed) {
    text += " " + describe_speed(now.speed);
  }
  return text;
}

constexpr std::size_t most_told = 8;  // entries of a history

void describe_air_changes(const std::vector<AirStep>& air, std::vector<std::string>& parts) {
  if (air.size() > most_told) {
    parts.push_back(fmt::format("{} more entries until {}", air.size() - 1,
                                quantities::format(air.back().from_time, Dimension::duration)));
    return;
  }
  for (std::size_t i = 1; i < air.size(); ++i) {
    parts.push_back(describe_change(air[i - 1], air[i]));
  }
}

std::string describe_walls(const std::vector<WallStep>& walls) {
  std::string text =
      "walls " + quantities::format(walls.front().temperature, Dimension::temperature);
  for (std::size_t i = 1; i < walls.size(); ++i) {
    text += fmt::format(", {} {}",
                        describe_when(walls[i].from_time, walls[i - 1].temperature_rate != 0.0),
                        quantities::format(walls[i].temperature, Dimension::temperature));
  }
  return text;
}

}  // namespace

std::string kind_word(const Piece& piece) {
  constexpr std::array words = {"lug",  "cut-end", "open",   "knob",
                                "tube", "sleeve",  "splice", "filled"};
  static_assert(words.size() == std::variant_size_v<decltype(Piece::kind)>);
  return words.at(piece.kind.index());
}

std::string describe(const Surroundings& surroundings) {
  if (surroundings.air.empty()) {
    return {};
  }
  const auto& first = surroundings.air.front();
  std::vector<std::string> parts = {
      fmt::format("air {}, {}", quantities::format(first.temperature, Dimension::temperature),
                  describe_speed(first.speed))};
  describe_air_changes(surroundings.air, parts);
  if (!surroundings.walls.empty()) {
    parts.push_back(describe_walls(surroundings.walls));
  }
  if (surroundings.convection.still_air == StillAir::morgan_1975) {
    parts.emplace_back("still air after Morgan 1975");
  }
  if (surroundings.convection.factor != 1.0) {
    parts.push_back(fmt::format("convection times {:g}", surroundings.convection.factor));
  }
  if (surroundings.altitude != 0.0) {
    parts.push_back(quantities::format(surroundings.altitude, Dimension::length) +
                    " above the sea");
  }
  if (surroundings.bay) {
    parts.front() = "closed bay, outside it " + parts.front();
  }
  if (surroundings.film) {
    parts.push_back(
        "film " + quantities::format(surroundings.film->coefficient, Dimension::film_coefficient));
    if (surroundings.film->emissivity) {
      parts.back() += fmt::format(", emissivity {:g}", *surroundings.film->emissivity);
    }
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string describe_own_surroundings(const Scenario& scenario, const Piece& piece) {
  std::vector<std::string> parts;
  if (const auto* filled = std::get_if<Filled>(&piece.kind); filled != nullptr && filled->fill) {
    parts.push_back(fmt::format("{} to {}", filled->fill->name,
                                quantities::format(filled->radius, Dimension::length)));
    if (filled->neighbour > 0.0) {
      parts.push_back("a like wire " + quantities::format(filled->neighbour, Dimension::length) +
                      " beside it");
    }
  }
  if (piece.facing && piece.facing->wood) {
    parts.push_back(fmt::format("faces {} across {} of air", piece.facing->wood->name,
                                quantities::format(piece.facing->distance, Dimension::length)));
  }
  if (piece.height > 0.0) {
    parts.push_back("vertical, " + quantities::format(piece.height, Dimension::length) + " high");
  }
  if (piece.around != 0) {
    parts.push_back(describe(scenario.surroundings[piece.around]));
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

}  // namespace ampstair::scenario
