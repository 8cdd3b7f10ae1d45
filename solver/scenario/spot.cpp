// SPDX-License-Identifier: MIT
#include "scenario/spot.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

#include "quantities/parse.hpp"
#include "sheet/nearest.hpp"

namespace ampstair::scenario {

namespace {

using diagnostics::ProblemList;
using quantities::Dimension;

constexpr double hair = 1e-9;  // m; sums of decimal lengths are not exact

struct Written {
  std::string piece;
  std::string offset;  ///< empty: the middle
  bool from_end = false;
};

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(' ');
  const auto last = text.find_last_not_of(' ');
  return first == std::string_view::npos ? std::string()
                                         : std::string(text.substr(first, last - first + 1));
}

const Extent* find(const std::vector<Extent>& run, const std::string& name) {
  const auto found = std::find_if(run.begin(), run.end(),
                                  [&](const Extent& extent) { return extent.name == name; });
  return found == run.end() ? nullptr : &*found;
}

/// Splits at the last sign; names may hold signs of their own.
Written split(const std::string& text, const std::vector<Extent>& run) {
  if (find(run, text) != nullptr) {
    return {text, {}, false};
  }
  const auto sign = text.find_last_of("+-");
  if (sign == std::string::npos || sign == 0) {
    return {text, {}, false};
  }
  return {trimmed(std::string_view(text).substr(0, sign)),
          trimmed(std::string_view(text).substr(sign + 1)), text[sign] == '-'};
}

std::string metres(double length) {
  return fmt::format("{:.2f} m", length);
}

/// Tells in which other piece a position lies, if in any.
std::string elsewhere(double position, const std::vector<Extent>& run) {
  for (const auto& extent : run) {
    if (extent.length > 0.0 && position >= extent.begin && position <= extent.end()) {
      return fmt::format("this point lies in '{}' at {} from its start", extent.name,
                         metres(position - extent.begin));
    }
  }
  return fmt::format("the run goes from 0.00 to {}", metres(run.empty() ? 0.0 : run.back().end()));
}

std::optional<double> distance(const sheet::Text& spot, std::string_view subject,
                               const std::vector<Extent>& run, ProblemList& problems) {
  const auto parsed = quantities::parse_quantity(spot.value, Dimension::length, subject);
  if (parsed.fault) {
    std::vector<std::string> names;
    for (const auto& extent : run) {
      names.push_back(extent.name);
    }
    const auto near = sheet::nearest_words(split(spot.value, run).piece, names);
    problems.error("E162", spot.place,
                   fmt::format("{} '{}' names no piece of the run.", subject, spot.value),
                   near.empty() ? fmt::format("write a piece's name, with + or - and a length; the "
                                              "pieces are {}",
                                              fmt::join(names, ", "))
                                : "nearest: " + near.front());
    return std::nullopt;
  }
  const double end = run.empty() ? 0.0 : run.back().end();
  if (parsed.si < -hair || parsed.si > end + hair) {
    problems.error("E161", spot.place,
                   fmt::format("{} '{}' is not on the run.", subject, spot.value),
                   fmt::format("the run goes from 0.00 to {}", metres(end)));
    return std::nullopt;
  }
  return std::clamp(parsed.si, 0.0, end);
}

}  // namespace

std::optional<double> locate(const sheet::Text& spot, std::string_view subject,
                             const std::vector<Extent>& run, ProblemList& problems) {
  const Written written = split(spot.value, run);
  const Extent* piece = find(run, written.piece);
  if (piece == nullptr) {
    return distance(spot, subject, run, problems);
  }
  if (written.offset.empty()) {
    return piece->begin + 0.5 * piece->length;
  }
  const auto parsed = quantities::parse_quantity(
      written.offset, Dimension::length, fmt::format("offset of {} '{}'", subject, spot.value));
  if (parsed.fault) {
    problems.error(parsed.fault->code, spot.place, parsed.fault->what, parsed.fault->remedy);
    return std::nullopt;
  }
  const double position = written.from_end ? piece->end() - parsed.si : piece->begin + parsed.si;
  const bool inside = parsed.si <= piece->length + hair;
  const bool on_run = position > -hair && position < run.back().end() + hair;
  if ((piece->length > 0.0 && !inside) || !on_run || parsed.si < 0.0) {
    problems.error(
        "E161", spot.place,
        fmt::format("{} '{}' is past that piece (length {}, runs {:.2f} to {}).", subject,
                    spot.value, metres(piece->length), piece->begin, metres(piece->end())),
        elsewhere(position, run));
    return std::nullopt;
  }
  return std::clamp(position, 0.0, run.back().end());
}

}  // namespace ampstair::scenario
