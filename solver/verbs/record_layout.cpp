// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cctype>
#include <utility>

#include "history/provenance.hpp"
#include "verbs/drive_tables.hpp"
#include "verbs/instrument_tables.hpp"
#include "verbs/record_tables.hpp"
#include "verbs/recorder.hpp"
#include "verbs/stability.hpp"

namespace ampstair::verbs {

namespace {

using history::Layout;
using history::Precision;
using scenario::Scenario;
using Numbers = std::vector<double>;
using Texts = std::vector<std::string>;

/// "sleeve lining" -> "sleeve_lining": what a dataset may be called.
std::string dataset_name(const std::string& part) {
  std::string name = part;
  std::replace_if(
      name.begin(), name.end(), [](unsigned char c) { return std::isalnum(c) == 0 || c > 127; },
      '_');
  return name.empty() || std::isdigit(static_cast<unsigned char>(name.front())) != 0
             ? "part_" + name
             : name;
}

class LayoutBuilder {
 public:
  LayoutBuilder(const Scenario& s, const marching::HeatNetwork& network, const marching::View& view,
                const marching::WoodContacts& contacts, Bars bars)
      : scenario_(s), network_(network), view_(view), contacts_(contacts), bars_(bars) {}

  void fill(Layout& layout) {
    layout_ = &layout;
    layout.axes.push_back(
        {{"position", "distance from the start of the run", "m"}, network_.grid().station_centre});
    scalars();
    series("conductor_temperature", "conductor", "degC", "position", Precision::single);
    series("surface_temperature", "outermost surface of the run", "degC", "position",
           Precision::single);
    conductor_parts();
    other_parts();
    probes();
    if (bars_ == Bars::of_grid) {
      bars_of_grid();
    }
    wood();
    conversions();
    Numbers cells(network_.grid().real_cells);
    for (std::size_t c = 0; c < cells.size(); ++c) {
      cells[c] = static_cast<double>(c);
    }
    layout.axes.push_back({{"cell", "row of the table grid", "1"}, std::move(cells)});
    const auto add = [&](history::Table table) { layout.tables.push_back(std::move(table)); };
    add(pieces_table(scenario_));
    add(steps_table(scenario_));
    add(legs_table(scenario_));
    add(device_table(scenario_));
    add(openings_table(scenario_));
    add(probes_table(scenario_));
    add(watch_table(scenario_));
    add(values_table(scenario_));
    add(settings_table(scenario_, network_));
    add(grid_table(network_));
    add(parts_table());
    if (!scenario_.files.empty()) {
      add(files_table(scenario_));
    }
    if (auto table = stability_table(scenario_)) {
      add(std::move(*table));
    }
    for (auto& table : instrument_tables(scenario_, network_)) {
      add(std::move(table));
    }
  }

 private:
  void series(std::string name, std::string long_name, const char* units, std::string axis,
              Precision precision) {
    layout_->series.push_back(
        {{std::move(name), std::move(long_name), units}, std::move(axis), precision});
  }

  void scalars() {
    const auto add = [&](const char* name, const char* long_name, const char* units) {
      series(name, long_name, units, "", Precision::full);
    };
    add("step", "step of the staircase the row belongs to, from 0", "1");
    add("current_asked", "current asked of the supply", "A");
    add("current", "current got", "A");
    add("voltage", "voltage over the wire from end to end", "V");
    add("supply_voltage", "voltage over wire, contacts and leads", "V");
    add("power", "heat made in the wire and its joints", "W");
    add("loop_resistance", "resistance of wire, contacts and leads", "ohm");
    add("heat_made", "heat made since the start, contacts, leads and breakdown included", "J");
    add("heat_lost", "heat given to the surroundings since the start", "J");
    add("heat_stored", "heat stored since the start", "J");
    add("ledger_gap", "heat made minus lost minus stored", "J");
    add("ambient_air", "air around the run, where a piece has none of its own", "degC");
    add("ambient_walls", "walls around the run, likewise", "degC");
    add("ambient_speed", "of that air across the run", "m s-1");
  }

  void add_part(std::string name, std::string series_name, std::string axis) {
    part_names_.push_back(std::move(name));
    part_series_.push_back(std::move(series_name));
    part_axes_.push_back(std::move(axis));
  }

