// SPDX-License-Identifier: MIT
#define AMPSTAIR_KERNELS lanes_2
#define AMPSTAIR_LANES 2
#define AMPSTAIR_KERNELS_NAME "x86-64"
#include "marching/kernels_loops.inc"
