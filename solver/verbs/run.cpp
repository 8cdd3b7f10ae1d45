// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <functional>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "diagnostics/problem.hpp"
#include "heat/constants.hpp"
#include "history/writer.hpp"
#include "marching/levels.hpp"
#include "marching/march.hpp"
#include "marching/validity.hpp"
#include "scenario/arrangement.hpp"
#include "scenario/load.hpp"
#include "verbs/large_pages.hpp"
#include "verbs/options.hpp"
#include "verbs/progress.hpp"
#include "verbs/recorder.hpp"
#include "verbs/sheet_table.hpp"
#include "verbs/stability.hpp"
#include "verbs/validity_table.hpp"
#include "verbs/verbs.hpp"

namespace ampstair::verbs {

namespace {

namespace po = boost::program_options;
using diagnostics::ExitCode;
using marching::Summary;

volatile std::sig_atomic_t interrupted = 0;

void on_interrupt(int) {
  interrupted = 1;
}

/// While it lives, Ctrl-C and a polite kill end the march at its next time step.
class InterruptGuard {
 public:
  InterruptGuard() {
    interrupted = 0;
    struct sigaction action {};
    action.sa_handler = on_interrupt;
    sigaction(SIGINT, &action, &before_[0]);
    sigaction(SIGTERM, &action, &before_[1]);
  }
  ~InterruptGuard() {
    sigaction(SIGINT, &before_[0], nullptr);
    sigaction(SIGTERM, &before_[1], nullptr);
  }
  InterruptGuard(const InterruptGuard&) = delete;
  InterruptGuard& operator=(const InterruptGuard&) = delete;

 private:
  struct sigaction before_[2]{};
};

/// Where the record goes: the option, else the sheet's output, else the sheet's name with .h5; the
/// last two beside the sheet.
std::filesystem::path record_path(const po::variables_map& options,
                                  const std::filesystem::path& sheet,
                                  const scenario::Scenario& scenario) {
  if (options.count("record") > 0) {
    return options["record"].as<std::string>();
  }
  std::filesystem::path path = scenario.output.history.empty()
                                   ? sheet.filename().replace_extension(".h5")
                                   : std::filesystem::path(scenario.output.history);
  if (scenario.arrangement != scenario::as_built) {
    path.replace_filename(path.stem().string() + " (" + scenario.arrangement + ")" +
                          path.extension().string());
  }
  return path.is_absolute() ? path : sheet.parent_path() / path;
}

std::string ending_words(const Summary& summary) {
  const std::string minute = fmt::format("{:.4g} min", summary.end_time / 60.0);
  switch (summary.ending) {
    case Summary::Ending::validity_ends:
      return fmt::format(
          "The march stops at {}, before the staircase ends; the record is finished as far. A "
          "sheet goes on with  beyond: {{reason: \"...\"}}.",
          minute);
    case Summary::Ending::step_too_short:
      return fmt::format(
          "The march cannot go on past {}: the temperatures change too fast to be followed.",
          minute);
    case Summary::Ending::stopped_by_observer:
      return fmt::format("Stopped at {}; the record ends at its last row and is not finished.",
                         minute);
    default:
      return fmt::format("The staircase ends at {}.", minute);
  }
}

/// What became of a conductor that reached its melting point; "" where it did not.
std::string melting_words(const Summary& summary) {
  if (!summary.melts) {
    return {};
  }
  const auto where = [](const marching::Event& event) {
    return fmt::format("at {:.4g} min and {:.3f} m, with {:.4g} A", event.time / 60.0,
                       event.position, event.current);
  };
  std::string words = "The conductor begins to melt " + where(*summary.melts);
  words += summary.parts ? " and parts " + where(*summary.parts) +
                               "; from then on it carries no current unless a step says that it is "
                               "rejoined."
                         : "; it does not part.";
  return words + " Arc, droplets and the molten metal's own resistance are not modelled.\n";
}

/// Where open pieces have lost their covering; "" where none has.
std::string bare_words(const Summary& summary) {
  return summary.covering_gone
             ? fmt::format("The covering is gone from {:.4g} min on, first at {:.3f} m.\n",
                           summary.covering_gone->time / 60.0, summary.covering_gone->position)
             : std::string();
}

constexpr std::size_t room_for_marches = std::size_t{256} << 20U;

using Clock = std::chrono::steady_clock;
using Milliseconds = std::chrono::duration<double, std::milli>;

/// Where the time of a run went, by the clock on the wall.
struct TimeSplit {
  Milliseconds reading{}, grid{}, coarse{}, marching{}, writing{};

