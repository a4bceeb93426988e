#!/bin/sh
# Plantings share a house, not their fate: in whatever order they stand, and beside whichever others, each is forecast the same.
# (Where it is not said what pollinates, seedless cucumbers beside tomatoes keep the bees away: the demo says it.)
# Which of them comes first in the file is nothing that a plant knows of (no source needed: the same house).
. "$VINEHAND_SOURCE/tests/cli/lib.sh"
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 77; }
demo=$VINEHAND_SOURCE/scenarios/two-bays
as() { # NAME [PLANTING]: the demo with its plantings in the other order, or one alone
    cp -r "$demo" "$1"
    python3 -B "$VINEHAND_SOURCE/tests/laws/turn.py" "$demo/scenario.toml" ${2:+"$2"} >"$1/scenario.toml"
}
same() { # FILE FOLDER FOLDER: the same rows; whom fruit must not lie beside is a list of names
    alike='s/"slicers, plums"/"plums, slicers"/; s/lie beside slicers or plums in store/lie beside plums or slicers in store/'
    grep -q . "$2/$1" && sed "$alike" "$2/$1" | sort >one && sed "$alike" "$3/$1" | sort >other && cmp -s one other
}

# One future: where there are more, each planting has its own, by its place.
as turned
bad "the order is another" cmp -s turned/scenario.toml "$demo/scenario.toml"
for what in "forecast --no-records" forecast compare; do
    # shellcheck disable=SC2086
    for s in "$demo" turned; do run $what "$s" --today 2026-07-14 --members 1 --quiet --out "out-${s##*/}"; exits 0; done
    n=0
    for file in out-two-bays/*.csv; do
        name=${file##*/}
        case $name in said*) continue ;; esac
        n=$((n + 1))
        good "$what: $name has the same rows" same "$name" out-two-bays out-turned
    done
    good "$what: $n tables" [ "$n" -ge 12 ]
    rm -r out-two-bays out-turned
done

# Alone: also its futures, where it is the first.
rows_of() { sed -n "1p; /^\(.*,\)\{0,1\}$2,/p" "$1" | grep -v ',all,0,0,'; } # market days after its last fruit: how many hangs on the others
for planting in slicers plums cucumbers; do
    as "$planting" "$planting"
    members=1; [ "$planting" = slicers ] && members=7
    run forecast "$demo" --no-records --today 2026-07-14 --members $members --quiet --out all; exits 0
    run forecast "$planting" --no-records --today 2026-07-14 --members $members --quiet --out "out-$planting"; exits 0
    for name in trusses weeks stem plant_days lowering market_days; do
        rows_of "all/$name.csv" "$planting" >one
        rows_of "out-$planting/$name.csv" "$planting" >other
        good "$name of $planting: $(wc -l <one) rows" [ "$(wc -l <one)" -gt 15 ]
        good "$name of $planting, alone" cmp -s one other
    done
done
finish
