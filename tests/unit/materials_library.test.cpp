// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>
#include <string>

#include "materials/library.hpp"
#include "materials/material_sheet.hpp"
#include "materials/property_values.hpp"
#include "sheet/document.hpp"

namespace {

namespace fs = std::filesystem;
using namespace ampstair;

const fs::path shipped = fs::path(AMPSTAIR_SOURCE_FOLDER) / "scenarios" / "materials";

sheet::Text named(const std::string& name) {
  return {name, {"sheet.yaml", 3, 5}, sheet::Origin::given};
}

/// A folder of its own, also beside the same test of another build, gone with the test.
class Folder {
 public:
  explicit Folder(const std::string& name)
      : path_(fs::temp_directory_path() /
              ("ampstair-materials-" + name + "-" + std::to_string(::getpid()))) {
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

materials::Material read_shipped(const materials::Library& library, const std::string& name) {
  diagnostics::ProblemList problems;
  const auto material = library.find(named(name), problems);
  problems.print(std::cerr);
  CHECK(problems.empty());
  REQUIRE(material != nullptr);
  return *material;
}

const std::string full_source =
    "  - {of: [conductivity, density, heat_capacity], from: bench, status: measured, band: 10 %}\n";

}  // namespace

TEST_CASE("the library holds what house wiring is made of and what lies round it") {
  const auto names = materials::Library({shipped}).names();
  for (const auto* name : {"copper", "copper-tinned", "aluminium", "rubber-aged-soft",
                           "rubber-aged-hard", "cotton-braid", "woven-sleeving", "friction-tape",
                           "pvc", "porcelain", "softwood-dry", "oak-dry", "char", "cellulose-loose",
                           "mineral-wool", "sawdust-loose", "vermiculite", "air"}) {
    CAPTURE(name);
    CHECK(std::find(names.begin(), names.end(), name) != names.end());
  }
}

TEST_CASE("every shipped material is read without a fault and says where it is good") {
  const materials::Library library({shipped});
  for (const auto& name : library.names()) {
    CAPTURE(name);
    const auto material = read_shipped(library, name);
    CHECK(material.name == name);
    CHECK_FALSE(material.part.empty());
    CHECK_FALSE(material.about.empty());
    CHECK(material.range_low > 0.0);
    CHECK(material.range_high > material.range_low);
  }
}

TEST_CASE(
    "every value of a shipped material has a source, a status and a band or why it has none") {
  const std::set<std::string> statuses = {"seen", "from memory", "computed", "common practice",
                                          "measured"};
  const materials::Library library({shipped});
  for (const auto& name : library.names()) {
    const auto material = read_shipped(library, name);
    for (const auto& property : materials::property_values(material)) {
      CAPTURE(name, property.key);
      CHECK_FALSE(property.sources.empty());
      for (const auto& source : property.sources) {
        CHECK(source.document.size() > 10);
        CHECK(statuses.count(source.status) == 1);  // none rests on a default of the program
        CHECK(source.range_high >= source.range_low);
      }
      REQUIRE(property.band != nullptr);
      if (property.band->low.empty()) {
        CHECK(property.band->none.size() > 10);
        continue;
      }
      REQUIRE(property.band->low.size() == property.curve.value.size());
      REQUIRE(property.band->high.size() == property.curve.value.size());
      for (std::size_t i = 0; i < property.curve.value.size(); ++i) {
        CHECK(property.band->low[i] > 0.0);
        CHECK(property.band->low[i] <= property.curve.value[i]);
        CHECK(property.curve.value[i] <= property.band->high[i]);
        CHECK(property.band->low[i] < property.band->high[i]);
      }
    }
  }
}

TEST_CASE("the marks of shipped materials are in order and have a source and a status") {
  const materials::Library library({shipped});
  for (const auto& name : library.names()) {
    CAPTURE(name);
    const auto material = read_shipped(library, name);
    for (std::size_t i = 0; i < material.marks.size(); ++i) {
      const auto& mark = material.marks[i];
      CHECK_FALSE(mark.what.empty());
      CHECK(mark.source.size() > 10);
      CHECK(mark.status != "user");
      CHECK((i == 0 || material.marks[i - 1].temperature <= mark.temperature));
    }
  }
}

// Tin 231.928 degC: ITS-90 table 1 (seen). Tin-lead solder 183 degC (seen).
TEST_CASE("tin and solder are marked where they melt, old rubber where its properties end") {
  const materials::Library library({shipped});
  const auto marked = [&](const std::string& name, double celsius) {
    const auto material = read_shipped(library, name);
    return std::any_of(material.marks.begin(), material.marks.end(), [&](const auto& mark) {
      return std::abs(mark.temperature - 273.15 - celsius) < 1e-6;
    });
  };
  CHECK(marked("copper-tinned", 231.928));
  CHECK(marked("copper-tinned", 183.0));
  CHECK(marked("copper", 183.0));
  CHECK_FALSE(marked("copper", 231.928));
  CHECK(marked("rubber-aged-soft", 250.0));
  CHECK(marked("rubber-aged-hard", 250.0));
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
  CHECK(told[0].what.find("'heat_capacity' of 'own-wool' has no source") == 0);
  CHECK(diagnostics::describe(told[0]).find((folder.path() / "own-wool.yaml").string() +
                                            ":6:16: error E155 ") == 0);
}

TEST_CASE(
    "a library value without a band, or with a band and the word that it has none, is refused") {
  const Folder folder("bandless");
  folder.write("own-wool.yaml",
               own_wool("  - {of: [conductivity, density], from: bench, status: measured, "
                        "band: 10 %}\n  - {of: [heat_capacity], from: bench, status: seen}\n"));
  diagnostics::ProblemList problems;
  CHECK(materials::Library({folder.path()}).find(named("own-wool"), problems) == nullptr);
  auto told = problems.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "E154");
  CHECK(told[0].what.find("'heat_capacity' of 'own-wool' has no band") == 0);
  CHECK(told[0].place.line == 6);
  CHECK(told[0].place.column == 16);

  folder.write("own-wool.yaml",
               own_wool("  - {of: [conductivity, density, heat_capacity], from: bench,\n"
                        "     status: measured, band: 10 %, no_band: weighed}\n"));
  diagnostics::ProblemList second;
  CHECK(materials::Library({folder.path()}).find(named("own-wool"), second) == nullptr);
  told = second.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "E154");
  CHECK(told[0].place.line == 10);
}

TEST_CASE("a library material that does not say where it is good is refused") {
  const Folder folder("rangeless");
  folder.write("own-wool.yaml",
               "format: material 1\nname: own-wool\npart: fill\nconductivity: 0.05 W/m/K\n"
               "density: 40 kg/m3\nheat_capacity: 900 J/kg/K\nsources:\n" +
                   full_source);
  diagnostics::ProblemList problems;
  CHECK(materials::Library({folder.path()}).find(named("own-wool"), problems) == nullptr);
  const auto told = problems.sorted();
  REQUIRE(told.size() == 1);
  CHECK(told[0].code == "E122");
  CHECK(told[0].what.find("'range'") != std::string::npos);
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
