#!/bin/sh
# explain: what a name means, on 80 columns; what is not there is met with the nearest.
. "$(dirname -- "$0")/lib.sh"

run explain leaf.potential_area_m2; exits 0; quiet_err
says "leaf.potential_area_m2"; says "area of a full-grown leaf"; says "model/plant/vh_leaf.h"
says "tomato-cluster"; says "m2"
run explain potential_area_m2; exits 0; says "leaf.potential_area_m2"

# value, range, basis, place and the citation in full, as params/ has them
run explain sky.angstrom_a; exits 0
says "0.25 (0.15 to 0.35); published, fao56, eq. 35"
says "Allen R.G., Pereira L.S., Raes D., Smith M. (1998)"; says "SOURCES"

run explain planting.fruits_kept.fruits; exits 0; says "fruits = 3"
says "[[planting.fruits_kept]]"
# at most three names are offered, the nearest
for near in planting.set planting.so weeks.k; do
    run explain $near; exits 2
    offered=$(sed 's/.*did you mean //; s/ or /, /' "$work/err" | awk -F', ' '{ print NF }')
    good "at most three names for $near, not $offered" [ "$offered" -le 3 ]
done
run explain planting.set; complains "vinehand: nothing here is called planting.set; did you mean planting.sow, planting.top or planting.set_out?"
run explain fruits; exits 0; says "picks.csv"; says "[[market.order]]"
run explain compare.fruits_kept; exits 0; says "a list of numbers, 0 to 50"
# a column's place among the futures is the column's own
run explain beyond_sales_kg_p10; exits 0; says "market_days.beyond_sales_kg - column of market_days.csv"
complains "beyond_sales_kg_p10 is the beyond_sales_kg that one future in ten stays below"
run explain stem.lean_deg_p90; exits 0; says "stem.lean_deg - column of stem.csv"; complains "nine futures in ten"
run explain first_ripe_p90; exits 0; complains "nine futures in ten"
# what no future moves, what has such an ending already, and the middle of a day, which is the day itself, have none
for name in planting_p50 picks.date_p10 kg_p10_p50 weeks.week_p90 first_ripe_p50 hindcast.actual_kg_p50; do
    run explain $name; exits 2; quiet_out; complains "nothing here is called $name"
done
run explain nonsense_p50; exits 2; complains "nothing here is called nonsense_p50"
run explain supply_share; exits 0; says "plant_days.csv"; says "model/plant/vh_share.h"
run explain tomato; exits 2
for kind in large plum cherry cluster cocktail; do complains "tomato-$kind"; done
run explain tomato-large; exits 0; says "habit.usual_fruit_g"; says "tomato-cluster"
run explain pulled_sucker_cm; exits 0; says "pulled_sucker_cm - item of records.csv"; says "vinehand note slicers pulled_sucker_cm 4.2"
run explain fruits_set; exits 0; says "vinehand note slicers fruits_set 4.2 --truss 12 --of 5"
run explain t_air_f; exits 0; says "log.t_air_c - column of a log"; says "HOLDS      number, -20 to 60, in degC"; says "or t_air_f"
run explain picked_lb; exits 0; says "picked_kg - item of records.csv"; says "number, 0 to 15, in kg"
run explain sunshine_h; exits 0; says "outside.sunshine_h"; says "normals.sunshine_h"
run explain hindcast.csv; exits 0; says "each row is a week of a planting as it was"; says "crps_naive_kg"
run explain hindcast.naive_mean3_kg; exits 0; says "hindcast.csv"; says "model/learn/vh_hindcast.h"
run explain grades; exits 0; says "measure"
run explain items; exits 0; says "flower_to_pick_d"; says "done_lower"; says "done_sucker"; says "minutes_thin"
for item in done_thin done_sucker minutes_sucker; do run explain $item; exits 0; says "vinehand note slicers $item "; done # warnings ask for them
run explain adams2001; exits 0; says "10.1006/anbo.2001.1524"; says "flower.t2_c"
run explain '[planting.pick]'; exits 0; says "whole_truss"
run explain transplant; exits 0; complains "transplant is called set_out here"
says "planting.set_out"
run explain --quiet fruits; exits 0; quiet_out; quiet_err
run explain --params "$VINEHAND_SOURCE/params" fruits; exits 0
run explain --params nowhere fruits; exits 2; quiet_out; complains nowhere

# no line is wider than a terminal, whatever is asked
lists="tomato-cluster house planting climate market compare trusses vanthoor2011"
every=1 # with sanitizers, which take ten times as long, every 16th parameter; all of them without
if grep -q 'VINEHAND_SANITIZE:BOOL=ON' "$VINEHAND_BUILD/CMakeCache.txt" 2>"$work/none"; then every=16; fi
for name in $lists $(cut -d, -f1 "$VINEHAND_SOURCE"/params/defaults.csv \
    "$VINEHAND_SOURCE"/params/crops/*.csv | sort -u | grep -v -e '^name$' -e '^base$' |
    awk -v every="$every" 'NR % every == 0'); do
    run explain "$name"; exits 0; quiet_err
    good "80 columns" [ "$(awk 'length > 80' "$work/out" | wc -l)" -eq 0 ]
done

refused() {
    text=$1
    shift
    run explain "$@"
    exits 2
    quiet_out
    complains "$text"
    good "one line of complaint" [ "$(wc -l <"$work/err")" -eq 1 ]
}
refused "did you mean potential_area_m2?" potental_area_m2
refused "nothing here is called xyzzyq" xyzzyq
refused "nothing here is called ?[31m" "$(printf '\033[31m')"
refused "explain wants a name"
refused "name to explain is empty" ""
refused "there is no scenario.toml in this folder" slicers 12
refused "there is no scenario.toml in this folder" 2026-07-18
refused "twelve is no truss or market day" slicers twelve
refused "the planting is missing before truss 12; as in vinehand explain slicers 12" 12
small_scenario >scenario.toml
refused "slicers is a planting; write the truss too, as in vinehand explain slicers 12" slicers
refused "the truss is missing; write it last, as in vinehand explain . slicers 12" . slicers
refused "the planting is missing before truss 12; as in vinehand explain . slicers 12" . 12
refused "nothing here is called xyzzyq" xyzzyq
rm scenario.toml
good "nothing was written" [ -z "$(ls -A)" ]

# One name, two ways of reading it: each says how it stands to the other.
run explain planting.standing.flowering_truss; exits 0; says "add 0.5"
run explain flowering_truss; exits 0
tr -s '\n ' '  ' <"$work/out" >"$work/line"
good "a count is half a truss less" grep -q "half a truss less than flowering_truss of stem.csv and of \[planting.standing\]" "$work/line"
finish
