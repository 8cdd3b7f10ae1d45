// SPDX-License-Identifier: MIT
#include "marching/comb.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <numbers>

namespace ampstair::marching {

namespace {

constexpr std::size_t none = grid::Grid::npos;

}  // namespace

// ---- first factor: every row but the conductor, along the run ----------------------------------

/// A gas has next to no capacity, so s K_A C^-1 would be huge in its cells and spoil the order of
/// the splitting there. In this factor only, its cells get the capacity D = C + s * 0.1 k (pi/w)^2
/// V (w: width of the gas) and its conduction along the run is lent to the rows beside it, which
/// carry its heat away. Column sums of K_A stay zero: the factor conserves energy as before. The
/// figure 0.1 was found by trial; 0.03 to 0.25 serve equally, 0.5 and more are unstable.
class Comb::Axial {
 public:
  explicit Axial(const HeatNetwork& network) : network_(network) {
    const auto& grid = network.grid();
    capacity_.assign(grid.cells, 1.0);
    onward_.assign(grid.cells, 0.0);
    inverse_.assign(grid.cells, 1.0);
    lower_.assign(grid.cells, 0.0);
    find_gas();
  }

  void factor(double s, std::span<const double> slope) {
    const auto& grid = network_.grid();
    const auto& capacity = network_.capacity();
    const auto& onward = network_.onward();
    for (std::size_t c = 0; c < grid.cells; ++c) {
      capacity_[c] = capacity[c] / slope[c];
      onward_[c] = s * onward[c];
    }
    for (const Gas& gas : gas_) {
      capacity_[gas.cell] += s * gas.stiffening * network_.conductivity(gas.cell);
      const double lent = s * onward[gas.cell];
      if (gas.inside != none) {
        onward_[gas.inside] += lent;
      }
      if (gas.outside != none) {
        onward_[gas.outside] += lent;
      }
    }
    std::copy(capacity_.begin(), capacity_.end(), inverse_.begin());
    for (std::size_t f = 0; f < grid.faces.size(); ++f) {
      if (grid.faces[f].axial) {
        inverse_[grid.faces[f].cell] += s * network_.face_slope()[f];
      }
    }
    for_each_block([&](auto lanes, std::size_t first, std::size_t stride, std::size_t n) {
      factor_rows<decltype(lanes)::value>(first, stride, n);
    });
  }

  /// rhs -> v (the rows' solution) and rhs -> D v.
  void solve(std::span<double> rhs, std::span<double> v) const {
    const auto& patch = network_.grid().patches.front();
    std::copy_n(rhs.begin(), patch.stride, v.begin());  // the conductor passes through
    for_each_block([&](auto lanes, std::size_t first, std::size_t stride, std::size_t n) {
      solve_rows<decltype(lanes)::value>(rhs.data(), v.data(), first, stride, n);
    });
  }

 private:
  template <std::size_t N>
  using Lanes = std::integral_constant<std::size_t, N>;

  /// Rows are independent of each other; several at a time hide the latency of the recurrence.
  template <class Sweep>
  void for_each_block(const Sweep& sweep) const {
    const auto& patches = network_.grid().patches;
    for (std::size_t p = 1; p < patches.size(); ++p) {
      const auto& patch = patches[p];
      std::size_t i = 0;
      for (; i + 8 <= patch.rows; i += 8) {
        sweep(Lanes<8>{}, patch.row(i), patch.stride, patch.stations);
      }
      for (; i + 4 <= patch.rows; i += 4) {
        sweep(Lanes<4>{}, patch.row(i), patch.stride, patch.stations);
      }
      for (; i + 2 <= patch.rows; i += 2) {
        sweep(Lanes<2>{}, patch.row(i), patch.stride, patch.stations);
      }
      for (; i < patch.rows; ++i) {
        sweep(Lanes<1>{}, patch.row(i), patch.stride, patch.stations);
      }
    }
  }

  template <std::size_t N>
  void factor_rows(std::size_t first, std::size_t stride, std::size_t n) {
    double* diagonal = inverse_.data() + first;
    double* lower = lower_.data() + first;
    const double* onward = onward_.data() + first;
    for (std::size_t q = 0; q < N; ++q) {
      const std::size_t c = q * stride;
      diagonal[c] = 1.0 / (diagonal[c] + (n > 1 ? onward[c] : 0.0));
    }
    for (std::size_t j = 1; j < n; ++j) {
      for (std::size_t q = 0; q < N; ++q) {
        const std::size_t c = q * stride + j;
        const double before = onward[c - 1];
        const double behind = j + 1 < n ? onward[c] : 0.0;
        lower[c] = before * diagonal[c - 1];
        diagonal[c] = 1.0 / (diagonal[c] + before + behind - before * lower[c]);
      }
    }
  }

