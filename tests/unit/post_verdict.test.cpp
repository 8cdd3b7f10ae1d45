// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "checks/amounts.hpp"
#include "checks/cautions.hpp"
#include "checks/judge.hpp"
#include "checks/verdict.hpp"
#include "post_sample.hpp"
#include "verbs/text_table.hpp"
#include "verbs/verdict_json.hpp"
#include "verbs/verdict_text.hpp"

using namespace ampstair;
using post::checks::Findings;
using test::above;
using watch::Item;

namespace {

constexpr double celsius_zero = 273.15;

const std::string first_caution =
    "This is not a rating, an ampacity, an approval or an inspection; where it and the code "
    "differ, "
    "follow the code.";
const std::string second_caution =
    "Ratings and permitted use are set by the code adopted where the building stands and applied "
    "by "
    "the authority having jurisdiction and licensed practitioners.";

/// One item in every state.
std::vector<Item> items_of_every_state() {
  auto banded = above("rubber softens at last", "rubber", 75.0, 60.0);
  banded.low = 60.0 + celsius_zero;
  banded.high = 90.0 + celsius_zero;
  Item dose;
  dose.name = "ageing";
  dose.part = "rubber";
  dose.kind = Item::Kind::dose;
  dose.activation_energy = 110.0e3;
  dose.energy_low = 90.0e3;
  dose.energy_high = 135.0e3;
  dose.reference_temperature = 50.0 + celsius_zero;
  dose.reference_duration = 3.6e6;
  Item charring;
  charring.name = "char";
  charring.part = "wood";
  charring.kind = Item::Kind::char_depth;
  charring.depth = 0.5e-3;
  charring.isotherm = 300.0 + celsius_zero;
  return {above("wood caution", "wood", 77.0),
          above("close", "surface", 76.0),
          banded,
          above("braid", "braid", 90.0),
          dose,
          charring};
}

Findings findings(const std::vector<Item>& items, const test::Run& run = test::sample_run()) {
  return post::checks::judge(*test::in_memory(run), items);
}

post::checks::Verdict verdict(const std::vector<Item>& items,
                              const test::Run& run = test::sample_run()) {
  return post::checks::verdict_on(*test::in_memory(run), items);
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> all;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) {
    all.push_back(line);
  }
  return all;
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

nlohmann::ordered_json json(const std::vector<Item>& items) {
  return nlohmann::ordered_json::parse(post::verbs::verdict_json(verdict(items), "rig.h5"));
}

std::vector<std::string> keys(const nlohmann::ordered_json& object) {
  std::vector<std::string> names;
  for (const auto& [key, value] : object.items()) {
    names.push_back(key);
  }
  return names;
}

}  // namespace

TEST_CASE("a verdict ends with exactly two lines of caution", "[post]") {
  for (const auto& items : {items_of_every_state(), std::vector<Item>{}}) {
    const auto text = post::verbs::verdict_text(verdict(items), "rig.h5");
    const auto all = lines(text);
    REQUIRE(all.size() > 3);
    CHECK(all[all.size() - 3].empty());
    CHECK(all[all.size() - 2] == first_caution);
    CHECK(all[all.size() - 1] == second_caution);
    CHECK(text.back() == '\n');
  }
  CHECK(json({})["cautions"] == nlohmann::ordered_json{first_caution, second_caution});
}

TEST_CASE("a verdict fits a terminal of 100 columns and never promises", "[post]") {
  auto run = test::sample_run();
  run.rows[15][9][3] = 90.0;
  auto items = items_of_every_state();
  items.push_back(above(std::string(80, 'n') + "\n" + std::string(80, 'm'), "conductor", 33.0));
  auto text = post::verbs::verdict_text(verdict(items, run), "rig.h5");
  text = text.substr(0, text.find(first_caution));
  for (const auto& line : lines(text)) {
    CAPTURE(line);
    CHECK(post::verbs::length_of(line) <= 100);
    CHECK((line.empty() || line.back() != ' '));
  }
  CHECK_FALSE(holds(lower(text), "safe"));
  CHECK_FALSE(holds(lower(text), "wire reached"));
  CHECK_FALSE(holds(lower(text), "permit"));
  CHECK_FALSE(holds(text, "\x1b"));  // no colour
}

