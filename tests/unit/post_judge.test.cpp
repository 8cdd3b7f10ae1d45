// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <ctime>
#include <string>

#include "checks/histories.hpp"
#include "checks/judge.hpp"
#include "checks/stored_items.hpp"
#include "diagnostics/problem.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using diagnostics::ExitCode;
using post::checks::Findings;
using post::checks::ItemFinding;
using test::above;
using watch::Item;
using watch::State;

namespace {

constexpr double celsius_zero = 273.15;

ItemFinding judged(const Item& item, const test::Run& run = test::sample_run()) {
  const auto findings = post::checks::judge(*test::in_memory(run), {item});
  REQUIRE(findings.items.size() == 1);
  return findings.items.front();
}

Item char_item(double isotherm) {
  Item item;
  item.name = "char";
  item.part = "wood";
  item.kind = Item::Kind::char_depth;
  item.depth = 0.5e-3;
  item.isotherm = isotherm + celsius_zero;
  return item;
}

Item dose_item(double hours) {
  Item item;
  item.name = "ageing";
  item.part = "rubber";
  item.kind = Item::Kind::dose;
  item.activation_energy = 110.0e3;
  item.reference_temperature = 50.0 + celsius_zero;
  item.reference_duration = hours * 3600.0;
  return item;
}

test::Run cut_short(std::size_t rows) {
  auto run = test::sample_run();
  run.times.resize(rows);
  run.rows.resize(rows);
  run.finished = false;
  return run;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a crossing has its moment, place, current and step", "[post]") {
  const auto finding = judged(above("rubber limit", "rubber", 60.0));
  CHECK(finding.state == State::crossed);
  REQUIRE(finding.crossing.has_value());
  CHECK(finding.crossing->time == Approx(800.0));  // 20 + 0.05 t
  CHECK(finding.crossing->rose.value() == Approx(800.0));
  CHECK(finding.crossing->spot.position == Approx(1.65));
  CHECK(finding.crossing->spot.name == "drop + 0.450 m");
  CHECK(finding.crossing->current.value() == 39.5);
  CHECK(finding.crossing->step.value() == 2);
  CHECK(finding.longest.value() == Approx(400.0));
  CHECK(finding.last_above.value() == 1200.0);
  CHECK(finding.hottest->temperature == Approx(80.0 + celsius_zero));
  CHECK(finding.hottest->time == 1200.0);
}

TEST_CASE("a persistence is judged place by place", "[post]") {
  const auto finding = judged(above("rubber limit", "rubber", 60.0, 120.0));
  CHECK(finding.crossing->time == Approx(920.0));
  CHECK(finding.crossing->rose.value() == Approx(800.0));
  const auto longer = judged(above("rubber limit", "rubber", 60.0, 401.0));
  CHECK(longer.state == State::near);
  CHECK(holds(longer.remark, "never for 6.7 min without a break"));
}

TEST_CASE("a limit stands clear, near or crossed with its band", "[post]") {
  CHECK(judged(above("a", "conductor", 83.0)).state == State::clear);
  CHECK(judged(above("a", "conductor", 81.0)).state == State::near);
  CHECK(judged(above("a", "surface", 75.5)).state == State::near);

  auto item = above("a", "conductor", 100.0);
  item.low = 70.0 + celsius_zero;
  item.high = 120.0 + celsius_zero;
  const auto near = judged(item);
  CHECK(near.state == State::near);
  CHECK_FALSE(near.crossing.has_value());
  CHECK(near.with_low->time == Approx(1000.0));

  item.limit = 75.0 + celsius_zero;
  const auto crossed = judged(item);
  CHECK(crossed.state == State::crossed);
  CHECK(crossed.remark == "crossed; not with the limit's high end");
  CHECK_FALSE(crossed.with_high.has_value());

  item.high = 78.0 + celsius_zero;
  CHECK(judged(item).remark.empty());
}

TEST_CASE("a part that is not recorded cannot be judged", "[post]") {
  const auto finding = judged(above("a", "braid", 60.0));
  CHECK(finding.state == State::cannot_say);
  CHECK(holds(finding.remark, "no part 'braid'"));
  CHECK(holds(finding.remark, "conductor, surface, rubber, covering, wood"));
}

TEST_CASE("an unfinished record shows crossings but never the lack of one", "[post]") {
  const auto early = judged(above("a", "conductor", 60.0), cut_short(13));  // to 720 s
  CHECK(early.state == State::cannot_say);
  CHECK(holds(early.remark, "ends at 12.0 min of 20.0 min; clear until then"));
  const auto late = judged(above("a", "conductor", 60.0), cut_short(18));
  CHECK(late.state == State::crossed);
  const auto charring = judged(char_item(300.0), cut_short(13));
  CHECK(charring.state == State::cannot_say);
  CHECK_FALSE(charring.char_depth.has_value());
}

TEST_CASE("there is no char where the isotherm never was", "[post]") {
  const auto clear = judged(char_item(300.0));
  CHECK(clear.state == State::clear);
  CHECK(clear.char_depth.value() == 0.0);
  const auto passed = judged(char_item(24.0));  // the wood passes 24 degC after 960 s
  CHECK(passed.state == State::cannot_say);
  CHECK_FALSE(passed.char_depth.has_value());
  CHECK(holds(passed.remark, "passes 24.0 °C at 16.0 min, 1.05 m (T1 + 0.050 m)"));
  CHECK(holds(passed.remark, "does not hold how deep that isotherm went"));
}

TEST_CASE("char is judged by the depth the record holds", "[post]") {
  // Depth 1 um a second from 300 s on at the second of three places, half of it at the third.
  auto run = test::sample_run();
  run.layout.series.push_back(
      {{"wood_char_depth", "depth", "m"}, "wood_position", history::Precision::full});
  for (std::size_t row = 0; row < run.times.size(); ++row) {
    const double depth = 1e-6 * std::max(0.0, run.times[row] - 300.0);
    run.rows[row].push_back({0.0, depth, 0.5 * depth});
  }
  auto item = char_item(300.0);
  const auto crossed = judged(item, run);  // 0.5 mm
  CHECK(crossed.state == State::crossed);
  CHECK(crossed.char_depth.value() == Approx(0.9e-3));
  REQUIRE(crossed.crossing.has_value());
  CHECK(crossed.crossing->time == Approx(800.0));
  CHECK(crossed.crossing->spot.position == Approx(1.05));
  item.depth = 1e-3;
  CHECK(judged(item, run).state == State::near);
  for (auto& row : run.rows) {
    row.back() = {0.0, 0.0, 0.0};
  }
  CHECK(judged(item, run).state == State::clear);
  // Another isotherm than the one recorded is judged by temperature alone.
  CHECK(judged(char_item(24.0), run).state == State::cannot_say);
}

TEST_CASE("a dose is that of the place that has most of it", "[post]") {
  const auto finding = judged(dose_item(1000.0));
  CHECK(finding.state == State::clear);
  CHECK(finding.dose->spot.position == Approx(1.65));
  // Simpson's rule over 20 to 80 degC in 1200 s, 2000 panels, apart from the program's own.
  const auto ratio = [](double kelvin) {
    return std::exp(-110.0e3 / 8.314462618 * (1.0 / kelvin - 1.0 / 323.15));
  };
  double sum = 0.0;
  for (int i = 0; i < 2000; ++i) {
    const double left = 293.15 + 0.03 * i;
    sum += (ratio(left) + 4.0 * ratio(left + 0.015) + ratio(left + 0.03)) / 6.0 * 0.6;
  }
  CHECK(finding.dose->equivalent == Approx(sum).epsilon(1e-5));
  CHECK(judged(dose_item(sum / 3600.0 * 0.999)).state == State::crossed);
  CHECK(judged(dose_item(sum / 3600.0 * 1.1)).state == State::near);
}

TEST_CASE("steps tell what was asked and got and where it was hottest", "[post]") {
  const auto findings = post::checks::judge(*test::in_memory(test::sample_run()), {});
  REQUIRE(findings.steps.size() == 2);
  const auto& first = findings.steps[0];
  const auto& second = findings.steps[1];
  CHECK(first.complete);
  CHECK(first.got.value() == 20.0);
  CHECK(second.asked.value() == 40.0);
  CHECK(second.got.value() == 39.5);
  CHECK(second.got_least.value() == 39.5);
  CHECK(second.voltage.value() == Approx(0.8));
  CHECK(second.power.value() == Approx(20.0));
  REQUIRE(second.parts.size() == 3);
  CHECK(second.parts[0].part == "conductor");
  CHECK(second.parts[0].at_end.temperature == Approx(80.0 + celsius_zero));
  CHECK(first.parts[0].at_end.temperature == Approx(50.0 + celsius_zero));
  CHECK(first.parts[0].at_end.spot.name == "drop + 0.450 m");
  CHECK(second.parts[1].part == "surface");
  CHECK(second.parts[2].part == "wood");
  CHECK(second.parts[2].at_end.temperature == Approx(25.0 + celsius_zero));
  CHECK(findings.hottest_conductor->temperature == Approx(80.0 + celsius_zero));
  CHECK(findings.hottest_step.value() == 2);
  CHECK(findings.ledger->made == Approx(12000.0));
  CHECK(findings.ledger->worst_gap == Approx(1e-9));
}

TEST_CASE("what was hottest before a step's end is not lost", "[post]") {
  auto run = test::sample_run();
  run.rows[15][9][3] = 90.0;  // a gust later in the step would leave such a peak
  const auto findings = post::checks::judge(*test::in_memory(run), {});
  CHECK(findings.steps[1].parts[0].at_end.temperature == Approx(80.0 + celsius_zero));
  CHECK(findings.steps[1].parts[0].greatest.temperature == Approx(90.0 + celsius_zero));
  CHECK(findings.steps[1].parts[0].greatest.time == 900.0);
  CHECK(findings.steps[1].parts[0].greatest.spot.position == Approx(0.35));
}

TEST_CASE("a conductor that parted is told with its place, minute and current", "[post]") {
  auto run = test::sample_run();
  const auto told = [&] {
    for (const auto& note : post::checks::judge(*test::in_memory(run), {}).notes) {
      if (note.find("melt") != std::string::npos) {
        return note;
      }
    }
    return std::string();
  };
  CHECK(told().empty());
  using Texts = std::vector<std::string>;
  using Numbers = std::vector<double>;
  run.set_table({"events",
                 "events",
                 {test::column("kind", Texts{"ceiling_met", "conductor_melts", "conductor_parts"}),
                  test::column("time", Numbers{60.0, 660.0, 690.0}),
                  test::column("position", Numbers{0.5, 1.65, 1.7}),
                  test::column("current", Numbers{40.0, 400.0, 401.0})}});
  CHECK(told() ==
        "the conductor begins to melt at 11.0 min, at 1.65 m (drop + 0.450 m), with 400 A, and "
        "parts at 11.5 min, at 1.70 m (drop + 0.500 m), with 401 A: from then on it carries no "
        "current unless a step says that it is rejoined; arc, droplets and the resistance of "
        "molten metal are not modelled");
}

TEST_CASE("steps a record does not reach are said to be so", "[post]") {
  const auto findings = post::checks::judge(*test::in_memory(cut_short(6)), {});
  CHECK(findings.steps[0].reached);
  CHECK_FALSE(findings.steps[0].complete);
  CHECK_FALSE(findings.steps[1].reached);
  CHECK(findings.steps[1].parts.empty());
}

TEST_CASE("absent cells are passed over", "[post]") {
  auto run = test::sample_run();
  for (auto& row : run.rows) {
    row[11] = {std::nan(""), 22.0, std::nan("")};
  }
  CHECK(judged(above("a", "wood", 60.0), run).hottest->temperature == Approx(295.15));
  for (auto& row : run.rows) {
    row[11].assign(3, std::nan(""));
  }
  CHECK(judged(above("a", "wood", 60.0), run).state == State::cannot_say);
}

TEST_CASE("the exit code is that of the worst item", "[post]") {
  const auto code = [](const std::vector<Item>& items) {
    return exit_code(post::checks::judge(*test::in_memory(test::sample_run()), items));
  };
  const auto clear = above("clear", "wood", 77.0);
  const auto near = above("near", "conductor", 81.0);
  const auto crossed = above("crossed", "conductor", 60.0);
  const auto unknown = above("unknown", "braid", 60.0);
  CHECK(code({clear}) == ExitCode::clear);
  CHECK(code({clear, near}) == ExitCode::undecided);
  CHECK(code({clear, unknown}) == ExitCode::undecided);
  CHECK(code({unknown, near, crossed, clear}) == ExitCode::crossed);
  CHECK(code({}) == ExitCode::undecided);
}

TEST_CASE("a record on disk is judged as its rows in memory are", "[post]") {
  auto banded = above("banded", "rubber", 60.0, 60.0);
  banded.low = 55.0 + celsius_zero;
  banded.high = 90.0 + celsius_zero;
  banded.from = "hot plate, three samples";
  auto dose = dose_item(1000.0);
  dose.energy_low = 90.0e3;
  const std::vector<Item> items = {banded, dose, char_item(300.0)};
  auto run = test::sample_run();
  test::give_items(run, items);
  const test::Folder folder;
  test::write_record(run, folder / "rig.h5");
  const auto record = post::checks::open_record(folder / "rig.h5");
  const auto stored = post::checks::stored_items(*record);
  REQUIRE(stored.size() == 3);
  CHECK(stored[0].high.value() == Approx(*banded.high));
  CHECK(stored[0].from == banded.from);
  CHECK(stored[1].energy_low.value() == 90.0e3);
  CHECK_FALSE(stored[1].energy_high.has_value());
  CHECK(stored[2].isotherm == Approx(573.15));
  const auto on_disk = post::checks::judge(*record, stored);
  const auto in_memory = post::checks::judge(*test::in_memory(run), items);
  for (std::size_t i = 0; i < items.size(); ++i) {
    CHECK(on_disk.items[i].state == in_memory.items[i].state);
  }
  CHECK(on_disk.items[0].crossing->time == Approx(in_memory.items[0].crossing->time));
  CHECK(on_disk.items[0].crossing->time == Approx(860.0));
  CHECK(on_disk.items[1].dose->equivalent == Approx(in_memory.items[1].dose->equivalent));
}

TEST_CASE("a stored limit that is not a number is refused, never clear", "[post]") {
  auto run = test::sample_run();
  auto item = above("a", "conductor", 60.0, std::nan(""));
  test::give_items(run, {item});
  const auto items = post::checks::stored_items(*test::in_memory(run));
  CHECK(items.front().persistence == 0.0);
  CHECK(judged(items.front(), run).state == State::crossed);
  item.limit = std::nan("");
  test::give_items(run, {item});
  CHECK_THROWS_AS(post::checks::stored_items(*test::in_memory(run)), diagnostics::InputError);
}

TEST_CASE("a record of 661 rows and 1000 places is judged well within a second", "[post]") {
  auto run = test::sample_run(1200.0 / 660.0, 1000);
  test::give_items(run, {above("a", "rubber", 60.0), above("b", "surface", 60.0, 60.0),
                         above("c", "conductor", 70.0), dose_item(1000.0), char_item(300.0)});
  const test::Folder folder;
  test::write_record(run, folder / "large.h5");
  const std::clock_t begin = std::clock();
  const auto record = post::checks::open_record(folder / "large.h5");
  const auto findings = post::checks::judge(*record, post::checks::stored_items(*record));
  const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  CHECK(findings.items[0].crossing->time == Approx(800.0).epsilon(1e-3));
  CHECK(seconds < 1.0);  // processor time: 0.07 s where it was written; room for slow builds
}
