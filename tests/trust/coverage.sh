#!/bin/sh
# Which lines and branches the tests reach, folder by folder, and which complaints no test has ever seen.
#     sh tests/trust/coverage.sh [BUILD [FOLDER]]   builds in BUILD (build-coverage) and runs each test by itself; what it reached
#                                                   goes to FOLDER (BUILD-seen), where mutate.sh looks who runs a line
#     COVERAGE_ONLY=1 sh ...                        only counts what an earlier run left there
# Needs gcovr and python3. Of all tests only fuzz (clang's own build), package (builds of its own), the rules of the tree and
# laws.twins (a hundred seasons of what others run, minutes here) are left out. Without optimisation: with it, equal calls are joined
# and only one of them is counted.
# Ends with 1 where a test fails or a goal is not met: 95 % of the lines of model/, 85 % of cli/, every branch of the readers, of
# dates and units, every complaint made (or answered in unseen.txt).
set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P)
top=$(CDPATH='' cd -- "$here/../.." && pwd -P)
build=${1:-$top/build-coverage}
seen=${2:-$build-seen}
command -v gcovr >/dev/null || { echo "skipped: gcovr is not installed"; exit 77; }

if [ -z "${COVERAGE_ONLY:-}" ]; then
    cmake -S "$top" -B "$build" -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS="--coverage -O0 -fprofile-update=atomic" >/dev/null &&
        cmake --build "$build" -j "$(nproc)" >"$build/build.log" 2>&1 || { tail -20 "$build/build.log"; exit 1; }
    find "$build" -name '*.gcda' -delete
    rm -rf "$seen"
    mkdir -p "$seen" || exit 1
    ln -s "$build/CMakeFiles/vinehand.dir" "$seen/notes"
    : >"$seen/seconds"
    : >"$seen/failed"
    # Counters that find no room, where a file may hold 20 bytes, say so there and not among the program's own words; those of
    # bad_files are written by another user as well.
    export GCOV_ERROR_FILE=/dev/null
    for test in $(ctest --test-dir "$build" -N -E '^fuzz|package|^rules|^laws[.]twins$' | awk '/Test +#/ { print $NF }'); do
        from=$(date +%s%N)
        (
            [ "$test" != cli.bad_files ] || umask 0
            GCOV_PREFIX=$seen/raw/$test ctest --test-dir "$build" -R "^$test\$" --timeout 1800 >"$seen/$test.log" 2>&1
        ) || echo "$test fails; what it reached is counted" | tee -a "$seen/failed"
        echo "$test $((($(date +%s%N) - from) / 10000000))" | awk '{ print $1, $2 / 100 }' >>"$seen/seconds"
        ln -s "raw/$test$build/CMakeFiles/vinehand.dir" "$seen/$test"
    done
fi
rm -rf "$seen/sum"
for raw in "$seen"/raw/*; do
    if [ ! -d "$raw$build" ]; then continue; fi # a test without the program
    if [ ! -d "$seen/sum" ]; then cp -r "$raw$build" "$seen/sum"; continue; fi
    gcov-tool merge "$seen/sum" "$raw$build" -o "$seen/both" >/dev/null 2>&1 && rm -rf "$seen/sum" && mv "$seen/both" "$seen/sum"
done
find "$build" -name '*.gcda' -delete
cp -r "$seen/sum/." "$build/"
gcovr -r "$top" --object-directory "$build" -e "$top/tests" -e "$top/cli/man" --exclude-unreachable-branches \
    --json "$seen/coverage.json" -j "$(nproc)" "$build" 2>"$seen/gcovr.log" || { cat "$seen/gcovr.log"; exit 1; }
python3 "$here/coverage.py" "$seen/coverage.json" "$top" && [ ! -s "$seen/failed" ]
