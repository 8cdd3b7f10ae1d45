// SPDX-License-Identifier: MIT
#include "export/xdmf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

#include "diagnostics/problem.hpp"
#include "export/batch.hpp"
#include "export/csv.hpp"
#include "history/array_file.hpp"

namespace ampstair::post::tables {

namespace {

namespace fs = std::filesystem;
using checks::Histories;

constexpr std::size_t corners = 4;
constexpr std::size_t values_in_file = std::size_t{1} << 24;  // 64 MiB of single precision

/// The cells that have a place in the r-z plane: the record has them before those that have none.
struct Mesh {
  std::size_t cells = 0;
  std::vector<double> points;         // x, y of four corners a cell
  std::vector<std::int32_t> corners;  // of every cell
  std::vector<std::int32_t> part;     // of every cell, into names
  std::vector<std::string> names;
};

std::size_t cells_with_radii(const std::vector<double>& inner) {
  const auto end = std::find_if(inner.begin(), inner.end(), [](double r) { return std::isnan(r); });
  return static_cast<std::size_t>(end - inner.begin());
}

Mesh mesh_of(const Histories& histories) {
  const auto inner = histories.numbers("grid", "inner_radius");
  const auto outer = histories.numbers("grid", "outer_radius");
  const auto begin = histories.numbers("grid", "begin");
  const auto end = histories.numbers("grid", "end");
  const auto part = histories.texts("grid", "part");
  Mesh mesh;
  mesh.cells = cells_with_radii(inner);
  for (std::size_t c = 0; c < mesh.cells; ++c) {
    const double around[] = {begin[c], inner[c], end[c],   inner[c],
                             end[c],   outer[c], begin[c], outer[c]};
    mesh.points.insert(mesh.points.end(), std::begin(around), std::end(around));
    for (std::size_t k = 0; k < corners; ++k) {
      mesh.corners.push_back(static_cast<std::int32_t>(corners * c + k));
    }
    const auto known = std::find(mesh.names.begin(), mesh.names.end(), part[c]);
    mesh.part.push_back(static_cast<std::int32_t>(known - mesh.names.begin()));
    if (known == mesh.names.end()) {
      mesh.names.push_back(part[c]);
    }
  }
  return mesh;
}

std::string mesh_file(Mesh& mesh) {
  const std::size_t cells = mesh.cells;
  const history::Array arrays[] = {
      {{"points", "distance along the run, radius", "m"},
       {corners * cells, 2},
       std::move(mesh.points)},
      {{"corners", "rows of points, the corners of every cell", "1"},
       {cells, corners},
       std::move(mesh.corners)},
      {{"part", "number of the part every cell belongs to", "1"}, {cells}, std::move(mesh.part)}};
  return history::array_file(arrays);
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const auto code = static_cast<unsigned char>(c);
    out += c == '&'    ? "&amp;"
           : c == '<'  ? "&lt;"
           : c == '>'  ? "&gt;"
           : c == '"'  ? "&quot;"
           : c == '\n' ? "&#10;"
           : code < 32 ? " "
                       : std::string(1, c);
  }
  return out;
}

std::string information(const std::string& name, const std::string& value) {
  return fmt::format("    <Information Name=\"{}\" Value=\"{}\"/>\n", escaped(name),
                     escaped(value));
}

std::string heading(const Histories& histories, const Mesh& mesh) {
  std::string text =
      "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<Xdmf Version=\"3.0\">\n  <Domain>\n";
  for (const char* name :
       {"title", "arrangement", "program", "commit", "sheet_name", "sheet_sha256"}) {
    text += information(name, histories.attribute(name));
  }
  if (const auto reason = histories.beyond(); !reason.empty()) {
    text += information("beyond", reason);
  }
  text += information("axes", "x: distance along the run [m]; y: radius [m]; time [s]");
  text += information("left out", "bodies beside the wire and bays, which have no radii");
  for (std::size_t k = 0; k < mesh.names.size(); ++k) {
    text += information(fmt::format("part {}", k), mesh.names[k]);
  }
  return text +
         "    <Grid Name=\"r-z field\" GridType=\"Collection\" CollectionType=\"Temporal\">\n";
}

/// Names of the files with the heavy data.
struct HeavyFiles {
  std::string mesh;
  std::vector<std::string> fields;  // several moments in each
  std::size_t moments = 1;          // in each but the last

