// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

namespace ampstair::watch {

/// How much faster a reaction runs at `temperature` than at `reference_temperature`, after
/// Arrhenius: exp(-(E / R) (1 / T - 1 / T_ref)).
/// @param activation_energy E, J/mol
/// @param temperature K
/// @param reference_temperature K
double arrhenius_ratio(double activation_energy, double temperature, double reference_temperature);

/// Time at one place weighed by the Arrhenius ratio: the time at the reference temperature that
/// would have had the same effect. The temperature is linear between the moments added; a value
/// that is not a number leaves a gap that counts for nothing.
class ArrheniusDose {
 public:
  /// @param activation_energy J/mol
  /// @param reference_temperature K
  /// @param full s at the reference temperature that make the full dose
  ArrheniusDose(double activation_energy, double reference_temperature, double full);

  /// @param time s, not before the one added last
  /// @param temperature K
  void add(double time, double temperature);

  /// s at the reference temperature.
  [[nodiscard]] double equivalent() const { return equivalent_; }
  /// s, when the full dose was reached.
  [[nodiscard]] std::optional<double> full_at() const { return full_at_; }

 private:
  [[nodiscard]] double exponent(double temperature) const;
  [[nodiscard]] double integral(double end_temperature, double duration) const;
  [[nodiscard]] double when_full(double time, double temperature) const;

  double scale_;         // E / R, K
  double at_reference_;  // E / (R T_ref)
  double full_;
  double equivalent_ = 0.0;
  double last_time_ = 0.0;
  double last_temperature_ = 0.0;
  double last_exponent_ = 0.0;
  double last_ratio_ = 0.0;
  bool seen_ = false;
  std::optional<double> full_at_;
};

}  // namespace ampstair::watch