TEST_CASE("a verdict says what the model gives and by which marks", "[post]") {
  const auto text = post::verbs::verdict_text(verdict(items_of_every_state()), "rig.h5");
  CHECK(holds(text, "Under the inputs listed in the record, the model gives a hottest conductor"));
  CHECK(holds(text, "C ○ clear"));
  CHECK(holds(text, "N ◐ near"));
  CHECK(holds(text, "X ● crossed"));
  CHECK(holds(text, "? ◇ cannot say"));
  CHECK(holds(text, "crossed; not with the limit's high end"));
  CHECK(holds(text, "char depth 0.00 mm"));
  CHECK(holds(text, "over the energy's band"));
  CHECK(holds(text, "2 of 6 watch items carry a band"));
  CHECK(text.find("Steps") < text.find("First crossings"));
  const auto plain = post::verbs::verdict_text(verdict({above("a", "wood", 77.0)}), "rig.h5");
  CHECK(holds(plain, "single run, no uncertainty given\n"));
}

TEST_CASE("a temperature has the digits its bar allows", "[post]") {
  using post::checks::Reading;
  const auto text = [](double celsius, double time, double grid) {
    return post::checks::reading_text(Reading{celsius + celsius_zero, 0.0, {}, time, grid});
  };
  CHECK(text(118.234, 0.02, 0.01) == "118.2 ± 0.1 °C");  // 0.03 and 0.034 of rounding
  CHECK(text(118.234, 0.02, 0.06) == "118.2 ± 0.2 °C");  // 0.08 and 0.034
  CHECK(text(118.0, 0.0, 0.0) == "118.0 ± 0.1 °C");
  CHECK(text(118.2, 0.04, 0.36) == "118.2 ± 0.4 °C");
  CHECK(text(118.2, 0.04, 0.86) == "118.2 ± 0.9 °C");
  CHECK(text(118.2, 0.04, 0.9) == "118 ± 2 °C");  // 0.94 and 0.2 of rounding
  CHECK(text(1083.4, 0.1, 2.1) == "1083 ± 3 °C");
  CHECK(text(1083.4, 0.1, 12.0) == "1080 ± 20 °C");
  CHECK(text(-0.01, 0.01, 0.01) == "0.0 ± 0.1 °C");
  const Reading of_time{118.234 + celsius_zero, 0.0, {}, 0.03, {}};
  CHECK(post::checks::reading_text(of_time) == "118.2 °C");
  CHECK_FALSE(of_time.error());
  const Reading coarse_in_time{118.634 + celsius_zero, 0.0, {}, 1.5, {}};
  CHECK(post::checks::reading_text(coarse_in_time) == "119 °C");
  CHECK(post::checks::reading_text({118.234 + celsius_zero, 0.0, {}, {}, {}}) == "118 °C");
}

TEST_CASE("a temperature and its bar stay on one line", "[post]") {
  const std::string reading = "118.2 ± 0.1 °C";
  for (std::size_t before = 70; before < 100; ++before) {
    const auto text = std::string(before, 'x') + " " + reading + ", and so on";
    CHECK(holds(post::verbs::paragraph(text, 0), reading));
  }
}

TEST_CASE("a verdict carries the bars of a record that has them", "[post]") {
  auto run = test::sample_run();
  run.set_bars("conductor_temperature", 0.25, 0.03);
  const auto judged = verdict({above("a", "conductor", 77.0)}, run);
  const auto text = post::verbs::verdict_text(judged, "r");
  CHECK(holds(text, "80.0 ± 0.3 °C"));
  CHECK(holds(text, "± covers the solution of the model's equations"));
  CHECK(holds(text, "(time about 0.03 K, grid at most about 0.25 K)"));
  CHECK(holds(text, "single run, no uncertainty given for its inputs\n"));
  const auto parsed = nlohmann::ordered_json::parse(post::verbs::verdict_json(judged, "r"));
  CHECK(parsed["hottest_conductor"]["error_K"].get<double>() == Approx(0.28));
  CHECK(parsed["items"][0]["hottest"]["error_K"].get<double>() == Approx(0.28));
  CHECK(parsed["steps"][0]["parts"][0]["at_end"]["error_K"].get<double>() == Approx(0.28));
  // 0.28 K at the sample's 0.05 K/s
  CHECK(parsed["items"][0]["crossing"]["error_s"].get<double>() == Approx(5.6));
  CHECK(holds(text, "the moment good to 5.6 s by the bar"));
  CHECK(parsed["run"]["grid_error_K"].get<double>() == 0.25);
  CHECK(parsed["steps"][0]["parts"][1]["at_end"]["error_K"].is_null());  // the surface has none
}

