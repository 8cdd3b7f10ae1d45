// SPDX-License-Identifier: MIT
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "checks/judge.hpp"
#include "checks/sentences.hpp"
#include "checks/step_settling.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using post::checks::heading_for;

namespace {

/// One step of a current in which the conductor warms (or cools) with one time constant from 20
/// degC.
test::Run one_exponential(double rise, double tau, double duration) {
  auto run = test::sample_run(10.0, 2);
  run.times.clear();
  run.rows.clear();
  auto sample = test::sample_run(10.0, 2);
  for (double time = 0.0; time <= duration; time += 10.0) {
    auto row = sample.rows.front();
    for (std::size_t s = 0; s < sample.layout.series.size(); ++s) {
      if (sample.layout.series[s].naming.name == "conductor_temperature") {
        for (double& value : row[s]) {
          value = 20.0 + rise * (1.0 - std::exp(-time / tau));
        }
      }
    }
    run.times.push_back(time);
    run.rows.push_back(row);
  }
  run.set_table({"steps",
                 "",
                 {test::column<std::vector<std::string>>("kind", {"hold_current"}),
                  test::column<std::vector<double>>("level", {20.0}),
                  test::column<std::vector<double>>("begin", {0.0}),
                  test::column<std::vector<double>>("end", {duration})}});
  return run;
}

}  // namespace

TEST_CASE("an exponential tells where it is heading", "[post]") {
  const auto at = [](double time) { return 100.0 - 60.0 * std::exp(-time / 500.0); };
  CHECK(*heading_for(at(600.0), at(900.0), at(1200.0)) == Approx(100.0).epsilon(1e-12));
  CHECK_FALSE(heading_for(10.0, 20.0, 30.0));
  CHECK_FALSE(heading_for(10.0, 20.0, 31.0));
  CHECK_FALSE(heading_for(10.0, 20.0, 15.0));
  CHECK(*heading_for(50.0, 50.001, 50.002) == 50.002);
}

TEST_CASE("four published rules on a rise of 40 K with a time constant of 600 s", "[post]") {
  // Computed from the exponential, K exp(-t / tau): 2 K/h over an hour and 1 K/h over an hour hold
  // at 5396 and 5812 s, three readings 5 min apart at 2700 s, by tenths at 2400 s; still to come
  // then 40 exp(-t / 600).
  const auto histories = test::in_memory(one_exponential(40.0, 600.0, 7200.0));
  const auto findings = post::checks::judge(*histories, {});
  const auto settled = post::checks::settling(*histories, findings);
  REQUIRE(settled.size() == 1);
  CHECK(*settled[0].final_temperature - 273.15 == Approx(60.0).margin(0.01));
  constexpr std::array expected = {5812.0, 5396.0, 2700.0, 2400.0};
  for (std::size_t r = 0; r < expected.size(); ++r) {
    REQUIRE(settled[0].rules[r].after);
    CHECK(*settled[0].rules[r].after == Approx(expected[r]).margin(10.0));
    CHECK(*settled[0].rules[r].to_come ==
          Approx(40.0 * std::exp(-*settled[0].rules[r].after / 600.0)).margin(0.02));
  }
}

TEST_CASE("a slow rise is called settled long before it is", "[post]") {
  // 40 K with 3600 s: readings 5 min apart hold at 7200 s with 5.41 K to come (computed).
  const auto histories = test::in_memory(one_exponential(40.0, 3600.0, 20000.0));
  const auto settled = post::checks::settling(*histories, post::checks::judge(*histories, {}));
  const auto& readings = settled.at(0).rules[2];
  REQUIRE(readings.after);
  CHECK(*readings.after == Approx(7200.0).margin(10.0));
  CHECK(*readings.to_come == Approx(5.41).margin(0.05));
}

