#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Runs clang-tidy over solver/ and postprocess/, or over the files named (from the top folder). Slow.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

tidy=$(command -v clang-tidy-16) || {
  echo "clang-tidy-16 is missing: apt-get install --no-install-recommends clang-tidy-16" >&2
  exit 1
}
build=build/tidy
cmake -S . -B "$build" -G Ninja -DAMPSTAIR_DEVELOPER=ON -DAMPSTAIR_TESTS=OFF >/dev/null
cmake --build "$build" --target ampstair_build_facts >/dev/null
if [[ $# -eq 0 ]]; then
  mapfile -t files < <(git ls-files 'solver/*.cpp' 'postprocess/*.cpp')
else
  files=("$@")
fi
printf '%s\0' "${files[@]}" | xargs -0 -n 1 -P "$(nproc)" \
  "$tidy" -p "$build" --quiet --extra-arg=-Wno-unknown-warning-option \
  --extra-arg=-Wno-unknown-pragmas
