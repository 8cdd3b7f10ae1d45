// SPDX-License-Identifier: MIT
#include "grid/exposed_faces.hpp"

#include <cmath>
#include <numbers>
#include <variant>

#include "grid/column.hpp"
#include "grid/facing.hpp"

namespace ampstair::grid {

namespace {

constexpr double pi = std::numbers::pi;

class Exposer {
 public:
  Exposer(const scenario::Scenario& scenario, std::span<const Section> sections,
          std::span<const std::size_t> section_of, Grid& grid)
      : scenario_(scenario), sections_(sections), section_of_(section_of), grid_(grid) {}

  void expose() {
    for (std::size_t j = 0; j < grid_.stations(); ++j) {
      expose_outside(j);
    }
    for (const Patch& patch : grid_.patches) {
      expose_side(patch, true);
      expose_side(patch, false);
    }
  }

 private:
  [[nodiscard]] double length(std::size_t j) const {
    return grid_.station_face[j + 1] - grid_.station_face[j];
  }

  void expose_outside(std::size_t j) {
    const Section& section = sections_[section_of_[j]];
    if (section.outside == Section::Outside::closed || section.exposed_part <= 0.0) {
      return;
    }
    const Patch& patch = grid_.patches[grid_.top_patch[j]];
    const double outer = patch.radius.back();
    const double inner = patch.radius[patch.rows - 1];
    Face face;
    face.cell = patch.row(patch.rows - 1) + j - patch.first_station;
    face.area = 2.0 * pi * outer * length(j) * section.exposed_part;
    // The conductor's one cell is at its surface's temperature: nothing lies between.
    const double path = inner > 0.0 ? std::log(outer) - log_mean_radius(inner, outer) : 1e-9;
    // Heat comes to the surface all round, though a part of it may be covered.
    face.shape = 2.0 * pi * length(j) / path;
    Exposure kind;
    kind.to = section.outside == Section::Outside::held ? Exposure::To::held : Exposure::To::air;
    kind.length = 2.0 * outer;
    if (const double height = scenario_.run[section.piece].height; height > 0.0) {
      kind.shape = Exposure::Shape::upright_cylinder;
      kind.height = height;
    }
    kind.emissivity = emissivity(face.cell);
    kind.surroundings = section.surroundings;
    if (scenario_.run[section.piece].facing) {
      const auto faced = facing_of(scenario_, section.piece, outer, kind.emissivity);
      kind.convects = faced.convects;
      kind.radiates = faced.radiates;
    }
    face.exposure = grid_.exposure_index(kind);
    grid_.outer_face[j] = grid_.faces.size();
    grid_.faces.push_back(face);
  }

  [[nodiscard]] double emissivity(std::size_t cell) const {
    const Medium& m = grid_.media[grid_.medium[cell]];
    return m.material ? m.material->emissivity : 0.9;
  }

  /// End faces of a patch, before its first station or behind its last one.
  void expose_side(const Patch& patch, bool before) {
    const std::size_t j = before ? patch.first_station : patch.first_station + patch.stations - 1;
    const bool at_end = before ? j == 0 : j + 1 == grid_.stations();
    if (at_end) {
      expose_end(patch, before ? scenario_.run.front() : scenario_.run.back(), j);
      return;
    }
    for (std::size_t i = 0; i < patch.rows; ++i) {
      expose_end_face(patch, i, j, sections_[section_of_[before ? j - 1 : j + 1]].surroundings);
    }
  }

  void expose_end_face(const Patch& patch, std::size_t i, std::size_t j, std::size_t around) {
    const std::size_t cell = patch.row(i) + j - patch.first_station;
    if (grid_.media[grid_.medium[cell]].part == "gap") {
      return;  // the still air in a gap is not stirred by the air outside
    }
    Face face;
    face.cell = cell;
    face.area = grid_.volume[cell] / length(j);
    face.shape = face.area / (0.5 * length(j));
    face.axial = &patch != &grid_.patches.front();
    Exposure kind;
    kind.shape = Exposure::Shape::plate;
    kind.length = 2.0 * grid_.patches[grid_.top_patch[j]].radius.back();
    kind.emissivity = emissivity(cell);
    kind.surroundings = around;
    face.exposure = grid_.exposure_index(kind);
    grid_.faces.push_back(face);
  }

  /// The end of the run: a lug's or an insulated end has no face, a held one only the conductor's.
  void expose_end(const Patch& patch, const scenario::Piece& end, std::size_t j) {
    const auto* cut = std::get_if<scenario::CutEnd>(&end.kind);
    if (cut == nullptr || cut->insulated) {
      return;
    }
    if (!cut->held_at) {
      for (std::size_t i = 0; i < patch.rows; ++i) {
        expose_end_face(patch, i, j, end.around);
      }
    } else if (&patch == &grid_.patches.front()) {
      Face face;
      face.cell = patch.row(0) + j;
      face.area = grid_.conductor_area;
      face.shape = face.area / (0.5 * length(j));
      Exposure kind;
      kind.to = Exposure::To::held;
      kind.held_at = *cut->held_at;
      face.exposure = grid_.exposure_index(kind);
      grid_.faces.push_back(face);
    }
  }

  const scenario::Scenario& scenario_;
  std::span<const Section> sections_;
  std::span<const std::size_t> section_of_;
  Grid& grid_;
};

}  // namespace

void add_exposed_faces(const scenario::Scenario& scenario, std::span<const Section> sections,
                       std::span<const std::size_t> section_of, Grid& grid) {
  Exposer(scenario, sections, section_of, grid).expose();
}

}  // namespace ampstair::grid
