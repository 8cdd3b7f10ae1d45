// SPDX-License-Identifier: MIT
#include "diagnostics/problem.hpp"

#include <algorithm>
#include <ostream>
#include <tuple>
#include <utility>

namespace ampstair::diagnostics {

namespace {

auto order(const Problem& problem) {
  return std::tie(problem.place, problem.code, problem.what, problem.remedy);
}

std::string first_line(const ProblemList& problems) {
  const auto sorted = problems.sorted();
  return sorted.empty() ? std::string("input cannot be used") : describe(sorted.front());
}

ProblemList single(Problem problem) {
  ProblemList list;
  list.add(std::move(problem));
  return list;
}

}  // namespace

std::string describe(const Problem& problem) {
  std::string text;
  const Place& place = problem.place;
  if (!place.file.empty()) {
    text += place.file + ":";
    if (place.line > 0) {
      text += std::to_string(place.line) + ":" + std::to_string(place.column) + ":";
    }
    text += " ";
  }
  text += problem.severity == Severity::error ? "error " : "warning ";
  text += problem.code + " " + problem.what;
  if (!problem.remedy.empty()) {
    text += "\n  try: " + problem.remedy;
  }
  return text;
}

void ProblemList::add(Problem problem) {
  problems_.push_back(std::move(problem));
}

void ProblemList::error(std::string code, Place place, std::string what, std::string remedy) {
  add({Severity::error, std::move(code), std::move(place), std::move(what), std::move(remedy)});
}

void ProblemList::warning(std::string code, Place place, std::string what, std::string remedy) {
  add({Severity::warning, std::move(code), std::move(place), std::move(what), std::move(remedy)});
}

bool ProblemList::has_errors() const {
  return std::any_of(problems_.begin(), problems_.end(),
                     [](const Problem& p) { return p.severity == Severity::error; });
}

std::vector<Problem> ProblemList::sorted() const {
  auto list = problems_;
  std::stable_sort(list.begin(), list.end(),
                   [](const Problem& a, const Problem& b) { return order(a) < order(b); });
  list.erase(std::unique(list.begin(), list.end(),
                         [](const Problem& a, const Problem& b) { return order(a) == order(b); }),
             list.end());
  return list;
}

void ProblemList::print(std::ostream& out) const {
  for (const auto& problem : sorted()) {
    out << describe(problem) << '\n';
  }
}

InputError::InputError(ProblemList problems)
    : std::runtime_error(first_line(problems)), problems_(std::move(problems)) {}

InputError::InputError(std::string code, std::string what, std::string remedy)
    : InputError(
          single({Severity::error, std::move(code), {}, std::move(what), std::move(remedy)})) {}

}  // namespace ampstair::diagnostics
