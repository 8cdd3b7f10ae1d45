// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>

#include "materials/library.hpp"
#include "materials/material_sheet.hpp"
#include "sheet/document.hpp"

namespace {

namespace fs = std::filesystem;
using namespace ampstair;

const fs::path shipped = fs::path(AMPSTAIR_SOURCE_FOLDER) / "scenarios" / "materials";

sheet::Text named(const std::string& name) {
  return {name, {"sheet.yaml", 3, 5}, sheet::Origin::given};
}

/// A folder of its own, gone with the test.
class Folder {
 public:
  explicit Folder(const std::string& name)
      : path_(fs::temp_directory_path() / ("ampstair-materials-" + name)) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
  }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

std::string own_wool(const std::string& sources) {
  return "format: material 1\nname: own-wool\npart: fill\nconductivity: 0.05 W/m/K\n"
         "density: 40 kg/m3\nheat_capacity: 900 J/kg/K\nrange: {from: 0 degC, to: 200 degC}\n"
         "sources:\n" +
         sources;
}

const std::string full_source =
    "  - {of: [conductivity, density, heat_capacity], from: bench, status: measured, band: 10 %}\n";

}  // namespace

TEST_CASE("every shipped material is read without a fault and has a source for every value") {
  const materials::Library library({shipped});
  CHECK(library.names().size() >= 14);
  for (const auto& name : library.names()) {
    CAPTURE(name);
    diagnostics::ProblemList problems;
    const auto material = library.find(named(name), problems);
    problems.print(std::cerr);
    CHECK(problems.empty());
    REQUIRE(material != nullptr);
    CHECK(material->name == name);
    CHECK_FALSE(material->part.empty());
    CHECK(material->range_high > material->range_low);
    for (const auto& source : material->sources) {
      CHECK_FALSE(source.document.empty());
      CHECK_FALSE(source.status.empty());
    }
  }
}

TEST_CASE("an unknown material is told with the nearest names") {
  const materials::Library library({shipped});
  diagnostics::ProblemList problems;
  CHECK(library.find(named("rubber-aged-sofft"), problems) == nullptr);
  const auto told = problems.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "E120");
  CHECK(told[0].place == diagnostics::Place{"sheet.yaml", 3, 5});
  CHECK(told[0].remedy.find("nearest: rubber-aged-soft") == 0);
}

TEST_CASE("a library value without source and status is refused") {
  const Folder folder("unsourced");
  folder.write("own-wool.yaml",
               own_wool("  - {of: [conductivity, density], from: bench, status: measured, "
                        "band: 10 %}\n"));
  diagnostics::ProblemList problems;
  CHECK(materials::Library({folder.path()}).find(named("own-wool"), problems) == nullptr);
  const auto told = problems.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "E155");
  CHECK(told[0].place.line == 6);
  CHECK(told[0].what.find("'heat_capacity' of 'own-wool' has no source") == 0);
}

TEST_CASE("a source without a status, or for a value that is not there, is refused") {
  const Folder folder("half-sourced");
  folder.write("own-wool.yaml", own_wool("  - {of: [conductivity, density, heat_capacity, "
                                         "melting_point], from: bench, band: 10 %}\n"));
  diagnostics::ProblemList problems;
  CHECK(materials::Library({folder.path()}).find(named("own-wool"), problems) == nullptr);
  const auto told = problems.sorted();
  REQUIRE(told.size() == 2);
  CHECK(told[0].code == "E122");
  CHECK(told[1].code == "E156");
}

TEST_CASE("a file that holds another material than its name says is refused") {
  const Folder folder("misnamed");
  folder.write("wool.yaml", own_wool(full_source));
  diagnostics::ProblemList problems;
  CHECK(materials::Library({folder.path()}).find(named("wool"), problems) == nullptr);
  REQUIRE(problems.sorted().size() == 1);
  CHECK(problems.sorted()[0].code == "E159");
}

TEST_CASE("materials beside the run sheet come before the shipped ones and add to them") {
  const Folder folder("beside");
  fs::create_directories(folder.path() / "materials");
  folder.write("materials/own-wool.yaml", own_wool(full_source));
  const auto library = materials::Library::beside(folder.path() / "run.yaml");
  diagnostics::ProblemList problems;
  const auto own = library.find(named("own-wool"), problems);
  REQUIRE(own != nullptr);
  CHECK(own->conductivity.at(300.0) == Approx(0.05));
  CHECK(own->emissivity == Approx(0.90));  // the default
  CHECK(library.find(named("porcelain"), problems) != nullptr);
  CHECK(problems.empty());
}

TEST_CASE("AMPSTAIR_MATERIALS takes the place of the shipped library") {
  const Folder folder("elsewhere");
  folder.write("own-wool.yaml", own_wool(full_source));
  setenv("AMPSTAIR_MATERIALS", folder.path().c_str(), 1);
  const auto library = materials::Library::beside("run.yaml");
  unsetenv("AMPSTAIR_MATERIALS");
  CHECK(library.names() == std::vector<std::string>{"own-wool"});
}

