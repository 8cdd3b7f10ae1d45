#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Installs those Debian packages of the lists given (files) that are missing, and says what it does.
set -euo pipefail

read -r -a wanted <<<"$(sed 's/#.*//' "$@" | tr '\n' ' ')"
missing=()
for package in "${wanted[@]}"; do
  state=$(dpkg-query -W -f '${db:Status-Abbrev}' "$package" 2>/dev/null) || state=
  [[ $state == ii* ]] || missing+=("$package")
done
if [[ ${#missing[@]} -eq 0 ]]; then
  echo "Packages: all ${#wanted[@]} are here, nothing to install."
  exit 0
fi

as_root=()
if [[ $(id -u) -ne 0 ]]; then
  command -v sudo >/dev/null || {
    echo "Packages are missing and this needs root or sudo. As root, run:" >&2
    echo "  apt-get install --no-install-recommends ${missing[*]}" >&2
    exit 1
  }
  as_root=(sudo)
fi

echo "Packages: installing ${#missing[@]} with apt-get: ${missing[*]}"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
apt() {
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y "$@" >>"$log" 2>&1 || {
    tail -n 15 "$log" >&2
    echo "apt-get $1 failed; its last lines are above." >&2
    exit 1
  }
}
apt update
apt install --no-install-recommends "${missing[@]}"