  void conductor_parts() {
    add_part("conductor", "conductor_temperature", "position");
    add_part("surface", "surface_temperature", "position");
    if (!scenario_.wire.layers.empty()) {
      // Its inner face touches the conductor: that is its hottest radius.
      add_part(scenario_.wire.layers.front().part, "conductor_temperature", "position");
      add_part("covering", "conductor_temperature", "position");
    }
  }

  void other_parts() {
    for (const auto& part : view_.parts()) {
      const std::string name = dataset_name(part.name);
      std::string axis = "position";
      if (!part.everywhere) {
        axis = name + "_position";
        layout_->axes.push_back({{axis, "distance from the start of the run", "m"}, part.position});
      }
      series(name + "_temperature", "hottest of the " + part.name + " at this place", "degC", axis,
             Precision::single);
      add_part(part.name, name + "_temperature", axis);
    }
  }

  void probes() {
    if (scenario_.probes.empty()) {
      return;
    }
    Numbers index(scenario_.probes.size());
    for (std::size_t i = 0; i < index.size(); ++i) {
      index[i] = static_cast<double>(i);
    }
    layout_->axes.push_back({{"probe", "row of the table probes", "1"}, std::move(index)});
    series("probe_temperature", "temperature at the probes", "degC", "probe", Precision::full);
  }

  /// Beside every temperature of the run, in the same order; the air's is given.
  void bars_of_grid() {
    const auto temperatures = layout_->series;
    for (const auto& of : temperatures) {
      if (of.naming.units == "degC" && !of.axis.empty()) {
        series(of.naming.name + "_grid_error", "bar of the grid's error of " + of.naming.name, "K",
               of.axis, Precision::single);
      }
    }
  }

  /// After everything else, in the order of the recorder.
  void wood() {
    const auto& positions = contacts_.positions();
    if (positions.empty()) {
      return;
    }
    const auto same = [&](const history::Axis& known) { return known.values == positions; };
    const auto found = std::find_if(layout_->axes.begin(), layout_->axes.end(), same);
    const std::string axis =
        found != layout_->axes.end() ? found->naming.name : "wood_contact_position";
    if (found == layout_->axes.end()) {
      layout_->axes.push_back({{axis, "distance from the start of the run", "m"}, positions});
    }
    series("wood_char_depth",
           "farthest depth of the 300 degC isotherm so far, from the wood's face", "m", axis,
           Precision::single);
    series("wood_time_above_77_degC", "time the wood's face has been above 77 degC so far", "s",
           axis, Precision::single);
    series("wood_time_above_250_degC", "time the wood's face has been above 250 degC so far", "s",
           axis, Precision::single);
  }

  void conversions() {
    for (const auto& layer : scenario_.wire.layers) {
      if (layer.material->breakdown) {
        series(dataset_name(layer.part) + "_converted",
               "part of the " + layer.part + " that has broken down", "1", "position",
               Precision::single);
      }
    }
  }

  history::Table parts_table() {
    return {"parts",
            "parts watch items can name and the history that holds each",
            {{{"name", "name of the part", ""}, part_names_},
             {{"series", "history that holds its hottest temperature", ""}, part_series_},
             {{"axis", "places of that history", ""}, part_axes_}}};
  }

  const Scenario& scenario_;
  const marching::HeatNetwork& network_;
  const marching::View& view_;
  const marching::WoodContacts& contacts_;
  Bars bars_;
  Layout* layout_ = nullptr;
  Texts part_names_, part_series_, part_axes_;
};

}  // namespace

history::Layout record_layout(const Scenario& scenario, const marching::HeatNetwork& network,
                              const marching::View& view, const marching::WoodContacts& contacts,
                              const SheetSource& sheet, Bars bars) {
  const auto facts = history::build_facts();
  Layout layout;
  layout.title = scenario.title;
  layout.program = facts.program;
  layout.commit = facts.commit;
  layout.sheet_text = sheet.text;
  layout.sheet_name = sheet.name;
  layout.arrangement = scenario.arrangement;
  layout.beyond = scenario.beyond.value_or("");
  LayoutBuilder(scenario, network, view, contacts, bars).fill(layout);
  return layout;
}

}  // namespace ampstair::verbs
