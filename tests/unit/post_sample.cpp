// SPDX-License-Identifier: MIT
#include "post_sample.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <stdexcept>
#include <utility>

#include "history/writer.hpp"

namespace ampstair::test {

namespace {

using history::Layout;
using history::Table;
using Texts = std::vector<std::string>;
using Numbers = std::vector<double>;

constexpr double celsius_zero = 273.15;
constexpr double step_duration = 600.0;  // s
constexpr double length = 2.0;           // m

const Table::Column* find_column(const Layout& layout, const std::string& group,
                                 const std::string& name) {
  for (const Table& table : layout.tables) {
    for (const Table::Column& one : table.columns) {
      if (table.group == group && one.naming.name == name) {
        return &one;
      }
    }
  }
  return nullptr;
}

class InMemory final : public post::checks::Histories {
 public:
  explicit InMemory(Run run) : run_(std::move(run)) {}

  bool finished() const override { return run_.finished; }
  std::string attribute(const std::string& name) const override {
    return name == "title" ? run_.layout.title : name;
  }
  std::string beyond() const override { return run_.layout.beyond; }
  std::string sheet_text() const override { return run_.layout.sheet_text; }
  std::optional<double> closing(const std::string& name) const override {
    const auto found = run_.closing.find(name);
    return found == run_.closing.end() ? std::nullopt : std::optional(found->second);
  }
  std::vector<double> times() const override { return run_.times; }
  std::vector<history::Series> series() const override { return run_.layout.series; }
  bool has(const std::string& path) const override {
    const auto slash = path.find('/');
    if (slash != std::string::npos) {
      return find_column(run_.layout, path.substr(0, slash), path.substr(slash + 1)) != nullptr;
    }
    return std::any_of(run_.layout.series.begin(), run_.layout.series.end(),
                       [&](const auto& one) { return one.naming.name == path; });
  }
  std::vector<std::string> tables() const override {
    Texts names;
    for (const Table& table : run_.layout.tables) {
      names.push_back(table.group);
    }
    return names;
  }
  std::vector<std::string> columns(const std::string& table) const override {
    Texts names;
    for (const Table& one : run_.layout.tables) {
      for (const Table::Column& column : one.columns) {
        if (one.group == table) {
          names.push_back(column.naming.name);
        }
      }
    }
    return names;
  }
  history::Naming naming(const std::string& path) const override {
    const auto slash = path.find('/');
    for (const auto& one : run_.layout.axes) {
      if (one.naming.name == path) {
        return one.naming;
      }
    }
    const auto* column =
        slash == std::string::npos
            ? nullptr
            : find_column(run_.layout, path.substr(0, slash), path.substr(slash + 1));
    if (column == nullptr) {
      return {path, path, ""};
    }
    auto naming = column->naming;
    if (std::holds_alternative<Texts>(column->values)) {
      naming.units.clear();
    }
    return naming;
  }
  std::vector<double> axis(const std::string& name) const override {
    for (const auto& one : run_.layout.axes) {
      if (one.naming.name == name) {
        return one.values;
      }
    }
    throw std::out_of_range(name);
  }
  std::vector<double> scalar(const std::string& name) const override {
    return rows(name, 0, run_.times.size());
  }
  std::vector<double> rows(const std::string& name, std::size_t first,
                           std::size_t count) const override {
    std::vector<double> values;
    for (std::size_t k = 0; k < run_.layout.series.size(); ++k) {
      for (std::size_t row = first; row < first + count; ++row) {
        if (run_.layout.series[k].naming.name == name) {
          const auto& held = run_.rows.at(row).at(k);
          values.insert(values.end(), held.begin(), held.end());
        }
      }
    }
    return values;
  }
  std::vector<double> numbers(const std::string& group, const std::string& name) const override {
    return std::get<Numbers>(find_column(run_.layout, group, name)->values);
  }
  std::vector<std::string> texts(const std::string& group, const std::string& name) const override {
    return std::get<Texts>(find_column(run_.layout, group, name)->values);
  }

