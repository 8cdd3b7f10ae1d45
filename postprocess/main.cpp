// SPDX-License-Identifier: MIT
#include <string>
#include <vector>

#include "verbs/post_verbs.hpp"

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + (argc > 0 ? 1 : 0), argv + argc);
  return static_cast<int>(ampstair::post::verbs::run(arguments));
}
