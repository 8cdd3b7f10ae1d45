// SPDX-License-Identifier: MIT
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>
#include <string>

#include "observed_order.hpp"

namespace ampstair::tests {

/// Holds where the observed order is within 0.1 of theory; a failure tells every size and error.
class HasOrder : public Catch::MatcherBase<Convergence> {
 public:
  explicit HasOrder(double theory) : theory_(theory) {}

  bool match(const Convergence& found) const override {
    return std::abs(found.order() - theory_) <= margin;
  }
  [[nodiscard]] std::string describe() const override {
    std::ostringstream text;
    text << "converges with order " << theory_ << " +- " << margin;
    return text.str();
  }

 private:
  static constexpr double margin = 0.1;
  double theory_;
};

}  // namespace ampstair::tests
