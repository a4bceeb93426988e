#!/bin/sh
# Which lines and branches the tests reach, folder by folder, and which complaints no test has ever seen.
#     sh tests/trust/coverage.sh [BUILD]     builds and runs all but the heavy tests in BUILD (default build-coverage); some minutes
#     COVERAGE_ONLY=1 sh ...                 only counts what an earlier run left there
# Needs gcovr and python3. Goals: 95 % of the lines of model/, 85 % of cli/.
set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P)
top=$(CDPATH='' cd -- "$here/../.." && pwd -P)
build=${1:-$top/build-coverage}
command -v gcovr >/dev/null || { echo "skipped: gcovr is not installed"; exit 77; }

if [ -z "${COVERAGE_ONLY:-}" ]; then
    cmake -S "$top" -B "$build" -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS="--coverage -O1 -fprofile-update=atomic" >/dev/null &&
        cmake --build "$build" -j "$(nproc)" >"$build/build.log" 2>&1 || { tail -20 "$build/build.log"; exit 1; }
    find "$build" -name '*.gcda' -delete
    ctest --test-dir "$build" -j "$(nproc)" -LE heavy --timeout 600 >"$build/ctest.log" 2>&1 ||
        { echo "Some tests fail; what they reached is counted:"; grep -E 'Failed|Timeout' "$build/ctest.log"; }
fi
gcovr -r "$top" --object-directory "$build" -e "$top/tests" -e "$top/cli/man" --exclude-unreachable-branches \
    --json "$build/coverage.json" -j "$(nproc)" "$build" || exit 1
python3 "$here/coverage.py" "$build/coverage.json" "$top"
