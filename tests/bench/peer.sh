#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What march() costs against SUNDIALS CVODE's best configuration at the same measured error. Builds
# for release in build/bench and runs; the last line is the ratio.
#   bash tests/bench/peer.sh         # case B at four sizes, the barn, exponents: a quarter of an hour
#   bash tests/bench/peer.sh quick   # case B at about 6 000 cells, the barn's command: a minute
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

build=build/bench
mkdir -p "$build"
cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DAMPSTAIR_TESTS=ON >"$build/configure.log" 2>&1 ||
  { cat "$build/configure.log" >&2; exit 1; }
cmake --build "$build" --target peer_bench -j "$(nproc)" >"$build/build.log" 2>&1 ||
  { grep -vE '^\[[0-9]+/[0-9]+\]' "$build/build.log" >&2; exit 1; }
exec "$build/peer_bench" "$@"
