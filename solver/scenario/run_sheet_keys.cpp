// SPDX-License-Identifier: MIT
#include "scenario/run_sheet.hpp"

namespace ampstair::scenario {

namespace {

using materials::material_keys;
using sheet::by_default;
using sheet::Dimension;
using sheet::Mapping;
using sheet::optional;
using sheet::required;

const char* const practice = "common practice, no source";

const Mapping<CaseSheet>& case_keys() {
  static const auto keys =
      Mapping<CaseSheet>("case", "What the run is for; kept in the record")
          .text("purpose", &CaseSheet::purpose, optional(),
                "test-plan, investigation, training, ...")
          .text("date", &CaseSheet::date, optional(), "of the test or event")
          .text("notes", &CaseSheet::notes, optional(), "anything a reader should know");
  return keys;
}

const Mapping<WireSheet>& wire_keys() {
  static const auto metal =
      Mapping<MetalSheet>("metal", "The conductor; give its gauge, its diameter, or both")
          .text_or_mapping("material", &MetalSheet::material, material_keys(),
                           by_default("copper", practice), "its metal")
          .text("gauge", &MetalSheet::gauge, optional(),
                "as No. 12 (Brown & Sharpe, which is AWG), No. 18 SWG, or by-diameter")
          .number("diameter", &MetalSheet::diameter, Dimension::length, {1e-5, 0.05}, optional(),
                  "bare, as measured; it is what the march uses where given")
          .place(&MetalSheet::place);
  static const auto layer =
      Mapping<LayerSheet>("layer", "One layer of the covering")
          .text_or_mapping("material", &LayerSheet::material, material_keys(), required(),
                           "what it is made of")
          .number("thickness", &LayerSheet::thickness, Dimension::length, {0.0, 0.5, true},
                  required(), "of the layer")
          .number("emissivity", &LayerSheet::emissivity, Dimension::ratio, {0.02, 1.0}, optional(),
                  "of its surface, instead of the material's")
          .text("name", &LayerSheet::name, optional(),
                "how watch items call it, where two layers are of one family")
          .place(&LayerSheet::place);
  static const auto gone =
      Mapping<CoveringGoneSheet>(
          "covering_gone",
          "When the covering of an open piece is burnt off or fallen away "
          "and leaves the conductor bare; the first of the two to come counts")
          .number("above", &CoveringGoneSheet::above, Dimension::temperature, {320.0, 1300.0},
                  optional(), "all of the covering, its outside too, has been hotter than this")
          .number("broken_down", &CoveringGoneSheet::broken_down, Dimension::ratio,
                  {0.0, 1.0, true}, optional(),
                  "no cell of it has broken down by less than this part")
          .number("emissivity", &CoveringGoneSheet::emissivity, Dimension::ratio, {0.02, 1.0},
                  optional(), "of the conductor laid bare; that of its metal where not given")
          .text("from", &CoveringGoneSheet::from, optional(), "where the limit came from")
          .place(&CoveringGoneSheet::place);
  static const auto keys =
      Mapping<WireSheet>("wire", "The wire, the same along the whole run")
          .mapping("metal", &WireSheet::metal, metal, required(), "the conductor")
          .list("layers", &WireSheet::layers, layer, optional(),
                "the covering from the conductor outwards; without it the wire is bare")
          .mapping("covering_gone", &WireSheet::covering_gone, gone, optional(),
                   "when open pieces lose it; without this it stays, however hot it gets")
          .place(&WireSheet::place);
  return keys;
}

const Mapping<SupplySheet>& supply_keys() {
  static const auto leads =
      Mapping<LeadsSheet>("leads", "Cable between supply and run")
          .number("length", &LeadsSheet::length, Dimension::length, {0.0, 1e3, true}, required(),
                  "of both together")
          .number("area", &LeadsSheet::area, Dimension::area, {0.0, 1e-2, true}, required(),
                  "of the metal")
          .number("covering", &LeadsSheet::covering, Dimension::length, {0.0, 0.1},
                  by_default("1.2 mm", practice), "thickness of their covering")
          .text_or_mapping("material", &LeadsSheet::material, material_keys(),
                           by_default("copper", practice), "their metal");
  static const auto keys =
      Mapping<SupplySheet>("supply", "What drives the current")
          .choice("mode", &SupplySheet::mode,
                  {{"current", "holds a current as long as its voltage lasts"},
                   {"voltage", "holds a voltage at its terminals"}},
                  required(), "what it regulates")
          .number("voltage_limit", &SupplySheet::voltage_limit, Dimension::voltage,
                  {0.0, 1e4, true}, optional(),
                  "highest voltage, behind its inner resistance; without it any current is reached")
          .number("power_limit", &SupplySheet::power_limit, Dimension::power, {0.0, 1e8, true},
                  optional(), "highest power at its terminals; without it any is given")
          .number("inner_resistance", &SupplySheet::inner_resistance, Dimension::resistance,
                  {0.0, 1e3}, by_default("0 ohm", "a regulated supply holds its terminals"),
                  "between the voltage told ('volts', 'voltage_limit') and its terminals; of no "
                  "effect on a current held below the limit")
          .mapping("leads", &SupplySheet::leads, leads, optional(), "cable to the run")
          .place(&SupplySheet::place);
  return keys;
}

const Mapping<ArrangementSheet>& arrangement_keys() {
  static const auto keys =
      Mapping<ArrangementSheet>("arrangement", "The same run with some pieces changed")
          .text("name", &ArrangementSheet::name, required(), "how to call it up")
          .entries("change", &ArrangementSheet::change,
                   "{piece: <its name>, ...} with the keys of that piece that change", required(),
                   "what differs from the run as built");
  return keys;
}

const Mapping<ProbeSheet>& probe_keys() {
  static const auto keys =
      Mapping<ProbeSheet>("probe", "A place whose temperature is recorded")
          .text("name", &ProbeSheet::name, required(), "heading of its column")
          .text("at", &ProbeSheet::at, required(),
                "'<piece> + <offset>' from its start, '<piece> - <offset>' from its end, a piece's "
                "name for its middle, or a distance along the run")
          .text("part", &ProbeSheet::part, optional(),
                "conductor, surface or a part as in watch items; conductor where neither this nor "
                "'radius' is given")
          .number("radius", &ProbeSheet::radius, Dimension::length, {0.0, 10.0}, optional(),
                  "distance from the wire's axis")
          .place(&ProbeSheet::place);
  return keys;
}

const Mapping<OutputSheet>& output_keys() {
  static const auto keys =
      Mapping<OutputSheet>("output", "What is recorded, and how finely the run is resolved")
          .text("history", &OutputSheet::history, optional(), "file name of the record")
          .number("every", &OutputSheet::every, Dimension::duration, {0.01, 1e7},
                  by_default("10 s", "a few hundred rows an hour"), "time between rows")
          .number("field_every", &OutputSheet::field_every, Dimension::duration, {0.0, 1e9},
                  by_default("0 s", "at the end of each step only"),
                  "time between whole fields over radius and length; 0 s: at step ends only")
          .number("grid", &OutputSheet::grid, Dimension::length, {1e-4, 10.0},
                  by_default("5 mm",
                             "a small part of the length over which heat spreads along "
                             "house wire"),
                  "longest cell along the run")
          .number("radial_cells", &OutputSheet::radial_cells, Dimension::count, {2.0, 500.0},
                  by_default("16", "as for 'grid'"), "cells through the covering")
          .number("accuracy", &OutputSheet::accuracy, Dimension::temperature_difference,
                  {1e-6, 5.0},
                  by_default("0.05 K", "half of what the default grid errs by at most"),
                  "largest error of a time step, as the march estimates it")
          .place(&OutputSheet::place);
  return keys;
}

const Mapping<BeyondSheet>& beyond_keys() {
  static const auto keys =
      Mapping<BeyondSheet>("beyond",
                           "Go on where the staircase would stop: rubber above 250 degC, or a "
                           "current above half of the bare wire's fusing current")
          .text("reason", &BeyondSheet::reason, required(),
                "why; it stands in the record and on everything printed of it");
  return keys;
}

/// Keys that describe the rig and the current.
Mapping<RunSheet>& add_rig(Mapping<RunSheet>& keys) {
  return keys
      .choice("format", &RunSheet::format, {{"run-sheet 1", "this format"}}, required(),
              "what this file is")
      .text("title", &RunSheet::title, required(), "heading of everything printed")
      .mapping("case", &RunSheet::about, case_keys(), optional(), "what the run is for")
      .mapping("wire", &RunSheet::wire, wire_keys(), required(), "the wire")
      .alternatives("run", &RunSheet::run, piece_kinds(), required(),
                    "the pieces in order along the wire, from one end to the other")
      .mapping("around", &RunSheet::around, around_keys(), required(), "what surrounds the run")
      .mapping("supply", &RunSheet::supply, supply_keys(), required(), "what drives the current")
      .list("staircase", &RunSheet::staircase, staircase_entry_keys(), required(),
            "the steps in order")
      .choice(
          "shape", &RunSheet::shape,
          {{"rising", "a lower step after a higher one is pointed out"}, {"any", "steps may fall"}},
          by_default("rising", "a staircase rises"), "of the staircase");
}

/// Keys that say what is watched, read, varied and recorded.
Mapping<RunSheet>& add_purpose(Mapping<RunSheet>& keys) {
  return keys
      .mapping("device", &RunSheet::device, device_keys(), optional(),
               "overcurrent device; kept in the record, not read by a march")
      .list("watch", &RunSheet::watch, watch::item_keys(), optional(), "limits to be watched")
      .mapping("instruments", &RunSheet::instruments, instruments_keys(), optional(),
               "instruments; kept in the record, not read by a march")
      .list("arrangements", &RunSheet::arrangements, arrangement_keys(), optional(),
            "variants of the run; 'as built' is always there")
      .mapping("study", &RunSheet::study, study_keys(), optional(),
               "many marches; kept in the record, not read by a single march")
      .list("probes", &RunSheet::probes, probe_keys(), optional(),
            "places whose temperature is recorded")
      .mapping("output", &RunSheet::output, output_keys(),
               by_default("", "every key of it has its own"), "record and resolution")
      .mapping("beyond", &RunSheet::beyond, beyond_keys(), optional(),
               "reason to go on past the staircase's own stops; without it the march ends there")
      .place(&RunSheet::place);
}

}  // namespace

const Mapping<RunSheet>& run_sheet_keys() {
  static const auto keys = [] {
    Mapping<RunSheet> mapping("run sheet",
                              "A wire run, what surrounds it and the currents it gets");
    add_rig(mapping);
    add_purpose(mapping);
    return mapping;
  }();
  return keys;
}

}  // namespace ampstair::scenario
