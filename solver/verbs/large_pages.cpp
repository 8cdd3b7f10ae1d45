// SPDX-License-Identifier: MIT
#include "verbs/large_pages.hpp"

#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>

namespace ampstair::verbs {

#if defined(__GLIBC__) && defined(MADV_HUGEPAGE)

bool ask_for_large_pages(std::size_t bytes) {
  // Single blocks up to this size come from the heap, too, and what they leave stays with it.
  constexpr int largest_block = 16 << 20;
  constexpr int whole = 1 << 30;
  if (mallopt(M_MMAP_THRESHOLD, largest_block) == 0 || mallopt(M_TRIM_THRESHOLD, whole) == 0 ||
      mallopt(M_TOP_PAD, static_cast<int>(bytes)) == 0) {
    return false;
  }
  void* const block = std::malloc(largest_block / 2);  // makes the heap grow by block and pad
  const auto begin = reinterpret_cast<std::uintptr_t>(block);
  const auto end = reinterpret_cast<std::uintptr_t>(sbrk(0));
  std::free(block);
  mallopt(M_TOP_PAD, largest_block);
  if (block == nullptr || end < begin || end - begin < bytes) {
    return false;  // another allocator stands in, or the heap could not grow in one piece
  }
  const auto page = static_cast<std::uintptr_t>(sysconf(_SC_PAGESIZE));
  const std::uintptr_t first = (begin + page - 1) / page * page;
  return madvise(reinterpret_cast<void*>(first), end - first, MADV_HUGEPAGE) == 0;
}

#else

bool ask_for_large_pages(std::size_t) {
  return false;
}

#endif

}  // namespace ampstair::verbs
