// SPDX-License-Identifier: MIT
#include "materials/library.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <system_error>
#include <utility>

#include "materials/material_sheet.hpp"
#include "sheet/document.hpp"
#include "sheet/nearest.hpp"

namespace ampstair::materials {

namespace {

namespace fs = std::filesystem;

fs::path shipped() {
  const fs::path source = AMPSTAIR_SOURCE_MATERIALS;
  std::error_code ignored;
  return fs::is_directory(source, ignored) ? source : fs::path(AMPSTAIR_INSTALLED_MATERIALS);
}

fs::path standing_folder() {
  const char* named = std::getenv("AMPSTAIR_MATERIALS");
  return named != nullptr && *named != '\0' ? fs::path(named) : shipped();
}

}  // namespace

Library::Library(std::vector<fs::path> folders) {
  for (const auto& folder : folders) {
    std::error_code unreadable;  // a folder that is not there holds no materials
    for (const auto& entry : fs::directory_iterator(folder, unreadable)) {
      if (entry.path().extension() == ".yaml") {
        files_.emplace(entry.path().stem().string(), entry.path());
      }
    }
  }
}

Library Library::beside(const fs::path& sheet) {
  return Library({sheet.parent_path() / "materials", standing_folder()});
}

std::vector<std::string> Library::names() const {
  std::vector<std::string> names;
  for (const auto& [name, file] : files_) {
    names.push_back(name);
  }
  return names;
}

fs::path Library::file(const std::string& name) const {
  const auto found = files_.find(name);
  return found == files_.end() ? fs::path() : found->second;
}

std::shared_ptr<const Material> Library::find(const sheet::Text& name,
                                              diagnostics::ProblemList& problems) const {
  if (const auto known = read_.find(name.value); known != read_.end()) {
    return known->second;
  }
  if (files_.contains(name.value)) {
    return read(name.value, problems);
  }
  const auto all = names();
  const auto near = sheet::nearest_words(name.value, all);
  problems.error("E120", name.place, fmt::format("no material '{}'.", name.value),
                 all.empty()    ? "set AMPSTAIR_MATERIALS to the folder that holds the library"
                 : near.empty() ? fmt::format("the library holds {}", fmt::join(all, ", "))
                                : fmt::format("nearest: {}; the library holds {}",
                                              fmt::join(near, ", "), fmt::join(all, ", ")));
  return nullptr;
}

std::shared_ptr<const Material> Library::read(const std::string& name,
                                              diagnostics::ProblemList& problems) const {
  diagnostics::ProblemList of_file;
  const auto document = sheet::read_document(files_.at(name), of_file);
  const auto sheet = sheet::read(document, library_keys(), of_file);
  if (sheet.name.present() && sheet.name.value != name) {
    of_file.error("E159", sheet.name.place,
                  fmt::format("this file's name asks for material '{}' but it holds '{}'.", name,
                              sheet.name.value),
                  "name the file after the material");
  }
  auto material = std::make_shared<const Material>(build_material(sheet, of_file));
  for (const auto& problem : of_file.sorted()) {
    problems.add(problem);
  }
  if (of_file.has_errors()) {
    return nullptr;
  }
  return read_[name] = std::move(material);
}

}  // namespace ampstair::materials
