// SPDX-License-Identifier: MIT
// Included once by each kernels_*.cpp, with AMPSTAIR_KERNELS (a namespace) and AMPSTAIR_LANES set.
// Plain loops over plain pointers: a library function instantiated here could be picked by the
// linker for code that runs on machines without these instructions.
#include "marching/kernels.hpp"

namespace ampstair::marching::AMPSTAIR_KERNELS {
namespace {

using Size = std::size_t;
using heat::ExchangeLaw;

template <Size N>
struct VectorTypes;
template <>
struct VectorTypes<8> {
  typedef double Type __attribute__((vector_size(64)));
  typedef long Mask __attribute__((vector_size(64)));
};
template <>
struct VectorTypes<4> {
  typedef double Type __attribute__((vector_size(32)));
  typedef long Mask __attribute__((vector_size(32)));
};
template <>
struct VectorTypes<2> {
  typedef double Type __attribute__((vector_size(16)));
  typedef long Mask __attribute__((vector_size(16)));
};
template <>
struct VectorTypes<1> {
  using Type = double;
};

template <Size N>
struct Vector : VectorTypes<N> {
  using Type = typename VectorTypes<N>::Type;

  static Type load(const double* p) {
    Type v;
    __builtin_memcpy(&v, p, sizeof v);
    return v;
  }
  static void store(double* p, Type v) { __builtin_memcpy(p, &v, sizeof v); }

