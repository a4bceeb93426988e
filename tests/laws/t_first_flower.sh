#!/bin/sh
# A first flower that was seen is a fact: the model's first truss opens on that day, a day more or less.
. "$(dirname -- "$0")/../cli/lib.sh"
day_of() { date -u -d "$1" +%s | awk '{ print $1 / 86400 }'; }
for seen in 2026-03-12 2026-03-20; do
    mkdir "by$seen"
    small_scenario | sed 's/^pull_out = .*/pull_out = 2026-05-20/' >"by$seen/scenario.toml"
    echo "first_flower = $seen" >>"by$seen/scenario.toml"
    run forecast "by$seen" --today 2026-04-01 --members 1 --out "out$seen"
    exits 0
    got=$(awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i } NR > 1 && $at["truss"] == 1 { print $at["first_flower"] }' "out$seen/trusses.csv")
    echo "seen $seen, first truss $got"
    good "the first truss opens on $got, seen on $seen" [ "$(($(day_of "$got") - $(day_of "$seen")))" -ge -1 ]
    good "the first truss opens on $got, seen on $seen" [ "$(($(day_of "$got") - $(day_of "$seen")))" -le 1 ]
done
finish
