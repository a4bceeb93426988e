#!/bin/sh
# Where midnight falls is a habit of clocks, not of plants: the same weather, told on a clock that is some hours ahead (every
# time of the log and the house's own offset moved together, so sun and log still agree), gives nearly the same season.
. "$(dirname -- "$0")/../cli/lib.sh"
demo=$VINEHAND_SOURCE/scenarios/two-bays

# The daily step sees other 24-hour means, and a pick or a visit may fall on the other side of a day. Our own bound, no source:
# measured were at most 0.4 % of a season's kg; a day of light put wrong would be 1 in 25 that feed a fruit, 4 %.
bound_percent=0.6

season() { # season HOURS   totals of kg by planting, in totals.HOURS
    mkdir "by$1"
    cp "$demo"/*.csv "by$1"
    python3 - "$demo" "by$1" "$1" <<'PY'
import datetime, re, sys
demo, folder, hours = sys.argv[1], sys.argv[2], int(sys.argv[3])
scenario = open(f"{demo}/scenario.toml").read()
offset = re.search(r"^utc_offset_h = (-?\d+)", scenario, re.M)
moved = scenario[:offset.start(1)] + str(int(offset[1]) + hours) + scenario[offset.end(1):]
moved = re.sub(r'^log_daylight_saving = "\w+"', 'log_daylight_saving = "none"', moved, flags=re.M)
open(f"{folder}/scenario.toml", "w").write(moved)
lines = open(f"{demo}/inside.csv").read().splitlines()
with open(f"{folder}/inside.csv", "w") as out:
    print(lines[0], file=out)
    for line in lines[1:]:
        time, rest = line.split(",", 1)
        at = datetime.datetime.fromisoformat(time) + datetime.timedelta(hours=hours)
        print(at.isoformat(timespec="minutes") + "," + rest, file=out)
PY
    run forecast "by$1" --today 2026-07-14 --members 1 --no-records --out "out$1"
    exits 0
    awk -F, 'NR > 1 { kg[$3] += $5 } END { for (p in kg) print p, kg[p] }' "out$1/weeks.csv" | sort >"totals.$1"
}

season 0
good "three plantings" [ "$(wc -l <totals.0)" -eq 3 ]
for hours in -6 -2 2 6; do
    season $hours
    bad "$hours h moves nothing at all: the clock is not read" cmp -s totals.0 "totals.$hours"
    moved=$(paste totals.0 "totals.$hours" | awk '{ d = 100 * ($4 / $2 - 1); printf "%s %+.2f %%  ", $1, d; if (d < 0) d = -d; if (d > m) m = d }
        END { print m > "most" }')
    echo "$hours h: $moved"
    good "$hours h moves a season by $(cat most) %, more than $bound_percent %" awk -v m="$(cat most)" -v b=$bound_percent 'BEGIN { exit !(m < b) }'
done
finish