TEST_CASE("nothing is clear of a limit that its bar of error reaches", "[post]") {
  auto run = test::sample_run();
  const auto item = above("a", "conductor", 83.0);  // the conductor ends at 80
  run.set_bars("conductor_temperature", 2.9, 0.03);
  CHECK(findings({item}, run).items[0].state == watch::State::clear);
  run = test::sample_run();
  run.set_bars("conductor_temperature", 2.98, 0.03);
  const auto judged = findings({item}, run);
  CHECK(judged.items[0].state == watch::State::near);
  CHECK(judged.items[0].remark == "the limit lies within the bar of error of the hottest place");
}

TEST_CASE("a verdict without bars says once that the grid's error is not known", "[post]") {
  auto run = test::sample_run();
  run.closing = {{"time_error", 0.03}};
  const auto text = post::verbs::verdict_text(verdict({above("a", "conductor", 77.0)}, run), "r");
  const std::string line = "the grid's error was not estimated";
  CHECK(holds(text, line));
  CHECK(text.find(line) == text.rfind(line));
  CHECK_FALSE(holds(text, "±"));
  CHECK(json({})["hottest_conductor"]["error_K"].is_null());
  CHECK(json({})["run"]["time_error_K"].is_null());
}

TEST_CASE("a buried run carries the code's caution", "[post]") {
  auto run = test::sample_run();
  const auto item = above("a", "conductor", 200.0);
  CHECK_FALSE(holds(post::verbs::verdict_text(verdict({item}, run), "r"), "NEC 394.12"));
  using Texts = std::vector<std::string>;
  run.set_table({"pieces",
                 "pieces",
                 {test::column("name", Texts{"bay"}), test::column("kind", Texts{"filled"}),
                  test::column("begin", std::vector<double>{0.0}),
                  test::column("end", std::vector<double>{2.0})}});
  CHECK(holds(post::verbs::verdict_text(verdict({item}, run), "r"), "NEC 394.12"));
}

TEST_CASE("JSON holds every key in one order, whatever was found", "[post]") {
  const auto full = json(items_of_every_state());
  CHECK(keys(full) == std::vector<std::string>{"schema", "record", "run", "overall", "exit_code",
                                               "near_margin_K", "hottest_conductor", "hottest_step",
                                               "steps", "settling", "items", "device", "ledger",
                                               "validity", "notes", "cautions"});
  CHECK(full["schema"] == "ampstair-verdict/1");
  CHECK(full["overall"] == "crossed");
  CHECK(full["exit_code"] == 1);
  const auto& items = full["items"];
  REQUIRE(items.size() == 6);
  for (const auto& item : items) {
    CHECK(keys(item) == std::vector<std::string>{
                            "name", "part", "kind", "limit", "state", "mark", "remark", "crossing",
                            "crossing_with_low_end", "crossing_with_high_end", "longest_above",
                            "last_above_s", "hottest", "dose", "char_depth_m"});
    CHECK(keys(item["limit"]) == keys(items[0]["limit"]));
  }
  CHECK(keys(full["steps"][1]) ==
        std::vector<std::string>{"step", "kind", "level_A", "level_V", "begin_s", "end_s", "until",
                                 "settled", "reached", "complete", "asked_A", "got_A",
                                 "got_least_A", "got_greatest_A", "voltage_V", "power_W", "parts"});
  CHECK(keys(items[2]["crossing"]) == std::vector<std::string>{"time_s", "rose_above_s",
                                                               "position_m", "place", "current_A",
                                                               "step", "error_s"});
}

