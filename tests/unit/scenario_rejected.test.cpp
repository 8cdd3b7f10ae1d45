// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"

namespace {

namespace fs = std::filesystem;
using namespace ampstair;

const fs::path folder = fs::path(AMPSTAIR_SOURCE_FOLDER) / "tests" / "rejected_sheets";

struct Expected {
  int line = 0;
  int column = 0;
  std::string code;
  std::string severity;
  std::string what;
  std::string remedy;
};

std::string after(const std::string& line, const std::string& label) {
  REQUIRE(line.rfind(label, 0) == 0);
  return line.substr(label.size());
}

std::vector<Expected> read_expected(const fs::path& path) {
  std::ifstream in(path);
  REQUIRE(in);
  std::vector<Expected> all;
  std::string line;
  while (std::getline(in, line)) {
    Expected one;
    std::istringstream words(line);
    char colon = 0;
    words >> one.line >> colon >> one.column >> one.code >> one.severity;
    std::getline(in, line);
    one.what = after(line, "  what: ");
    std::getline(in, line);
    one.remedy = after(line, "  try: ");
    all.push_back(std::move(one));
  }
  return all;
}

std::vector<diagnostics::Problem> faults_of(const fs::path& sheet) {
  try {
    return scenario::load(sheet, scenario::as_built).warnings.sorted();
  } catch (const diagnostics::InputError& error) {
    return error.problems().sorted();
  }
}

std::vector<fs::path> sheets() {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".yaml") {
      found.push_back(entry.path());
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

void compare(const diagnostics::Problem& told, const Expected& expected) {
  CAPTURE(diagnostics::describe(told));
  CHECK(told.place.line == expected.line);
  CHECK(told.place.column == expected.column);
  CHECK(told.code == expected.code);
  CHECK((told.severity == diagnostics::Severity::error ? "error" : "warning") == expected.severity);
  CHECK_THAT(told.what, Catch::Contains(expected.what));
  CHECK_THAT(told.remedy, Catch::Contains(expected.remedy));
}

}  // namespace

TEST_CASE("every rejected sheet is told exactly its faults, at their places") {
  const auto all = sheets();
  REQUIRE(all.size() >= 40);
  for (const auto& sheet : all) {
    CAPTURE(sheet.filename());
    auto expected_path = sheet;
    const auto expected = read_expected(expected_path.replace_extension(".expected"));
    const auto told = faults_of(sheet);
    for (const auto& problem : told) {
      UNSCOPED_INFO(diagnostics::describe(problem));
    }
    REQUIRE(told.size() == expected.size());
    for (std::size_t i = 0; i < told.size(); ++i) {
      compare(told[i], expected[i]);
    }
  }
}

TEST_CASE("the scenarios to learn from have no fault and no warning, in any arrangement") {
  for (const auto& entry : fs::directory_iterator(fs::path(AMPSTAIR_SOURCE_FOLDER) / "scenarios")) {
    if (entry.path().extension() != ".yaml") {
      continue;
    }
    CAPTURE(entry.path().filename());
    const auto told = faults_of(entry.path());
    for (const auto& problem : told) {
      UNSCOPED_INFO(diagnostics::describe(problem));
    }
    CHECK(told.empty());
  }
}
