#!/bin/sh
# run.sh - the program against measured seasons, run as a grower would run it. Prints one table.
#     VINEHAND_DATA=FOLDER [VINEHAND=PROGRAM] sh tests/validate/run.sh [--markdown] [--weeks] [--swap]
# FOLDER holds the measured seasons (README.md here); without it nothing can be said and the exit
# status is 77. One light_factor for a house is found by bisection on the season total of its
# reference season and carried to its other season. Exit 1: the program failed, or a number left
# its band in bands.csv. --weeks also prints each week's picks on standard error; --swap changes the
# seasons of a house, so that each is once the one that was never seen.
set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P) || exit 1
markdown=0
weeks=0
swap=0
for word in "$@"; do
    case $word in
    --markdown) markdown=1 ;;
    --weeks) weeks=1 ;;
    --swap) swap=1 ;;
    *) echo "run.sh: \`$word\` is not known; options are --markdown, --weeks and --swap" >&2; exit 2 ;;
    esac
done

# shellcheck source=tests/validate/measured.sh
. "$here/measured.sh"

# One line a house: its reference season, then the seasons that take over its light factor; with the
# day of the run, after the end of the season.
houses='cucumber2018-REF,2018-12-31 cucumber2018-B,2018-12-31
cherrytomato_ohio2024-REF,2024-12-31
cherrytomato_tucson2003-V1_LE,2003-12-31
cherrytomato_nl2019_2020-REF,2020-06-30 cherrytomato_nl2019_2020-B,2020-06-30'

# The other way round: found on the season that was forecast, tested on the one it was found on.
[ $swap -eq 0 ] || houses='cucumber2018-B,2018-12-31 cucumber2018-REF,2018-12-31
cherrytomato_nl2019_2020-B,2020-06-30 cherrytomato_nl2019_2020-REF,2020-06-30'

# A grower's folder: the scenario, and the measured season as `data`.
prepare() {
    season=$1
    mkdir "$work/$season" && cp "$here/$season/scenario.toml" "$work/$season/start.toml" || return 1
    measured=$data/$(echo "$season" | sed 's,-,/,')
    [ -d "$measured" ] || { echo "run.sh: $VINEHAND_DATA has no $measured" >&2; return 1; }
    ln -s "$measured" "$work/$season/data" || return 1
    if grep -q '"lamps.csv"' "$work/$season/start.toml"; then
        awk -v full=18.36 -v hours=18 -f "$here/lamps.awk" "$measured/crop_work.csv" \
            > "$work/$season/lamps.csv"
    fi
}

# forecast SEASON TODAY FACTOR
forecast() {
    sed "s/^light_factor = .*/light_factor = $3/" "$work/$1/start.toml" > "$work/$1/scenario.toml"
    "$program" forecast "$work/$1" --members 1 --today "$2" --out "$work/$1/out" \
        > "$work/$1/said" 2>&1 && return 0
    echo "run.sh: the program failed on $1 with light_factor $3:" >&2
    cat "$work/$1/said" >&2
    return 1
}

# measure SEASON: lines of what, unit, observed, forecast
measure() {
    crop=$(sed -n '/^crop = /{s/^crop = "\(.*\)".*/\1/p;q;}' "$work/$1/scenario.toml")
    base=$(sed -n 's/^base,\([^,]*\),.*/\1/p' "$root/params/crops/$crop.csv")
    awk -F, -v show_weeks="$weeks" -f "$here/measure.awk" \
        reading=scenario "$work/$1/scenario.toml" \
        reading=crop "$root/params/crops/$crop.csv" "$root/params/crops/${base:-$crop}.csv" \
        reading=harvest "$work/$1/data/harvest.csv" reading=work "$work/$1/data/crop_work.csv" \
        reading=picks "$work/$1/out/picks.csv" reading=stem "$work/$1/out/stem.csv"
}

# Forecast total over observed, as the last forecast of SEASON has it.
ratio() {
    (weeks=0; measure "$1") > "$work/lines" || return 1
    awk -F '\t' '$1 == "total" { printf "%.6f\n", $4 / $3 }' "$work/lines"
}

# find_factor SEASON TODAY: sets factor so that the total is met
find_factor() {
    low=0.1
    high=3
    step=0
    while [ $step -lt 14 ]; do
        factor=$(awk -v a="$low" -v b="$high" 'BEGIN { printf "%.4f\n", (a + b) / 2 }')
        forecast "$1" "$2" "$factor" || return 1
        reached=$(ratio "$1") || return 1
        case $(awk -v r="$reached" 'BEGIN { print (r > 1.0005) - (r < 0.9995) }') in
        1) high=$factor ;;
        -1) low=$factor ;;
        0) return 0 ;;
        *) return 1 ;;
        esac
        step=$((step + 1))
    done
}

echo "$houses" | while read -r line; do
    factor=
    for entry in $line; do
        season=${entry%,*}
        today=${entry#*,}
        prepare "$season" || exit 1
        if [ -z "$factor" ]; then
            find_factor "$season" "$today" || exit 1
        else
            forecast "$season" "$today" "$factor" || exit 1
        fi
        [ $weeks -eq 0 ] || echo "$season" >&2
        {
            printf 'light factor\t1\t-\t%s\n' "$factor"
            measure "$season" || exit 1
        } > "$work/lines"
        sed "s/^/$season	/" "$work/lines" >> "$work/all"
    done
done || exit 1

awk -v markdown=$markdown -f "$here/table.awk" "$work/all" || exit 1
[ $swap -eq 0 ] || exit 0
awk -f "$here/bands.awk" "$here/bands.csv" "$work/all"
