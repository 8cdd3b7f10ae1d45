// SPDX-License-Identifier: MIT
#define AMPSTAIR_KERNELS lanes_4
#define AMPSTAIR_LANES 4
#define AMPSTAIR_KERNELS_NAME "x86-64-v3"
#include "marching/kernels_loops.inc"
