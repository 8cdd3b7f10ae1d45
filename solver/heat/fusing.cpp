// SPDX-License-Identifier: MIT
#include "heat/fusing.hpp"

#include <cmath>

namespace ampstair::heat {

namespace {

struct Known {
  const char* material;
  const char* metal;
  double for_inches;  // A / in^(3/2)
};

// Preece's constants as quoted with I in amperes and d in inches (seen).
constexpr Known known[] = {{"copper", "copper", 10244.0},      {"copper-tinned", "copper", 10244.0},
                           {"aluminium", "aluminium", 7585.0}, {"tin", "tin", 1642.0},
                           {"lead", "lead", 1379.0},           {"iron", "iron", 3148.0}};

constexpr double inch = 0.0254;  // m, exactly

}  // namespace

FusingConstant fusing_constant(const std::string& material) {
  const Known* found = nullptr;
  for (const Known& one : known) {
    if (material == one.material) {
      found = &one;
    }
  }
  const Known& used = found != nullptr ? *found : known[0];
  return {used.for_inches / std::pow(inch, 1.5), used.metal, found == nullptr};
}

double fusing_current(const FusingConstant& constant, double diameter) {
  return constant.value * std::pow(diameter, 1.5);
}

}  // namespace ampstair::heat
