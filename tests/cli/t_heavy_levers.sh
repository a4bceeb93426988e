#!/bin/sh
# Each lever of compare, taken before the plants are set out, is the season of a scenario that says so from the start: the
# same fruit, mass and hours, to the last digit that is written. A second planting holds the days of the house, so that both
# have the same weather before and the same market days behind.
. "$(dirname -- "$0")/lib.sh"
PARAMS=$VINEHAND_SOURCE/params

base() {
    small_scenario | sed 's/^utc_offset_h.*/&\nwire_height_m = 2.4/; s/^pull_out.*/pull_out = 2026-07-31/'
    printf '[planting.lower]\nevery_d = 7\n[planting.pollination]\nby = "hand"\nevery_d = 2\n[planting.pick]\nstage = "light-red"\n'
    printf '[planting.leaves]\nkeep = 15\n[planting.suckers]\nevery_d = 7\n'
}
other() { planting other tomato-large 3 2.5 2026-02-20 2026-07-31; }
lists='lower_every_d = [14]
pollination_every_d = [6]
pick_stage = ["pink"]
set_out = [2026-03-13]
pull_out = [2026-06-30]
plants_per_m2 = [3]
heads_per_plant = [2]
leaves_kept = [11]
suckers_every_d = [21]
top_on = [2026-05-20]
stripped_nodes = [2]
fruits_kept = [3]'
{ base; other; printf '[market]\ndays = ["sat"]\n[compare]\nplanting = "slicers"\n%s\n' "$lists"; } >s.toml
run compare s.toml --today 2026-02-01 --params "$PARAMS" --members 2 --out all
exits 0

# same CHOICE SED-EXPRESSION [MORE]: the row of the choice is the plan of the scenario so changed
same() {
    choice=$1
    { base; [ -z "${3:-}" ] || printf '%b' "$3"; other; printf '[market]\ndays = ["sat"]\n[compare]\nplanting = "slicers"\nfruits_kept = [5]\n'; } | sed "$2" >own.toml
    rm -rf own
    run compare own.toml --today 2026-02-01 --params "$PARAMS" --members 2 --out own
    exits 0
    python3 - "$choice" >"$work/out" 2>&1 <<'PY' || tell "$choice is not the season that says so: $(cat "$work/out")"
import csv, sys
rows = {r["choice"]: r for r in csv.DictReader(open("all/choices.csv")) if r["planting"] == "slicers"}
if sys.argv[1] not in rows: sys.exit(f"choices are {list(rows)}")
plan = [r for r in csv.DictReader(open("own/choices.csv")) if r["choice"] == "as planned" and r["planting"] == "slicers"][0]
choice, before = rows[sys.argv[1]], rows["as planned"]
columns = ["fruit_g", "kg_per_plant", "market_kg", "hours"]
if any(choice[c] != plan[c] for c in columns): sys.exit(f"{[choice[c] for c in columns]}, {[plan[c] for c in columns]}")
if all(choice[c] == before[c] for c in columns): sys.exit("the lever moves nothing")
PY
}
same 'lower every 14 days' '/planting.lower/,/every_d/s/every_d = 7/every_d = 14/'
same 'pollinate every 6 days' 's/every_d = 2$/every_d = 6/'
same 'pick at pink' 's/"light-red"/"pink"/'
same 'set out 13 March' '0,/^set_out.*/s//set_out = 2026-03-13/'
same 'pull out 30 June' '0,/^pull_out.*/s//pull_out = 2026-06-30/'
# 48 plants at 2.5 stand on 19.2 m2; at 3 these hold 57.6
same '3 plants a m2' 's/^plants = 48/plants = 58/; 0,/^plants_per_m2.*/s//plants_per_m2 = 3/'
same '2 heads a plant' '0,/^plants_per_m2.*/s//&\nheads_per_plant = 2/'
same 'keep 11 leaves' 's/^keep = 15/keep = 11/'
same 'suckers every 21 days' '/planting.suckers/,/every_d/s/every_d = 7/every_d = 21/'
same 'top on 20 May' '' '[planting.top]\non = 2026-05-20\n'
same 'strip the first 2' '' '[[planting.fruits_kept]]\ntrusses = "1-2"\nfruits = 0\nat = "bud"\n'
same 'leave 3' '' '[[planting.fruits_kept]]\nfruits = 3\n'
finish
