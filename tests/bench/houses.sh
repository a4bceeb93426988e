#!/bin/sh
# houses over many scenarios: sh tests/bench/houses.sh [BUILD_FOLDER [HOUSES [MEMBERS]]] (1000, 1). Each: one planting, 300
# days. Prints seconds for 1 and 2 threads, for a second run that finds all there, and over 1, 2 and 4 ranks where
# built with MPI (target vinehand_ranks). In memory where there is such a place, for it syncs some 20 files a house.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$top/build} houses=${2:-1000} members=${3:-1}
[ -d /dev/shm ] && [ -w /dev/shm ] && TMPDIR=/dev/shm && export TMPDIR
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

i=0
while [ $i -lt "$houses" ]; do
    i=$((i + 1))
    mkdir -p "$work/list/h$i"
    sed "s/One bay/Bench $i/; s/^latitude_deg.*/latitude_deg = $((30 + i % 30)).5/; s/tomato-large/tomato-cluster/
        s/^plants = .*/plants = 100/; \$a set_out = 2026-01-10\npull_out = 2026-11-05" \
        "$top/tests/cli/one-bay.toml" >"$work/list/h$i/scenario.toml"
done

# timed WHAT COMMAND...: its seconds, and its speed against the first of its kind
timed() {
    what=$1
    shift
    before=$(date +%s.%N)
    "$@" >/dev/null
    after=$(date +%s.%N)
    awk -v a="$before" -v b="$after" -v n="$houses" -v what="$what" \
        'BEGIN { printf "%-28s %8.2f s %8.2f ms a house\n", what, b - a, 1000 * (b - a) / n }'
}
at="--today 2026-07-14 --members $members --params $top/params --quiet"
echo "$houses houses, one planting of 300 days, members: $members"
# shellcheck disable=SC2086  # $at is a list of words
{
timed "1 thread" "$build/vinehand" houses "$work/list" $at --threads 1 --out "$work/t1"
timed "2 threads" "$build/vinehand" houses "$work/list" $at --threads 2 --out "$work/t2"
diff -r "$work/t1" "$work/t2" >/dev/null && echo "the same bytes"
rm -rf "$work/t2"
timed "again: all there" "$build/vinehand" houses "$work/list" $at --threads 1 --out "$work/t1"
ranked="$build/tests/vinehand_ranks"
if [ -x "$ranked" ] && command -v mpirun >/dev/null; then
    for n in 1 2 4; do
        timed "$n ranks, a thread each" mpirun --allow-run-as-root --oversubscribe -np $n "$ranked" houses "$work/list" $at \
            --threads 1 --out "$work/r$n"
        diff -r "$work/t1" "$work/r$n" >/dev/null && echo "the same bytes"
        rm -rf "$work/r$n"
    done
fi
}
