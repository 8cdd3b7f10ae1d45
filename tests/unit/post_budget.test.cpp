// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "checks/heat_budget.hpp"
#include "post_sample.hpp"

namespace {

using namespace ampstair;
using post::checks::HeatBudget;
using test::column;
using Numbers = std::vector<double>;
using Texts = std::vector<std::string>;

/// Four invented budgets of the second step: a hottest place, two legs and a knob.
test::Run with_budgets() {
  auto run = test::sample_run();
  run.set_table({"heat_budget",
                 "budgets",
                 {column("step", Numbers{1, 1, 1, 1}),
                  column("time", Numbers{1200, 1200, 1200, 1200}),
                  column("kind", Texts{"hottest", "piece", "piece", "piece"}),
                  column("place", Texts{"conductor", "south leg", "drop", "K"}),
                  column("around", Texts{"gap, wood", "", "", ""}),
                  column("body", Texts{"", "", "", "K"}),
                  column("position", Numbers{1.15, 0.5, 1.6, 1.0}),
                  column("conductor", Numbers{80, 70, 70, 50}),
                  column("made", Numbers{20, 10, 10, 10}),
                  column("breakdown", Numbers{0, 0, 0, 0}),
                  column("wire_from_start", Numbers{-1, 1, 0, 3}),
                  column("wire_from_end", Numbers{-3, -1, 0, 3}),
                  column("around_from_start", Numbers{0, 0, 0, 0}),
                  column("around_from_end", Numbers{0, 0, 0, 0}),
                  column("stored_in_wire", Numbers{1, 0, -2, 0}),
                  column("stored_around", Numbers{3, 0, 0, 0}),
                  column("convected", Numbers{8, 6, 8, 0}),
                  column("radiated", Numbers{4, 4, 4, 0}),
                  column("held", Numbers{0, 0, 0, 0}),
                  column("into_body", Numbers{0, 0, 0, 16}),
                  column("gap", Numbers{0, 0, 0, 0})}});
  return run;
}

std::vector<HeatBudget> budgets_of(const test::Run& run,
                                   const std::vector<post::checks::ValidityFlag>& flags = {}) {
  return post::checks::usable_budgets(*test::in_memory(run), flags);
}

}  // namespace

TEST_CASE("what comes into a budget is what stays and goes", "[post]") {
  const auto budgets = budgets_of(with_budgets());
  REQUIRE(budgets.size() == 4);
  for (const auto& budget : budgets) {
    CHECK(budget.comes_in() == Approx(budget.goes()));
  }
  CHECK(budgets[0].comes_in() == 20.0);
  CHECK(budgets[1].comes_in() == 10.0);  // what only passes along the wire does not count
  CHECK(budgets[2].comes_in() == 12.0);  // what cools gives its heat back
  CHECK(budgets[3].comes_in() == 16.0);
  CHECK(budgets[0].spot.name == "T1 + 0.150 m");
  CHECK(budgets[0].step == 2);
  CHECK(budgets[0].conductor == Approx(353.15));
}

TEST_CASE("a budget is told in shares of what comes in, the greatest first", "[post]") {
  const auto budgets = budgets_of(with_budgets());
  CHECK(post::checks::budget_text(budgets[0]) ==
        "Of 20.0 W/m, 100 % is made; 40 % goes to the air, 20 % goes along the wire, 20 % stays, "
        "20 % goes to the walls around.");
  CHECK(post::checks::budget_text(budgets[2]) ==
        "Of 12.0 W/m, 83 % is made, 17 % was stored; 67 % goes to the air, 33 % goes to the walls "
        "around.");
  CHECK(post::checks::budget_text(budgets[3]) ==
        "Of 16.0 W/m, 62 % is made, 38 % comes along the wire; 100 % goes into what stands "
        "beside.");
  CHECK(
      post::checks::why_text(budgets[0], budgets) ==
      "2.00 times as much is made there as in the middle of most pieces; heat passes gap, wood on "
      "its way out; cooler wire on one side or both takes heat away.");
  CHECK(post::checks::why_text(budgets[3], budgets) ==
        "About as much is made there as in the middle of most pieces; heat goes into K; warmer "
        "wire on one side or both brings heat.");
}

TEST_CASE("the hottest place of a step has the budget that is asked for first", "[post]") {
  const auto budgets = budgets_of(with_budgets());
  CHECK(post::checks::hottest_step(budgets) == 2);
  CHECK(post::checks::hottest_budget(budgets, 2) == &budgets[0]);
  CHECK(post::checks::hottest_budget(budgets, 1) == nullptr);
  CHECK(post::checks::place_text(budgets[0]) == "hottest conductor");
  CHECK(post::checks::place_text(budgets[1]) == "south leg");
}

TEST_CASE("no budget is told from beyond the model on", "[post]") {
  post::checks::ValidityFlag flag;
  flag.severity = "beyond";
  flag.ends_results = true;
  flag.part = "wood";
  flag.time = 900.0;
  const auto budgets = budgets_of(with_budgets(), {flag});
  CHECK(budgets.size() == 2);  // the legs; wood lies round the first and may stand behind the knob
  flag.part = "conductor";
  CHECK(budgets_of(with_budgets(), {flag}).empty());
  flag.time = 1200.0;
  CHECK(budgets_of(with_budgets(), {flag}).size() == 4);
  CHECK(budgets_of(test::sample_run()).empty());
}
