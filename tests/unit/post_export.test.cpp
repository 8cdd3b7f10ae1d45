// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "export/csv.hpp"
#include "export/export.hpp"
#include "post_sample.hpp"

using namespace ampstair;
using post::tables::csv_field;
using post::tables::csv_number;
using post::tables::export_csv;

namespace {

std::string content(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string first_line(const std::string& text) {
  return text.substr(0, text.find("\r\n"));
}

auto records(const std::string& text) {
  std::size_t count = 0;
  for (auto at = text.find("\r\n"); at != std::string::npos; at = text.find("\r\n", at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("fields are quoted as RFC 4180 section 2 says", "[post]") {
  CHECK(csv_field("plain text") == "plain text");
  CHECK(csv_field("a,b") == "\"a,b\"");
  CHECK(csv_field("say \"ah\"") == "\"say \"\"ah\"\"\"");
  CHECK(csv_field("two\nlines") == "\"two\nlines\"");
  CHECK(post::tables::csv_record({"a", "b,c"}) == "a,\"b,c\"\r\n");
}

TEST_CASE("numbers are short and read back the same", "[post]") {
  CHECK(csv_number(45.3, false) == "45.3");
  CHECK(csv_number(static_cast<double>(45.3F), true) == "45.3");
  CHECK(csv_number(static_cast<double>(45.3F), false) != "45.3");
  CHECK(csv_number(std::nan(""), false).empty());
}

TEST_CASE("every history goes to a file whose headings carry units", "[post]") {
  const test::Folder folder;
  test::write_record(test::sample_run(), folder / "rig.h5");
  const auto histories = post::checks::open_record(folder / "rig.h5");
  const auto files = export_csv(*histories, folder / "out", false);
  REQUIRE(files.size() == 5);
  CHECK(folder.names() ==
        std::vector<std::string>{"conductor_temperature.csv", "out", "probes.csv", "rig.h5",
                                 "series.csv", "surface_temperature.csv", "wood_temperature.csv"});
  const auto series = content(folder / "out/series.csv");
  CHECK(series.rfind("time [s],current_asked [A],current [A],voltage [V],power [W],", 0) == 0);
  CHECK(records(series) == 22);
  CHECK(series.find("\r\n660,40,39.5,0.8,20,6600,") != std::string::npos);
  CHECK(first_line(content(folder / "out/conductor_temperature.csv"))
            .rfind("time [s],0.05 m [degC],0.15 m [degC],", 0) == 0);
  CHECK(first_line(content(folder / "out/wood_temperature.csv")) ==
        "time [s],1.05 m [degC],1.05 m (2) [degC],1.15 m [degC]");
  CHECK(
      content(folder / "out/probes.csv")
          .rfind("time [s],south leg mid [degC],\"by the \"\"drop\"\",\nlow [degC]\"\r\n0,0,2\r\n",
                 0) == 0);
}

TEST_CASE("files that exist are left alone unless told otherwise", "[post]") {
  const test::Folder folder;
  const auto histories = test::in_memory(test::sample_run());
  std::ofstream(folder / "probes.csv") << "precious";
  try {
    export_csv(*histories, folder / ".", false);
    FAIL("an existing file was not refused");
  } catch (const diagnostics::InputError& error) {
    const auto problems = error.problems().sorted();
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].code == "E730");
    CHECK(problems[0].remedy.find("--overwrite") != std::string::npos);
  }
  CHECK(content(folder / "probes.csv") == "precious");
  CHECK(folder.names() == std::vector<std::string>{"probes.csv"});
  export_csv(*histories, folder / ".", true);
  CHECK(content(folder / "probes.csv").rfind("time [s]", 0) == 0);
}

TEST_CASE("a directory that cannot be is an input error", "[post]") {
  const test::Folder folder;
  std::ofstream(folder / "file") << "not a directory";
  const auto histories = test::in_memory(test::sample_run());
  CHECK_THROWS_AS(export_csv(*histories, folder / "file", false), diagnostics::InputError);
  CHECK_THROWS_AS(export_csv(*histories, folder / "file/below", false), diagnostics::InputError);
}

TEST_CASE("a history that fails half way leaves no file behind", "[post]") {
  auto run = test::sample_run();
  run.rows.back()[11].pop_back();  // the last row of the wood lacks a place
  const test::Folder folder;
  const auto histories = test::in_memory(run);
  CHECK_THROWS(export_csv(*histories, folder / "out", false));
  CHECK(folder.names() == std::vector<std::string>{"out"});
}
