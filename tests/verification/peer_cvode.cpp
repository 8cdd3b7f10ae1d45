// SPDX-License-Identifier: MIT
#include "peer_cvode.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_band.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "peer_jacobian.hpp"

namespace ampstair::tests {

namespace {

struct FreeContext {
  void operator()(SUNContext context) const { SUNContext_Free(&context); }
};
struct FreeVector {
  void operator()(N_Vector vector) const { N_VDestroy(vector); }
};
struct FreeMatrix {
  void operator()(SUNMatrix matrix) const { SUNMatDestroy(matrix); }
};
struct FreeSolver {
  void operator()(SUNLinearSolver solver) const { SUNLinSolFree(solver); }
};
struct FreeMemory {
  void operator()(void* memory) const { CVodeFree(&memory); }
};
using Context = std::unique_ptr<std::remove_pointer_t<SUNContext>, FreeContext>;
using OwnedVector = std::unique_ptr<std::remove_pointer_t<N_Vector>, FreeVector>;
using Matrix = std::unique_ptr<std::remove_pointer_t<SUNMatrix>, FreeMatrix>;
using LinearSolver = std::unique_ptr<std::remove_pointer_t<SUNLinearSolver>, FreeSolver>;
using Memory = std::unique_ptr<void, FreeMemory>;

void demand(int flag, const char* what) {
  if (flag < 0) {
    const std::unique_ptr<char, decltype(&std::free)> name(CVodeGetReturnFlagName(flag),
                                                           &std::free);
    throw std::runtime_error(std::string(what) + " returned " + name.get());
  }
}

Context new_context() {
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  return Context(context);
}

sunindextype index(std::size_t i) {
  return static_cast<sunindextype>(i);
}

/// Rows of every column of the Jacobian, ascending, and where a column begins.
struct Pattern {
  std::vector<sunindextype> begin, row;

  Pattern(const std::vector<Conduction>& pairs, const Unknowns& unknowns) {
    std::vector<std::pair<std::size_t, std::size_t>> entries;  // column, row
    for (std::size_t k = 0; k < unknowns.size(); ++k) {
      entries.emplace_back(k, k);
    }
    for (const Conduction& pair : pairs) {
      entries.emplace_back(unknowns.index[pair.a], unknowns.index[pair.b]);
      entries.emplace_back(unknowns.index[pair.b], unknowns.index[pair.a]);
    }
    std::sort(entries.begin(), entries.end());
    entries.erase(std::unique(entries.begin(), entries.end()), entries.end());
    begin.assign(unknowns.size() + 1, 0);
    for (const auto& [column, r] : entries) {
      ++begin[column + 1];
      row.push_back(index(r));
    }
    for (std::size_t k = 0; k < unknowns.size(); ++k) {
      begin[k + 1] += begin[k];
    }
  }

  [[nodiscard]] std::size_t place(std::size_t r, std::size_t column) const {
    const auto from = row.begin() + begin[column];
    const auto to = row.begin() + begin[column + 1];
    return static_cast<std::size_t>(std::lower_bound(from, to, index(r)) - row.begin());
  }
};

}  // namespace

class CvodeMarch::Integration {
 public:
  Integration(const scenario::Scenario& scenario, marching::HeatNetwork& network, Solver solver)
      : scenario_(scenario),
        network_(network),
        context_(new_context()),
        unknowns_(solver == Solver::klu ? unknowns_as_laid(network) : unknowns_in_band(network)),
        start_(network.uniform(scenario.start_temperature)),
        u_(start_),
        temperature_(start_),
        net_(start_.size(), 0.0),
        slope_(start_.size(), 1.0),
        y_(N_VNew_Serial(index(unknowns_.size()), context_.get())),
        memory_(CVodeCreate(CV_BDF, context_.get())) {
    N_VConst(0.0, y_.get());
    demand(CVodeInit(memory_.get(), rates, 0.0, y_.get()), "CVodeInit");
    demand(CVodeSetUserData(memory_.get(), this), "CVodeSetUserData");
    demand(CVodeSetErrHandlerFn(memory_.get(), stay_silent, nullptr), "CVodeSetErrHandlerFn");
    demand(CVodeSetMaxNumSteps(memory_.get(), 10'000'000), "CVodeSetMaxNumSteps");
    solver == Solver::klu ? solve_sparse() : solve_banded();
    demand(CVodeSetLinearSolver(memory_.get(), solver_.get(), matrix_.get()),
           "CVodeSetLinearSolver");
    demand(CVodeSetJacFn(memory_.get(), jacobian), "CVodeSetJacFn");
  }

