// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "quantities/number_text.hpp"
#include "quantities/parse.hpp"

namespace ampstair::quantities {

namespace {

constexpr double metres_per_inch = 0.0254;
constexpr int finest_awg = 56;  // the last of ASTM B258

/// American wire gauge = Brown & Sharpe: d = 0.127 mm * 92^((36 - n) / 39), ASTM B258.
/// @param n gauge number; 0, -1, -2, -3 stand for 1/0, 2/0, 3/0, 4/0
double awg_diameter(int n) {
  return 0.127e-3 * std::pow(92.0, (36.0 - n) / 39.0);
}

/// British standard wire gauge in inches, 7/0 to 40. From memory; the table is that of the Order
/// in Council of 1883, later BS 3737.
constexpr int coarsest_swg = -6;
constexpr std::array<double, 47> swg_inches{
    0.500,  0.464,  0.432,  0.400,  0.372,  0.348,  0.324,  0.300,  0.276,  0.252,  0.232,  0.212,
    0.192,  0.176,  0.160,  0.144,  0.128,  0.116,  0.104,  0.092,  0.080,  0.072,  0.064,  0.056,
    0.048,  0.040,  0.036,  0.032,  0.028,  0.024,  0.022,  0.020,  0.018,  0.0164, 0.0148, 0.0136,
    0.0124, 0.0116, 0.0108, 0.0100, 0.0092, 0.0084, 0.0076, 0.0068, 0.0060, 0.0052, 0.0048};

std::string lower(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return result;
}

bool cut_front(std::string_view& text, std::string_view word) {
  if (text.rfind(word, 0) != 0) {
    return false;
  }
  text = trimmed(text.substr(word.size()));
  return true;
}

bool cut_back(std::string_view& text, std::string_view word) {
  if (text.size() < word.size() || text.substr(text.size() - word.size()) != word) {
    return false;
  }
  text = trimmed(text.substr(0, text.size() - word.size()));
  return true;
}

/// "12" -> 12, "0" -> 0, "2/0" or "00" -> -1.
std::optional<int> gauge_number(std::string_view text) {
  int n = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, n);
  if (error != std::errc{} || n < 0 || text.empty()) {
    return std::nullopt;
  }
  if (text.find_first_not_of('0') == std::string_view::npos && text.size() <= 7) {
    return 1 - static_cast<int>(text.size());
  }
  if (stop == end) {
    return n;
  }
  return std::string_view(stop, static_cast<std::size_t>(end - stop)) == "/0" && n >= 1 && n <= 7
             ? std::optional<int>(1 - n)
             : std::nullopt;
}

Parsed refused(std::string code, std::string what, std::string remedy) {
  return {0.0, Fault{std::move(code), std::move(what), std::move(remedy)}};
}

std::string gauge_name(int n) {
  return n > 0 ? fmt::format("No. {}", n) : fmt::format("No. {}/0", 1 - n);
}

Parsed swg(int n, std::string_view subject, std::string_view text) {
  const int index = n - coarsest_swg;
  if (index < 0 || index >= static_cast<int>(swg_inches.size())) {
    return refused("E130", fmt::format("{} {} is outside No. 7/0 to No. 40 SWG.", subject, text),
                   "write a gauge in that range, or give the diameter");
  }
  return {swg_inches[static_cast<std::size_t>(index)] * metres_per_inch, std::nullopt};
}

}  // namespace

Parsed parse_gauge(std::string_view text, std::string_view subject) {
  const auto read = trimmed(text);
  const std::string folded = lower(read);
  std::string_view left = folded;
  bool named = cut_front(left, "no.") || cut_front(left, "no ") || cut_front(left, "#") ||
               cut_front(left, "awg");
  const bool british = cut_back(left, "swg");
  named = cut_back(left, "awg") || cut_back(left, "b&s") || named || british;
  const auto n = gauge_number(left);
  if (n && !named) {
    return refused(
        "E110", fmt::format("{} does not say that it is a gauge (read {}).", subject, read),
        fmt::format("write {0} (Brown & Sharpe, the same as AWG) or {0} SWG", gauge_name(*n)));
  }
  if (!n) {
    return refused("E115",
                   fmt::format("{} is not a wire gauge (read {}).", subject,
                               read.empty() ? "nothing" : shortened(read)),
                   "write No. 12 (Brown & Sharpe, the same as AWG), No. 2/0 or No. 18 SWG");
  }
  if (british) {
    return swg(*n, subject, read);
  }
  if (*n < -3 || *n > finest_awg) {
    return refused("E130",
                   fmt::format("{} {} is outside No. 4/0 to No. {}.", subject, read, finest_awg),
                   "write a gauge in that range, or give the diameter");
  }
  return {awg_diameter(*n), std::nullopt};
}

std::string nearest_gauge(double diameter) {
  int best = 0;
  double least = std::numeric_limits<double>::infinity();
  for (int n = -3; n <= finest_awg; ++n) {
    const double away = std::abs(std::log(diameter / awg_diameter(n)));
    if (away < least) {
      least = away;
      best = n;
    }
  }
  return gauge_name(best);
}

}  // namespace ampstair::quantities
