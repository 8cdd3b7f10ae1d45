// SPDX-License-Identifier: MIT
#include "marching/kernels.hpp"

namespace ampstair::marching {

namespace lanes_2 {
extern const Kernels table;
}
#ifdef AMPSTAIR_WIDE_KERNELS
namespace lanes_4 {
extern const Kernels table;
}
namespace lanes_8 {
extern const Kernels table;
}
#endif

const Kernels& kernels() {
#ifdef AMPSTAIR_WIDE_KERNELS
  static const Kernels& chosen = __builtin_cpu_supports("x86-64-v4")   ? lanes_8::table
                                 : __builtin_cpu_supports("x86-64-v3") ? lanes_4::table
                                                                       : lanes_2::table;
  return chosen;
#else
  return lanes_2::table;
#endif
}

}  // namespace ampstair::marching
