#!/bin/sh
# sensitivity.sh - how each parameter of a crop moves a season: every row of its file (and of those
# it is based on) at its low and at its high, alone, through the whole program.
#     sh tests/validate/sensitivity.sh [FOLDER [CROP [PROGRAM]]]
# FOLDER holds a scenario.toml (default scenarios/two-bays), CROP is one that grows in it (default:
# that of its first planting). Prints, strongest first: total and mean fruit mass in percent of the
# season as it stands, days by which the first pick moves. A parameter that moves nothing by 0.05 %
# or 0.05 d, or whose low and high are its value, is only counted. About 20 s.
set -u
LC_ALL=C
export LC_ALL

root=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd -P) || exit 1
folder=$(CDPATH='' cd -- "${1:-$root/scenarios/two-bays}" && pwd -P) || exit 1
crop=${2:-$(sed -n 's/^crop = "\(.*\)".*/\1/p' "$folder/scenario.toml" | head -n 1)}
program=${3:-${VINEHAND:-$root/build/vinehand}}
[ -x "$program" ] ||
    { echo "sensitivity.sh: no program at $program; name it or set VINEHAND" >&2; exit 1; }
[ -f "$root/params/crops/$crop.csv" ] || { echo "sensitivity.sh: no crop $crop" >&2; exit 2; }

work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT
trap 'exit 143' TERM
# Beside the climate files, which a scenario names relative to itself.
mkdir "$work/scenario"
for file in "$folder"/*; do
    case $file in */scenario.toml | */out) ;; *) ln -s "$file" "$work/scenario/" ;; esac
done

# rows CROP: name, value, low, high; a row of the crop itself before that of its base
rows() {
    awk -F, '$1 != "name" && $1 != "base" && $4 != "" && $5 != "" && $4 + 0 < $5 + 0 {
        print $1, $2, $4, $5 }' "$root/params/crops/$1.csv"
    base=$(sed -n 's/^base,\([^,]*\),.*/\1/p' "$root/params/crops/$1.csv")
    [ -z "$base" ] || rows "$base"
}

# season [NAME VALUE]: total kg m-2, mean fruit g, day number of the first pick; of this crop
season() {
    cp "$folder/scenario.toml" "$work/scenario/scenario.toml"
    [ $# -eq 0 ] || printf '\n[[parameters.row]]\ncrop = "%s"\nname = "%s"\nvalue = %s\n' \
        "$crop" "$1" "$2" >> "$work/scenario/scenario.toml"
    "$program" forecast "$work/scenario" --members 1 --today "$today" --out "$work/out" --quiet \
        > "$work/said" 2>&1 < /dev/null || { echo "none none none"; return; }
    awk -F, -v plantings="$plantings" '
        BEGIN { n = split(plantings, p, "\t"); for (i = 1; i <= n; i++) of[p[i]] = 1 }
        FNR == 1 { split("", at); for (i = 1; i <= NF; i++) at[$i] = i; next }
        !($at["planting"] in of) { next }
        FILENAME ~ /weeks/ { kg_m2 += $at["kg_m2"]; next }
        $at["fruits"] > 0 { kg += $at["kg"]; fruits += $at["fruits"]; when[$1] += $at["kg"] }
        END {
            for (d in when) if (when[d] > kg / 1000 && (first == "" || d < first)) first = d
            split(first, c, "-"); y = c[1]; m = c[2]
            if (m < 3) { m += 12; y-- }
            print kg_m2, fruits ? 1000 * kg / fruits : "none",
                first == "" ? "none" : 365 * y + int(y / 4) + int(30.6001 * (m + 1)) + c[3]
        }' "$work/out/weeks.csv" "$work/out/picks.csv"
}

plantings=$(awk -F' = ' -v crop="$crop" '
    /^\[/ { inside = $0 == "[[planting]]" }
    { gsub(/"/, "", $2); sub(/ *#.*/, "", $2) }
    inside && $1 == "name" { name = $2 }
    inside && $1 == "crop" && $2 == crop { printf "%s%s", sep, name; sep = "\t" }' \
    "$folder/scenario.toml")
[ -n "$plantings" ] || { echo "sensitivity.sh: no planting of $crop in $folder" >&2; exit 2; }
today=2100-01-01
case $folder in */scenarios/*) today=2026-07-14 ;; esac

usual=$(season)
case $usual in none*) echo "sensitivity.sh: the program fails on $folder:" >&2
    cat "$work/said" >&2; exit 1 ;; esac
rows "$crop" | awk '!seen[$1]++' > "$work/rows"
while read -r name value low high; do
    echo "$name $value $low $high $(season "$name" "$low") $(season "$name" "$high")"
done < "$work/rows" > "$work/found"

echo "$crop in $(basename "$folder"): total, fruit mass, first pick: $usual" |
    awk '{ $NF = ""; print $0 "(kg m-2, g)" }'
awk -v usual="$usual" '
    function part(v, of) { return v == "none" ? "none" : 100 * (v / of - 1) }
    function size(v) { return v == "none" ? 1000 : v < 0 ? -v : v }
    BEGIN { split(usual, u, " ") }
    {
        if ($5 == "none" || $8 == "none") { refused++; names = names " " $1; next }
        t1 = part($5, u[1]); t2 = part($8, u[1]); g1 = part($6, u[2]); g2 = part($9, u[2])
        d1 = $7 == "none" ? "none" : $7 - u[3]; d2 = $10 == "none" ? "none" : $10 - u[3]
        most = size(t1) > size(t2) ? size(t1) : size(t2)
        if (most < 0.05 && size(g1) < 0.05 && size(g2) < 0.05 && size(d1) < 0.05 &&
            size(d2) < 0.05) { still++; next }
        printf "%012.4f\t%-28s %9s %9s %9s  %7.1f %7.1f  %7.1f %7.1f  %5s %5s\n", most, $1, $3, $2,
            $4, t1, t2, g1, g2, d1, d2
    }
    END {
        print "still\t" still + 0 " parameters move nothing"
        if (refused) print "refused\tfail at one end:" names
    }' "$work/found" > "$work/table"
printf '%-28s %9s %9s %9s  %15s  %15s  %11s\n' parameter low value high 'total % at' \
    'fruit mass % at' 'first pick d'
printf '%-28s %9s %9s %9s  %7s %7s  %7s %7s  %5s %5s\n' '' '' '' '' low high low high low high
grep '^[0-9]' "$work/table" | sort -r | cut -f2
grep -v '^[0-9]' "$work/table" | cut -f2
