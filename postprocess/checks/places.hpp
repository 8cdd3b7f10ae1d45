// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "checks/findings.hpp"
#include "checks/histories.hpp"

namespace ampstair::post::checks {

/// Names positions along the run as sheets do: `piece + offset`.
class Places {
 public:
  struct Piece {
    std::string name;
    double begin = 0.0;  ///< m
    double end = 0.0;    ///< m
  };

  /// @param pieces in order along the run
  explicit Places(std::vector<Piece> pieces);
  /// Reads the record's table "pieces"; without one, places have no names.
  explicit Places(const Histories& histories);

  /// Where two pieces meet, the place belongs to the one that begins there; the end of the run to
  /// the piece that ends there. Pieces without length (lugs, cut ends) own no place, unless the
  /// run has no other.
  [[nodiscard]] Spot spot(double position) const;
  /// Name of the piece that owns a position; empty where places have no names.
  [[nodiscard]] std::string piece_name(double position) const;

 private:
  [[nodiscard]] const Piece* piece_at(double position) const;

  std::vector<Piece> pieces_;
};

}  // namespace ampstair::post::checks