  HeavyFiles(const std::string& stem, std::size_t all, std::size_t cells)
      : mesh(stem + "-mesh.h5"),
        moments(std::max<std::size_t>(1, values_in_file / std::max<std::size_t>(1, cells))) {
    for (std::size_t first = 0; first < all; first += moments) {
      fields.push_back(fmt::format("{}-field-{}.h5", stem, fields.size() + 1));
    }
  }
};

std::string dataset_of(std::size_t moment) {
  return fmt::format("temperature_{}", moment);
}

std::string data_item(const std::string& dimensions, const char* type, int bytes,
                      const std::string& file, const std::string& dataset) {
  return fmt::format(
      "          <DataItem Dimensions=\"{}\" NumberType=\"{}\" Precision=\"{}\" "
      "Format=\"HDF\">{}:/{}</DataItem>\n",
      dimensions, type, bytes, escaped(file), dataset);
}

std::string attribute(const char* name, const std::string& item) {
  return fmt::format(
      "        <Attribute Name=\"{}\" AttributeType=\"Scalar\" Center=\"Cell\">\n{}"
      "        </Attribute>\n",
      name, item);
}

std::string moment(std::size_t k, double time, std::size_t cells, const HeavyFiles& files) {
  const std::string seconds = csv_number(time, false);
  const std::string count = fmt::format("{}", cells);
  return fmt::format(
             "      <Grid Name=\"{0} s\" GridType=\"Uniform\">\n        <Time Value=\"{0}\"/>\n"
             "        <Topology TopologyType=\"Quadrilateral\" NumberOfElements=\"{1}\">\n",
             seconds, count) +
         data_item(count + " 4", "Int", 4, files.mesh, "corners") +
         "        </Topology>\n        <Geometry GeometryType=\"XY\">\n" +
         data_item(fmt::format("{} 2", corners * cells), "Float", 8, files.mesh, "points") +
         "        </Geometry>\n" +
         attribute("temperature [degC]",
                   data_item(count, "Float", 4, files.fields[k / files.moments], dataset_of(k))) +
         attribute("part [number]", data_item(count, "Int", 4, files.mesh, "part")) +
         "      </Grid>\n";
}

/// Temperatures of some moments, as they are in the record.
std::string field_file(const Histories& histories, const std::vector<double>& times,
                       std::size_t first, std::size_t count, std::size_t cells) {
  std::vector<history::Array> arrays;
  for (std::size_t k = first; k < std::min(first + count, times.size()); ++k) {
    const auto field = histories.rows("fields/field_temperature", k, 1);
    arrays.push_back(
        {{dataset_of(k),
          fmt::format("temperature of the cells at {} s", csv_number(times[k], false)), "degC"},
         {cells},
         std::vector<float>(field.begin(), field.begin() + static_cast<std::ptrdiff_t>(cells))});
  }
  return history::array_file(arrays);
}

}  // namespace

std::vector<fs::path> export_xdmf(const Histories& histories, const fs::path& file,
                                  bool overwrite) {
  if (!histories.has("fields/field_time") || !histories.has("grid/inner_radius") ||
      histories.axis("fields/field_time").empty()) {
    throw diagnostics::InputError("E732", "the record keeps no r-z fields.",
                                  "give a record whose march came at least to the end of a step");
  }
  const fs::path directory = file.has_parent_path() ? file.parent_path() : fs::path(".");
  Mesh mesh = mesh_of(histories);
  const std::size_t cells = mesh.cells;
  const auto times = histories.axis("fields/field_time");
  const HeavyFiles files(file.stem().string(), times.size(), cells);
  std::vector<std::string> names{file.filename().string(), files.mesh};
  names.insert(names.end(), files.fields.begin(), files.fields.end());
  Batch batch(directory, names, overwrite);
  batch.begin(names.front());
  batch.write(heading(histories, mesh));
  for (std::size_t k = 0; k < times.size(); ++k) {
    batch.write(moment(k, times[k], cells, files));
  }
  batch.write("    </Grid>\n  </Domain>\n</Xdmf>\n");
  batch.begin(files.mesh);
  batch.write(mesh_file(mesh));
  for (std::size_t f = 0; f < files.fields.size(); ++f) {
    batch.begin(files.fields[f]);
    batch.write(field_file(histories, times, f * files.moments, files.moments, cells));
  }
  return batch.publish();
}

}  // namespace ampstair::post::tables
