// SPDX-License-Identifier: MIT
#include "watch/settling.hpp"

#include <algorithm>
#include <cmath>

namespace ampstair::watch {

std::array<double, 4> CubicPiece::coefficients() const {
  const double a = value[1] - value[0];
  const double b = value[2] - value[0];
  const double c = value[3] - value[0];
  return {value[0], 9.0 * a - 4.5 * b + c, -22.5 * a + 18.0 * b - 4.5 * c,
          13.5 * a - 13.5 * b + 4.5 * c};
}

double CubicPiece::at(double time) const {
  const auto c = coefficients();
  const double s = (time - begin) / length;
  return c[0] + s * (c[1] + s * (c[2] + s * c[3]));
}

CubicPiece::Parts CubicPiece::where_slope_is(double slope) const {
  // c1 - slope + 2 c2 s + 3 c3 s2 = 0, by the form that loses no digits when c3 is small.
  const auto c = coefficients();
  const double constant = c[1] - slope;
  const double discriminant = c[2] * c[2] - 3.0 * c[3] * constant;
  Parts parts;
  if (!(discriminant >= 0.0)) {
    return parts;
  }
  const double sum = -(c[2] + std::copysign(std::sqrt(discriminant), c[2]));
  const double roots[] = {sum / (3.0 * c[3]), constant / sum};
  for (const double root : {std::min(roots[0], roots[1]), std::max(roots[0], roots[1])}) {
    if (root > 0.0 && root < 1.0) {
      parts.part[parts.count++] = root;
    }
  }
  return parts;
}

void SettledByRate::add(const CubicPiece& piece) {
  const double limit = rate_ * piece.length;
  const auto rising = piece.where_slope_is(limit);
  const auto falling = piece.where_slope_is(-limit);
  std::array<double, 6> cut = {0.0, 1.0, 1.0, 1.0, 1.0, 1.0};
  std::size_t cuts = 1;
  for (const auto& parts : {rising, falling}) {
    for (std::size_t k = 0; k < parts.count; ++k) {
      cut[cuts++] = parts.part[k];
    }
  }
  std::sort(cut.begin(), cut.end());
  const auto c = piece.coefficients();
  for (std::size_t k = 0; k + 1 < cut.size() && cut[k] < 1.0; ++k) {
    const double middle = 0.5 * (cut[k] + cut[k + 1]);
    const double slope = c[1] + middle * (2.0 * c[2] + middle * 3.0 * c[3]);
    if (std::abs(slope) > limit) {
      since_.reset();
    } else if (!since_) {
      since_ = piece.begin + cut[k] * piece.length;
    }
  }
}

void SettledByChange::restart() {
  pieces_.clear();
  oldest_ = 0;
  since_.reset();
}

void SettledByChange::add(const CubicPiece& piece) {
  pieces_.push_back(piece);
  while (pieces_[oldest_].end() + span_ <= piece.begin) {
    ++oldest_;
  }
  for (std::size_t k = oldest_; k < pieces_.size(); ++k) {
    look_back(piece, pieces_[k]);
  }
}

void SettledByChange::look_back(const CubicPiece& piece, const CubicPiece& before) {
  const double begin = std::max(piece.begin, before.begin + span_);
  const double end = std::min(piece.end(), before.end() + span_);
  if (begin > end) {
    return;
  }
  const auto small = [&](double time) {
    return std::abs(piece.at(time) - before.at(time - span_)) < change_;
  };
  constexpr int looks = 4;  // the difference of two cubics turns twice at most
  double low = begin;
  for (int look = 0; look <= looks; ++look) {
    double high = look == looks ? end : begin + (end - begin) * look / looks;
    if (!small(high)) {
      since_.reset();
    } else if (!since_) {
      for (int halving = 0; halving < 60 && look > 0; ++halving) {
        const double middle = 0.5 * (low + high);
        (small(middle) ? high : low) = middle;
      }
      since_ = high;
    }
    low = look == looks ? end : begin + (end - begin) * look / looks;
  }
}

}  // namespace ampstair::watch
