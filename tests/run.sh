#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installs what the tests need, builds everything with warnings as errors, and runs all tests.
# Options go to ctest:  bash tests/run.sh -R history
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

bash scenarios/install-packages.sh scenarios/packages.txt tests/packages.txt
build=build/tests
mkdir -p "$build"
echo "Configuring in $build."
cmake -S . -B "$build" -G Ninja -DAMPSTAIR_DEVELOPER=ON -DAMPSTAIR_TESTS=ON >"$build/configure.log" 2>&1 ||
  { cat "$build/configure.log" >&2; exit 1; }
echo "Building with $(nproc) jobs (many minutes the first time, seconds afterwards)."
cmake --build "$build" -j "$(nproc)" >"$build/build.log" 2>&1 ||
  { grep -vE '^\[[0-9]+/[0-9]+\]' "$build/build.log" >&2; exit 1; }
echo "Testing."
exec ctest --test-dir "$build" --output-on-failure --no-tests=error --no-label-summary \
  -j "$(nproc)" "$@"
