// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "checks/judge.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using test::above;
using watch::State;

namespace {

constexpr double celsius_zero = 273.15;

/// The sample with one flag.
test::Run flagged(const char* severity, const char* part, double time) {
  auto run = test::sample_run();
  using Texts = std::vector<std::string>;
  using Numbers = std::vector<double>;
  run.set_table({"validity",
                 "flags",
                 {test::column("time", Numbers{time}), test::column("code", Texts{"V110"}),
                  test::column("severity", Texts{severity}), test::column("part", Texts{part}),
                  test::column("position", Numbers{1.65}), test::column("current", Numbers{40.0}),
                  test::column("value", Numbers{55.0}), test::column("limit", Numbers{55.0}),
                  test::column("unit", Texts{"degC"}),
                  test::column("text", Texts{"rubber above its range"})}});
  return run;
}

post::checks::Findings judged(const test::Run& run) {
  return post::checks::judge(*test::in_memory(run),
                             {above("early", "rubber", 45.0), above("late", "rubber", 60.0),
                              above("far", "rubber", 200.0), above("wood", "wood", 60.0)});
}

bool any_holds(const std::vector<std::string>& texts, const std::string& part) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("past a flag beyond the model nothing is said of its part, a crossing before it stands") {
  // 45 degC at 500 s, 55 at 700 s, 60 at 800 s.
  const auto findings = judged(flagged("beyond", "rubber", 700.0));
  CHECK(findings.items[0].state == State::crossed);
  CHECK(findings.items[0].crossing->time == Approx(500.0));
  CHECK(findings.items[1].state == State::cannot_say);
  CHECK_FALSE(findings.items[1].crossing);
  CHECK(findings.items[1].remark.find("from 11.7 min on") != std::string::npos);
  CHECK(findings.items[2].state == State::cannot_say);
  CHECK(findings.items[3].state == State::clear);
  // Read from the same history: no number past the flag, rows being a minute apart.
  CHECK(findings.hottest_conductor->time == Approx(660.0));
  CHECK(findings.items[1].hottest->temperature == Approx(celsius_zero + 53.0));
  CHECK(any_holds(findings.notes, "not to be used from then on: rubber above its range"));
  REQUIRE(findings.validity.size() == 1);
  CHECK(findings.validity[0].spot->name == "drop + 0.450 m");
}

TEST_CASE("a note of validity takes nothing away") {
  const auto findings = judged(flagged("note", "rubber", 700.0));
  CHECK(findings.items[1].state == State::crossed);
  CHECK(findings.items[2].state == State::clear);
  CHECK(findings.hottest_conductor->time == Approx(1200.0));
}

TEST_CASE("where the march stopped nothing is clear for the rest of the staircase") {
  const auto findings = judged(flagged("stop", "rubber", 1200.0));
  CHECK(findings.items[1].state == State::crossed);
  CHECK(findings.items[2].state == State::cannot_say);
  CHECK(findings.items[3].state == State::cannot_say);
  CHECK(findings.items[3].remark.find("clear until then") != std::string::npos);
}

TEST_CASE("a reason to go on past the stops is told with every verdict") {
  auto run = test::sample_run();
  run.layout.beyond = "an exemplar behind glass";
  CHECK(any_holds(judged(run).notes, "past its own stops: an exemplar behind glass"));
}