  template <std::size_t N>
  void solve_rows(double* rhs, double* v, std::size_t first, std::size_t stride,
                  std::size_t n) const {
    const double* inverse = inverse_.data() + first;
    const double* lower = lower_.data() + first;
    const double* capacity = capacity_.data() + first;
    rhs += first;
    v += first;
    double carried[N];
    for (std::size_t q = 0; q < N; ++q) {
      carried[q] = v[q * stride] = rhs[q * stride];
    }
    for (std::size_t j = 1; j < n; ++j) {
      for (std::size_t q = 0; q < N; ++q) {
        const std::size_t c = q * stride + j;
        carried[q] = rhs[c] + lower[c] * carried[q];
        v[c] = carried[q];
      }
    }
    for (std::size_t q = 0; q < N; ++q) {
      const std::size_t c = q * stride + n - 1;
      carried[q] = v[c] * inverse[c];
      v[c] = carried[q];
      rhs[c] = capacity[c] * carried[q];
    }
    for (std::size_t j = n - 1; j-- > 0;) {
      for (std::size_t q = 0; q < N; ++q) {
        const std::size_t c = q * stride + j;
        carried[q] = v[c] * inverse[c] + lower[c + 1] * carried[q];
        v[c] = carried[q];
        rhs[c] = capacity[c] * carried[q];
      }
    }
  }

  /// Every gas cell with the cells inside and outside of its layer that border it.
  struct Gas {
    std::size_t cell, inside, outside;
    double stiffening;  // 0.1 (pi / width)^2 V, to be multiplied by the conductivity
  };

  void find_gas() {
    const auto& grid = network_.grid();
    for (std::size_t j = 0; j < grid.stations(); ++j) {
      std::vector<std::size_t> column;  // from the conductor outwards
      std::vector<double> radius{0.0};
      std::vector<bool> goes_on;  // the row has a next station
      climb(grid, j, column, radius, goes_on);
      for (std::size_t i = 1; i < column.size(); ++i) {
        if (!network_.nearly_massless(column[i])) {
          continue;
        }
        std::size_t last = i;
        while (last + 1 < column.size() && network_.nearly_massless(column[last + 1])) {
          ++last;
        }
        const double wave = std::numbers::pi / (radius[last + 1] - radius[i]);
        for (std::size_t k = i; k <= last; ++k) {
          const bool lend = goes_on[k];
          gas_.push_back(
              {column[k], lend && i > 1 && goes_on[i - 1] ? column[i - 1] : none,
               lend && last + 1 < column.size() && goes_on[last + 1] ? column[last + 1] : none,
               0.1 * wave * wave * grid.volume[column[k]]});
        }
        i = last;
      }
    }
  }

  static void climb(const grid::Grid& grid, std::size_t j, std::vector<std::size_t>& column,
                    std::vector<double>& radius, std::vector<bool>& goes_on) {
    std::vector<std::size_t> stack;
    for (std::size_t p = grid.top_patch[j];; p = grid.patches[p].parent) {
      stack.push_back(p);
      if (p == 0) {
        break;
      }
    }
    for (auto p = stack.rbegin(); p != stack.rend(); ++p) {
      const auto& patch = grid.patches[*p];
      for (std::size_t i = 0; i < patch.rows; ++i) {
        column.push_back(patch.row(i) + j - patch.first_station);
        radius.push_back(patch.radius[i + 1]);
        goes_on.push_back(j + 1 < patch.first_station + patch.stations);
      }
    }
  }

  const HeatNetwork& network_;
  std::vector<Gas> gas_;
  std::vector<double> capacity_, onward_, inverse_, lower_;
};

// ---- second factor: the comb --------------------------------------------------------------------

class Comb::Radial {
 public:
  explicit Radial(const HeatNetwork& network) : network_(network) {
    const auto& grid = network.grid();
    inverse_.assign(grid.cells, 1.0);
    lower_.assign(grid.cells, 0.0);
    line_inverse_.assign(grid.stations(), 0.0);
    line_lower_.assign(grid.stations(), 0.0);
    for (const auto& body : grid.bodies) {
      Border border;
      border.chain_inverse.assign(body.cells, 0.0);
      border.chain_lower.assign(body.cells, 0.0);
      border.influence.assign(grid.stations(), 0.0);
      for (const auto& tie : body.ties) {
        border.ties.push_back({tie.cell, tie.station, column_of(grid, tie.cell, tie.station), 0.0});
      }
      borders_.push_back(std::move(border));
    }
    const auto n = static_cast<Eigen::Index>(borders_.size());
    schur_.resize(n, n);
    heads_.resize(n);
  }

