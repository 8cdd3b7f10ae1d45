// SPDX-License-Identifier: MIT
#define AMPSTAIR_KERNELS lanes_8
#define AMPSTAIR_LANES 8
#define AMPSTAIR_KERNELS_NAME "x86-64-v4"
#include "marching/kernels_loops.inc"
