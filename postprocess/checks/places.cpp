// SPDX-License-Identifier: MIT
#include "checks/places.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <utility>

namespace ampstair::post::checks {

namespace {

std::vector<Places::Piece> pieces_of(const Histories& histories) {
  std::vector<Places::Piece> pieces;
  if (!histories.has("pieces/name")) {
    return pieces;
  }
  const auto names = histories.texts("pieces", "name");
  const auto begins = histories.numbers("pieces", "begin");
  const auto ends = histories.numbers("pieces", "end");
  for (std::size_t i = 0; i < names.size(); ++i) {
    pieces.push_back({names[i], begins.at(i), ends.at(i)});
  }
  return pieces;
}

}  // namespace

Places::Places(std::vector<Piece> pieces) : pieces_(std::move(pieces)) {}

Places::Places(const Histories& histories) : Places(pieces_of(histories)) {}

const Places::Piece* Places::piece_at(double position) const {
  // A cell's centre may miss the joint between two pieces by rounding only.
  constexpr double rounding = 1e-9;  // m
  const Piece* found = nullptr;
  for (const Piece& piece : pieces_) {
    const bool inside = position >= piece.begin - rounding && position <= piece.end + rounding;
    const bool better = found == nullptr || piece.end > piece.begin;
    if (inside && better) {
      found = &piece;
    }
  }
  return found;
}

Spot Places::spot(double position) const {
  const Piece* piece = piece_at(position);
  if (piece == nullptr) {
    return {position, {}};
  }
  if (piece->end <= piece->begin) {
    return {position, piece->name};
  }
  const double offset = position > piece->begin ? position - piece->begin : 0.0;
  return {position, fmt::format("{} + {:.3f} m", piece->name, offset)};
}

std::string Places::piece_name(double position) const {
  const Piece* piece = piece_at(position);
  return piece == nullptr ? std::string() : piece->name;
}

}  // namespace ampstair::post::checks
