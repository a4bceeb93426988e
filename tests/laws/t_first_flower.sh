#!/bin/sh
# A first flower that was seen is a fact: the model's first truss opens on that day, not on the evening before.
. "$(dirname -- "$0")/../cli/lib.sh"
for seen in tomato-large:2026-03-12 tomato-large:2026-03-20 pepper-large:2026-04-09 pepper-large:2026-04-20 aubergine-large:2026-04-22; do
    crop=${seen%:*} on=${seen#*:}
    mkdir "by$seen"
    small_scenario | sed "s/^pull_out = .*/pull_out = 2026-05-20/; s/^crop = .*/crop = \"$crop\"/" >"by$seen/scenario.toml"
    echo "first_flower = $on" >>"by$seen/scenario.toml"
    run forecast "by$seen" --today 2026-04-01 --members 1 --out "out$seen"
    exits 0
    got=$(awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i } NR > 1 && $at["truss"] == 1 { print $at["first_flower"] }' "out$seen/trusses.csv")
    good "the first truss of $crop opens on $got, seen on $on" [ "$got" = "$on" ]
done
finish
