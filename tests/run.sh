#!/bin/sh
# run.sh - all tests: with sanitizers (Debug, all but the heavy ones and the rules of the tree), then as shipped (Release, every one).
# Run it from anywhere, as often as you like:  sh tests/run.sh
# VINEHAND_DATA=DIR names the measured seasons; without it the tests that need them say so and are skipped.
set -u

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P) || exit 1
. "$root/cli/packages.sh"

need_packages cmake make ninja-build pkg-config gcc libc6-dev git libgsl-dev libcsv-dev \
    libcriterion-dev clang libclang-rt-14-dev python3 python3-jsonschema python3-icalendar || exit 1
need_packages chromium poppler-utils fonts-dejavu-core python3-html5lib ||
    echo "Without these the pages are not looked at in a browser; all else is tested." >&2
need_packages mandoc dpkg-dev ||
    echo "Without these the manual pages are not checked and no package is made; all else is tested." >&2
need_packages libopenmpi-dev openmpi-bin ||
    echo "Without these no list of houses is run over ranks; all else is tested." >&2
if [ -n "${VINEHAND_DATA:-}" ]; then
    VINEHAND_DATA=$(CDPATH='' cd -- "$VINEHAND_DATA" && pwd -P) || exit 1
    export VINEHAND_DATA
fi
# Threads that wait for each other would spin on the cores that the other tests need: half of all time went there.
OMP_WAIT_POLICY=passive
export OMP_WAIT_POLICY
jobs=$(nproc 2>/dev/null || echo 2)
failed=0

echo "== Debug with address and undefined-behaviour sanitizers, all but the heavy tests and the rules of the tree"
build_in build-debug -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS_DEBUG="-O1 -g1" -DVINEHAND_SANITIZE=ON -DVINEHAND_WERROR=ON \
    -DVINEHAND_TESTS=ON || exit 1
ctest --test-dir "$root/build-debug" --output-on-failure --no-tests=error -j "$jobs" -LE heavy -E "^rules[.]" ||
    failed=1

echo "== Release, every test"
build_in build -DCMAKE_BUILD_TYPE=Release -DVINEHAND_TESTS=ON || exit 1
[ $failed -eq 0 ] || echo "== The Debug run above has failures." >&2
ctest --test-dir "$root/build" --output-on-failure --no-tests=error -j "$jobs" || failed=1
exit $failed
