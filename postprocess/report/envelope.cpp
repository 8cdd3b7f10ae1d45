// SPDX-License-Identifier: MIT
#include "report/envelope.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <nlohmann/json.hpp>

#include "checks/amounts.hpp"
#include "checks/drive.hpp"
#include "checks/sentences.hpp"
#include "report/words.hpp"

namespace ampstair::post::report {

namespace {

using nlohmann::json;

constexpr double minute = 60.0;          // s
constexpr double usual_begin = 0.2;      // min, where the axis of time begins
constexpr double earliest_begin = 0.02;  // min, where it does for a crossing soon after a step's
constexpr std::size_t points_of_a_path = 120;
constexpr double same_current = 1.0 - 1e-6;

double rounded(double value) {
  return std::round(value * 1e4) / 1e4;
}

/// What one step carried, over the time since it began.
struct Path {
  std::size_t number = 0;  ///< of the step, from 1
  double begin = 0.0;      ///< s
  std::vector<double> minutes;
  std::vector<double> times;  ///< of the rating
  double goes_on = 0.0;       ///< min, up to which the current stays at the least of them or above
};

class Envelope {
 public:
  explicit Envelope(const Source& source)
      : source_(source),
        device_(*source.device),
        drive_(*source.histories),
        current_(source.histories->scalar("current")) {
    for (const auto& item : source_.findings.items) {
      if (const auto after = since_step(item)) {
        least_minute_ = std::max(earliest_begin, std::min(least_minute_, 0.7 * *after));
      }
    }
    for (std::size_t s = 0; s < drive_.steps().size(); ++s) {
      if (const Path path = path_of(s); !path.minutes.empty()) {
        paths_.push_back(path);
      }
    }
  }

  [[nodiscard]] json data() const {
    json out;
    out["must_hold"] = device_.must_hold ? json(*device_.must_hold) : json();
    out["openings"] = json::array();
    for (const auto& opening : device_.must_open) {
      out["openings"].push_back({{"times", opening.times},
                                 {"within", opening.within / minute},
                                 {"label", fmt::format("{:.3g} × within {}", opening.times,
                                                       checks::span_text(opening.within))}});
    }
    out["paths"] = json::array();
    for (const Path& path : paths_) {
      add_path(path, out["paths"]);
    }
    out["crossings"] = crossings();
    out["latest"] = latest();
    out["reach"] = reach();
    return out;
  }

 private:
  /// min, of a crossing that can be drawn, from the begin of its step.
  [[nodiscard]] std::optional<double> since_step(const checks::ItemFinding& item) const {
    const auto& crossing = item.crossing;
    if (!crossing || !crossing->step || crossing->current.value_or(0.0) <= 0.0) {
      return std::nullopt;
    }
    return (crossing->time - drive_.steps().at(*crossing->step - 1).begin) / minute;
  }

  /// A path with no current, or with none above zero, is left out: the axes are logarithmic.
  [[nodiscard]] Path path_of(std::size_t step) const {
    Path path;
    path.number = step + 1;
    path.begin = drive_.steps()[step].begin;
    std::size_t last = 0;
    for (std::size_t row = 0; row < current_.size(); ++row) {
      if (drive_.step_of_row(row) == step && current_[row] > 0.0) {
        path.minutes.push_back((drive_.times()[row] - path.begin) / minute);
        path.times.push_back(current_[row] / device_.rating);
        last = row;
      }
    }
    if (path.minutes.empty()) {
      return path;
    }
    const double least =
        *std::min_element(path.times.begin(), path.times.end()) * device_.rating * same_current;
    while (last + 1 < current_.size() && current_[last + 1] >= least) {
      ++last;
    }
    path.goes_on = (drive_.times()[last] - path.begin) / minute;
    return path;
  }

  void add_path(const Path& path, json& all) const {
    const auto amperes = fmt::format("{}", report::amperes(path.times.back() * device_.rating));
    const auto add = [&](const char* kind, double at, double times) {
      all.push_back({{"step", path.number},
                     {"kind", kind},
                     {"label", fmt::format("step {}, {}", path.number, amperes)},
                     {"minute", rounded(std::max(at, least_minute_))},
                     {"times", rounded(times)}});
    };
    const std::size_t stride = std::max<std::size_t>(1, path.minutes.size() / points_of_a_path);
    add("full", 0.0, path.times.front());
    for (std::size_t i = 0; i < path.minutes.size(); ++i) {
      if (path.minutes[i] > least_minute_ && (i % stride == 0 || i + 1 == path.minutes.size())) {
        add("full", path.minutes[i], path.times[i]);
      }
    }
    if (path.goes_on > path.minutes.back()) {
      const double least = *std::min_element(path.times.begin(), path.times.end());
      add("higher", path.minutes.back(), least);
      add("higher", path.goes_on, least);
    }
  }

  [[nodiscard]] static const char* words(checks::Order order) {
    switch (order) {
      case checks::Order::device_first:
        return "device opens first";
      case checks::Order::not_required:
        return "not required to have opened";
      case checks::Order::cannot_have:
        return "no reason to open before";
      case checks::Order::cannot_say:
        break;
    }
    return "cannot say";
  }

  [[nodiscard]] json crossings() const {
    json all = json::array();
    std::vector<std::size_t> in_step(drive_.steps().size() + 1, 0);
    for (const auto& item : source_.findings.items) {
      const auto after = since_step(item);
      if (!after) {
        continue;
      }
      const auto& crossing = item.crossing;
      all.push_back(
          {{"item", item.item.name},
           {"order",
            words(checks::order(source_.opening, crossing->time, checks::slack_of(*crossing)))},
           {"step", *crossing->step},
           {"rank", in_step.at(*crossing->step)++},
           {"minute", rounded(std::max(*after, least_minute_))},
           {"times", rounded(*crossing->current / device_.rating)},
           {"label", fmt::format("{}, minute {}", item.item.name, minutes(crossing->time))}});
    }
    return all;
  }

  /// Where a stated opening time runs out first.
  [[nodiscard]] json latest() const {
    const auto& opening = source_.opening;
    if (!opening.latest || !opening.by) {
      return {};
    }
    const double since = *opening.latest - opening.by->within;
    const auto current = drive_.current_at(since + 1e-3);
    return {{"minute", rounded(opening.by->within / minute)},
            {"times", rounded(current.value_or(0.0) / device_.rating)},
            {"label", fmt::format("latest opening, minute {}", minutes(*opening.latest))}};
  }

  [[nodiscard]] json reach() const {
    double longest = 1.0;
    double least = device_.must_hold.value_or(1.0);
    double most = least;
    for (const Path& path : paths_) {
      longest = std::max({longest, path.goes_on, path.minutes.back()});
      least = std::min(least, *std::min_element(path.times.begin(), path.times.end()));
      most = std::max(most, *std::max_element(path.times.begin(), path.times.end()));
    }
    for (const auto& opening : device_.must_open) {
      longest = std::max(longest, opening.within / minute);
      most = std::max(most, opening.times);
    }
    return {least_minute_, rounded(1.5 * longest), rounded(0.8 * std::max(least, 0.02)),
            rounded(1.3 * most)};
  }

  const Source& source_;
  const checks::Device& device_;
  checks::Drive drive_;
  std::vector<double> current_;
  std::vector<Path> paths_;
  double least_minute_ = usual_begin;
};

}  // namespace

json envelope_data(const Source& source) {
  return source.device && source.histories->has("current") ? Envelope(source).data() : json();
}

}  // namespace ampstair::post::report
