// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "heat/constants.hpp"
#include "history/provenance.hpp"
#include "history/sha256.hpp"
#include "scenario/describe.hpp"
#include "verbs/drive_tables.hpp"
#include "verbs/instrument_tables.hpp"
#include "verbs/recorder.hpp"
#include "verbs/stability.hpp"

namespace ampstair::verbs {

namespace {

using history::Layout;
using history::Precision;
using scenario::Scenario;
using Numbers = std::vector<double>;
using Texts = std::vector<std::string>;

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

double celsius(double kelvin) {
  return kelvin - heat::zero_celsius;
}
double celsius(const std::optional<double>& kelvin) {
  return kelvin ? celsius(*kelvin) : missing;
}

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

/// One column per call; the table grows row by row elsewhere.
template <class Rows, class Value>
auto column(const Rows& rows, const Value& value) {
  std::vector<decltype(value(rows.front()))> out;
  out.reserve(rows.size());
  for (const auto& row : rows) {
    out.push_back(value(row));
  }
  return out;
}

history::Table pieces_table(const Scenario& s) {
  using scenario::Piece;
  return {
      "pieces",
      "pieces of the run, in order",
      {{{"name", "name of the piece", ""}, column(s.run, [](const Piece& p) { return p.name; })},
       {{"kind", "kind of piece", ""},
        column(s.run, [](const Piece& p) { return scenario::kind_word(p); })},
       {{"begin", "distance from the start of the run", "m"},
        column(s.run, [](const Piece& p) { return p.begin; })},
       {{"end", "distance from the start of the run", "m"},
        column(s.run, [](const Piece& p) { return p.end(); })},
       {{"surroundings", "what surrounds it", ""}, column(s.run, [&](const Piece& p) {
          return scenario::describe(s.surroundings[p.around]);
        })}}};
}

history::Table probes_table(const Scenario& s) {
  using scenario::Probe;
  const auto of = [](const Probe& p) -> std::string {
    switch (p.of) {
      case Probe::Of::conductor:
        return "conductor";
      case Probe::Of::surface:
        return "surface";
      case Probe::Of::part:
        return p.part;
      default:
        return "radius";
    }
  };
  return {
      "probes",
      "places whose temperature is recorded",
      {{{"name", "name of the probe", ""}, column(s.probes, [](const Probe& p) { return p.name; })},
       {{"position", "distance from the start of the run", "m"},
        column(s.probes, [](const Probe& p) { return p.position; })},
       {{"of", "what is read there", ""}, column(s.probes, of)},
       {{"radius", "distance from the axis", "m"}, column(s.probes, [](const Probe& p) {
          return p.of == Probe::Of::radius ? p.radius : missing;
        })}}};
}

history::Table watch_table(const Scenario& s) {
  using watch::Item;
  const auto& w = s.watch;
  const auto is = [](const Item& i, Item::Kind kind, double value) {
    return i.kind == kind ? value : missing;
  };
  const auto kind = [](const Item& i) -> std::string {
    return i.kind == Item::Kind::above  ? "above"
           : i.kind == Item::Kind::dose ? "dose"
                                        : "char_depth";
  };
  history::Table table{"watch", "limits somebody wants watched", {}};
  const auto add = [&](const char* name, const char* long_name, const char* units, auto values) {
    table.columns.push_back({{name, long_name, units}, std::move(values)});
  };
  add("name", "name of the watch item", "", column(w, [](const Item& i) { return i.name; }));
  add("part", "part it is about", "", column(w, [](const Item& i) { return i.part; }));
  add("kind", "above, dose or char_depth", "", column(w, kind));
  add("limit", "temperature not to be exceeded", "degC",
      column(w, [&](const Item& i) { return is(i, Item::Kind::above, celsius(i.limit)); }));
  add("low", "low end of the limit's band", "degC",
      column(w, [](const Item& i) { return celsius(i.low); }));
  add("high", "high end of the limit's band", "degC",
      column(w, [](const Item& i) { return celsius(i.high); }));
  add("persistence", "how long without a break it must be exceeded", "s",
      column(w, [](const Item& i) { return i.persistence; }));
  add("activation_energy", "of the ageing reaction", "J mol-1",
      column(w, [&](const Item& i) { return is(i, Item::Kind::dose, i.activation_energy); }));
  add("activation_energy_low", "low end of its band", "J mol-1",
      column(w, [](const Item& i) { return i.energy_low.value_or(missing); }));
  add("activation_energy_high", "high end of its band", "J mol-1",
      column(w, [](const Item& i) { return i.energy_high.value_or(missing); }));
  add("reference_duration", "time at the reference temperature that makes the full dose", "s",
      column(w, [&](const Item& i) { return is(i, Item::Kind::dose, i.reference_duration); }));
  add("reference_temperature", "temperature the dose is counted at", "degC",
      column(w, [&](const Item& i) {
        return is(i, Item::Kind::dose, celsius(i.reference_temperature));
      }));
  add("depth", "depth of char not to be exceeded", "m",
      column(w, [&](const Item& i) { return is(i, Item::Kind::char_depth, i.depth); }));
  add("isotherm", "temperature taken as the char front", "degC",
      column(w, [&](const Item& i) { return is(i, Item::Kind::char_depth, celsius(i.isotherm)); }));
  add("source", "where the limit came from", "", column(w, [](const Item& i) { return i.from; }));
  return table;
}

history::Table values_table(const Scenario& s) {
  using scenario::ValueUsed;
  const auto& v = s.values;
  return {
      "values",
      "every number the result rests on",
      {{{"path", "place in the run sheet or the materials library", ""},
        column(v, [](const ValueUsed& x) { return x.path; })},
       {{"value", "value used, in the unit beside it", "1"},
        column(v, [](const ValueUsed& x) { return x.value; })},
       {{"unit", "unit of the value", ""}, column(v, [](const ValueUsed& x) { return x.unit; })},
       {{"source", "where the value came from", ""},
        column(v, [](const ValueUsed& x) { return x.source; })},
       {{"by_default", "1: not given by the run sheet", "1"}, column(v, [](const ValueUsed& x) {
          return static_cast<std::int64_t>(x.by_default ? 1 : 0);
        })}}};
}

/// The correlations of convection a scenario uses, by author and year.
std::string correlations(const Scenario& s) {
  const auto any = [&](const auto& holds) {
    return std::any_of(s.run.begin(), s.run.end(), [&](const scenario::Piece& piece) {
      return holds(piece, s.surroundings[piece.around].convection.still_air);
    });
  };
  using scenario::StillAir;
  std::string still;
  const auto add = [&](bool used, const char* author) {
    if (used) {
      still += (still.empty() ? "" : ", ") + std::string(author);
    }
  };
  add(any([](const auto&, StillAir a) { return a == StillAir::churchill_chu_1975; }),
      "Churchill & Chu 1975");
  add(any([](const auto&, StillAir a) { return a == StillAir::morgan_1975; }), "Morgan 1975");
  add(any([](const auto& piece, StillAir) { return piece.height > 0.0; }),
      "Popiel, Wojtkowiak & Bober 2007 (vertical)");
  return still + "; moving air Churchill & Bernstein 1977";
}

history::Table files_table(const Scenario& s) {
  using scenario::FileRead;
  const auto& files = s.files;
  return {"files",
          "files read beside the run sheet",
          {{{"name", "name as the run sheet has it", ""},
            column(files, [](const FileRead& f) { return f.name; })},
           {{"sha256", "SHA-256 of its text, in hexadecimal", ""},
            column(files, [](const FileRead& f) { return history::sha256(f.text); })},
           {{"text", "the file word for word", ""},
            column(files, [](const FileRead& f) { return f.text; })}}};
}

history::Table settings_table(const Scenario& s, const marching::HeatNetwork& network) {
  const auto facts = history::build_facts();
  const std::vector<std::pair<std::string, std::string>> rows{
      {"accuracy aimed at, K", fmt::format("{:.3g}", s.output.accuracy)},
      {"longest cell along the run, m", fmt::format("{:.4g}", s.output.grid)},
      {"cells through the covering", fmt::format("{}", s.output.radial_cells)},
      {"cells in all", fmt::format("{}", network.grid().real_cells)},
      {"time scheme", "ROS34PW2 with an axial and a comb factor"},
      {"still air", correlations(s)},
      {"compiler", facts.compiler},
      {"build", facts.build},
      {"HDF5 library", facts.hdf5}};
  return {
      "settings",
      "how the march was done",
      {{{"name", "name of the setting", ""}, column(rows, [](const auto& r) { return r.first; })},
       {{"value", "its value", ""}, column(rows, [](const auto& r) { return r.second; })}}};
}

/// One row per cell, in the order of the axis "cell": the padding of the arrays is left out.
history::Table grid_table(const marching::HeatNetwork& network) {
  const auto& grid = network.grid();
  Numbers inner;
  Numbers outer;
  Numbers begin;
  Numbers end;
  Texts medium;
  for (Numbers* v : {&inner, &outer, &begin, &end}) {
    v->reserve(grid.real_cells);
  }
  medium.reserve(grid.real_cells);
  for (const auto& patch : grid.patches) {
    for (std::size_t i = 0; i < patch.rows; ++i) {
      for (std::size_t j = 0; j < patch.stations; ++j) {
        inner.push_back(patch.radius[i]);
        outer.push_back(patch.radius[i + 1]);
        begin.push_back(grid.station_face[patch.first_station + j]);
        end.push_back(grid.station_face[patch.first_station + j + 1]);
        medium.push_back(grid.media[grid.medium[patch.row(i) + j]].part);
      }
    }
  }
  for (const auto& body : grid.bodies) {
    for (std::size_t i = 0; i < body.cells; ++i) {
      for (Numbers* v : {&inner, &outer}) {
        v->push_back(missing);
      }
      begin.push_back(body.position);
      end.push_back(body.position);
      medium.push_back(grid.media[grid.medium[body.first_cell + i]].part);
    }
  }
  for (const auto& bay : grid.bays) {
    for (const char* part : {"bay-air", "bay-walls"}) {
      for (Numbers* v : {&inner, &outer}) {
        v->push_back(missing);
      }
      begin.push_back(bay.position);
      end.push_back(bay.position);
      medium.emplace_back(part);
    }
  }
  return {
      "grid",
      "cells of the grid; what is beside the wire (knobs, lugs, wood across air) and bays have no "
      "radii",
      {{{"inner_radius", "inner radius of the cell", "m"}, inner},
       {{"outer_radius", "outer radius of the cell", "m"}, outer},
       {{"begin", "distance from the start of the run", "m"}, begin},
       {{"end", "distance from the start of the run", "m"}, end},
       {{"part", "part the cell belongs to", ""}, medium}}};
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
    layout.tables = {pieces_table(scenario_),
                     steps_table(scenario_),
                     legs_table(scenario_),
                     device_table(scenario_),
                     openings_table(scenario_),
                     probes_table(scenario_),
                     watch_table(scenario_),
                     values_table(scenario_),
                     settings_table(scenario_, network_),
                     grid_table(network_),
                     parts_table()};
    if (!scenario_.files.empty()) {
      layout.tables.push_back(files_table(scenario_));
    }
    if (auto table = stability_table(scenario_)) {
      layout.tables.push_back(std::move(*table));
    }
    for (auto& table : instrument_tables(scenario_, network_)) {
      layout.tables.push_back(std::move(table));
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
