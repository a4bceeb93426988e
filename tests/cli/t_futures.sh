#!/bin/sh
# How many futures, by whom it is said, and what the files then hold.
. "$VINEHAND_SOURCE/tests/cli/lib.sh"

cp -r "$VINEHAND_SOURCE/scenarios/no-thermometer" house
members() { grep -o '"members": *[0-9]*' "$1/run.json" | grep -o '[0-9]*$'; }
has() { head -n 1 "$1" | tr , '\n' | grep -qx "$2"; }

# the command line comes first, then the scenario
printf '\n[futures]\nmembers = 6\ndraw = 5\nvisit_delay_d = 2\n' >>house/scenario.toml
run forecast house --today 2026-07-14 --out six --threads 1; exits 0
good "what is to come has its range" sh -c "tr -s ' \\n' '  ' <'$work/out' | grep -qE 'RANGE to come: [a-z]+ [0-9.]+ to [0-9.]+ kg.*; ranges hold four times in five'"
good "six futures, as the scenario says" [ "$(members six)" = 6 ]
good "a mean has its range" has six/weeks.csv kg_p10
good "a mean has its range" has six/weeks.csv kg_p90
good "a day has its range" has six/trusses.csv first_ripe_p90
bad "a recorded mass has none" has six/picks.csv picked_kg_p10
run forecast house --today 2026-07-14 --members 1 --out one; exits 0
good "one future" [ "$(members one)" = 1 ]
bad "no range is said of one future" grep -q '^RANGE' "$work/out"
bad "no range of one future" has one/weeks.csv kg_p10

# topping is proposed above a truss that four futures in five ripen: half of them do so by pull-out, and no later one than
# the last of the futures has
good "topping is proposed by the futures" [ "$(grep -c ',top,.*8 times in 10' six/tasks.csv)" -ge 1 ]
python3 - >"$work/said" <<'PY' || tell "the proposal: $(cat "$work/said")"
import csv, re, sys
rows = lambda name: list(csv.DictReader(open(f"six/{name}.csv", newline="")))
out = {r["planting"]: r["date"] for r in rows("tasks") if r["task"] == "pull_out"}
for r in rows("tasks"):
    if r["task"] != "top": continue
    n = int(re.search(r"truss (\d+) is the last", r["note"])[1])
    last = {int(t["truss"]): t for t in rows("trusses") if t["planting"] == r["planting"]}
    if not last[n]["last_ripe"] or last[n]["last_ripe"] > out[r["planting"]]: sys.exit(f"truss {n} is ripe {last[n]['last_ripe']}")
    after = last.get(n + 1, {}).get("last_ripe_p90", "")
    if after and after <= out[r["planting"]]: sys.exit(f"truss {n + 1} is ripe in nine futures of ten by {after}")
PY

# any number of threads, the same bytes; another draw, other futures
run forecast house --today 2026-07-14 --out again --threads 8; exits 0
for file in six/*.csv; do good "same ${file#six/} with 8 threads" cmp -s "$file" "again/${file#six/}"; done
run forecast house --today 2026-07-14 --draw 6 --out other; exits 0
bad "another draw gives other futures" cmp -s six/weeks.csv other/weeks.csv
finish
