#!/bin/sh
# first-run.sh - from a bare Debian to a first forecast: installs what is missing, builds, forecasts the
# example. Run it from anywhere, as often as you like:  sh cli/first-run.sh
set -u

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P) || exit 1
. "$root/cli/packages.sh"

need_packages cmake make pkg-config gcc libc6-dev libgsl-dev libcsv-dev || exit 1
echo "Building in $root/build" >&2
build_in build -DCMAKE_BUILD_TYPE=Release -DVINEHAND_TESTS=OFF || exit 1

# The example's log ends on this day, so this day is its "today".
cd "$root" || exit 1
build/vinehand forecast scenarios/two-bays --today 2026-07-14 --out notebooks-out/two-bays || exit $?
echo
echo "The files: $root/notebooks-out/two-bays"
echo "The program: $root/build/vinehand (build/vinehand --help)"
echo "So that vinehand alone is enough, type once in each terminal:"
echo "    export PATH=\"$root/build:\$PATH\""
