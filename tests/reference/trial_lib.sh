# trial_lib.sh - sourced by t_trials.sh and t_parts.sh: made-up climates, seasons run by the whole
# program as a grower would run them, numbers read from the tables it writes.
#
#     climate NAME DAYS KEY=VALUE...        writes NAME.csv, hourly from 1 January 2026: climate.awk
#     season NAME CLIMATE CROP PER_M2 DAYS [TEXT]   one planting, set out on 1 January, 1000 m2 of
#                                           it; TEXT is put behind its [[planting]]
#     total RUN COLUMN [FROM [UNTIL]]       sum of a column of picks.csv; kg and fruits are per m2
#     fruit_g RUN [FROM [UNTIL]]            mean mass of the fruits picked
#     days RUN HOW COLUMN [FROM [UNTIL]]    HOW = sum, mean, first, last, most of plant_days.csv
#     stems RUN HOW COLUMN [FROM [UNTIL]]   the same of stem.csv
#     trusses RUN COLUMN FIRST LAST         mean over trusses, by number
#     share RUN [FROM [UNTIL]]              share of fruit in all dry matter grown
#     reckon EXPRESSION                     the number an awk expression has
#     value ID NUMBER                       what a row of the table came out as
#     verdict TABLE.csv                     holds them against the table, ends the test
# FROM and UNTIL are days since set-out, the first 0, both included.

set -u
LC_ALL=C
export LC_ALL
: "${VINEHAND:?the path of the built program}"
: "${VINEHAND_SOURCE:?the path of the source tree}"
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 129' HUP
trap 'exit 130' INT
trap 'exit 143' TERM
here=$VINEHAND_SOURCE/tests/reference
: > "$work/values"

climate() {
    name=$1
    span=$2
    shift 2
    awk -v days="$span" -f "$here/climate.awk" "$@" > "$work/$name.csv"
}

season() {
    mkdir "$work/$1" || exit 1
    {
        cat <<TOML
[house]
name = "Trial"
latitude_deg = 52
utc_offset_h = 0
[climate]
log = "../$2.csv"
[[planting]]
name = "trial"
crop = "$3"
plants = $(reckon "int(1000 * $4 + 0.5)")
plants_per_m2 = $4
set_out = 2026-01-01
pull_out = $(date_of "$5")
TOML
        echo "${6:-}"
    } > "$work/$1/scenario.toml"
    "$VINEHAND" forecast "$work/$1" --members 1 --today 2028-01-01 --out "$work/$1/out" --quiet \
        > "$work/said" 2>&1 < /dev/null && return 0
    echo "WRONG: the program failed on $1:"
    cat "$work/said" "$work/$1/scenario.toml"
    exit 1
}

reckon() { awk "BEGIN { printf \"%.9g\\n\", $1 }"; }

# Day of 2026 and on, the first 0, as a date.
date_of() {
    awk -v n="$1" 'BEGIN {
        split("31 28 31 30 31 30 31 31 30 31 30 31", len, " ")
        y = 2026; m = 1
        while (n >= len[m]) { n -= len[m]; if (++m > 12) { m = 1; y++ } }
        printf "%d-%02d-%02d\n", y, m, n + 1 }'
}

# column FILE HOW COLUMN [FROM [UNTIL]]
column() {
    awk -F, -v how="$2" -v name="$3" -v from="$(date_of "${4:-0}")" \
        -v until="$(date_of "${5:-720}")" '
        NR == 1 { for (i = 1; i <= NF; i++) if ($i == name) c = i; if (!c) exit; next }
        $1 < from || $1 > until || $c == "" { next }
        { sum += $c; n++; last = $c }
        n == 1 { first = $c; most = $c }
        $c + 0 > most + 0 { most = $c }
        END {
            if (!n) print "none"
            else if (how == "sum") printf "%.9g\n", sum
            else if (how == "mean") printf "%.9g\n", sum / n
            else print how == "first" ? first : how == "most" ? most : last
        }' "$1"
}

total() { reckon "$(column "$work/$1/out/picks.csv" sum "$2" "${3:-0}" "${4:-720}") / 1000"; }
fruit_g() { reckon "1000 * $(total "$1" kg "${2:-0}" "${3:-720}") / \
    $(total "$1" fruits "${2:-0}" "${3:-720}")"; }
days() { column "$work/$1/out/plant_days.csv" "$2" "$3" "${4:-0}" "${5:-720}"; }
stems() { column "$work/$1/out/stem.csv" "$2" "$3" "${4:-0}" "${5:-720}"; }

share() {
    fruit=$(days "$1" sum fruit_dm_g_m2 "${2:-0}" "${3:-720}")
    other=$(reckon "$(days "$1" sum leaf_dm_g_m2 "${2:-0}" "${3:-720}") + \
        $(days "$1" sum stem_dm_g_m2 "${2:-0}" "${3:-720}")")
    reckon "$fruit / ($fruit + $other)"
}

grown() {
    reckon "$(days "$1" sum fruit_dm_g_m2 "${2:-0}" "${3:-720}") + \
        $(days "$1" sum leaf_dm_g_m2 "${2:-0}" "${3:-720}") + \
        $(days "$1" sum stem_dm_g_m2 "${2:-0}" "${3:-720}")"
}

trusses() {
    awk -F, -v name="$2" -v first="$3" -v last="$4" '
        NR == 1 { for (i = 1; i <= NF; i++) if ($i == name) c = i; next }
        $2 >= first && $2 <= last && $c != "" { sum += $c; n++ }
        END { if (n) printf "%.9g\n", sum / n; else print "none" }' "$work/$1/out/trusses.csv"
}

# Dry matter of the fruits picked, g m-2, by the trusses.
picked_dm() {
    reckon "10 * $(total "$1" kg) * $(awk -F, 'FNR > 1 && $15 != "" {
        dm += $17 * $15 * ($8 - $11); g += $15 * ($8 - $11) }
        END { print dm / g }' "$work/$1/out/trusses.csv")"
}

# Day of the first pick of at least a tenth of a fruit per m2.
first_pick() {
    awk -F, 'NR > 1 && $3 > 100 { print $1; exit }' "$work/$1/out/picks.csv" | day_number
}

# Day by which a share of the season's mass is picked, between two picks by the straight line.
picked_by() {
    awk -F, -v share="$2" 'NR > 1 { n++; date[n] = $1; kg[n] = kg[n - 1] + $4 }
        END {
            for (i = 1; kg[i] < share * kg[n]; i++) ;
            part = (share * kg[n] - kg[i - 1]) / (kg[i] - kg[i - 1])
            print date[i - 1] "," date[i] "," part
        }' "$work/$1/out/picks.csv" > "$work/by"
    before=$(cut -d, -f1 "$work/by" | day_number)
    after=$(cut -d, -f2 "$work/by" | day_number)
    reckon "$before + ($after - $before) * $(cut -d, -f3 "$work/by")"
}

day_number() {
    awk -F- 'BEGIN { split("31 28 31 30 31 30 31 31 30 31 30 31", len, " ") }
        { n = 365 * ($1 - 2026) + $3 - 1; for (m = 1; m < $2; m++) n += len[m]; print n }'
}

value() { printf '%s\t%s\n' "$1" "$2" >> "$work/values"; }

verdict() { awk -f "$here/verdict.awk" -v show="${table:-0}" "$work/values" "$1"; }
