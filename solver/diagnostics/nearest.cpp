// SPDX-License-Identifier: MIT
#include "diagnostics/nearest.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>

namespace ampstair::diagnostics {

namespace {

/// Damerau-Levenshtein distance in its restricted form (optimal string alignment).
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> above2(b.size() + 1);
  std::vector<std::size_t> above(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(above.begin(), above.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, changed});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], above2[j - 2] + 1);
      }
    }
    std::swap(above2, above);
    std::swap(above, row);
  }
  return above.back();
}

}  // namespace

std::vector<std::string> nearest_words(std::string_view mistyped,
                                       const std::vector<std::string>& words) {
  constexpr std::size_t longest = 60;  // noise is near nothing
  std::vector<std::pair<std::size_t, std::string>> near;
  if (mistyped.size() <= longest) {
    for (const auto& word : words) {
      const auto away = distance(mistyped, word);
      const auto length = std::max(mistyped.size(), word.size());
      if (away <= std::max<std::size_t>(1, length / 3) && away < length) {
        near.emplace_back(away, word);
      }
    }
  }
  std::stable_sort(near.begin(), near.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> result;
  for (auto& [away, word] : near) {
    result.push_back(std::move(word));
  }
  return result;
}

}  // namespace ampstair::diagnostics
