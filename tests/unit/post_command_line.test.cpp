// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "post_sample.hpp"
#include "verbs/post_verbs.hpp"

using namespace ampstair;
using diagnostics::ExitCode;
using test::above;

namespace {

struct Outcome {
  ExitCode code;
  std::string out;
  std::string err;
};

Outcome run(const std::vector<std::string>& arguments) {
  std::ostringstream out;
  std::ostringstream err;
  auto* const cout = std::cout.rdbuf(out.rdbuf());
  auto* const cerr = std::cerr.rdbuf(err.rdbuf());
  const auto code = post::verbs::run(arguments);
  std::cout.rdbuf(cout);
  std::cerr.rdbuf(cerr);
  return {code, out.str(), err.str()};
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string record(const test::Folder& folder, const watch::Item& item) {
  auto sample = test::sample_run();
  test::give_items(sample, {item});
  const auto path = folder / (item.name + ".h5");
  test::write_record(sample, path);
  return path.string();
}

}  // namespace

TEST_CASE("the shell is told how the verdict went", "[post]") {
  const test::Folder folder;
  CHECK(run({"verdict", record(folder, above("low", "conductor", 60.0))}).code ==
        ExitCode::crossed);
  CHECK(run({"verdict", record(folder, above("far", "conductor", 200.0))}).code == ExitCode::clear);
  CHECK(run({"verdict", record(folder, above("close", "conductor", 81.0))}).code ==
        ExitCode::undecided);
  CHECK(run({"verdict", record(folder, above("lost", "braid", 81.0))}).code == ExitCode::undecided);
  const auto none = run({"verdict", (folder / "none.h5").string()});
  CHECK(none.code == ExitCode::bad_input);
  CHECK(none.out.empty());
  CHECK(holds(none.err, "none.h5"));
}

TEST_CASE("other watch items judge the same record anew", "[post]") {
  const test::Folder folder;
  const auto path = record(folder, above("far", "conductor", 200.0));
  std::ofstream(folder / "limits.yaml") << "watch: [{name: mine, part: rubber, above: 60 degC}]\n";
  const auto outcome = run({"verdict", path, "--watch", (folder / "limits.yaml").string()});
  CHECK(outcome.code == ExitCode::crossed);
  CHECK(holds(outcome.out, "mine"));
  CHECK_FALSE(holds(outcome.out, "200 °C"));
  std::ofstream(folder / "bad.yaml") << "watch: [{name: mine, part: rubber, above: 60}]\n";
  const auto bad = run({"verdict", path, "--watch", (folder / "bad.yaml").string()});
  CHECK(bad.code == ExitCode::bad_input);
  CHECK(bad.out.empty());
  CHECK(holds(bad.err, "E110"));
}

TEST_CASE("JSON comes alone on standard output", "[post]") {
  const test::Folder folder;
  const auto outcome = run({"verdict", "--json", record(folder, above("low", "conductor", 60.0))});
  CHECK(outcome.code == ExitCode::crossed);
  CHECK(outcome.out.front() == '{');
  CHECK(outcome.out.substr(outcome.out.size() - 2) == "}\n");
  CHECK(outcome.err.empty());
}

TEST_CASE("show tells what a record holds", "[post]") {
  const test::Folder folder;
  const auto outcome = run({"show", record(folder, above("low", "conductor", 60.0))});
  CHECK(outcome.code == ExitCode::clear);
  for (const char* part : {"Bench rig of invented numbers", "yes, at 20.0 min", "south leg", "tube",
                           "conductor_temperature", "21 x 20 (position)", "degC", "south leg mid",
                           "> 60 °C", "no source given"}) {
    CAPTURE(part);
    CHECK(holds(outcome.out, part));
  }
  auto cut = test::sample_run();
  cut.finished = false;
  cut.times.resize(5);
  cut.rows.resize(5);
  test::write_record(cut, folder / "cut.h5");
  CHECK(holds(run({"show", (folder / "cut.h5").string()}).out, "no: ends at 4.0 min of 20.0 min"));
}

TEST_CASE("export writes where it is told", "[post]") {
  const test::Folder folder;
  const auto path = record(folder, above("low", "conductor", 60.0));
  const auto directory = (folder / "csv").string();
  CHECK(run({"export", path, "--csv", directory}).code == ExitCode::clear);
  CHECK(run({"export", path, "--csv", directory}).code == ExitCode::bad_input);
  CHECK(run({"export", path, "--csv", directory, "--overwrite"}).code == ExitCode::clear);
  CHECK(run({"export", path}).code == ExitCode::bad_input);
}

TEST_CASE("a mistyped command line is met with advice", "[post]") {
  CHECK(holds(run({"verdikt", "a.h5"}).err, "did you mean verdict?"));
  CHECK(run({"verdikt", "a.h5"}).code == ExitCode::bad_input);
  CHECK(run({}).code == ExitCode::bad_input);
  CHECK(holds(run({"verdict", "a.h5", "--jsn"}).err, "--jsn"));
  CHECK(run({"verdict", "a.h5", "--js"}).code == ExitCode::bad_input);
  CHECK(holds(run({"verdict", "a.h5", "b.h5"}).err, "given twice"));
  CHECK(holds(run({"verdict"}).err, "needs a record"));
  CHECK(holds(run({"verdict", "a.h5", "--watch"}).err, "--watch"));
  CHECK(run({"--help"}).code == ExitCode::clear);
  CHECK(holds(run({"--help"}).out, "verdict"));
  CHECK(holds(run({"verdict", "--help"}).out, "--watch FILE"));
  CHECK(holds(run({"--version"}).out, "ampstair"));
}
