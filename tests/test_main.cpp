// SPDX-License-Identifier: MIT
// The one main of every test program: Catch2's own takes long to compile, so it is compiled once.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