  void factor(double s, std::span<const double> slope) {
    assemble_diagonal(s, slope);
    eliminate_columns(s);
    factor_line(s);
    factor_borders(s);
  }

  /// z -> x in place.
  void solve(std::span<double> x) const {
    const auto& grid = network_.grid();
    for (std::size_t p = grid.patches.size(); p-- > 1;) {
      inwards(grid.patches[p], x.data());
    }
    solve_spine(x.data());
    for (std::size_t p = 1; p < grid.patches.size(); ++p) {
      outwards(grid.patches[p], x.data());
    }
  }

 private:
  struct Tie {
    std::size_t cell, station;
    std::vector<std::size_t> column;  // cells from the one on the conductor out to `cell`
    double conductance;               // s times it
  };
  struct Border {
    std::vector<Tie> ties;
    std::vector<double> chain_inverse, chain_lower;
    std::vector<double> influence;  // per station: the conductor's answer to the head
    std::size_t first_station = 0, last_station = 0;
  };

  static std::vector<std::size_t> column_of(const grid::Grid& grid, std::size_t cell,
                                            std::size_t station) {
    std::vector<std::size_t> column;
    if (cell == station) {
      return column;  // tied to the conductor itself
    }
    for (std::size_t p = grid.top_patch[station]; p != 0; p = grid.patches[p].parent) {
      const auto& patch = grid.patches[p];
      for (std::size_t i = patch.rows; i-- > 0;) {
        column.push_back(patch.row(i) + station - patch.first_station);
      }
    }
    std::reverse(column.begin(), column.end());
    return column;
  }

  void assemble_diagonal(double s, std::span<const double> slope) {
    const auto& grid = network_.grid();
    const auto& capacity = network_.capacity();
    for (std::size_t c = 0; c < grid.cells; ++c) {
      inverse_[c] = capacity[c] / slope[c];
    }
    for (std::size_t f = 0; f < grid.faces.size(); ++f) {
      if (!grid.faces[f].axial) {
        inverse_[grid.faces[f].cell] += s * network_.face_slope()[f];
      }
    }
    for (std::size_t j = 0; j < grid.stations(); ++j) {
      inverse_[j] -= s * network_.source_slope()[j];
    }
    for (std::size_t b = 0; b < borders_.size(); ++b) {
      const auto& body = grid.bodies[b];
      const std::size_t head = body.first_cell + body.tied;
      for (std::size_t k = 0; k < body.ties.size(); ++k) {
        Tie& tie = borders_[b].ties[k];
        tie.conductance = s * network_.link_conductance(body.ties[k].link, tie.cell, head);
        inverse_[tie.cell] += tie.conductance;
        inverse_[head] += tie.conductance;
      }
    }
  }

  /// From the outermost row inwards; afterwards inverse_ holds 1/pivot of every cell outside the
  /// conductor and, in the conductor's row, the reduced diagonal without its own line.
  void eliminate_columns(double s) {
    const auto& grid = network_.grid();
    const double* inward = network_.inward().data();
    for (std::size_t p = grid.patches.size(); p-- > 1;) {
      const auto& patch = grid.patches[p];
      for (std::size_t i = patch.rows; i-- > 0;) {
        const std::size_t first = patch.row(i);
        double* here = inverse_.data() + first;
        double* below = inverse_.data() + network_.row_below(patch, i);
        double* lower = lower_.data() + first;
        const double* g = inward + first;
#pragma GCC ivdep
        for (std::size_t j = 0; j < patch.stations; ++j) {
          const double link = s * g[j];
          const double inverse = 1.0 / (here[j] + link);
          lower[j] = link * inverse;
          here[j] = inverse;
          below[j] += link - link * lower[j];
        }
      }
    }
  }

  void factor_line(double s) {
    const std::size_t n = line_inverse_.size();
    const double* onward = network_.onward().data();
    line_inverse_[0] = 1.0 / (inverse_[0] + (n > 1 ? s * onward[0] : 0.0));
    for (std::size_t j = 1; j < n; ++j) {
      const double before = s * onward[j - 1];
      const double behind = j + 1 < n ? s * onward[j] : 0.0;
      line_lower_[j] = before * line_inverse_[j - 1];
      line_inverse_[j] = 1.0 / (inverse_[j] + before + behind - before * line_lower_[j]);
    }
  }

