#!/bin/sh
# t_parts.sh - are the parts of a season sensible, so that a right total from wrong parts is caught?
# Leaf area, leaf thickness, share of fruit, growth per light, fruits on a stem, pace of trusses and
# stem of every planting of scenarios/ and, where VINEHAND_DATA names the measured seasons, of those
# of tests/validate/ with the light factors that its README gives. parts.csv holds the published
# ranges with their sources, parts-missed.csv what lies outside and by how much.
#     VINEHAND=PROGRAM VINEHAND_SOURCE=TREE [VINEHAND_DATA=FOLDER] sh tests/reference/t_parts.sh
# Options: --table prints every number.
table=0
[ "${1:-}" != --table ] || table=1
# shellcheck source=tests/reference/trial_lib.sh
. "${VINEHAND_SOURCE:?the path of the source tree}/tests/reference/trial_lib.sh"
params=$VINEHAND_SOURCE/params/crops
validate=$VINEHAND_SOURCE/tests/validate

# parameter CROP NAME: from its file, or the one it is based on
parameter() {
    own=$(sed -n "s/^$2,\([^,]*\),.*/\1/p" "$params/$1.csv")
    base=$(sed -n 's/^base,\([^,]*\),.*/\1/p' "$params/$1.csv")
    if [ -n "$own" ] || [ -z "$base" ]; then echo "$own"; else parameter "$base" "$2"; fi
}

# plantings SCENARIO: name, crop, heads, whether heads are added
plantings() {
    awk -F' = ' '
        function say() { if (name != "") print name, crop, heads, added; added = 0 }
        /^\[\[planting\]\]/ { say(); inside = 1; heads = 1; next }
        /^\[\[planting.extra_head\]\]/ { added = 1; inside = 0; next }
        /^\[/ { inside = 0; next }
        { sub(/ *#.*/, "", $2); gsub(/"/, "", $2) }
        inside && $1 == "name" { name = $2 }
        inside && $1 == "crop" { crop = $2 }
        inside && $1 == "heads_per_plant" { heads = $2 }
        END { say() }' "$1"
}

# parts SEASON FOLDER FACTOR: what it came to, by planting
parts() {
    plantings "$2/scenario.toml" > "$work/plantings"
    while read -r name crop heads added; do
        awk -F, -v planting="$name" -v factor="$3" -v heads="$heads" -v added="$added" \
            -v extinction="$(parameter "$crop" light.extinction)" \
            -v floor="$(parameter "$crop" light.floor_reflected)" \
            -v area="$(parameter "$crop" leaf.potential_area_m2)" \
            -v seedling="$(parameter "$crop" leaf.seed_m2_g)" \
            -v per_truss="$(parameter "$crop" truss.leaves_per_truss)" \
            -v warm_up="$(case $crop in cucumber*) echo 40 ;; *) echo 60 ;; esac)" \
            -v id="$1/$name" -f "$here/parts.awk" \
            reading=weeks "$2/out/weeks.csv" reading=climate "$2/out/climate_days.csv" \
            reading=stem "$2/out/stem.csv" reading=plant "$2/out/plant_days.csv" \
            reading=trusses "$2/out/trusses.csv" > "$work/found" || exit 1
        [ "$(wc -l < "$work/found")" -ge 7 ] || { echo "WRONG: $1/$name lacks parts"; exit 1; }
        cat "$work/found" >> "$work/values"
        awk -v id="$1/$name" -v kind="${crop%%-*}" -v type="$crop" -f "$here/parts_rows.awk" \
            "$work/found" "$here/parts-missed.csv" "$here/parts.csv" >> "$work/parts.csv"
    done < "$work/plantings"
}

run() { # FOLDER TODAY
    "$VINEHAND" forecast "$1" --members 1 --today "$2" --out "$1/out" --quiet > "$work/said" 2>&1 &&
        return 0
    echo "WRONG: the program failed on $1:"
    cat "$work/said"
    exit 1
}

echo id,what,unit,published,low,high,ours,hold,miss,source > "$work/parts.csv"
for folder in "$VINEHAND_SOURCE"/scenarios/*/; do
    name=$(basename "$folder")
    cp -R "$folder" "$work/$name" || exit 1
    rm -rf "$work/$name/out"
    run "$work/$name" 2026-07-14
    factor=$(sed -n 's/^light_factor = \([0-9.]*\).*/\1/p' "$work/$name/scenario.toml")
    parts "$name" "$work/$name" \
        "${factor:-$(sed -n 's/^light.factor_outlook,\([^,]*\),.*/\1/p' "$params/../defaults.csv")}"
done

# factor_of SEASON: from the first table of the README there
factor_of() {
    awk -F' *\\| *' -v season="$1" '
        /^\| observed/ {
            for (i = 4; i <= NF; i++) { sub(/^cherry_/, "cherrytomato_", $i); at[$i] = i }
        }
        /^\| light factor/ { print $at[season]; exit }' "$validate/README.md"
}

if [ -n "${VINEHAND_DATA:-}" ] && [ -d "$VINEHAND_DATA" ]; then
    data=$(CDPATH='' cd -- "$VINEHAND_DATA" && pwd -P) || exit 1
    for folder in "$validate"/*/; do
        name=$(basename "$folder")
        mkdir "$work/$name" || exit 1
        ln -s "$data/$(echo "$name" | sed 's,-,/,')" "$work/$name/data"
        awk -v full=18.36 -v hours=18 -f "$validate/lamps.awk" "$work/$name/data/crop_work.csv" \
            > "$work/$name/lamps.csv"
        factor=$(factor_of "$name")
        sed "s/^light_factor = .*/light_factor = $factor/" "$folder/scenario.toml" \
            > "$work/$name/scenario.toml"
        run "$work/$name" 2028-01-01
        parts "$name" "$work/$name" "$factor"
    done
else
    echo "the measured seasons are left out: VINEHAND_DATA names no folder of them"
fi
verdict "$work/parts.csv"
