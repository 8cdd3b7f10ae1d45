// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>

#include "sheet_rig.hpp"

using namespace rig;

namespace {

const std::string full =
    "title: \"press leg: #1\"\n"
    "members: 24\n"
    "layers:\n"
    "  - {material: rubber, thickness: {best: 3/64 in, low: 0.95 mm, high: 1.35 mm, from: \"loupe, "
    "cut end\", shape: uniform}}\n"
    "  - {thickness: 1 mm, material: {conductivity: [{at: 20 degC, value: 0.15 W/m/K}, {at: 90 "
    "degC, value: {best: 0.2 W/m/K, from: guess}}]}}\n"
    "run:\n"
    "  - {piece: open, name: south leg, length: 1.10 m}\n"
    "  - {piece: tube, length: 0.12 m, bore: 9.5 mm, glazed: true, around: {air: 11 degC}}\n"
    "instruments: {camera: {aim: [south leg, \"T, 1\"]}}\n"
    "arrangements: [{name: a, change: [{piece: south leg, around: {air: 12 degC}, list: [1, 2]}]}]"
    "\n";

std::string completed(std::string_view text) {
  ProblemList problems;
  const Sheet sheet = read_sheet(text, problems);
  for (const auto& problem : problems.sorted()) {
    FAIL(describe(problem) << "\n" << text);
  }
  std::ostringstream out;
  print_completed(out, sheet_keys(), sheet);
  return out.str();
}

/// Every place in a schema must be of the kind that draft 2020-12 wants.
void check_schema(const nlohmann::json& schema, const nlohmann::json& definitions) {
  CHECK(schema.is_object());
  if (schema.contains("$ref")) {
    const std::string target = schema["$ref"];
    const std::string prefix = "#/$defs/";
    REQUIRE(target.rfind(prefix, 0) == 0);
    CHECK(definitions.contains(target.substr(prefix.size())));
  }
  if (schema.contains("properties")) {
    CHECK(schema["additionalProperties"] == false);
    for (const auto& [name, property] : schema["properties"].items()) {
      check_schema(property, definitions);
    }
    if (schema.contains("required")) {
      CHECK(schema["required"].is_array());
      for (const auto& name : schema["required"]) {
        CHECK(schema["properties"].contains(std::string(name)));
      }
    }
  }
  for (const auto* word : {"anyOf", "oneOf"}) {
    if (schema.contains(word)) {
      CHECK(schema[word].is_array());
      for (const auto& part : schema[word]) {
        check_schema(part, definitions);
      }
    }
  }
  if (schema.contains("items")) {
    check_schema(schema["items"], definitions);
  }
}

}  // namespace

TEST_CASE("a completed sheet marks its defaults") {
  const std::string text = completed("run: [{piece: tube, length: 1 m, bore: 9 mm}]\n");
  CHECK(text ==
        "run:\n"
        "  - piece: tube\n"
        "    length: 1 m\n"
        "    bore: 9 mm\n"
        "    fit: loose  # default (usual)\n"
        "    glazed: false  # default\n");
}

TEST_CASE("a completed sheet reads back to the same") {
  const std::string once = completed(full);
  const std::string twice = completed(once);
  CAPTURE(once);
  // what was a default is now given: only the marks may differ
  ProblemList problems;
  const Sheet a = read_sheet(full, problems);
  const Sheet b = read_sheet(once, problems);
  CHECK(problems.empty());
  CHECK(a.title.value == b.title.value);
  REQUIRE(b.layers.size() == 2);
  CHECK(*a.layers[0].thickness.low == *b.layers[0].thickness.low);
  CHECK(a.layers[0].thickness.best == b.layers[0].thickness.best);
  CHECK(a.layers[0].thickness.from == b.layers[0].thickness.from);
  CHECK(b.layers[0].thickness.uniform);
  const auto& points = b.layers[1].material.mapping->conductivity.points;
  REQUIRE(points.size() == 2);
  CHECK(points[0].temperature == Approx(293.15).epsilon(1e-15));
  CHECK(points[1].value.from == "guess");
  CHECK(std::get<Tube>(b.run.at(1)).glazed);
  CHECK(b.instruments->camera->aim.at(1).value == "T, 1");
  CHECK(b.arrangements.at(0).change.at(0).find("list")->items.size() == 2);
  CHECK(completed(twice) == twice);
}

TEST_CASE("texts of every kind survive completing") {
  for (const std::string text :
       {"a: b", "#12",  "- x", "{x",   "'",     "\\\"", "null", "~",     "Süd",
        " x ",  "x:",   "!x",  "true", "a # b", "12",   "-",    "--- x", "*x",
        "[",    "x\nb", "?",   "% x",  "@x",    "`x`",  "| x",  "> x"}) {
    CAPTURE(text);
    Sheet sheet;
    sheet.title = {text, {}, Origin::given};
    std::ostringstream out;
    print_completed(out, sheet_keys(), sheet);
    ProblemList problems;
    const Sheet again = read_sheet(out.str(), problems);
    CAPTURE(out.str());
    CHECK(problems.empty());
    CHECK(again.title.value == text);
  }
}

TEST_CASE("numbers a program made are written with every digit") {
  Sheet sheet;
  sheet.layers.emplace_back();
  sheet.layers[0].material.text = {"x", {}, Origin::given};
  sheet.layers[0].thickness.best = 0.1 / 3;
  sheet.layers[0].thickness.origin = Origin::given;
  std::ostringstream out;
  print_completed(out, sheet_keys(), sheet);
  ProblemList problems;
  const Sheet again = read_sheet(out.str(), problems);
  CHECK(problems.empty());
  CHECK(again.layers.at(0).thickness.best == 0.1 / 3);
}

TEST_CASE("the reference names every key once per mapping") {
  std::ostringstream out;
  print_reference(out, sheet_keys());
  const std::string text = out.str();
  for (const auto* line :
       {"title: text; optional", "piece: tube\n",
        "bore: length (m or the like, e.g. 1.10 m), greater than 0.00 m and at most 0.10 m; "
        "required",
        "fit: tight or loose; default loose (usual)", "glazed: true or false; default false",
        "tight: touches", "material: name, or mapping: material; required",
        "around: mapping: surroundings; optional"}) {
    CAPTURE(line, text);
    CHECK(text.find(line) != std::string::npos);
  }
  const auto section = text.find("\nsurroundings\n");
  CHECK(section != std::string::npos);
  CHECK(text.find("\nsurroundings\n", section + 1) == std::string::npos);
}

TEST_CASE("the schema is well formed and names every key") {
  const auto schema = nlohmann::json::parse(json_schema(sheet_keys()));
  CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
  const auto& definitions = schema["$defs"];
  check_schema(schema, definitions);
  for (const auto& [name, definition] : definitions.items()) {
    CAPTURE(name);
    check_schema(definition, definitions);
  }
  const auto& tube = schema["properties"]["run"]["items"]["oneOf"][1];
  CHECK(tube["properties"]["piece"]["const"] == "tube");
  CHECK(tube["required"] == nlohmann::json({"piece", "length", "bore"}));
  CHECK(schema["properties"]["title"]["description"] == "shown in reports [text; optional]");
}
