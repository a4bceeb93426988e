#!/bin/sh
# Columns of the results against a second way of working them out (columns.py); and that this way would notice.
. "$(dirname -- "$0")/lib.sh"
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 77; }
python3 -c 'import tomllib' 2>/dev/null || { echo "skipped: python3 is older than 3.11"; exit 77; }
cp -r "$VINEHAND_SOURCE/scenarios/two-bays" .
columns() { python3 -B "$VINEHAND_SOURCE/tests/cli/columns.py" two-bays "$@"; }

run forecast two-bays --today 2026-07-14 --members 1 --no-records --quiet --out out; exits 0
run compare two-bays --today 2026-07-14 --members 2 --quiet --out compared; exits 0
echo two-bays >list.txt
run houses list.txt --today 2026-07-14 --members 1 --no-records --quiet --out houses; exits 0
run learn two-bays --today 2026-07-14 --members 20 --quiet --out learned; exits 0
cp -r two-bays unsold; awk '/^\[/ { skip = /^\[+market/ } !skip { print }' two-bays/scenario.toml >unsold/scenario.toml
run learn unsold --today 2026-07-14 --members 20 --quiet --out learned-unsold; exits 0
good "columns come out" columns out compared houses learned learned-unsold

# What is promised is written down: by size what a size takes, by the piece what is sold so.
run forecast two-bays --today 2026-07-14 --members 3 --quiet --out futures; exits 0
good "a promise of fruit that no size takes is made" grep -q '^2026-07-18,slicers,ungraded,.*[1-9]' futures/market_days.csv
bad "and said" grep -q ungraded futures/said.csv
good "all sizes are said" [ "$(grep -c '2026-07-18,slicers,' futures/said.csv)" -eq 5 ]
good "by the piece only cucumbers" [ "$(sed 1d futures/said_fruits.csv | cut -d, -f3 | sort -u)" = cucumbers ]

# One cell that is wrong is seen, in each file.
spoilt() { # FILE LINE COLUMN VALUE
    cp -r out spoilt
    awk -F, -v OFS=, -v line="$2" -v name="$3" -v value="$4" 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == name) at = i }
        NR == line { $at = value } { print }' "out/$1" >"spoilt/$1"
    bad "$3 of $1 may be wrong unseen" columns spoilt >"$work/told"
    rm -r spoilt
}
spoilt weeks.csv 60 market_kg 1
spoilt picks.csv 150 fruit_g 99
spoilt trusses.csv 5 take_off 9
spoilt stem.csv 300 head_height_cm 200
spoilt lowering.csv 40 hook_from_root_cm 100
spoilt hours.csv 100 hours 9
spoilt market_days.csv 120 income 1
finish
