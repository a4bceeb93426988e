#!/bin/sh
# Benchmarks, one command: sh tests/bench/run.sh [BUILD_FOLDER]. Prints times and ratios; nothing here can fail a build.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$top/build}
rows=${ROWS:-5000000}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cmake --build "$build" --target vinehand_cli bench_season bench_process >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
bin=$(find "$build" -name bench_season -type f | head -n 1)
process=$(find "$build" -name bench_process -type f | head -n 1)

echo "one planting, one member (goal 0.5 ms)"
"$bin" "$top/params"

echo "whole forecast of the demo, one member (goal 100 ms, 30 MB)"
"$process" 21 "$build/vinehand" forecast "$top/scenarios/two-bays" --members 1 --today 2026-07-14 --out "$work/demo" --quiet

echo "the same with 400 futures (goal 1000 ms on two cores, 120 MB)"
"$process" 5 "$build/vinehand" forecast "$top/scenarios/two-bays" --members 400 --threads 2 --today 2026-07-14 --out "$work/demo" --quiet

echo "learning from the records of the demo and looking back on every week of them, 400 futures (goal 15000 ms)"
"$process" 1 "$build/vinehand" learn "$top/scenarios/two-bays" --members 400 --threads 2 --today 2026-07-14 --out "$work/demo" --quiet

echo "learning alone: the season of the demo with its records, and without (goal 2000 ms apart)"
"$process" 3 "$build/vinehand" forecast "$top/scenarios/two-bays" --members 400 --threads 2 --today 2026-07-14 --out "$work/demo" --quiet
"$process" 3 "$build/vinehand" forecast "$top/scenarios/two-bays" --members 400 --threads 2 --today 2026-07-14 --no-records --out "$work/demo" --quiet

echo "a log of $rows rows (goal 5 s, 50 MB), and the same file read and dropped"
mkdir "$work/long"
awk -v n="$rows" 'BEGIN {
    print "time,t_air_c,par_umol_m2_s"
    split("31 28 31 30 31 30 31 31 30 31 30 31", len, " ")
    y = 2016; m = 1; d = 1; h = 0; min = 0
    for (i = 0; i < n; i++) {
        printf "%d-%02d-%02dT%02d:%02d,%.1f,%d\n", y, m, d, h, min, 18 + (h > 6 && h < 20) * 4 + min / 60, (h > 6 && h < 20) * 400
        if (++min < 60) continue
        min = 0; if (++h < 24) continue
        h = 0; last = len[m] + (m == 2 && y % 4 == 0)
        if (++d <= last) continue
        d = 1; if (++m <= 12) continue
        m = 1; y++
    }
}' >"$work/long/log.csv"
cat >"$work/long/scenario.toml" <<'TOML'
[house]
name = "Bench"
latitude_deg = 44.5
[climate]
log = "log.csv"
[climate.roughly]
warmest_high_c = 28
warmest_low_c = 16
coldest_high_c = -2
coldest_low_c = -12
sky = "mixed"
[[planting]]
name = "bench"
crop = "tomato-cluster"
plants = 100
plants_per_m2 = 2.5
set_out = 2016-01-10
pull_out = 2016-11-01
TOML
"$process" 3 "$build/vinehand" check "$work/long" --today 2026-07-14 --quiet
"$process" 3 cat "$work/long/log.csv"
