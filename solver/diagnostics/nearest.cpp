// SPDX-License-Identifier: MIT
#include "diagnostics/nearest.hpp"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <numeric>
#include <utility>

namespace ampstair::diagnostics {

namespace {

std::string lower(std::string_view text) {
  std::string lowered(text);
  std::transform(lowered.begin(), lowered.end(), lowered.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return lowered;
}

/// Edit distance in which a swap of neighbours is one slip (restricted Damerau-Levenshtein).
std::size_t slips_between(std::string_view a, std::string_view b) {
  const std::size_t columns = b.size() + 1;
  std::vector<std::size_t> before(columns);
  std::vector<std::size_t> last(columns);
  std::vector<std::size_t> now(columns);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j < columns; ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, replaced});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        now[j] = std::min(now[j], before[j - 2] + 1);
      }
    }
    before = std::exchange(last, now);
  }
  return last.back();
}

}  // namespace

std::vector<std::string> nearest_words(std::string_view written,
                                       std::span<const std::string> known) {
  const std::string meant = lower(written);
  const std::size_t most = std::max<std::size_t>(1, std::min<std::size_t>(6, meant.size() / 3));
  std::vector<std::pair<std::size_t, std::string>> found;
  for (const auto& word : known) {
    const std::size_t slips = slips_between(meant, lower(word));
    if (slips <= most) {
      found.emplace_back(slips, word);
    }
  }
  std::sort(found.begin(), found.end());
  std::vector<std::string> words;
  for (auto& [slips, word] : found) {
    if (words.size() < 3 && slips <= found.front().first + 4) {
      words.push_back(std::move(word));
    }
  }
  return words;
}

}  // namespace ampstair::diagnostics