  void solve_line(double* x) const {
    const std::size_t n = line_inverse_.size();
    for (std::size_t j = 1; j < n; ++j) {
      x[j] += line_lower_[j] * x[j - 1];
    }
    x[n - 1] *= line_inverse_[n - 1];
    for (std::size_t j = n - 1; j-- > 0;) {
      x[j] = x[j] * line_inverse_[j] + line_lower_[j + 1] * x[j + 1];
    }
  }

  // ---- side bodies: a chain each, eliminated on to the cell that is tied to the run -------------
  /// Chain cells before the tied one are eliminated forwards, those behind it backwards.
  double factor_chain(double s, std::size_t b) {
    const auto& body = network_.grid().bodies[b];
    Border& border = borders_[b];
    std::vector<double>& diagonal = border.chain_inverse;
    for (std::size_t i = 0; i < body.cells; ++i) {
      diagonal[i] = inverse_[body.first_cell + i];
    }
    const auto link = [&](std::size_t i) {
      return s *
             network_.link_conductance(body.chain[i], body.first_cell + i, body.first_cell + i + 1);
    };
    const auto eliminate = [&](std::size_t from, std::size_t to, double g) {
      diagonal[from] = 1.0 / (diagonal[from] + g);
      border.chain_lower[from] = g * diagonal[from];
      diagonal[to] += g - g * border.chain_lower[from];
    };
    for (std::size_t i = 0; i < body.tied; ++i) {
      eliminate(i, i + 1, link(i));
    }
    for (std::size_t i = body.cells; i-- > body.tied + 1;) {
      eliminate(i, i - 1, link(i - 1));
    }
    return diagonal[body.tied];
  }

  /// With the run's columns eliminated, a head (tied cell) sees the conductor's line through
  /// alpha_j = s g * product of the column's lower factors, and itself through the columns.
  void factor_borders(double s) {
    const auto count = static_cast<Eigen::Index>(borders_.size());
    for (Eigen::Index b = 0; b < count; ++b) {
      Border& border = borders_[static_cast<std::size_t>(b)];
      double own = factor_chain(s, static_cast<std::size_t>(b));
      std::fill(border.influence.begin(), border.influence.end(), 0.0);
      for (const Tie& tie : border.ties) {
        double reach = tie.conductance;
        for (std::size_t k = tie.column.size(); k-- > 0;) {
          own -= reach * reach * inverse_[tie.column[k]];
          reach *= lower_[tie.column[k]];
        }
        border.influence[tie.station] += reach;
      }
      schur_(b, b) = own;
    }
    assemble_schur(count);
  }

  void assemble_schur(Eigen::Index count) {
    // alpha of every border before the line is solved with it.
    for (Eigen::Index b = 0; b < count; ++b) {
      for (Eigen::Index a = 0; a < count; ++a) {
        if (a != b) {
          schur_(a, b) = 0.0;
        }
      }
    }
    for (Eigen::Index b = 0; b < count; ++b) {
      Border& border = borders_[static_cast<std::size_t>(b)];
      alpha_ = border.influence;
      solve_line(border.influence.data());
      for (Eigen::Index a = 0; a < count; ++a) {
        const Border& other = borders_[static_cast<std::size_t>(a)];
        schur_(a, b) -= dot_alpha(other, border.influence);
      }
    }
    if (count > 0) {
      lu_.compute(schur_);
    }
  }

  /// alpha of a border times a line vector.
  [[nodiscard]] double dot_alpha(const Border& border, const std::vector<double>& line) const {
    double sum = 0.0;
    for (const Tie& tie : border.ties) {
      double reach = tie.conductance;
      for (std::size_t k = tie.column.size(); k-- > 0;) {
        reach *= lower_[tie.column[k]];
      }
      sum += reach * line[tie.station];
    }
    return sum;
  }

