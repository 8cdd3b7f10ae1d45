// SPDX-License-Identifier: MIT
#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cstddef>

#include "marching/scheme.hpp"

namespace {

using namespace ampstair::marching;
using Matrix = Eigen::Matrix4d;
using Vector = Eigen::Vector4d;

/// A scheme back in its textbook form (Hairer & Wanner, Solving Ordinary Differential Equations II,
/// section IV.7): the form with U_j has C = I/gamma - G^-1, A' = A G^-1, m' = b G^-1.
struct Textbook {
  Matrix a, g;  // alpha_ij, gamma_ij
  Vector b, embedded;
  Vector ones = Vector::Ones();

  explicit Textbook(const Scheme& s) {
    Matrix c = Matrix::Zero();
    Matrix a_form = Matrix::Zero();
    Vector m;
    Vector e;
    for (Eigen::Index i = 0; i < 4; ++i) {
      const auto row = static_cast<std::size_t>(i);
      m(i) = s.m[row];
      e(i) = s.e[row];
      for (Eigen::Index j = 0; j < i; ++j) {
        const auto column = static_cast<std::size_t>(j);
        c(i, j) = s.c[row][column];
        a_form(i, j) = s.a[row][column];
      }
    }
    g = (Matrix::Identity() / s.gamma - c).inverse();
    a = a_form * g;
    b = g.transpose() * m;
    embedded = g.transpose() * (m - e);
  }

  [[nodiscard]] Vector weights(const Scheme& s, double theta) const {
    Vector d;
    for (std::size_t i = 0; i < 4; ++i) {
      d(static_cast<Eigen::Index>(i)) =
          theta * (s.d[i][0] + theta * (s.d[i][1] + theta * s.d[i][2]));
    }
    return g.transpose() * d;
  }
};

constexpr double round_off = 2e-14;

}  // namespace

TEST_CASE("order 3 for any matrix in the factor") {
  // Conditions of W-methods to order 3 (Hairer & Wanner II, section IV.7): 1 + 2 + 5 of them.
  const Textbook t(ros34pw2);
  const Vector alpha = t.a * t.ones;
  const Vector gamma = t.g * t.ones;
  for (std::size_t i = 0; i < Scheme::stages; ++i) {
    CHECK(ros34pw2.alpha[i] == Approx(alpha(static_cast<Eigen::Index>(i))).margin(round_off));
    CHECK(ros34pw2.lead[i] == Approx(gamma(static_cast<Eigen::Index>(i))).margin(round_off));
  }
  CHECK(t.b.sum() == Approx(1.0).margin(round_off));
  CHECK(t.b.dot(alpha) == Approx(1.0 / 2.0).margin(round_off));
  CHECK(t.b.dot(gamma) == Approx(0.0).margin(round_off));
  CHECK(t.b.dot(alpha.cwiseProduct(alpha)) == Approx(1.0 / 3.0).margin(round_off));
  CHECK(t.b.dot(t.a * alpha) == Approx(1.0 / 6.0).margin(round_off));
  CHECK(t.b.dot(t.a * gamma) == Approx(0.0).margin(round_off));
  CHECK(t.b.dot(t.g * alpha) == Approx(0.0).margin(round_off));
  CHECK(t.b.dot(t.g * gamma) == Approx(0.0).margin(round_off));
}

TEST_CASE("the embedded solution has order 2 for any matrix, and not 3") {
  const Textbook t(ros34pw2);
  const Vector alpha = t.a * t.ones;
  CHECK(ros34pw2.error_order == 2);
  CHECK(t.embedded.sum() == Approx(1.0).margin(round_off));
  CHECK(t.embedded.dot(alpha) == Approx(0.5).margin(round_off));
  CHECK(t.embedded.dot(t.g * t.ones) == Approx(0.0).margin(round_off));
  CHECK(std::abs(t.embedded.dot(t.a * alpha) - 1.0 / 6.0) > 1e-3);
}

TEST_CASE("stiffly accurate and L-stable") {
  const Textbook t(ros34pw2);
  CHECK((t.a + t.g).row(3).transpose().isApprox(t.b, 1e-13));
  // R(z) = 1 + z b^T (I - z (A + G))^-1 1 is bounded by 1 on the imaginary axis and dies at
  // infinity.
  const auto growth = [&](std::complex<double> z) {
    const Eigen::Matrix4cd system =
        Eigen::Matrix4cd::Identity() - z * (t.a + t.g).cast<std::complex<double>>();
    const Eigen::Vector4cd solved =
        system.partialPivLu().solve(t.ones.cast<std::complex<double>>());
    return std::abs(1.0 + z * t.b.cast<std::complex<double>>().dot(solved));
  };
  for (double y = 1e-3; y < 1e4; y *= 1.1) {
    CHECK(growth({0.0, y}) <= 1.0 + 1e-12);
    CHECK(growth({-y, 0.0}) < 1.0);
  }
  CHECK(growth({-1e9, 0.0}) < 1e-7);
}

TEST_CASE("dense output: order 2 for any matrix, 3 for the exact one, ends where the step ends") {
  const Textbook t(ros34pw2);
  const Vector alpha = t.a * t.ones;
  for (const double theta : {0.1, 0.37, 0.5, 0.9, 1.0}) {
    const Vector b = t.weights(ros34pw2, theta);
    CHECK(b.sum() == Approx(theta).margin(round_off));
    CHECK(b.dot(alpha) == Approx(theta * theta / 2.0).margin(round_off));
    CHECK(b.dot(t.g * t.ones) == Approx(0.0).margin(round_off));
    const double cube = theta * theta * theta;
    CHECK(b.dot(alpha.cwiseProduct(alpha)) == Approx(cube / 3.0).margin(round_off));
    CHECK(b.dot((t.a + t.g) * (alpha + t.g * t.ones)) == Approx(cube / 6.0).margin(round_off));
  }
  CHECK(t.weights(ros34pw2, 1.0).isApprox(t.b, 1e-13));
}
