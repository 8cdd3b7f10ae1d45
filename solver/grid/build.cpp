// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "diagnostics/contract.hpp"
#include "grid/bare_faces.hpp"
#include "grid/bays.hpp"
#include "grid/bodies.hpp"
#include "grid/exposed_faces.hpp"
#include "grid/grid.hpp"
#include "grid/sections.hpp"
#include "grid/spacing.hpp"

namespace ampstair::grid {

namespace {

constexpr double pi = std::numbers::pi;
constexpr std::size_t row_padding = 8;  // rows begin at whole cache lines

template <class Item>
std::size_t index_of(std::vector<Item>& list, const Item& wanted) {
  const auto found = std::find(list.begin(), list.end(), wanted);
  const auto index = static_cast<std::size_t>(found - list.begin());
  if (found == list.end()) {
    list.push_back(wanted);
  }
  return index;
}

class Builder {
 public:
  Builder(const scenario::Scenario& scenario, double scale)
      : scenario_(scenario), scale_(scale), sections_(sections_of(scenario)) {}

  Grid build() {
    lay_stations();
    lay_conductor();
    lay_covering();
    lay_clusters();
    fill_volumes();
    add_exposed_faces(scenario_, sections_, section_of_, grid_);
    add_bodies(scenario_, scale_, grid_);
    add_bare_faces(scenario_, grid_);
    add_bays(scenario_, grid_);
    pad();
    return std::move(grid_);
  }

 private:
  // ---- along the run ------------------------------------------------------------------------
  void lay_stations() {
    const double longest = scenario_.output.grid / scale_;
    const double growth = 0.12 / scale_;          // neighbouring cells differ by about this part
    std::vector<std::pair<double, double>> ends;  // place, spacing wanted there
    for (const Section& s : sections_) {
      ends.emplace_back(s.begin, longest * s.end_spacing);
      ends.emplace_back(s.end, longest * s.end_spacing);
    }
    const auto wanted = [&](double z) {
      double spacing = longest;
      for (const auto& [place, finest] : ends) {
        spacing = std::min(spacing, finest + growth * std::abs(z - place));
      }
      return spacing;
    };
    grid_.station_face.push_back(0.0);
    for (std::size_t s = 0; s < sections_.size(); ++s) {
      const auto faces = graded(sections_[s].begin, sections_[s].end, wanted, 2);
      grid_.station_face.insert(grid_.station_face.end(), faces.begin() + 1, faces.end());
      section_of_.insert(section_of_.end(), faces.size() - 1, s);
    }
    finish_stations();
  }

  void finish_stations() {
    for (std::size_t j = 0; j < section_of_.size(); ++j) {
      grid_.station_centre.push_back(0.5 * (grid_.station_face[j] + grid_.station_face[j + 1]));
      const std::size_t piece = sections_[section_of_[j]].piece;
      grid_.station_piece.push_back(piece);
      double joint = 0.0;
      if (const auto* splice = std::get_if<scenario::Splice>(&scenario_.run[piece].kind)) {
        joint = splice->resistance * length(j) / scenario_.run[piece].length;
      }
      grid_.joint_resistance.push_back(joint);
    }
    rows_at_.assign(grid_.stations(), 0);
    grid_.top_patch.assign(grid_.stations(), 0);
    grid_.outer_face.assign(grid_.stations(), Grid::npos);
  }

  [[nodiscard]] double length(std::size_t j) const {
    return grid_.station_face[j + 1] - grid_.station_face[j];
  }

  // ---- rows ---------------------------------------------------------------------------------
  /// Adds a patch and reserves its cells; media are set by the caller.
  Patch& add_patch(std::size_t parent, std::size_t first, std::size_t stations,
                   std::vector<double> radius) {
    Patch patch;
    patch.parent = parent;
    patch.rows = radius.size() - 1;
    patch.first_station = first;
    patch.stations = stations;
    patch.offset = grid_.cells;
    patch.stride = (stations + row_padding - 1) / row_padding * row_padding;
    patch.radius = std::move(radius);
    grid_.cells += patch.rows * patch.stride;
    grid_.real_cells += patch.rows * stations;
    grid_.medium.resize(grid_.cells, 0);
    const std::size_t index = grid_.patches.size();
    for (std::size_t j = first; j < first + stations; ++j) {
      grid_.top_patch[j] = index;
    }
    grid_.patches.push_back(std::move(patch));
    return grid_.patches.back();
  }

