// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "checks/beside.hpp"
#include "checks/judge.hpp"
#include "checks/sheet_differences.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using post::checks::Difference;
using post::checks::Findings;
using post::checks::Histories;

namespace {

using Texts = std::vector<std::string>;
using Numbers = std::vector<double>;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

struct Row {
  std::string path, text;
  double value = none;
  std::string unit, source;
  double low = none;
};

test::Run with_sheet(const std::vector<Row>& rows) {
  Texts path, text, unit, source;
  Numbers value, low, by_default;
  for (const Row& row : rows) {
    path.push_back(row.path);
    text.push_back(row.text);
    unit.push_back(row.unit);
    source.push_back(row.source);
    value.push_back(row.value);
    low.push_back(row.low);
    by_default.push_back(0.0);
  }
  auto run = test::sample_run();
  run.set_table(
      {"sheet",
       "",
       {test::column("path", path), test::column("text", text), test::column("value", value),
        test::column("low", low), test::column("high", low), test::column("unit", unit),
        test::column("source", source), test::column("by_default", by_default)}});
  return run;
}

std::vector<Difference> found(const test::Run& a, const test::Run& b) {
  const auto first = test::in_memory(a);
  const auto second = test::in_memory(b);
  return post::checks::sheet_differences({first.get(), second.get()}).found;
}

}  // namespace

TEST_CASE("a value written otherwise is no difference, another source or band is one", "[post]") {
  const Row length{"run/south leg/length", "1 m", 1.0, "m", "tape", none};
  const auto other = [&](const Row& row) { return found(with_sheet({length}), with_sheet({row})); };
  // 1 m = 39.3700787401574803 in (exactly 1 / 0.0254), to round-off.
  CHECK(other({length.path, "39.37007874 in", 39.3700787401574803 * 0.0254, "m", "tape", none})
            .empty());
  const auto source = other({length.path, "1 m", 1.0, "m", "rule", none});
  REQUIRE(source.size() == 1);
  CHECK(source[0].of_source);
  CHECK(source[0].place == "south leg, 0.00 to 1.00 m");
  CHECK(source[0].key == "length");
  CHECK_FALSE(other({length.path, "1.001 m", 1.001, "m", "tape", none}).at(0).of_source);
  CHECK_FALSE(other({length.path, "1 m", 1.0, "m", "tape", 0.9}).at(0).of_source);
}

TEST_CASE("what only one record says is a difference on either side", "[post]") {
  const Row fit{"run/tube/fit", "loose", none, "", "", none};
  const auto gone = found(with_sheet({fit}), with_sheet({}));
  REQUIRE(gone.size() == 1);
  CHECK(gone[0].values[0]->text == "loose");
  CHECK_FALSE(gone[0].values[1]);
  const auto come = found(with_sheet({}), with_sheet({fit}));
  REQUIRE(come.size() == 1);
  CHECK_FALSE(come[0].values[0]);
  CHECK(come[0].values[1]->text == "loose");
}

TEST_CASE("records without their completed sheets are told to be compared in part", "[post]") {
  const auto old = test::in_memory(test::sample_run());
  const auto now = test::in_memory(with_sheet({}));
  CHECK_FALSE(post::checks::sheet_differences({old.get(), now.get()}).complete);
  CHECK(post::checks::sheet_differences({now.get(), now.get()}).complete);
}

TEST_CASE("steps and crossings stand against the first record's", "[post]") {
  // The sample's conductor rises by 0.05 K/s from 20 degC: 60 degC at 800 s; the same 10 K hotter
  // all along passes 60 degC 200 s earlier.
  auto warmer = test::sample_run();
  for (auto& row : warmer.rows) {
    for (std::size_t s = 0; s < row.size(); ++s) {
      if (warmer.layout.series[s].naming.name == "conductor_temperature") {
        for (double& value : row[s]) {
          value += 10.0;
        }
      }
    }
  }
  const auto item = test::above("limit", "conductor", 60.0);
  const auto first = test::in_memory(test::sample_run());
  const auto second = test::in_memory(warmer);
  const Findings a = post::checks::judge(*first, {item});
  const Findings b = post::checks::judge(*second, {item, test::above("other", "conductor", 500.0)});
  const auto beside = post::checks::beside({&a, &b});
  REQUIRE(beside.steps.size() == 2);
  CHECK(beside.steps[1].same_drive);
  CHECK(*beside.steps[1].records[1].warmer == Approx(10.0).margin(1e-4));
  CHECK(*beside.steps[1].records[1].more_volts == Approx(0.0));
  REQUIRE(beside.items.size() == 2);
  CHECK(*beside.items[0].records[1].later == Approx(-200.0).margin(1.0));
  CHECK(*beside.items[0].records[1].longer == Approx(200.0).margin(1.0));
  CHECK_FALSE(beside.items[0].flips);
  CHECK(beside.items[1].records[0].item == nullptr);
}

TEST_CASE("a record that ends within a step gives no difference there", "[post]") {
  auto cut = test::sample_run();
  cut.times.resize(15);
  cut.rows.resize(15);
  const auto first = test::in_memory(test::sample_run());
  const auto second = test::in_memory(cut);
  const auto item = test::above("limit", "conductor", 30.0);
  const Findings a = post::checks::judge(*first, {item});
  const Findings b = post::checks::judge(*second, {item});
  const auto beside = post::checks::beside({&a, &b});
  CHECK(beside.steps[0].records[1].warmer);
  CHECK(beside.steps[1].records[1].hottest != nullptr);
  CHECK_FALSE(beside.steps[1].records[1].at_end);
  CHECK_FALSE(beside.steps[1].records[1].warmer);
  CHECK_FALSE(beside.steps[1].records[1].more_volts);
  CHECK_FALSE(beside.items[0].records[1].longer);
}

TEST_CASE("times above are set against each other only where both results go on as long",
          "[post]") {
  const auto run = test::in_memory(test::sample_run());
  const Findings a = post::checks::judge(*run, {test::above("limit", "conductor", 30.0)});
  const auto longer = [&](const std::string& severity, const std::string& reason) {
    Findings b = a;
    b.validity.push_back({"V110", "", severity, "conductor", {}, 900.0, {}, 0.0, 0.0, "degC"});
    b.heading.beyond = reason;
    return post::checks::beside({&a, &b}).items[0].records[1].longer.has_value();
  };
  CHECK(longer("note", ""));
  CHECK_FALSE(longer("beyond", ""));
  CHECK(longer("beyond", "the sheet's reason: its numbers are told"));
  CHECK_FALSE(longer("stop", "the sheet's reason"));
}
