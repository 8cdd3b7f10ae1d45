#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Marches every validation case and prints the table of README.md:
#   bash validation/run.sh [FOLDER of ampstair and ampstair-post]
# Builds the programs in build/validation if no folder is given. Ends with 1 if a value is missed.
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
programs=${1:-$top/build/validation}
if [ $# -eq 0 ]; then
  bash "$top/scenarios/install-packages.sh" "$top/scenarios/packages.txt" "$top/tests/packages.txt" >&2
  echo "Building in build/validation." >&2
  cmake -S "$top" -B "$programs" -DAMPSTAIR_TESTS=OFF >/dev/null
  cmake --build "$programs" -j "$(nproc)" >/dev/null
fi
echo "| quantity | published | computed | difference | tolerance | source | status | verdict |"
echo "|---|---|---|---|---|---|---|---|"
missed=0
for published in "$top"/validation/*/published.yaml; do
  /usr/bin/python3 -B "$top/validation/check_case.py" "$programs" "${published%/*}" --table || missed=1
done
exit $missed