TEST_CASE("the end of a step is told in a word and what is still to come", "[post]") {
  // K exp(-t / tau) at the end, computed: 40 exp(-12) = 0.0002, 40 exp(-4.6) = 0.40 and
  // 40 exp(-2.2) = 4.4 K, where readings 5 min apart still differ by more than 1 K (2.9 K before).
  const auto words = [](double rise, double tau, double duration) {
    const auto histories = test::in_memory(one_exponential(rise, tau, duration));
    const auto step = post::checks::settling(*histories, post::checks::judge(*histories, {})).at(0);
    return post::checks::rest_word(step) + "; " + post::checks::rest_remark(step);
  };
  CHECK(words(40.0, 600.0, 7200.0) == "settled; less than 0.1 K still to come");
  CHECK(words(40.0, 600.0, 2760.0) == "settled; 0.4 K still to come");
  CHECK(words(40.0, 600.0, 1320.0) == "rising; 4.4 K still to come");
  CHECK(words(-10.0, 600.0, 600.0) == "falling; 3.7 K still to come");  // 10 exp(-1)
  // 40 exp(-8000 / 3600) = 4.3 K to come after readings held at 7200 s.
  CHECK(words(40.0, 3600.0, 8000.0) == "flat but rising; 4.3 K still to come");
  CHECK(words(-40.0, 3600.0, 8000.0) == "flat but falling; 4.3 K still to come");
}

TEST_CASE("a rise that goes faster and faster is told as such, and as one without an end",
          "[post]") {
  // 20 (exp(t / 900) - 1): its quarters grow by exp(quarter / 900).
  auto run = one_exponential(-20.0, -900.0, 1800.0);
  const auto state = [](const test::Run& of) {
    const auto histories = test::in_memory(of);
    const auto step = post::checks::settling(*histories, post::checks::judge(*histories, {})).at(0);
    return post::checks::rest_word(step) + "; " + post::checks::rest_remark(step);
  };
  CHECK(state(run) == "rising ever faster; no end in sight");
  // A level that moves may do that by itself.
  auto ramp = run;
  ramp.set_table({"steps",
                  "",
                  {test::column<std::vector<std::string>>("kind", {"hold_current"}),
                   test::column<std::vector<std::string>>("course", {"ramp"}),
                   test::column<std::vector<std::string>>("until", {""}),
                   test::column<std::vector<double>>("level", {20.0}),
                   test::column<std::vector<double>>("begin", {0.0}),
                   test::column<std::vector<double>>("end", {1800.0})}});
  CHECK(state(ramp) == "rising; no end in sight");
}

TEST_CASE("a step that holds more than a buried piece can settle at has no steady state",
          "[post]") {
  const auto words = [](double limit) {
    auto run = one_exponential(40.0, 3600.0, 2000.0);  // of 20 A
    run.set_table({"stability",
                   "",
                   {test::column<std::vector<std::string>>("piece", {"bay", "loft"}),
                    test::column<std::vector<double>>("as_long", {8.0, 7.0}),
                    test::column<std::vector<double>>("held_ends", {90.0, limit})}});
    const auto histories = test::in_memory(run);
    const auto step = post::checks::settling(*histories, post::checks::judge(*histories, {})).at(0);
    return post::checks::rest_word(step) + "; " + post::checks::rest_remark(step);
  };
  CHECK(
      words(9.0) ==
      "no steady state; 'loft' rises until something changes: it settles at no current above 9 A");
  CHECK(words(50.0).rfind("rising; ", 0) == 0);  // its ends may hold it
}

TEST_CASE("of a step whose results end before nothing is said of its end", "[post]") {
  auto run = one_exponential(40.0, 600.0, 7200.0);
  run.times.resize(500);
  run.rows.resize(500);
  const auto histories = test::in_memory(run);
  const auto step = post::checks::settling(*histories, post::checks::judge(*histories, {})).at(0);
  CHECK_FALSE(step.whole);
  CHECK_FALSE(step.to_come);
  CHECK(step.rules[2].after);  // what was read until then stands
  CHECK(post::checks::rest_word(step) == "cannot say");
  CHECK(post::checks::rest_remark(step) == "the results end before");
}