TEST_CASE("a temperature coefficient makes a straight line through the value at 20 degC") {
  diagnostics::ProblemList problems;
  const auto document = sheet::read_text(
      "conductivity: 395 W/m/K\ndensity: 8890 kg/m3\nheat_capacity: 388 J/kg/K\n"
      "resistivity: 1.7241e-8 ohm m\ntemperature_coefficient: 0.00393 1/K\n",
      "metal.yaml", problems);
  const auto read = sheet::read(document, materials::material_keys(), problems);
  const auto metal = materials::build_material(read, "wire/metal", "metal", problems);
  CHECK(problems.empty());
  CHECK(metal.name == "wire/metal");
  CHECK(metal.part == "metal");
  CHECK(metal.resistivity.at(293.15) == Approx(1.7241e-8).epsilon(1e-12));
  CHECK(metal.resistivity.at(393.15) == Approx(1.7241e-8 * 1.393).epsilon(1e-12));
  CHECK(metal.resistivity.at(193.15) == Approx(1.7241e-8 * 0.607).epsilon(1e-12));
}

TEST_CASE("a band is what the values write, else the part their source states") {
  const Folder folder("bands");
  folder.write("own-wool.yaml",
               "format: material 1\nname: own-wool\npart: fill\nconductivity:\n"
               "  - {at: 0 degC, value: {best: 0.05 W/m/K, low: 0.03 W/m/K, high: 0.08 W/m/K}}\n"
               "  - {at: 100 degC, value: 0.10 W/m/K}\n"
               "density: 40 kg/m3\nheat_capacity: 900 J/kg/K\n"
               "range: {from: 0 degC, to: 200 degC}\nsources:\n"
               "  - {of: [conductivity], from: bench, status: measured, band: 10 %,\n"
               "     range: {from: 10 degC, to: 90 degC}}\n"
               "  - {of: [density, heat_capacity], from: bench, status: measured,\n"
               "     no_band: weighed by the maker}\n");
  diagnostics::ProblemList problems;
  const auto wool = materials::Library({folder.path()}).find(named("own-wool"), problems);
  problems.print(std::cerr);
  REQUIRE(wool != nullptr);
  REQUIRE(wool->bands.size() == 3);
  const auto& conductivity = wool->bands[0];
  CHECK(conductivity.property == "conductivity");
  REQUIRE(conductivity.low.size() == 2);
  REQUIRE(conductivity.high.size() == 2);
  CHECK(conductivity.low[0] == Approx(0.03));
  CHECK(conductivity.high[0] == Approx(0.08));
  CHECK(conductivity.low[1] == Approx(0.09));
  CHECK(conductivity.high[1] == Approx(0.11));
  CHECK(wool->bands[1].property == "density");
  CHECK(wool->bands[1].low.empty());
  CHECK(wool->bands[1].none == "weighed by the maker");
  CHECK(wool->sources[0].range_low == Approx(283.15));
  CHECK(wool->sources[0].range_high == Approx(363.15));
  CHECK(wool->sources[1].range_high == 0.0);
}

TEST_CASE("a resistivity's band beside a temperature coefficient widens the line's ends alike") {
  diagnostics::ProblemList problems;
  const auto document = sheet::read_text(
      "conductivity: 395 W/m/K\ndensity: 8890 kg/m3\nheat_capacity: 388 J/kg/K\n"
      "resistivity: {best: 2e-8 ohm m, low: 1.9e-8 ohm m, high: 2.2e-8 ohm m}\n"
      "temperature_coefficient: 0.004 1/K\nheat_of_fusion: 206 kJ/kg\n",
      "metal.yaml", problems);
  const auto read = sheet::read(document, materials::material_keys(), problems);
  const auto metal = materials::build_material(read, "wire/metal", "metal", problems);
  CHECK(problems.empty());
  CHECK(metal.heat_of_fusion == Approx(206e3));
  REQUIRE(metal.bands.size() == 1);
  REQUIRE(metal.bands[0].low.size() == metal.resistivity.value.size());
  for (std::size_t i = 0; i < metal.resistivity.value.size(); ++i) {
    CHECK(metal.bands[0].low[i] == Approx(0.95 * metal.resistivity.value[i]));
    CHECK(metal.bands[0].high[i] == Approx(1.10 * metal.resistivity.value[i]));
  }
}

TEST_CASE("marks come in the order of their temperatures and the library asks for their source") {
  const Folder folder("marks");
  folder.write("own-wool.yaml",
               own_wool(full_source) +
                   "marks:\n"
                   "  - {above: 250 degC, what: it burns, from: bench, status: measured}\n"
                   "  - {above: 120 degC, what: it browns, from: bench, status: seen}\n");
  diagnostics::ProblemList problems;
  const auto wool = materials::Library({folder.path()}).find(named("own-wool"), problems);
  problems.print(std::cerr);
  REQUIRE(wool != nullptr);
  REQUIRE(wool->marks.size() == 2);
  CHECK(wool->marks[0].temperature == Approx(393.15));
  CHECK(wool->marks[0].what == "it browns");
  CHECK(wool->marks[0].source == "bench");
  CHECK(wool->marks[0].status == "seen");
  CHECK(wool->marks[1].temperature == Approx(523.15));

  folder.write("own-wool.yaml", own_wool(full_source) +
                                    "marks:\n  - {above: 250 degC, what: it burns, from: bench}\n");
  CHECK(materials::Library({folder.path()}).find(named("own-wool"), problems) == nullptr);
  const auto told = problems.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "E155");
  CHECK(told[0].place.line == 11);
  CHECK(told[0].place.column == 5);
}
