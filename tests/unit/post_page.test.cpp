// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "post_sample.hpp"
#include "report/html.hpp"
#include "report/series.hpp"
#include "report/words.hpp"

using namespace ampstair;
using post::report::escaped;

TEST_CASE("text on a page is never markup", "[post]") {
  // The five characters that HTML's own syntax gives a meaning (HTML Living Standard 13.1).
  CHECK(escaped("<b a=\"1\" c='2'>&</b>") ==
        "&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;&lt;/b&gt;");
  CHECK(escaped("10 °C, Ωμέγα") == "10 °C, Ωμέγα");
}

TEST_CASE("controls and marks that turn the writing do not reach a page", "[post]") {
  CHECK(escaped("a\xE2\x80\xAE"
                "b\xE2\x81\xA9"
                "c\xD8\x9C") == "abc");
  CHECK(escaped(std::string("a\0b", 3)) ==
        "a\xEF\xBF\xBD"
        "b");
  CHECK(escaped("a\nb\tc") == "a\nb\tc");
}

TEST_CASE("JSON on a page cannot end its script", "[post]") {
  const nlohmann::json json = {{"name", "</script><script>alert(1)</script>"}};
  const auto text = post::report::json_in_page(json);
  CHECK(text.find('<') == std::string::npos);
  CHECK(nlohmann::json::parse(text) == json);
}

TEST_CASE("lengths and temperatures in both systems of units", "[post]") {
  // 3.74 m = 147.2 in = 12 ft 3 in; 118.2 degC = 244.8 degF (by hand).
  CHECK(post::report::both_lengths(3.74) == "3.74 m <span class=\"other\">(12 ft 3 in)</span>");
  CHECK(post::report::both_lengths(0.1) == "0.100 m <span class=\"other\">(4 in)</span>");
  CHECK(post::report::both_temperatures(118.2 + 273.15) ==
        "118 °C <span class=\"other\">(245 °F)</span>");
}

TEST_CASE("a moment's bar is never rounded down", "[post]") {
  // 67.3 min = 4038 s; a tenth of a minute is 6 s.
  const auto told = [](std::optional<double> error) {
    post::checks::Crossing crossing;
    crossing.time = 4038.0;
    crossing.error = error;
    return post::report::crossing_minute(crossing);
  };
  CHECK(told(std::nullopt) == "67.3");
  CHECK(told(0.4) == "67.3 ± 0.1");
  CHECK(told(6.6) == "67.3 ± 0.2");
  CHECK(told(90.0) == "67.3 ± 1.5");
}

TEST_CASE("rows to draw keep every jump and the last", "[post]") {
  std::vector<double> times;
  for (int k = 0; k <= 1000; ++k) {
    times.push_back(k);
    if (k == 333 || k == 777) {
      times.push_back(k);
    }
  }
  const auto rows = post::report::rows_to_draw(times, 100);
  CHECK(rows.size() < 110);
  CHECK(rows.front() == 0);
  CHECK(times[rows.back()] == 1000.0);
  for (const double jump : {333.0, 777.0}) {
    int kept = 0;
    for (const auto row : rows) {
      kept += times[row] == jump ? 1 : 0;
    }
    CHECK(kept == 2);
  }
}

TEST_CASE("rows to draw keep every peak and every dip between them", "[post]") {
  std::vector<double> times(5000);
  std::vector<std::vector<double>> curves(2, std::vector<double>(times.size()));
  for (std::size_t k = 0; k < times.size(); ++k) {
    times[k] = static_cast<double>(k);
    curves[0][k] = 1e-3 * static_cast<double>(k);
  }
  curves[0][1234] = 90.0;
  curves[0][4321] = -90.0;
  curves[1][777] = 5.0;
  curves[1][778] = curves[1][700] = std::nan("");
  const auto rows = post::report::rows_to_draw(times, 100, curves);
  CHECK(rows.size() <= 60);
  for (const std::size_t row : {1234U, 4321U, 777U}) {
    CHECK(std::count(rows.begin(), rows.end(), row) == 1);
  }
}

TEST_CASE("a timeline has the peak of a row that a thinning would leave out", "[post]") {
  auto run = test::sample_run(1.0, 20);
  REQUIRE(run.times.size() > 1000);
  run.rows[431][9][3] = 140.0;  // the conductor, at one place for one second
  const auto timeline = post::report::timeline(*test::in_memory(run),
                                               [](const std::string&) { return std::nullopt; });
  CHECK(timeline["minute"].size() < 900);
  double highest = 0.0;
  for (const auto& value : timeline["curves"][0]["degC"]) {
    highest = std::max(highest, value.get<double>());
  }
  CHECK(highest == 140.0);
}

TEST_CASE("a strip shows the hottest of what it draws together", "[post]") {
  const auto histories = test::in_memory(test::sample_run(60.0, 20));
  const auto strip = post::report::strip(
      *histories, [](const std::string&) { return std::nullopt; }, 7, 5);
  const auto times = histories->times();
  const auto all = histories->rows("conductor_temperature", 0, times.size());
  double hottest = 0.0;
  for (const auto& line : strip["degC"]) {
    CHECK(line.size() == strip["position_m"].size());
    for (const auto& value : line) {
      hottest = std::max(hottest, value.get<double>());
    }
  }
  CHECK(strip["degC"].size() == strip["minute"].size());
  CHECK(strip["degC"].size() <= 7);
  CHECK(hottest == Approx(*std::max_element(all.begin(), all.end())).margin(0.05));
}
