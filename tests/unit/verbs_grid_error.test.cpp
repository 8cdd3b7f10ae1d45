// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <vector>

#include "verbs/grid_error.hpp"

using namespace ampstair;
using verbs::CoarseMarch;
using verbs::GridError;
using verbs::Place;
using Numbers = std::vector<double>;

namespace {

using Profile = std::function<double(const Place&)>;

/// Cells of the given length on two sides that meet at 1 m.
std::vector<Place> places(double length) {
  std::vector<Place> all;
  for (double z = 0.5 * length; z < 2.0; z += length) {
    all.push_back({z, z < 1.0 ? std::size_t{0} : std::size_t{1}});
  }
  return all;
}

Numbers values(const std::vector<Place>& places, const Profile& profile) {
  Numbers out;
  for (const Place& place : places) {
    out.push_back(profile(place));
  }
  return out;
}

CoarseMarch coarse_march(const Profile& profile) {
  CoarseMarch march;
  march.places = {places(0.25)};
  march.times = {0.0, 10.0};
  march.temperature = {{values(march.places[0], profile)}, {values(march.places[0], profile)}};
  return march;
}

/// Bars of one history of cells half as long as the coarse ones.
Numbers bars(const Profile& fine, const Profile& coarse, double time = 10.0) {
  const std::vector<std::vector<Place>> fine_places{places(0.125)};
  GridError error(fine_places, coarse_march(coarse));
  const std::vector<Numbers> temperature{values(fine_places[0], fine)};
  std::vector<Numbers> out{Numbers(fine_places[0].size())};
  error.at(time, temperature, out);
  return out[0];
}

/// Straight on each side, with a jump of 40 K between the sides.
double exact(const Place& place) {
  return 300.0 + 30.0 * place.position + (place.side == 1 ? 40.0 : 0.0);
}

}  // namespace

TEST_CASE("the bar is three times an error that halving the cells makes four times less") {
  const double error = 0.02;  // K, on the fine grid
  const auto found = bars([&](const Place& p) { return exact(p) + error; },
                          [&](const Place& p) { return exact(p) + 4.0 * error; });
  REQUIRE(found.size() == 16);
  for (const double bar : found) {
    CHECK(bar == Approx(3.0 * error));  // at the sides' ends, too: sides are not mixed
  }
}

TEST_CASE("near a corner the bar goes by the order that the corner allows") {
  const std::vector<std::vector<Place>> fine_places{places(0.125)};
  // Of order 1 the error on the coarse grid is twice that on the fine one, 0.02 K.
  GridError error(fine_places, coarse_march([](const Place& p) { return exact(p) + 0.04; }),
                  {{0.0, 1.0}});
  const std::vector<Numbers> temperature{
      values(fine_places[0], [](const Place& p) { return exact(p) + 0.02; })};
  std::vector<Numbers> out{Numbers(fine_places[0].size())};
  error.at(10.0, temperature, out);
  CHECK(out[0].front() == Approx(3.0 * 0.02));
  CHECK(out[0].back() == Approx(3.0 * 0.02 / 3.0));  // far away: order 2
}

TEST_CASE("a change of the difference's sign has the bar of the places beside it") {
  const double middle = places(0.125)[3].position;
  const auto found = bars(exact, [&](const Place& p) {
    return exact(p) + (p.side == 0 ? 0.8 * (p.position - middle) : 0.0);
  });
  CHECK(found[3] == Approx(0.8 * 0.125));
  CHECK(found[7] == Approx(0.8 * 0.5));          // the last of its side
  CHECK(found[8] == Approx(0.0).margin(1e-12));  // its neighbour on the other side
}

TEST_CASE("there is no bar at a moment the coarser march has no row of") {
  for (const double time : {5.0, 20.0}) {
    for (const double bar : bars(exact, exact, time)) {
      CHECK(std::isnan(bar));
    }
  }
}

TEST_CASE("a side the coarse grid lacks is held against the nearest place") {
  const std::vector<std::vector<Place>> alone{{{0.9, 7}}};
  GridError error(alone, coarse_march([](const Place& p) { return p.position; }));
  const std::vector<Numbers> temperature{{1.0}};
  std::vector<Numbers> out{Numbers(1)};
  error.at(0.0, temperature, out);
  CHECK(out[0][0] == Approx(0.125));  // 1.0 against the cell's centre at 0.875 m
  CHECK(error.largest() == out[0][0]);
}