  /// Conductor's line and side bodies together.
  void solve_spine(double* x) const {
    const auto& bodies = network_.grid().bodies;
    for (std::size_t b = 0; b < borders_.size(); ++b) {
      heads_(static_cast<Eigen::Index>(b)) = head_residual(b, x);
    }
    solve_line(x);
    if (borders_.empty()) {
      return;
    }
    for (std::size_t b = 0; b < borders_.size(); ++b) {
      double sum = 0.0;
      for (const Tie& tie : borders_[b].ties) {
        double reach = tie.conductance;
        for (std::size_t k = tie.column.size(); k-- > 0;) {
          reach *= lower_[tie.column[k]];
        }
        sum += reach * x[tie.station];
      }
      heads_(static_cast<Eigen::Index>(b)) += sum;
    }
    heads_ = lu_.solve(heads_).eval();
    for (std::size_t b = 0; b < borders_.size(); ++b) {
      const double head = heads_(static_cast<Eigen::Index>(b));
      const Border& border = borders_[b];
      for (std::size_t j = 0; j < border.influence.size(); ++j) {
        x[j] += border.influence[j] * head;
      }
      for (const Tie& tie : border.ties) {  // the columns' own answer, for the outward sweep
        double reach = tie.conductance * head;
        for (std::size_t k = tie.column.size(); k-- > 0;) {
          x[tie.column[k]] += reach;
          reach *= lower_[tie.column[k]];
        }
      }
      back_along_chain(bodies[b], border, head, x);
    }
  }

  /// Reduced right-hand side of a tied cell: its chain and the columns it is tied to eliminated.
  [[nodiscard]] double head_residual(std::size_t b, double* x) const {
    const auto& body = network_.grid().bodies[b];
    const Border& border = borders_[b];
    double* chain = x + body.first_cell;
    for (std::size_t i = 0; i < body.tied; ++i) {
      chain[i + 1] += border.chain_lower[i] * chain[i];
    }
    for (std::size_t i = body.cells; i-- > body.tied + 1;) {
      chain[i - 1] += border.chain_lower[i] * chain[i];
    }
    double residual = chain[body.tied];
    for (const Tie& tie : border.ties) {
      double value = 0.0;
      for (const std::size_t c : tie.column) {
        value = x[c] * inverse_[c] + lower_[c] * value;
      }
      residual += tie.conductance * value;
    }
    return residual;
  }

  static void back_along_chain(const grid::SideBody& body, const Border& border, double head,
                               double* x) {
    double* chain = x + body.first_cell;
    chain[body.tied] = head;
    for (std::size_t i = body.tied; i-- > 0;) {
      chain[i] = chain[i] * border.chain_inverse[i] + border.chain_lower[i] * chain[i + 1];
    }
    for (std::size_t i = body.tied + 1; i < body.cells; ++i) {
      chain[i] = chain[i] * border.chain_inverse[i] + border.chain_lower[i] * chain[i - 1];
    }
  }

  // ---- radial sweeps ----------------------------------------------------------------------------
  void inwards(const grid::Patch& patch, double* x) const {
    for (std::size_t i = patch.rows; i-- > 0;) {
      const std::size_t first = patch.row(i);
      double* below = x + network_.row_below(patch, i);
      const double* here = x + first;
      const double* lower = lower_.data() + first;
#pragma GCC ivdep
      for (std::size_t j = 0; j < patch.stations; ++j) {
        below[j] += lower[j] * here[j];
      }
    }
  }

  void outwards(const grid::Patch& patch, double* x) const {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      const std::size_t first = patch.row(i);
      const double* below = x + network_.row_below(patch, i);
      double* here = x + first;
      const double* lower = lower_.data() + first;
      const double* inverse = inverse_.data() + first;
#pragma GCC ivdep
      for (std::size_t j = 0; j < patch.stations; ++j) {
        here[j] = here[j] * inverse[j] + lower[j] * below[j];
      }
    }
  }

  const HeatNetwork& network_;
  std::vector<double> inverse_, lower_;
  std::vector<double> line_inverse_, line_lower_;
  std::vector<double> alpha_;
  std::vector<Border> borders_;
  Eigen::MatrixXd schur_;
  Eigen::PartialPivLU<Eigen::MatrixXd> lu_;
  mutable Eigen::VectorXd heads_;
};

Comb::Comb(const HeatNetwork& network)
    : axial_(std::make_unique<Axial>(network)), radial_(std::make_unique<Radial>(network)) {}
Comb::~Comb() = default;

void Comb::factor(double s, std::span<const double> slope) {
  axial_->factor(s, slope);
  radial_->factor(s, slope);
}

void Comb::solve(std::span<double> rhs_then_x, std::span<double> axial) const {
  axial_->solve(rhs_then_x, axial);
  radial_->solve(rhs_then_x);
}

}  // namespace ampstair::marching
