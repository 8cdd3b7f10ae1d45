// SPDX-License-Identifier: MIT
#include "scenario/arrangement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

#include "sheet/nearest.hpp"

namespace ampstair::scenario {

namespace {

std::vector<std::string> piece_names(const RunSheet& sheet) {
  std::vector<std::string> names;
  for (const auto& piece : sheet.run) {
    names.push_back(base(piece).name.value);
  }
  return names;
}

void tell_unknown_piece(const RunSheet& sheet, const sheet::Node& piece,
                        diagnostics::ProblemList& problems) {
  const auto names = piece_names(sheet);
  const auto near = sheet::nearest_words(piece.text, names);
  problems.error("E162", piece.place,
                 fmt::format("change refers to piece '{}', which is not in run.", piece.text),
                 near.empty() ? fmt::format("the pieces are {}", fmt::join(names, ", "))
                              : "nearest: " + near.front());
}

void apply(const sheet::Node& change, const std::string& path, RunSheet& sheet,
           diagnostics::ProblemList& problems) {
  const sheet::Node* name = change.find("piece");
  if (name == nullptr || !name->is_scalar()) {
    problems.error("E122", change.place, "this change does not say which piece it is for.",
                   "add  piece: <the piece's name>");
    return;
  }
  const auto found = std::find_if(sheet.run.begin(), sheet.run.end(), [&](const auto& piece) {
    return base(piece).name.value == name->text;
  });
  if (found == sheet.run.end()) {
    tell_unknown_piece(sheet, *name, problems);
    return;
  }
  sheet::read_over(change, piece_kinds(), *found, problems, {path, "piece", name->text, {"piece"}});
}

}  // namespace

RunSheet arranged(const RunSheet& sheet, const std::string& arrangement,
                  diagnostics::ProblemList& problems) {
  RunSheet changed = sheet;
  if (arrangement == as_built) {
    return changed;
  }
  const auto found =
      std::find_if(sheet.arrangements.begin(), sheet.arrangements.end(),
                   [&](const auto& entry) { return entry.name.value == arrangement; });
  if (found == sheet.arrangements.end()) {
    throw diagnostics::InputError(
        "E167", fmt::format("the sheet has no arrangement '{}'.", arrangement),
        fmt::format("it has: {}", fmt::join(arrangement_names(sheet), ", ")));
  }
  if (sheet.run.empty()) {
    return changed;  // its pieces could not be read, which is told already
  }
  const auto number = found - sheet.arrangements.begin() + 1;
  for (std::size_t i = 0; i < found->change.size(); ++i) {
    apply(found->change[i], fmt::format("arrangements[{}].change[{}]", number, i + 1), changed,
          problems);
  }
  return changed;
}

std::vector<std::string> arrangement_names(const RunSheet& sheet) {
  std::vector<std::string> names = {as_built};
  for (const auto& entry : sheet.arrangements) {
    if (entry.name.present()) {
      names.push_back(entry.name.value);
    }
  }
  return names;
}

}  // namespace ampstair::scenario