  void lay_conductor() {
    const double radius = 0.5 * scenario_.wire.diameter;
    grid_.conductor_area = pi * radius * radius;
    grid_.medium_index(
        {scenario_.wire.metal, {}, "conductor"});  // index 0: also what padding is made of
    add_patch(0, 0, grid_.stations(), {0.0, radius});
  }

  void lay_covering() {
    const auto& layers = scenario_.wire.layers;
    if (layers.empty()) {
      return;
    }
    const double inside = 0.5 * scenario_.wire.diameter;
    const double whole = std::log(covering_radius(scenario_.wire) / inside);
    const double cells = scale_ * scenario_.output.radial_cells;
    const int least = scale_ < 1.0 ? 1 : 2;  // a thin layer is coarsened, too
    std::vector<double> radius{inside};
    std::vector<std::size_t> row_medium;
    for (const auto& layer : layers) {
      const double inner = radius.back();
      const double ratio = std::log((inner + layer.thickness) / inner);
      const int count = std::max(least, static_cast<int>(std::lround(cells * ratio / whole)));
      for (int i = 1; i <= count; ++i) {
        radius.push_back(inner * std::exp(ratio * i / count));
        row_medium.push_back(grid_.medium_index({layer.material, {}, layer.part}));
      }
    }
    const Patch& patch = add_patch(0, 0, grid_.stations(), std::move(radius));
    for (std::size_t i = 0; i < patch.rows; ++i) {
      std::fill_n(grid_.medium.begin() + static_cast<std::ptrdiff_t>(patch.row(i)), patch.stations,
                  row_medium[i]);
    }
  }

  // ---- what lies round the covering -----------------------------------------------------------
  /// Stretches that touch and have something round the covering share their radial faces, so that
  /// heat can cross from one to the next; others need not.
  void lay_clusters() {
    std::size_t s = 0;
    while (s < sections_.size()) {
      std::size_t last = s;
      while (last < sections_.size() && !sections_[last].bands.empty()) {
        ++last;
      }
      if (last > s) {
        lay_cluster(s, last);
      }
      s = std::max(last, s + 1);
    }
  }

  void lay_cluster(std::size_t first, std::size_t last) {
    const std::vector<double> radius = cluster_radii(first, last);
    std::size_t begin = grid_.stations();
    std::size_t end = 0;
    for (std::size_t j = 0; j < grid_.stations(); ++j) {
      if (section_of_[j] >= first && section_of_[j] < last) {
        begin = std::min(begin, j);
        end = j + 1;
        const double outer = sections_[section_of_[j]].bands.back().outer;
        rows_at_[j] = 0;
        while (rows_at_[j] + 1 < radius.size() && radius[rows_at_[j] + 1] < outer * (1.0 + 1e-9)) {
          ++rows_at_[j];
        }
      }
    }
    stack(grid_.patches.size() > 1 && !scenario_.wire.layers.empty() ? 1 : 0, begin, end, 0,
          radius);
  }

  /// Radial faces of a cluster: every interface of every stretch, and between two of them the
  /// finest spacing any stretch wants there.
  std::vector<double> cluster_radii(std::size_t first, std::size_t last) {
    std::vector<double> interfaces{covering_radius(scenario_.wire)};
    for (std::size_t s = first; s < last; ++s) {
      for (const Band& band : sections_[s].bands) {
        interfaces.push_back(band.outer);
      }
    }
    std::sort(interfaces.begin(), interfaces.end());
    const auto same = [](double a, double b) { return b - a < 1e-9; };
    interfaces.erase(std::unique(interfaces.begin(), interfaces.end(), same), interfaces.end());
    std::vector<double> radius{interfaces.front()};
    for (std::size_t i = 0; i + 1 < interfaces.size(); ++i) {
      const double middle = 0.5 * (interfaces[i] + interfaces[i + 1]);
      const auto wanted = [&](double r) { return radial_spacing(first, last, middle, r); };
      const auto faces = graded(interfaces[i], interfaces[i + 1], wanted, 1);
      radius.insert(radius.end(), faces.begin() + 1, faces.end());
    }
    return radius;
  }

