#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Marches every validation case, writes the table of README.md and prints it:
#   bash validation/run.sh [FOLDER of ampstair and ampstair-post]
# Builds the programs in build/validation if no folder is given. Ends with 0 if every value is met, 3 if
# those missed are known and explained, 1 if one is missed without a reason, 2 if a case cannot be run.
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
programs=${1:-$top/build/validation}
if [ $# -eq 0 ]; then
  bash "$top/scenarios/install-packages.sh" "$top/scenarios/packages.txt" "$top/tests/packages.txt" >&2
  echo "Building in build/validation." >&2
  cmake -S "$top" -B "$programs" -DAMPSTAIR_TESTS=OFF >/dev/null
  cmake --build "$programs" -j "$(nproc)" >/dev/null
fi
exec /usr/bin/python3 -B "$top/validation/write_table.py" "$(cd "$programs" && pwd)" --jobs "$(nproc)"
