// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cstdint>
#include <fstream>
#include <iomanip>
#include <sstream>
#include <string>
#include <vector>

#include "verbs/large_pages.hpp"

using namespace ampstair;

namespace {

/// What the kernel says of the mapping that holds this place (proc(5), VmFlags); "" if it does not.
std::string flags_of(const void* place) {
  const auto wanted = reinterpret_cast<std::uintptr_t>(place);
  std::ifstream maps("/proc/self/smaps");
  bool here = false;
  for (std::string line; std::getline(maps, line);) {
    std::uintptr_t begin = 0;
    std::uintptr_t end = 0;
    char dash = 0;
    std::istringstream range(line);
    if (range >> std::hex >> begin >> dash >> end && dash == '-') {
      here = begin <= wanted && wanted < end;
    } else if (here && line.starts_with("VmFlags:")) {
      return line + ' ';
    }
  }
  return "";
}

}  // namespace

TEST_CASE("memory taken after asking for large pages is marked for them") {
  constexpr std::size_t megabyte = std::size_t{1} << 20U;
  if (!verbs::ask_for_large_pages(64 * megabyte)) {
    WARN("not to be had here: another C library, another allocator or another kernel");
    return;
  }
  const std::vector<char> small(megabyte / 4, 'a');
  const std::vector<char> large(12 * megabyte, 'b');
  const std::string flags = flags_of(large.data() + large.size() / 2);
  if (flags.empty()) {
    WARN("the kernel tells nothing of its mappings here");
    return;
  }
  CHECK_THAT(flags, Catch::Contains(" hg "));
  CHECK_THAT(flags_of(small.data() + small.size() / 2), Catch::Contains(" hg "));
}
