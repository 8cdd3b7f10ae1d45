// SPDX-License-Identifier: MIT
#include <iostream>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "materials/library.hpp"
#include "verbs/material_json.hpp"
#include "verbs/material_text.hpp"
#include "verbs/options.hpp"
#include "verbs/verbs.hpp"

namespace ampstair::verbs {

namespace {

/// The materials of those names; faults of any of them are told at once.
/// @throws diagnostics::InputError where one is unknown (E120) or its file at fault
std::vector<FiledMaterial> read_all(const materials::Library& library,
                                    const std::vector<std::string>& names) {
  diagnostics::ProblemList problems;
  std::vector<FiledMaterial> read;
  for (const auto& name : names) {
    if (const auto material = library.find({name, {}, sheet::Origin::given}, problems)) {
      read.emplace_back(*material, library.file(name).string());
    }
  }
  if (problems.has_errors()) {
    throw diagnostics::InputError(problems);
  }
  problems.print(std::cerr);
  return read;
}

}  // namespace

diagnostics::ExitCode materials(Arguments arguments) {
  Options declared(
      "materials [NAME...] [--json]",
      "Lists the materials a run sheet in this folder may name; with names, everything "
      "they hold:\nvalues, bands, ranges of temperature, sources and what is not "
      "modelled.",
      Options::any_number);
  declared.add()("json", "as JSON, everything, in SI");
  const auto options = declared.read(arguments);
  if (!options) {
    return diagnostics::ExitCode::clear;
  }
  const auto library = materials::Library::beside("run-sheet.yaml");
  const auto named = plain_arguments(*options);
  const auto read = read_all(library, named.empty() ? library.names() : named);
  if (options->count("json") > 0) {
    std::cout << materials_json(read) << '\n';
  } else if (named.empty()) {
    std::vector<materials::Material> all;
    for (const auto& [material, file] : read) {
      all.push_back(material);
    }
    print_materials(std::cout, all);
  } else {
    for (std::size_t i = 0; i < read.size(); ++i) {
      std::cout << (i > 0 ? "\n" : "");
      print_material(std::cout, read[i].first, read[i].second);
    }
  }
  return diagnostics::ExitCode::clear;
}

}  // namespace ampstair::verbs