  [[nodiscard]] double radial_spacing(std::size_t first, std::size_t last, double middle,
                                      double r) const {
    double spacing = 1.0;
    for (std::size_t s = first; s < last; ++s) {
      for (const Band& band : sections_[s].bands) {
        if (band.inner < middle && middle < band.outer) {
          spacing = std::min(spacing, band.finest + band.growth * (r - band.inner));
        }
      }
    }
    const double refinement = scale_ * scenario_.output.radial_cells / 12.0;
    return spacing / refinement;
  }

  /// Builds patches on `parent` over the stations [begin, end) from cluster row `row` outwards.
  void stack(std::size_t parent, std::size_t begin, std::size_t end, std::size_t row,
             const std::vector<double>& radius) {
    std::size_t j = begin;
    while (j < end) {
      std::size_t stop = j;
      std::size_t rows = radius.size();
      while (stop < end && rows_at_[stop] > row) {
        rows = std::min(rows, rows_at_[stop]);
        ++stop;
      }
      if (stop > j) {
        const auto from = radius.begin() + static_cast<std::ptrdiff_t>(row);
        const Patch& patch = add_patch(
            parent, j, stop - j,
            std::vector<double>(from, from + static_cast<std::ptrdiff_t>(rows - row) + 1));
        fill_media(patch);
        stack(grid_.patches.size() - 1, j, stop, rows, radius);
      }
      j = std::max(stop, j + 1);
    }
  }

  void fill_media(const Patch& patch) {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const double middle = 0.5 * (patch.radius[i] + patch.radius[i + 1]);
      for (std::size_t j = 0; j < patch.stations; ++j) {
        const auto& bands = sections_[section_of_[patch.first_station + j]].bands;
        const auto band = std::find_if(bands.begin(), bands.end(), [&](const Band& b) {
          return b.inner < middle && middle < b.outer;
        });
        diagnostics::expects(band != bands.end(), "every cell lies in a band");
        grid_.medium[patch.row(i) + j] = grid_.medium_index(band->medium);
      }
    }
  }

  void fill_volumes() {
    grid_.volume.assign(grid_.cells, 0.0);
    for (const Patch& patch : grid_.patches) {
      for (std::size_t i = 0; i < patch.rows; ++i) {
        const double ring =
            pi * (patch.radius[i + 1] * patch.radius[i + 1] - patch.radius[i] * patch.radius[i]);
        for (std::size_t j = 0; j < patch.stations; ++j) {
          grid_.volume[patch.row(i) + j] = ring * length(patch.first_station + j);
        }
      }
    }
  }

  /// Whole cache lines, and one more for loops that read a little beyond the last cell.
  void pad() {
    grid_.cells = (grid_.cells + row_padding - 1) / row_padding * row_padding + row_padding;
    grid_.medium.resize(grid_.cells, 0);
    grid_.volume.resize(grid_.cells, 0.0);
  }

  const scenario::Scenario& scenario_;
  double scale_;
  std::vector<Section> sections_;
  std::vector<std::size_t> section_of_;  // per station
  std::vector<std::size_t> rows_at_;     // per station: rows of its cluster
  Grid grid_;
};

}  // namespace

std::size_t Grid::medium_index(const Medium& wanted) {
  return index_of(media, wanted);
}

std::size_t Grid::exposure_index(const Exposure& wanted) {
  return index_of(exposures, wanted);
}

Grid build(const scenario::Scenario& scenario, double scale) {
  return Builder(scenario, scale).build();
}

}  // namespace ampstair::grid