  Count march(const Tolerance& tolerance, marching::Observer& observer, const Tuning& tuning) {
    count_ = {};
    tune(tolerance, tuning);
    N_VConst(0.0, y_.get());
    time_ = 0.0;
    next_output_ = 0;
    network_.set_surroundings(0.0);
    network_.set_drive({scenario_.staircase[0].kind, scenario_.staircase[0].level});
    report(observer, 0, false);
    double begin = 0.0;
    for (std::size_t s = 0; s < scenario_.staircase.size(); ++s) {
      const double end = begin + scenario_.staircase[s].duration;
      climb(observer, s, begin, end);
      begin = end;
    }
    return count_;
  }

  [[nodiscard]] std::size_t half_bandwidth() const {
    return tests::half_bandwidth(conductions(network_), unknowns_);
  }

 private:
  void solve_sparse() {
    pattern_.emplace(conductions(network_), unknowns_);
    const Pattern& pattern = *pattern_;
    matrix_.reset(SUNSparseMatrix(index(unknowns_.size()), index(unknowns_.size()),
                                  index(pattern.row.size()), CSC_MAT, context_.get()));
    solver_.reset(SUNLinSol_KLU(y_.get(), matrix_.get(), context_.get()));
    constexpr int approximate_minimum_degree = 0;
    demand(SUNLinSol_KLUSetOrdering(solver_.get(), approximate_minimum_degree),
           "SUNLinSol_KLUSetOrdering");
    jacobian_ = std::make_unique<HeatJacobian>(
        network_, unknowns_,
        [&](std::size_t row, std::size_t column) { return pattern.place(row, column); });
  }

  void solve_banded() {
    const sunindextype half = index(half_bandwidth());
    matrix_.reset(SUNBandMatrix(index(unknowns_.size()), half, half, context_.get()));
    solver_.reset(SUNLinSol_Band(y_.get(), matrix_.get(), context_.get()));
    const sunindextype length = SUNBandMatrix_LDim(matrix_.get());
    const sunindextype above = SUNBandMatrix_StoredUpperBandwidth(matrix_.get());
    jacobian_ = std::make_unique<HeatJacobian>(
        network_, unknowns_, [&](std::size_t row, std::size_t column) {
          return static_cast<std::size_t>(index(column) * length + index(row) - index(column) +
                                          above);
        });
  }

  void tune(const Tolerance& tolerance, const Tuning& tuning) {
    void* memory = memory_.get();
    demand(CVodeSStolerances(memory, tolerance.relative, tolerance.absolute), "CVodeSStolerances");
    demand(CVodeSetMaxOrd(memory, tuning.largest_order), "CVodeSetMaxOrd");
    demand(CVodeSetLSetupFrequency(memory, tuning.steps_between_factors),
           "CVodeSetLSetupFrequency");
    demand(CVodeSetJacEvalFrequency(memory, tuning.steps_between_jacobians),
           "CVodeSetJacEvalFrequency");
    demand(CVodeSetNonlinConvCoef(memory, tuning.newton_tolerance), "CVodeSetNonlinConvCoef");
  }

  // ---- phases and outputs ----------------------------------------------------------------------
  void climb(marching::Observer& observer, std::size_t step, double begin, double end) {
    network_.set_drive({scenario_.staircase[step].kind, scenario_.staircase[step].level});
    std::vector<double> cuts{end};
    for (const auto& around : scenario_.surroundings) {
      for (const auto& air : around.air) {
        if (air.from_time > begin && air.from_time < end) {
          cuts.push_back(air.from_time);
        }
      }
    }
    std::sort(cuts.begin(), cuts.end());
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
    for (const double cut : cuts) {
      network_.set_surroundings(time_);
      phase(observer, step, cut);
      if (cut == end || output_time() <= cut * (1.0 + 1e-12)) {
        report(observer, step, cut == end);
      }
    }
  }

  /// Integrates to `end` under constant drive and surroundings.
  void phase(marching::Observer& observer, std::size_t step, double end) {
    void* memory = memory_.get();
    demand(CVodeReInit(memory, time_, y_.get()), "CVodeReInit");
    demand(CVodeSetStopTime(memory, end), "CVodeSetStopTime");
    while (output_time() < end * (1.0 - 1e-12)) {
      integrate(output_time());
      report(observer, step, false);
    }
    integrate(end);
    time_ = end;
    add_counts();
  }

  void integrate(double until) {
    demand(CVode(memory_.get(), until, y_.get(), &time_, CV_NORMAL), "CVode");
  }

