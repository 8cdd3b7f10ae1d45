// SPDX-License-Identifier: MIT
#include "verbs/record_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

#include "heat/constants.hpp"
#include "history/provenance.hpp"
#include "history/sha256.hpp"
#include "scenario/describe.hpp"
#include "verbs/column.hpp"

namespace ampstair::verbs {

namespace {

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

}  // namespace

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
  history::Table table{
      "grid",
      "cells of the grid; what is beside the wire (knobs, lugs, wood across air) and bays have no "
      "radii",
      {}};
  const auto add = [&](history::Naming naming, auto values) {  // a list of columns would copy them
    table.columns.push_back({std::move(naming), std::move(values)});
  };
  add({"inner_radius", "inner radius of the cell", "m"}, std::move(inner));
  add({"outer_radius", "outer radius of the cell", "m"}, std::move(outer));
  add({"begin", "distance from the start of the run", "m"}, std::move(begin));
  add({"end", "distance from the start of the run", "m"}, std::move(end));
  add({"part", "part the cell belongs to", ""}, std::move(medium));
  return table;
}

}  // namespace ampstair::verbs
