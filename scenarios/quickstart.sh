#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# From a bare Debian 12 to a first verdict: installs packages, builds, checks and marches the barn.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

sheet=scenarios/cider-barn.yaml
build=build/quickstart
record=out/cider-barn.h5
ledger=out/cider-barn-ledger.txt

bash scenarios/install-packages.sh scenarios/packages.txt
mkdir -p "$build" "$(dirname "$record")"
echo "Building both programs in $build (some minutes the first time, seconds afterwards)."
{
  cmake -S . -B "$build" -G Ninja -DAMPSTAIR_TESTS=OFF && cmake --build "$build" -j "$(nproc)"
} >"$build/build.log" 2>&1 || {
  grep -vE '^(-- |\[[0-9]+/[0-9]+\])' "$build/build.log" | tail -n 40 >&2
  echo "The build failed; all it said is in $build/build.log." >&2
  exit 1
}

echo
echo "\$ ampstair check $sheet"
"$build/ampstair" check "$sheet" >"$ledger"
echo "No faults. Its pieces and steps are listed in $ledger."
echo
echo "\$ ampstair run $sheet --record $record --overwrite"
"$build/ampstair" run "$sheet" --record "$record" --overwrite
echo
echo "\$ ampstair-post verdict $record"
verdict=0
"$build/ampstair-post" verdict "$record" || verdict=$?
echo
case $verdict in
  0) echo "Exit code 0: every watched limit stays clear." ;;
  1) echo "Exit code 1: a watched limit is crossed. That is what this scenario is there to show." ;;
  3) echo "Exit code 3: nothing is crossed, but an item is near its limit or cannot be judged." ;;
  *) exit "$verdict" ;;
esac
page=${record%.h5}.html
echo
echo "\$ ampstair-post report $record -o $page --overwrite"
"$build/ampstair-post" report "$record" -o "$page" --overwrite
cat <<END

Open $page in a browser: it needs no network. The record lies in $record, the programs in $build.
What to try next:
  $build/ampstair run scenarios/cider-barn-buried.yaml -o out/cider-barn-buried.h5
  $build/ampstair-post verdict out/cider-barn-buried.h5
      the same barn with one leg buried
  $build/ampstair-post export $record --csv out/cider-barn
      the series as CSV files
  scenarios/README.md
      the other run sheets, in reading order
END
