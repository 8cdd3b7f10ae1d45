// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "watch/item_file.hpp"
#include "watch/item_keys.hpp"

using namespace ampstair;
using watch::Item;

namespace {

std::vector<diagnostics::Problem> faults(const std::string& text) {
  try {
    watch::read_items_text(text, "limits.yaml");
  } catch (const diagnostics::InputError& error) {
    return error.problems().sorted();
  }
  return {};
}

/// The only fault of one entry under `watch:`.
diagnostics::Problem fault_of(const std::string& entry) {
  const auto all = faults("watch:\n  - {" + entry + "}\n");
  REQUIRE(all.size() == 1);
  return all.front();
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("watch items are read with bands, persistence, doses and sources", "[watch]") {
  const auto items = watch::read_items_text(R"(watch:
  - {name: rubber limit, part: rubber, above: 50 degC, from: house rule}
  - {name: softens, part: rubber, above: {best: 105 degC, low: 90 degC, high: 125 degC, from: hot plate}, for: 3 min}
  - {name: ageing, part: rubber, dose: arrhenius, energy: {best: 110 kJ/mol, low: 90 kJ/mol, high: 135 kJ/mol}, equal_to: 1000 h at 50 degC}
  - {name: wood char, part: wood, char_depth: 0.5 mm, isotherm: 300 degC}
)",
                                            "limits.yaml");
  REQUIRE(items.size() == 4);
  CHECK(items[0].kind == Item::Kind::above);
  CHECK(items[0].limit == Approx(323.15));
  CHECK(items[0].persistence == 0.0);
  CHECK(items[0].from == "house rule");
  CHECK_FALSE(items[0].low.has_value());
  CHECK(items[1].low.value() == Approx(363.15));
  CHECK(items[1].high.value() == Approx(398.15));
  CHECK(items[1].persistence == Approx(180.0));
  CHECK(items[1].from == "hot plate");
  CHECK(items[2].kind == Item::Kind::dose);
  CHECK(items[2].activation_energy == Approx(110.0e3));
  CHECK(items[2].energy_low.value() == Approx(90.0e3));
  CHECK(items[2].energy_high.value() == Approx(135.0e3));
  CHECK(items[2].reference_duration == Approx(3.6e6));
  CHECK(items[2].reference_temperature == Approx(323.15));
  CHECK(items[3].kind == Item::Kind::char_depth);
  CHECK(items[3].depth == Approx(0.5e-3));
  CHECK(items[3].isotherm == Approx(573.15));
}

TEST_CASE("an item watches exactly one thing", "[watch]") {
  CHECK(fault_of("name: a, part: wood").code == "E170");
  CHECK(
      fault_of("name: a, part: wood, above: 77 degC, char_depth: 1 mm, isotherm: 300 degC").code ==
      "E170");
}

TEST_CASE("a key without the one it belongs to is refused at its own place", "[watch]") {
  const auto fault =
      fault_of("name: a, part: wood, char_depth: 1 mm, isotherm: 300 degC, for: 3 min");
  CHECK(fault.code == "E171");
  CHECK(fault.place.line == 2);
  CHECK(fault.place.column == 70);
  CHECK(holds(fault.what, "'for' of watch item 'a'"));
  CHECK(fault_of("name: a, part: wood, above: 77 degC, energy: 90 kJ/mol").code == "E171");
  CHECK(fault_of("name: a, part: wood, above: 77 degC, isotherm: 300 degC").code == "E171");
}

TEST_CASE("what a dose or a char depth needs is asked for", "[watch]") {
  CHECK(fault_of("name: a, part: rubber, dose: arrhenius, equal_to: 9 h at 50 degC").code ==
        "E172");
  CHECK(fault_of("name: a, part: rubber, dose: arrhenius, energy: 90 kJ/mol").code == "E172");
  CHECK(fault_of("name: a, part: wood, char_depth: 1 mm").code == "E172");
}

TEST_CASE("the full dose is a time at a temperature", "[watch]") {
  const std::string dose = "name: a, part: rubber, dose: arrhenius, energy: 90 kJ/mol, equal_to: ";
  CHECK(fault_of(dose + "1000 h").code == "E173");
  CHECK(fault_of(dose + "1000 at 50 degC").code == "E110");
  CHECK(fault_of(dose + "1000 h at 50 C").code == "E112");
  CHECK(fault_of(dose + "0 h at 50 degC").code == "E130");
  CHECK(fault_of("name: a, part: rubber, dose: linear, energy: 90 kJ/mol, equal_to: 1 h at 50 degC")
            .what.find("linear") != std::string::npos);
}

TEST_CASE("all faults of a file are told at once, each once", "[watch]") {
  const auto all = faults(R"(watch:
  - {name: a, part: rubber, above: 50}
  - {name: a, part: rubber, above: 60 degC}
  - {name: b, part: rubber, abov: 60 degC}
  - {name: c, part: rubber, above: 60 degC, energy: 90 kJ/mol}
)");
  REQUIRE(all.size() == 4);
  CHECK(all[0].code == "E110");
  CHECK(all[1].code == "E160");
  CHECK(holds(all[1].what, "first at line 2"));
  CHECK(all[2].code == "E121");
  CHECK(all[3].code == "E171");
}

TEST_CASE("a Fahrenheit number pasted as Celsius is pointed out", "[watch]") {
  diagnostics::ProblemList problems;
  const auto document = sheet::read_text(R"(watch:
  - {name: rubber limit, part: rubber, above: 122 degC}
  - {name: rubber softens, part: rubber, above: {best: 105 degC, low: 90 degC, high: 125 degC}}
  - {name: wood, part: wood, above: 77 degC}
)",
                                         "barn.yaml", problems);
  struct File {
    std::vector<watch::ItemSheet> watch;
  };
  sheet::Mapping<File> keys("file", "");
  keys.list("watch", &File::watch, watch::item_keys(), sheet::required(), "items");
  const auto file = sheet::read(document, keys, problems);
  CHECK(watch::items_of(file.watch, problems).size() == 3);
  CHECK_FALSE(problems.has_errors());
  const auto all = problems.sorted();
  REQUIRE(all.size() == 1);
  CHECK(diagnostics::describe(all.front()) ==
        "barn.yaml:2:47: warning W251 'rubber limit' at 122 degC is above 'rubber softens' "
        "(105 degC); 122 degF is 50 degC.\n  try: write 50 degC or 122 degF");
}

TEST_CASE("a file without items is refused", "[watch]") {
  CHECK_FALSE(faults("watch: []\n").empty());
  CHECK_FALSE(faults("").empty());
  CHECK_FALSE(faults("limits: []\n").empty());
  CHECK_THROWS_AS(watch::read_items("no such file.yaml"), diagnostics::InputError);
}