  void add_counts() {
    void* memory = memory_.get();
    const auto add = [&](auto get, long& sum) {
      long value = 0;
      get(memory, &value);
      sum += value;
    };
    add(CVodeGetNumSteps, count_.steps);
    add(CVodeGetNumErrTestFails, count_.rejected);
    add(CVodeGetNumRhsEvals, count_.rates);
    add(CVodeGetNumLinSolvSetups, count_.factors);
    add(CVodeGetNumJacEvals, count_.jacobians);
    add(CVodeGetNumNonlinSolvConvFails, count_.newton_failures);
  }

  [[nodiscard]] double output_time() const {
    return scenario_.output.every * static_cast<double>(next_output_);
  }

  void report(marching::Observer& observer, std::size_t step, bool step_ends) {
    spread(y_.get());
    marching::Moment moment;
    moment.time = time_;
    moment.step = step;
    moment.step_ends = step_ends;
    moment.temperature = temperature_;
    moment.electrical = network_.electrical(temperature_, moment.time);
    moment.power = moment.electrical.current * moment.electrical.wire_voltage;
    observer.moment(moment);
    observer.advanced(time_);
    while (output_time() <= time_ * (1.0 + 1e-12)) {
      ++next_output_;
    }
  }

  // ---- what CVODE calls ------------------------------------------------------------------------
  /// From CVODE's vector, the rise of u over the start, to the temperatures of all cells: a copy,
  /// since its storage knows neither our padding nor our alignment.
  void spread(N_Vector y) {
    const double* rise = N_VGetArrayPointer(y);
    for (std::size_t k = 0; k < unknowns_.size(); ++k) {
      const std::size_t c = unknowns_.cell[k];
      u_[c] = start_[c] + rise[k];
    }
    network_.temperatures(u_, temperature_, slope_);
  }

  static int rates(double /*time*/, N_Vector y, N_Vector rate, void* self) {
    auto& me = *static_cast<Integration*>(self);
    me.spread(y);
    me.network_.rates(me.temperature_, me.net_, false);
    const double* capacity = me.network_.capacity().data();
    double* out = N_VGetArrayPointer(rate);
    for (std::size_t k = 0; k < me.unknowns_.size(); ++k) {
      const std::size_t c = me.unknowns_.cell[k];
      out[k] = me.net_[c] / capacity[c];
    }
    return 0;
  }

  static int jacobian(double /*time*/, N_Vector y, N_Vector /*rate*/, SUNMatrix matrix, void* self,
                      N_Vector, N_Vector, N_Vector) {
    auto& me = *static_cast<Integration*>(self);
    me.spread(y);
    me.network_.rates(me.temperature_, me.net_, true);
    if (!me.pattern_) {
      me.jacobian_->fill(me.slope_, SUNBandMatrix_Data(matrix));
      return 0;
    }
    const Pattern& pattern = *me.pattern_;  // CVODE has zeroed it, too
    std::copy(pattern.begin.begin(), pattern.begin.end(), SUNSparseMatrix_IndexPointers(matrix));
    std::copy(pattern.row.begin(), pattern.row.end(), SUNSparseMatrix_IndexValues(matrix));
    me.jacobian_->fill(me.slope_, SUNSparseMatrix_Data(matrix));
    return 0;
  }

  static void stay_silent(int, const char*, const char*, char*, void*) {}

  const scenario::Scenario& scenario_;
  marching::HeatNetwork& network_;
  Context context_;
  Unknowns unknowns_;
  std::vector<double> start_, u_, temperature_, net_, slope_;
  OwnedVector y_;
  Matrix matrix_;
  LinearSolver solver_;
  Memory memory_;
  std::optional<Pattern> pattern_;  // of the sparse matrix; none for the banded one
  std::unique_ptr<HeatJacobian> jacobian_;
  double time_ = 0.0;
  std::size_t next_output_ = 0;
  Count count_;
};

CvodeMarch::CvodeMarch(const scenario::Scenario& scenario, marching::HeatNetwork& network,
                       Solver solver)
    : integration_(std::make_unique<Integration>(scenario, network, solver)) {}
CvodeMarch::~CvodeMarch() = default;

CvodeMarch::Count CvodeMarch::march(const Tolerance& tolerance, marching::Observer& observer,
                                    const Tuning& tuning) {
  return integration_->march(tolerance, observer, tuning);
}

CvodeMarch::Count CvodeMarch::march(const Tolerance& tolerance, marching::Observer& observer) {
  return march(tolerance, observer, Tuning());
}

std::size_t CvodeMarch::half_bandwidth() const {
  return integration_->half_bandwidth();
}

}  // namespace ampstair::tests
