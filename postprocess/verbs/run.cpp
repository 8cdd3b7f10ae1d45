// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <exception>
#include <iostream>
#include <vector>

#include "diagnostics/nearest.hpp"
#include "diagnostics/problem.hpp"
#include "history/provenance.hpp"
#include "verbs/post_verbs.hpp"

namespace ampstair::post::verbs {

namespace {

using diagnostics::ExitCode;

constexpr std::array table = {
    Verb{"verdict", "which watch item was crossed: when, where, at what current", verdict},
    Verb{"compare", "in what records differ, and what that did to the answer", compare},
    Verb{"report", "a page to read: answers, figures, tables", report},
    Verb{"budget", "where the heat of a place comes from and goes", budget},
    Verb{"show", "what a record holds", show},
    Verb{"export", "what a record holds as CSV, JSON or XDMF", export_record},
    Verb{"schema", "the JSON Schema of an export or a verdict", schema},
};

void print_help() {
  std::cout << fmt::format(
      "Usage: ampstair-post VERB RECORD [options]\n"
      "Reads records of marches; never changes them.\n\nVerbs:\n");
  for (const Verb& verb : table) {
    std::cout << fmt::format("  {:<10}{}\n", verb.name, verb.help);
  }
  std::cout << fmt::format(
      "\n  ampstair-post VERB --help tells a verb's options\n"
      "  ampstair-post --version\n\n"
      "Exit codes: 0 done, or clear of all watched limits; 1 a limit crossed; 2 input that cannot\n"
      "be used; 3 nothing crossed, but near a limit or not to be judged; 5 a fault of the "
      "program.\n");
}

ExitCode unknown(const std::string& word) {
  std::vector<std::string> names;
  for (const Verb& verb : table) {
    names.emplace_back(verb.name);
  }
  const auto near = diagnostics::nearest_words(word, names);
  throw diagnostics::InputError(
      "E700", fmt::format("there is no verb '{}'.", word),
      near.empty() ? "ampstair-post --help" : fmt::format("did you mean {}?", near.front()));
}

ExitCode dispatch(Arguments arguments) {
  if (arguments.empty()) {
    throw diagnostics::InputError("E700", "no verb given.", "ampstair-post --help");
  }
  const std::string& word = arguments.front();
  if (word == "--help" || word == "-h") {
    print_help();
    return ExitCode::clear;
  }
  if (word == "--version") {
    const auto facts = history::build_facts();
    std::cout << fmt::format("ampstair-post of {} ({})\n", facts.program, facts.commit);
    return ExitCode::clear;
  }
  for (const Verb& verb : table) {
    if (verb.name == word) {
      return verb.act(arguments.subspan(1));
    }
  }
  return unknown(word);
}

}  // namespace

ExitCode run(Arguments arguments) {
  try {
    return dispatch(arguments);
  } catch (const diagnostics::InputError& error) {
    error.problems().print(std::cerr);
    return ExitCode::bad_input;
  } catch (const std::exception& error) {
    std::cerr << "ampstair-post: internal error: " << error.what() << ". Please report this.\n";
    return ExitCode::internal_error;
  }
}

}  // namespace ampstair::post::verbs