  [[nodiscard]] Milliseconds all() const { return reading + grid + coarse + marching + writing; }
};

std::string error_words(const Summary& summary, const std::optional<GridError>& grid_error) {
  const std::string of_grid =
      grid_error ? fmt::format("grid error at most about {:.2g} K, of the conductor {:.2g} K",
                               grid_error->largest(), grid_error->largest(0))
                 : "the grid's error was not estimated (--with-error estimates it)";
  return fmt::format("Time error at most about {:.2g} K; {}.", summary.error_estimate, of_grid);
}

std::string time_words(const TimeSplit& time) {
  const std::string coarse = time.coarse.count() > 0.0
                                 ? fmt::format("the coarser march {:.0f}, ", time.coarse.count())
                                 : "";
  return fmt::format(
      "Of that time, reading the sheet took {:.0f} ms, the grid {:.0f}, {}marching {:.0f}, writing "
      "{:.0f}.",
      time.reading.count(), time.grid.count(), coarse, time.marching.count(), time.writing.count());
}

void print_validity(const scenario::Scenario& scenario, const Recorder& recorder) {
  if (scenario.beyond) {
    std::cout << "The sheet has the staircase go on where it would stop: " << *scenario.beyond
              << '\n';
  }
  print_runaway_steps(std::cout, scenario);
  for (const auto& flag : recorder.flags()) {
    std::cout << flag_words(flag, scenario) << '\n';
  }
}

void print_summary(const Summary& summary, const Recorder& recorder,
                   const std::optional<GridError>& grid_error, const std::filesystem::path& record,
                   const TimeSplit& time) {
  std::cout << ending_words(summary) << '\n'
            << bare_words(summary) << melting_words(summary)
            << fmt::format("Hottest conductor temperature of the model: {:.0f} degC.\n",
                           recorder.hottest() - heat::zero_celsius)
            << fmt::format(
                   "Resistance of wire, contacts and leads: {:.4g} mohm at the begin, at most "
                   "{:.4g} mohm.\n",
                   1e3 * recorder.cold_loop(), 1e3 * recorder.highest_loop())
            << error_words(summary, grid_error) << '\n'
            << fmt::format(
                   "{} time steps ({} tried again) on {} cells in {:.2g} s; heat made = lost + "
                   "stored to {:.0e}.\n",
                   summary.steps, summary.rejected, summary.cells, 1e-3 * time.all().count(),
                   recorder.worst_gap())
            << time_words(time) << "\nRecord: " << record.string()
            << "\nRead it with: ampstair-post verdict " << record.string() << '\n';
}

/// What is known at the end only.
std::vector<history::RecordWriter::Closing> closing_facts(
    const Summary& summary, const Recorder& recorder, const std::optional<GridError>& grid_error) {
  std::vector<history::RecordWriter::Closing> facts{
      {"time_steps", static_cast<double>(summary.steps)},
      {"time_steps_rejected", static_cast<double>(summary.rejected)},
      {"readings_for_events", static_cast<double>(summary.looks)},
      {"worst_ledger_gap", recorder.worst_gap()},
      {"conductor_melted", summary.melts ? 1.0 : 0.0},
      {"conductor_parted", summary.parts ? 1.0 : 0.0},
      {"time_error", summary.error_estimate}};
  if (grid_error) {
    facts.push_back({"grid_error", grid_error->largest()});
  }
  return facts;
}

bool is_cut_off(const Summary& summary) {
  return summary.ending == Summary::Ending::stopped_by_observer ||
         summary.ending == Summary::Ending::step_too_short;
}

/// A march that may take long: tells how far it is, and can be interrupted.
class Watched {
 public:
  Watched(const scenario::Scenario& scenario, bool quiet)
      : progress_(scenario.duration(), !quiet && isatty(STDERR_FILENO) != 0) {}
  ~Watched() { progress_.finish(); }
  Watched(const Watched&) = delete;
  Watched& operator=(const Watched&) = delete;

  bool operator()(double time) {
    progress_.at(time);
    return interrupted == 0;
  }