TEST_CASE("JSON holds the figures in SI or degC", "[post]") {
  const auto full = json(items_of_every_state());
  const auto& banded = full["items"][2];
  CHECK(banded["limit"]["above_degC"].get<double>() == Approx(75.0));
  CHECK(banded["limit"]["above_low_degC"].get<double>() == Approx(60.0));
  CHECK(banded["crossing"]["time_s"].get<double>() == Approx(1160.0));
  CHECK(banded["crossing"]["rose_above_s"].get<double>() == Approx(1100.0));
  CHECK(banded["crossing"]["place"] == "drop + 0.450 m");
  CHECK(banded["crossing"]["current_A"] == 39.5);
  CHECK(banded["crossing_with_low_end"]["time_s"].get<double>() == Approx(860.0));
  CHECK(banded["crossing_with_high_end"].is_null());
  CHECK(full["items"][3]["hottest"].is_null());
  CHECK(full["items"][5]["char_depth_m"] == 0.0);
  CHECK(full["hottest_conductor"]["temperature_degC"].get<double>() == Approx(80.0));
  CHECK(full["steps"][1]["parts"][0]["at_end"]["temperature_degC"].get<double>() == Approx(80.0));
}

TEST_CASE("a verdict tells a device's opening against every crossing, never that it opened",
          "[post]") {
  // The sample carries 20 A for 600 s, then 39.5 A; its conductor passes 60 degC at 800 s.
  auto run = test::sample_run();
  run.set_table({"device",
                 "",
                 {test::column("kind", std::vector<std::string>{"plug-fuse"}),
                  test::column("rating", std::vector<double>{20.0}),
                  test::column("must_hold", std::vector<double>{1.2}),
                  test::column("source", std::vector<std::string>{"rig"})}});
  run.set_table({"openings",
                 "",
                 {test::column("times", std::vector<double>{1.5}),
                  test::column("within", std::vector<double>{90.0})}});
  const auto judged = verdict({above("a", "conductor", 60.0)}, run);
  const auto text = post::verbs::verdict_text(judged, "r");
  CHECK(holds(text, "Overcurrent device: plug-fuse, 20.0 A, limits from: rig"));
  CHECK(holds(text, "latest opening: 11.5 min"));  // 600 s + 90 s
  CHECK(holds(text, "opens first, by 1.8 min"));   // 800 s - 690 s
  CHECK(holds(text, "does not show whether this device meets its limits, nor whether it opened"));
  const auto parsed = nlohmann::ordered_json::parse(post::verbs::verdict_json(judged, "r"));
  CHECK(parsed["device"]["latest_opening_s"].get<double>() == Approx(690.0));
  CHECK(parsed["device"]["earliest_opening_s"].get<double>() == Approx(600.0));
  CHECK(parsed["device"]["crossings"][0]["order"] == "device_first");
  CHECK(parsed["device"]["crossings"][0]["after_latest_opening_s"].get<double>() ==
        Approx(110.0).margin(1.0));
  const auto none = post::verbs::verdict_text(verdict({}), "r");
  CHECK(holds(none, "Overcurrent device: none given; nothing can be said about opening."));
  CHECK(json({})["device"].is_null());
}

TEST_CASE("a verdict tells how each step came to rest", "[post]") {
  // The sample rises evenly: no end is in sight.
  const auto text = post::verbs::verdict_text(verdict({}), "r");
  CHECK(holds(text, "rising; no end in sight"));
  CHECK(holds(text, "IEC 60034-1: no more than 2 K in 1 h"));
  const auto steps = json({})["settling"];
  REQUIRE(steps.size() == 2);
  CHECK(keys(steps[0]) == std::vector<std::string>{"step", "state", "heading_for_degC", "to_come_K",
                                                   "settles_at_none_above_A", "rules"});
  CHECK(steps[1]["state"] == "rising");
  CHECK(steps[1]["to_come_K"].is_null());
  REQUIRE(steps[1]["rules"].size() == 4);
  CHECK(steps[1]["rules"][1]["rule"] == "settled 2 K/h");
  CHECK(steps[1]["rules"][1]["after_s"].is_null());
}