 private:
  Run run_;
};

Layout layout_of(std::size_t cells) {
  Layout layout;
  layout.title = "Bench rig of invented numbers";
  layout.program = "ampstair test";
  layout.commit = "none";
  layout.sheet_name = "rig.yaml";
  layout.sheet_text = "format: run-sheet 1\n";
  layout.arrangement = "as built";
  Numbers positions(cells);
  for (std::size_t i = 0; i < cells; ++i) {
    positions[i] = (static_cast<double>(i) + 0.5) * length / static_cast<double>(cells);
  }
  layout.axes = {{{"position", "position along the run", "m"}, positions},
                 {{"wood_position", "position of wood", "m"}, {1.05, 1.05, 1.15}},
                 {{"probe", "number of the probe", "1"}, {0.0, 1.0}}};
  const auto single = history::Precision::single;
  for (const auto& [name, units] :
       std::vector<std::pair<std::string, std::string>>{{"current_asked", "A"},
                                                        {"current", "A"},
                                                        {"voltage", "V"},
                                                        {"power", "W"},
                                                        {"heat_made", "J"},
                                                        {"heat_lost", "J"},
                                                        {"heat_stored", "J"},
                                                        {"ledger_gap", "J"},
                                                        {"step", "1"}}) {
    layout.series.push_back({{name, name, units}, "", history::Precision::full});
  }
  layout.series.push_back(
      {{"conductor_temperature", "conductor", "degC"}, "position", history::Precision::full});
  layout.series.push_back({{"surface_temperature", "surface", "degC"}, "position", single});
  layout.series.push_back({{"wood_temperature", "wood", "degC"}, "wood_position", single});
  layout.series.push_back({{"probe_temperature", "probes", "degC"}, "probe", single});
  return layout;
}

void add_tables(Run& run) {
  run.set_table({"pieces",
                 "pieces",
                 {column("name", Texts{"A", "south leg", "T1", "drop", "B"}),
                  column("kind", Texts{"lug", "open", "tube", "open", "lug"}),
                  column("begin", Numbers{0.0, 0.0, 1.0, 1.2, 2.0}),
                  column("end", Numbers{0.0, 1.0, 1.2, 2.0, 2.0}),
                  column("surroundings", Texts(5, "still air 20 degC"))}});
  run.set_table(
      {"steps",
       "steps",
       {column("kind", Texts{"hold_current", "hold_current"}), column("level", Numbers{20.0, 40.0}),
        column("begin", Numbers{0.0, 600.0}), column("end", Numbers{600.0, 1200.0})}});
  run.set_table(
      {"parts",
       "parts",
       {column("name", Texts{"conductor", "surface", "rubber", "covering", "wood"}),
        column("series",
               Texts{"conductor_temperature", "surface_temperature", "conductor_temperature",
                     "conductor_temperature", "wood_temperature"}),
        column("axis", Texts{"position", "position", "position", "position", "wood_position"})}});
  run.set_table({"probes",
                 "probes",
                 {column("name", Texts{"south leg mid", "by the \"drop\",\nlow"}),
                  column("position", Numbers{0.5, 1.65}), column("of", Texts(2, "conductor")),
                  column("radius", Numbers(2, std::nan("")))}});
}

std::vector<Numbers> row_at(double time, const Numbers& positions) {
  const bool second = time > step_duration;
  const double current = second ? 40.0 : 20.0;
  const double made = 10.0 * time;
  Numbers conductor;
  Numbers surface;
  for (const double position : positions) {
    const double share = 1.0 - 0.2 * std::abs(position - 1.65);
    conductor.push_back(20.0 + 0.05 * time * share);
    surface.push_back(conductor.back() - 5.0);
  }
  const double wood = 20.0 + 5.0 * time / 1200.0;
  return {{current},
          {second ? 39.5 : 20.0},
          {0.02 * current},
          {current * 0.5},
          {made},
          {0.75 * made - 1e-9 * made},
          {0.25 * made},
          {1e-9 * made},
          {second ? 1.0 : 0.0},
          conductor,
          surface,
          {wood - 1.0, wood, wood - 2.0},
          {time / 100.0, 2.0}};
}

}  // namespace

void Run::set_table(Table table) {
  std::erase_if(layout.tables, [&](const Table& old) { return old.group == table.group; });
  layout.tables.push_back(std::move(table));
}

void Run::set_bars(const std::string& history, double grid, double time) {
  for (std::size_t k = 0; k < layout.series.size(); ++k) {
    if (layout.series[k].naming.name == history) {
      layout.series.push_back(
          {{history + "_grid_error", "bar", "K"}, layout.series[k].axis, history::Precision::full});
      for (auto& row : rows) {
        row.push_back(Numbers(row[k].size(), grid));
      }
      break;
    }
  }
  closing = {{"time_error", time}, {"grid_error", grid}};
}

Run sample_run(double every, std::size_t cells) {
  Run run;
  run.layout = layout_of(cells);
  add_tables(run);
  give_items(run, {});
  const auto rows = static_cast<int>(std::lround(2.0 * step_duration / every));
  for (int row = 0; row <= rows; ++row) {
    run.times.push_back(row * every);
    run.rows.push_back(row_at(row * every, run.layout.axes.front().values));
  }
  return run;
}

void give_items(Run& run, const std::vector<watch::Item>& items) {
  const auto texts = [&](auto text) {
    Texts values;
    std::transform(items.begin(), items.end(), std::back_inserter(values), text);
    return values;
  };
  const auto numbers = [&](auto number) {
    Numbers values;
    std::transform(items.begin(), items.end(), std::back_inserter(values), number);
    return values;
  };
  const auto band = [&](std::optional<double> watch::Item::*end, double zero) {
    return numbers(
        [=](const watch::Item& item) { return (item.*end).value_or(std::nan("")) - zero; });
  };
  const auto plain = [&](double watch::Item::*member, double zero) {
    return numbers([=](const watch::Item& item) { return item.*member - zero; });
  };
  using watch::Item;
  const auto kind = [](const Item& item) -> std::string {
    return item.kind == Item::Kind::above  ? "above"
           : item.kind == Item::Kind::dose ? "dose"
                                           : "char_depth";
  };
  run.set_table(
      {"watch",
       "watch items",
       {column("name", texts([](const Item& item) { return item.name; })),
        column("part", texts([](const Item& item) { return item.part; })),
        column("kind", texts(kind)),
        column("source", texts([](const Item& item) { return item.from; })),
        column("limit", plain(&Item::limit, celsius_zero)),
        column("low", band(&Item::low, celsius_zero)),
        column("high", band(&Item::high, celsius_zero)),
        column("persistence", plain(&Item::persistence, 0.0)),
        column("activation_energy", plain(&Item::activation_energy, 0.0)),
        column("activation_energy_low", band(&Item::energy_low, 0.0)),
        column("activation_energy_high", band(&Item::energy_high, 0.0)),
        column("reference_duration", plain(&Item::reference_duration, 0.0)),
        column("reference_temperature", plain(&Item::reference_temperature, celsius_zero)),
        column("depth", plain(&Item::depth, 0.0)),
        column("isotherm", plain(&Item::isotherm, celsius_zero))}});
}

watch::Item above(const std::string& name, const std::string& part, double celsius,
                  double persistence) {
  watch::Item item;
  item.name = name;
  item.part = part;
  item.limit = celsius + celsius_zero;
  item.persistence = persistence;
  return item;
}

std::unique_ptr<post::checks::Histories> in_memory(Run run) {
  return std::make_unique<InMemory>(std::move(run));
}

void write_record(const Run& run, const std::filesystem::path& path) {
  history::RecordWriter writer(path, run.layout, history::IfExists::refuse);
  for (std::size_t row = 0; row < run.times.size(); ++row) {
    const std::vector<std::span<const double>> values(run.rows[row].begin(), run.rows[row].end());
    writer.append(run.times[row], values);
  }
  if (run.finished) {
    writer.finish({});
  }
}

Folder::Folder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "ampstair-post-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr) {
    throw std::runtime_error("no folder for the test");
  }
  path_ = pattern;
}

Folder::~Folder() {
  std::filesystem::remove_all(path_);
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(path_)) {
    names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace ampstair::test