  /// Rows of an N x N square become its columns: log2(N) rounds of exchanging halves.
  static void transpose(Type (&row)[N]) {
    if constexpr (N > 1) {
#pragma GCC unroll 8
      for (Size d = 1; d < N; d *= 2) {
        typename VectorTypes<N>::Mask low{};
        typename VectorTypes<N>::Mask high{};
#pragma GCC unroll 8
        for (Size lane = 0; lane < N; ++lane) {
          low[lane] = static_cast<long>((lane & d) == 0 ? lane : N + lane - d);
          high[lane] = static_cast<long>((lane & d) == 0 ? lane + d : N + lane);
        }
#pragma GCC unroll 8
        for (Size i = 0; i < N; ++i) {
          if ((i & d) == 0) {
            const Type a = row[i];
            const Type b = row[i + d];
            row[i] = __builtin_shuffle(a, b, low);
            row[i + d] = __builtin_shuffle(a, b, high);
          }
        }
      }
    }
  }
};

Size padded(Size n) {
  return (n + 7) / 8 * 8;
}

// ---- sums of stages ----

template <int Count>
void combine_n(Size n, double* __restrict out, const double* __restrict base, const double* weight,
               const StageView& stages) {
  const double w0 = weight[0], w1 = weight[1], w2 = weight[2], w3 = weight[3];
  const double* __restrict a = stages.u[0];
  const double* __restrict b = stages.u[1];
  const double* __restrict c = stages.u[2];
  const double* __restrict d = stages.u[3];
#pragma GCC ivdep
  for (Size i = 0; i < n; ++i) {
    double sum = base[i] + w0 * a[i];
    if constexpr (Count > 1) sum += w1 * b[i];
    if constexpr (Count > 2) sum += w2 * c[i];
    if constexpr (Count > 3) sum += w3 * d[i];
    out[i] = sum;
  }
}

void combine(Size count, Size n, double* out, const double* base, const double* weight,
             const StageView& stages) {
  switch (count) {
    case 1:
      return combine_n<1>(n, out, base, weight, stages);
    case 2:
      return combine_n<2>(n, out, base, weight, stages);
    case 3:
      return combine_n<3>(n, out, base, weight, stages);
    default:
      return combine_n<4>(n, out, base, weight, stages);
  }
}

template <int Count>
void right_hand_side_n(Size n, double* __restrict out, const double* __restrict net, double s,
                       const double* __restrict capacity, const double* weight,
                       const StageView& stages) {
  const double w0 = weight[0], w1 = weight[1], w2 = weight[2];
  const double* __restrict a = stages.u[0];
  const double* __restrict b = stages.u[1];
  const double* __restrict c = stages.u[2];
#pragma GCC ivdep
  for (Size i = 0; i < n; ++i) {
    double sum = 0.0;
    if constexpr (Count > 0) sum = w0 * a[i];
    if constexpr (Count > 1) sum += w1 * b[i];
    if constexpr (Count > 2) sum += w2 * c[i];
    out[i] = s * net[i] + capacity[i] * sum;
  }
}

void right_hand_side(Size count, Size n, double* out, const double* net, double s,
                     const double* capacity, const double* weight, const StageView& stages) {
  switch (count) {
    case 0:
      return right_hand_side_n<0>(n, out, net, s, capacity, weight, stages);
    case 1:
      return right_hand_side_n<1>(n, out, net, s, capacity, weight, stages);
    case 2:
      return right_hand_side_n<2>(n, out, net, s, capacity, weight, stages);
    default:
      return right_hand_side_n<3>(n, out, net, s, capacity, weight, stages);
  }
}

/// Eight sums side by side: the order of adding does not depend on the instruction set.
using Eight = Vector<8>;

double add_up(const Eight::Type& v) {
  return ((v[0] + v[1]) + (v[2] + v[3])) + ((v[4] + v[5]) + (v[6] + v[7]));
}

double error(Size n, const double* e, const StageView& stages, const double* slope) {
  Eight::Type largest = {};
  Eight::Type sum = {};  // becomes not a number when any value is
  for (Size i = 0; i < n; i += 8) {
    Eight::Type x = e[0] * Eight::load(stages.u[0] + i) + e[1] * Eight::load(stages.u[1] + i) +
                    e[2] * Eight::load(stages.u[2] + i) + e[3] * Eight::load(stages.u[3] + i);
    x = x * Eight::load(slope + i);
    x = x < 0.0 ? -x : x;
    largest = x > largest ? x : largest;
    sum += x;
  }
  double worst = 0.0;
  for (Size k = 0; k < 8; ++k) {
    worst = largest[k] > worst ? largest[k] : worst;
  }
  const double all = add_up(sum);
  return all == all ? worst : all;
}

double stored(Size n, const double* capacity, const double* u, const double* start) {
  Eight::Type sum = {};
  for (Size i = 0; i < n; i += 8) {
    sum += Eight::load(capacity + i) * (Eight::load(u + i) - Eight::load(start + i));
  }
  return add_up(sum);
}

// ---- conduction ----

void conduct_along(Size n, const double* __restrict t, const double* __restrict onward,
                   double* __restrict net) {
  if (n < 2) {
    net[0] = 0.0;
    return;
  }
  net[0] = onward[0] * (t[1] - t[0]);
#pragma GCC ivdep
  for (Size j = 1; j < n - 1; ++j) {
    net[j] = onward[j] * (t[j + 1] - t[j]) - onward[j - 1] * (t[j] - t[j - 1]);
  }
  net[n - 1] = -onward[n - 2] * (t[n - 1] - t[n - 2]);
}

void conduct_out(Size n, const double* __restrict t, const double* __restrict t_below,
                 const double* __restrict inward, double* __restrict net,
                 double* __restrict net_below) {
#pragma GCC ivdep
  for (Size j = 0; j < n; ++j) {
    const double flow = inward[j] * (t_below[j] - t[j]);
    net[j] += flow;
    net_below[j] -= flow;
  }
}

// ---- tridiagonal sweeps along the rows, N rows at a time ----

/// Coefficients of N rows are kept station by station: [station][row].
template <Size N>
void factor_block(Size stride, Size n, const double* diagonal, const double* onward, double* lower,
                  double* inverse) {
  using V = Vector<N>;
  typename V::Type before = {};  // link to the station before
  typename V::Type pivot = {};   // 1 / pivot of the station before
  for (Size j = 0; j < n; j += N) {
    typename V::Type d[N];
    typename V::Type link[N];
#pragma GCC unroll 8
    for (Size q = 0; q < N; ++q) {
      d[q] = V::load(diagonal + q * stride + j);
      link[q] = V::load(onward + q * stride + j);
    }
    V::transpose(d);
    V::transpose(link);
#pragma GCC unroll 8
    for (Size k = 0; k < N; ++k) {
      const Size at = (j + k) * N;
      const typename V::Type l = before * pivot;
      pivot = 1.0 / (d[k] - before * l);
      before = link[k];
      V::store(lower + at, l);
      V::store(inverse + at, pivot);
    }
  }
}

template <Size N>
void solve_block(Size stride, Size n, const double* lower, const double* inverse,
                 const double* weight, double* x, double* scratch) {
  using V = Vector<N>;
  typename V::Type y = {};
  for (Size j = 0; j < n; j += N) {
    typename V::Type r[N];
#pragma GCC unroll 8
    for (Size q = 0; q < N; ++q) {
      r[q] = V::load(x + q * stride + j);
    }
    V::transpose(r);
#pragma GCC unroll 8
    for (Size k = 0; k < N; ++k) {
      const Size at = (j + k) * N;
      y = r[k] + V::load(lower + at) * y;
      V::store(scratch + at, y);
    }
  }
  typename V::Type v = {};
  typename V::Type l = {};    // lower of the station behind
  for (Size j = n; j > 0;) {  // n is padded
    j -= N;
    typename V::Type r[N];
#pragma GCC unroll 8
    for (Size m = 1; m <= N; ++m) {
      const Size k = N - m;
      const Size at = (j + k) * N;
      v = V::load(scratch + at) * V::load(inverse + at) + l * v;
      l = V::load(lower + at);
      r[k] = v;
    }
    V::transpose(r);
#pragma GCC unroll 8
    for (Size q = 0; q < N; ++q) {
      const Size at = q * stride + j;
      V::store(x + at, V::load(weight + at) * r[q]);
    }
  }
}

/// Blocks of N rows, then what is left in narrower ones. `n` is padded: the padding's links are 0.
template <Size N, class Block>
void in_blocks(Size row, Size rows, const Block& block) {
  for (; row + N <= rows; row += N) {
    block.template operator()<N>(row);
  }
  if constexpr (N > 1) {
    if (row < rows) {
      in_blocks<N / 2>(row, rows, block);
    }
  }
}

void factor_rows(Size rows, Size stride, Size n, const double* diagonal, const double* onward,
                 double* lower, double* inverse) {
  in_blocks<AMPSTAIR_LANES>(0, rows, [&]<Size N>(Size row) {
    const Size at = row * stride;
    factor_block<N>(stride, padded(n), diagonal + at, onward + at, lower + at, inverse + at);
  });
}

void solve_rows(Size rows, Size stride, Size n, const double* lower, const double* inverse,
                const double* weight, double* x, double* scratch) {
  in_blocks<AMPSTAIR_LANES>(0, rows, [&]<Size N>(Size row) {
    const Size at = row * stride;
    solve_block<N>(stride, padded(n), lower + at, inverse + at, weight + at, x + at, scratch);
  });
}

// ---- sweeps across the rows ----

void eliminate(Size n, double s, const double* __restrict inward, double* __restrict here,
               double* __restrict below, double* __restrict lower) {
#pragma GCC ivdep
  for (Size j = 0; j < n; ++j) {
    const double link = s * inward[j];
    const double inverse = 1.0 / (here[j] + link);
    lower[j] = link * inverse;
    here[j] = inverse;
    below[j] += link - link * lower[j];
  }
}

void sweep_in(Size n, const double* __restrict lower, const double* __restrict here,
              double* __restrict below) {
#pragma GCC ivdep
  for (Size j = 0; j < n; ++j) {
    below[j] += lower[j] * here[j];
  }
}

void sweep_out(Size n, const double* __restrict lower, const double* __restrict inverse,
               const double* __restrict below, double* __restrict here) {
#pragma GCC ivdep
  for (Size j = 0; j < n; ++j) {
    here[j] = here[j] * inverse[j] + lower[j] * below[j];
  }
}

// ---- faces ----

struct Film {
  double value, slope_times_rise;
};

inline Film film(const ExchangeLaw& law, const double* __restrict value,
                 const double* __restrict rise, double excess) {
  const double root = __builtin_copysign(__builtin_sqrt(__builtin_fabs(excess)), excess);
  const double last = static_cast<double>(law.table_size - 1) - 1e-9;
  double x = (root - law.table_begin) / law.table_spacing;
  x = x < 0.0 ? 0.0 : x;
  x = x > last ? last : x;
  const int i = static_cast<int>(x);
  const double s = x - static_cast<double>(i);
  const double a = value[i], b = value[i + 1], ra = rise[i], rb = rise[i + 1];
  const double step = b - a;
  const double c2 = 3.0 * step - 2.0 * ra - rb;
  const double c3 = ra + rb - 2.0 * step;
  return {a + s * (ra + s * (c2 + s * c3)),
          // d/d root times excess / (2 |root|), without the division
          0.5 * root * (ra + s * (2.0 * c2 + 3.0 * s * c3)) / law.table_spacing};
}

/// Newton's method on the surface temperature, a fixed number of rounds from the linearised
/// prediction: the answer is a smooth function of the cell's temperature.
template <bool Tabulated>
void exchange_as(const ExchangeLaw& law, const FaceBatch& f) {
  const double* __restrict value = law.coefficient;
  const double* __restrict rise = law.coefficient_slope;
#pragma GCC ivdep
  for (Size i = 0; i < f.count; ++i) {
    const double cell = f.cell[i];
    const double g = f.conductance[i];
    double ts = f.guess[i] + f.guess_slope[i] * (cell - f.guess_cell[i]);
    double flux = 0.0;
    double slope = 0.0;
#pragma GCC unroll 3
    for (int round = 0; round < 3; ++round) {
      const double excess = ts - law.air;
      Film h{law.fixed, 0.0};
      if constexpr (Tabulated) h = film(law, value, rise, excess);
      const double cube = ts * ts * ts;
      flux = h.value * excess + law.radiation * cube * ts - law.walls_emission;
      slope = h.value + h.slope_times_rise + 4.0 * law.radiation * cube;
      const double step = (g * (cell - ts) - flux) / (g + slope);
      ts += step;
      flux += slope * step;
    }
    f.surface[i] = ts;
    f.flux[i] = flux;
    f.slope[i] = g * slope / (g + slope);
  }
}

void exchange(const ExchangeLaw& law, const FaceBatch& faces) {
  law.coefficient != nullptr ? exchange_as<true>(law, faces) : exchange_as<false>(law, faces);
}

}  // namespace

extern const Kernels table;
const Kernels table{AMPSTAIR_KERNELS_NAME,
                    AMPSTAIR_LANES,
                    combine,
                    right_hand_side,
                    error,
                    stored,
                    conduct_along,
                    conduct_out,
                    factor_rows,
                    solve_rows,
                    eliminate,
                    sweep_in,
                    sweep_out,
                    exchange};

}  // namespace ampstair::marching::AMPSTAIR_KERNELS