 private:
  Progress progress_;
};

std::optional<GridError> grid_error_of(const scenario::Scenario& scenario,
                                       const marching::HeatNetwork& network,
                                       const Temperatures& temperatures, bool quiet) {
  Watched watched(scenario, quiet);
  return GridError(temperatures.places(), march_coarse(scenario, std::ref(watched)),
                   corners_of(network));
}

ExitCode march_and_record(const scenario::Loaded& loaded, const std::filesystem::path& sheet,
                          const po::variables_map& options, TimeSplit split) {
  const bool quiet = options.count("quiet") > 0;
  const Bars bars = options.count("with-error") > 0 ? Bars::of_grid : Bars::none;
  const auto& scenario = loaded.scenario;
  const auto begin = Clock::now();
  const grid::Grid grid = grid::build(scenario);
  marching::HeatNetwork network(grid, scenario);
  marching::View view(network, scenario);
  marching::WoodContacts contacts(network);
  const auto gridded = Clock::now();
  split.grid = gridded - begin;
  const auto path = record_path(options, sheet, scenario);
  const SheetSource source{sheet.filename().string(), loaded.document.text};
  auto layout = record_layout(scenario, network, view, contacts, source, bars);
  layout.tables.push_back(sheet_table(loaded.sheet));
  history::RecordWriter writer(path, layout,
                               options.count("overwrite") > 0
                                   ? history::IfExists::replace_when_finished
                                   : history::IfExists::refuse);
  const auto opened = Clock::now();
  const InterruptGuard guard;
  Temperatures temperatures(scenario, network, view);
  auto grid_error = bars == Bars::of_grid ? grid_error_of(scenario, network, temperatures, quiet)
                                          : std::optional<GridError>();
  const auto started = Clock::now();
  split.coarse = bars == Bars::of_grid ? started - opened : Clock::duration{};
  std::optional<Watched> watched(std::in_place, scenario, quiet);
  Budgets budgets(scenario, network, view);
  Recorder recorder(scenario, network, temperatures, contacts, budgets,
                    grid_error ? &*grid_error : nullptr, writer, std::ref(*watched));
  marching::Levels levels(network, view, scenario);
  marching::Validity validity(network, view, scenario);
  const Summary summary =
      marching::march(scenario, network, recorder, &levels, &contacts, &validity);
  const auto marched = Clock::now();
  split.marching = marched - started - recorder.time_spent();
  watched.reset();
  recorder.write_waiting();
  if (is_cut_off(summary)) {
    writer.flush();
    std::cerr << ending_words(summary) << '\n';
    return ExitCode::interrupted;
  }
  auto found = budgets.tables();
  found.push_back(recorder.events_table());
  found.push_back(validity_table(recorder.flags()));
  writer.finish(closing_facts(summary, recorder, grid_error), found);
  split.writing = (opened - gridded) + recorder.time_spent() + (Clock::now() - marched);
  if (!quiet) {
    print_summary(summary, recorder, grid_error, path, split);
    print_validity(scenario, recorder);
  }
  return summary.ending == Summary::Ending::validity_ends ? ExitCode::undecided : ExitCode::clear;
}

}  // namespace

diagnostics::ExitCode run(Arguments arguments) {
  Options declared(
      "run SHEET [-o RECORD] [--arrangement NAME] [--with-error] [--overwrite] [--quiet]",
      "Marches a run sheet through its staircase and writes the record.", 1);
  declared.add()("record,o", po::value<std::string>()->value_name("RECORD"),
                 "where the record goes; else as the sheet's output says, beside the sheet")(
      "arrangement",
      po::value<std::string>()->default_value(scenario::as_built)->value_name("NAME"),
      "which arrangement of the sheet to march")(
      "with-error", "march a second time on a coarser grid and record the grid's error")(
      "overwrite", "replace a record of this name once the new one is finished")(
      "quiet", "print nothing but problems");
  const auto options = declared.read(arguments);
  if (!options) {
    return ExitCode::clear;
  }
  ask_for_large_pages(room_for_marches);
  const std::filesystem::path sheet = plain_argument(*options, 0);
  TimeSplit split;
  const auto begin = Clock::now();
  const auto loaded = scenario::load(sheet, (*options)["arrangement"].as<std::string>());
  loaded.warnings.print(std::cerr);
  split.reading = Clock::now() - begin;
  return march_and_record(loaded, sheet, *options, split);
}

}  // namespace ampstair::verbs
