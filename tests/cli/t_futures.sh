#!/bin/sh
# How many futures, by whom it is said, and what the files then hold.
. "$VINEHAND_SOURCE/tests/cli/lib.sh"

cp -r "$VINEHAND_SOURCE/scenarios/no-thermometer" house
members() { grep -o '"members": *[0-9]*' "$1/run.json" | grep -o '[0-9]*$'; }
has() { head -n 1 "$1" | tr , '\n' | grep -qx "$2"; }

# the command line comes first, then the scenario
printf '\n[futures]\nmembers = 6\ndraw = 5\nvisit_delay_d = 2\n' >>house/scenario.toml
run forecast house --today 2026-07-14 --out six --threads 1; exits 0
good "six futures, as the scenario says" [ "$(members six)" = 6 ]
good "a mean has its range" has six/weeks.csv kg_p10
good "a mean has its range" has six/weeks.csv kg_p90
good "a day has its range" has six/trusses.csv first_ripe_p90
bad "a recorded mass has none" has six/picks.csv picked_kg_p10
run forecast house --today 2026-07-14 --members 1 --out one; exits 0
good "one future" [ "$(members one)" = 1 ]
bad "no range of one future" has one/weeks.csv kg_p10

# any number of threads, the same bytes; another draw, other futures
run forecast house --today 2026-07-14 --out again --threads 8; exits 0
for file in six/*.csv; do good "same ${file#six/} with 8 threads" cmp -s "$file" "again/${file#six/}"; done
run forecast house --today 2026-07-14 --draw 6 --out other; exits 0
bad "another draw gives other futures" cmp -s six/weeks.csv other/weeks.csv
finish
