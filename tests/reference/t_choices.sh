#!/bin/sh
# Published trials of training and planting as choices of one house, through `vinehand compare`: choices.csv
# holds what was published and decides. The sources give no climate: a heated film house at 44.5 degN, mixed
# sky, is ours, and so are the prices.
#     VINEHAND=PROGRAM VINEHAND_SOURCE=TREE sh tests/reference/t_choices.sh [--table]
table=0
[ "${1:-}" != --table ] || table=1
# shellcheck source=tests/reference/trial_lib.sh
. "${VINEHAND_SOURCE:?the path of the source tree}/tests/reference/trial_lib.sh"

planting() { # NAME CROP PLANTS_PER_M2 SET_OUT PULL_OUT: 100 plants
    printf '[[planting]]\nname = "%s"\ncrop = "%s"\nplants = 100\nplants_per_m2 = %s\nset_out = %s\npull_out = %s\n' "$@"
}
house() { # CROP: priced by weight
    cat <<TOML
[house]
name = "Trial"
latitude_deg = 44.5
cover = "film-double"
[climate]
heat_c = 18
vent_c = 24
[climate.roughly]
warmest_high_c = 28
warmest_low_c = 16
coldest_high_c = -2
coldest_low_c = -12
sky = "mixed"
[labour]
per_h = 18
[market]
days = ["sat"]
[[market.price]]
crop = "$1"
per_kg = 6
TOML
}
# compared NAME: runs the scenario on standard input under its choices, in 40 futures
compared() {
    mkdir "$work/$1" && cat >"$work/$1/scenario.toml"
    "$VINEHAND" compare "$work/$1" --members 40 --today 2026-01-01 --out "$work/$1/out" --quiet \
        >"$work/said" 2>&1 </dev/null && return 0
    echo "WRONG: the program failed on $1:"
    cat "$work/said" "$work/$1/scenario.toml"
    exit 1
}
# cell NAME CHOICE COLUMN [PLANTING]
cell() {
    awk -F, -v choice="$2" -v column="$3" -v planting="${4:-crop}" '
        NR == 1 { for (i = 1; i <= NF; i++) if ($i == column) c = i; next }
        { gsub(/"[^"]*"/, "X") }
        $1 == choice && $2 == planting { print $c; found = 1; exit }
        END { if (!found) print "no such row" }' "$work/$1/out/choices.csv"
}
# percent NAME CHOICE COLUMN: against the plan
percent() { reckon "100 * $(cell "$1" "$2" "$3_diff") / $(cell "$1" 'as planned' "$3")"; }

# Four fruits a truss, and what else could be done. Suckers are all found, as in the source.
{
    house tomato-large
    planting crop tomato-large 2.5 2026-02-20 2026-08-20
    printf '[[planting.fruits_kept]]\nfruits = 4\n[planting.suckers]\nevery_d = 7\noverlooked = 0\n'
    printf '[compare]\nplanting = "crop"\nfruits_kept = [3]\nsuckers_every_d = [10, 14, 21]\n'
} | compared large
value fruits-3-mass "$(percent large 'leave 3' fruit_g)"
value fruits-3-mass-low "$(cell large 'leave 3' fruit_g_diff_p10)"
value fruits-3-total "$(percent large 'leave 3' market_kg)"
value fruits-3-promised "$(cell large 'leave 3' market_kg_diff_p10)"
value hanna2009-marketable "$(percent large 'leave 3' market_kg)"
for d in 10 14 21; do
    value "navarrete2000-$d" "$(percent large "suckers every $d days" market_kg)"
    value "navarrete2000-hours-$d" "$(cell large "suckers every $d days" hours_diff)"
done

# Density of cluster tomatoes, and heads at the same stems a square metre.
{
    house tomato-cluster
    planting crop tomato-cluster 2.04 2026-01-10 2026-10-20
    printf '[compare]\nplanting = "crop"\nplants_per_m2 = [3.06]\n'
} | compared rows
value cockshull1995-dense-season "$(percent rows '3.06 plants a m2' market_kg)"
value cockshull1995-dense-mass "$(percent rows '3.06 plants a m2' fruit_g)"
{
    house cucumber-long
    planting crop cucumber-long 3.2 2026-03-01 2026-08-20
    printf '[compare]\nplanting = "crop"\nheads_per_plant = [2]\nplants_per_m2 = [1.6]\nall_combinations = true\n'
} | compared heads
sed -i 's/"2 heads a plant, 1.6 plants a m2"/twin/' "$work/heads/out/choices.csv"
value twin-heads-yield "$(percent heads twin market_kg)"

# Cucumbers that stand for 14 weeks, half of them four weeks later: scatter of the weekly picks over
# their mean, in the weeks from the first pick of all to the last.
weeks_of() { awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "kg") c = i; next } $c > 0 { n += !w[$2]++ } END { print n }' "$work/$1/out/weeks.csv"; }
unsteady() { # NAME WEEKS
    awk -F, -v n="$2" 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "kg") c = i; next }
        { kg[$2] += $c }
        END {
            for (w in kg) { sum += kg[w]; square += kg[w] ^ 2 }
            printf "%.6g\n", sqrt(square / n - (sum / n) ^ 2) / (sum / n) }' "$work/$1/out/weeks.csv"
}
two() { # SET OUT, PULL OUT of the second half
    house cucumber-long
    planting first cucumber-long 1.6 2026-03-01 2026-06-07
    planting second cucumber-long 1.6 "$1" "$2"
    printf '[compare]\nplanting = "second"\nfruits_kept = [0.5]\n'
}
two 2026-03-01 2026-06-07 | compared together
two 2026-03-29 2026-07-05 | compared apart
n=$(weeks_of apart)
value steadier "$(reckon "$(unsteady apart "$n") / $(unsteady together "$n")")"
verdict "$here/choices.csv"
