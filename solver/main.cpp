// SPDX-License-Identifier: MIT
#include <array>
#include <exception>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/problem.hpp"
#include "history/provenance.hpp"
#include "sheet/nearest.hpp"
#include "verbs/verbs.hpp"

namespace {

using namespace ampstair;
using diagnostics::ExitCode;

struct NamedVerb {
  std::string_view name;
  verbs::Verb act;
  std::string_view help;
};

constexpr std::array table = {
    NamedVerb{"check", verbs::check, "list a run sheet's faults; print its pieces and steps"},
    NamedVerb{"run", verbs::run, "march a run sheet and write its record"},
    NamedVerb{"keys", verbs::keys, "print every key a run sheet may hold"},
    NamedVerb{"materials", verbs::materials, "list the library's materials, or tell all of one"},
};

void print_help() {
  std::cout << "Usage: ampstair VERB [arguments]\n"
               "Heating of old insulated house wiring under a staircase of currents.\n\nVerbs:\n";
  for (const auto& verb : table) {
    std::cout << "  " << verb.name << std::string(11 - verb.name.size(), ' ') << verb.help << '\n';
  }
  std::cout << "\n  ampstair VERB --help tells a verb's options\n  ampstair --version\n\n"
               "Exit codes: 0 done; 2 input that cannot be used; 4 stopped on the way, the record "
               "ends at its\nlast row; 5 a fault of the program.\n";
}

ExitCode dispatch(const std::vector<std::string>& words) {
  if (words.empty()) {
    throw diagnostics::InputError("E601", "no verb given.", "ampstair --help");
  }
  const std::string& word = words.front();
  if (word == "--help" || word == "-h") {
    print_help();
    return ExitCode::clear;
  }
  if (word == "--version") {
    const auto facts = history::build_facts();
    std::cout << facts.program << " (" << facts.commit << ")\n";
    return ExitCode::clear;
  }
  std::vector<std::string> names;
  for (const auto& verb : table) {
    if (verb.name == word) {
      return verb.act(std::span(words).subspan(1));
    }
    names.emplace_back(verb.name);
  }
  const auto near = sheet::nearest_words(word, names);
  throw diagnostics::InputError(
      "E601", "there is no verb '" + word + "'.",
      near.empty() ? "ampstair --help" : "did you mean " + near.front() + "?");
}

}  // namespace

int main(int argc, char** argv) {
  try {
    const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
    return static_cast<int>(dispatch(words));
  } catch (const ampstair::diagnostics::InputError& error) {
    error.problems().print(std::cerr);
    return static_cast<int>(ExitCode::bad_input);
  } catch (const std::exception& error) {
    std::cerr << "ampstair: internal error: " << error.what() << ". Please report this.\n";
    return static_cast<int>(ExitCode::internal_error);
  }
}
