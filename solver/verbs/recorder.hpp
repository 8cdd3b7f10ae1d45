// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "history/layout.hpp"
#include "history/writer.hpp"
#include "marching/march.hpp"
#include "marching/view.hpp"
#include "marching/wood_contacts.hpp"
#include "verbs/budgets.hpp"
#include "verbs/conversions.hpp"
#include "verbs/grid_error.hpp"
#include "verbs/temperatures.hpp"

namespace ampstair::verbs {

/// Where the run sheet came from, for the record.
struct SheetSource {
  std::string name;  ///< file name as the user gave it
  std::string text;  ///< word for word
};

/// Whether a record holds a bar of the grid's error beside every temperature.
enum class Bars { none, of_grid };

/// What a march of this scenario on this grid will write: axes, histories and tables.
history::Layout record_layout(const scenario::Scenario& scenario,
                              const marching::HeatNetwork& network, const marching::View& view,
                              const marching::WoodContacts& contacts, const SheetSource& sheet,
                              Bars bars);

/// Writes every moment of a march as a row of a record made with record_layout(). With bars, the
/// rows of events wait for the next regular row, whose bars they need.
class Recorder final : public marching::Observer {
 public:
  /// Asked after every time step; false stops the march.
  using KeepGoing = std::function<bool(double time)>;

  /// @param contacts kept up by the march
  /// @param budgets taken at the ends of steps
  /// @param grid_error null: a record without bars
  Recorder(const scenario::Scenario& scenario, const marching::HeatNetwork& network,
           Temperatures& temperatures, const marching::WoodContacts& contacts, Budgets& budgets,
           GridError* grid_error, history::RecordWriter& writer, KeepGoing keep_going);

  void moment(const marching::Moment& moment) override;
  [[nodiscard]] std::span<const marching::Stretch> reads() const override { return reads_; }
  void event(const marching::Event& event) override { events_.push_back(event); }
  void flag(const marching::Flag& flag) override { flags_.push_back(flag); }
  bool advanced(double time) override { return keep_going_(time); }
  /// Writes rows that still wait, when the march is over.
  void write_waiting();

  /// What was located so far, for the record's end.
  [[nodiscard]] history::Table events_table() const;
  /// What lay outside of what the model holds for so far.
  [[nodiscard]] const std::vector<marching::Flag>& flags() const { return flags_; }

  /// Largest gap of the energy ledger so far, as a part of the heat made.
  [[nodiscard]] double worst_gap() const { return worst_gap_; }
  /// Hottest conductor temperature so far, K.
  [[nodiscard]] double hottest() const { return hottest_; }
  /// Resistance of wire, contacts and leads in the first row and the highest so far, ohm.
  [[nodiscard]] double cold_loop() const { return cold_loop_; }
  [[nodiscard]] double highest_loop() const { return highest_loop_; }
  /// Time spent in moment() so far: finding what to write, and writing it.
  [[nodiscard]] std::chrono::steady_clock::duration time_spent() const { return time_spent_; }

 private:
  using Rows = std::vector<std::vector<double>>;  // in the order of the layout's series

  void gather(const marching::Moment& moment);
  void add_bars(const marching::Moment& moment);
  void append(double time, const Rows& rows);
  void write_field(const marching::Moment& moment);

  const scenario::Scenario& scenario_;
  const marching::HeatNetwork& network_;
  Temperatures& temperatures_;
  const marching::WoodContacts& contacts_;
  Budgets& budgets_;
  Conversions conversions_;
  GridError* grid_error_;
  history::RecordWriter& writer_;
  KeepGoing keep_going_;
  std::vector<marching::Event> events_;
  std::vector<marching::Flag> flags_;
  Rows rows_;
  struct Waiting {
    double time = 0.0;
    Rows rows;
  };
  std::vector<Waiting> waiting_;
  std::vector<std::span<const double>> spans_;
  std::vector<marching::Stretch> reads_;  // none where whole fields are kept on the way
  std::vector<double> field_;
  std::vector<std::size_t> field_cells_;  // cells without the padding
  double next_field_ = 0.0;
  double worst_gap_ = 0.0;
  double hottest_ = 0.0;
  double cold_loop_ = 0.0;
  double highest_loop_ = 0.0;
  std::chrono::steady_clock::duration time_spent_{};
};

}  // namespace ampstair::verbs
